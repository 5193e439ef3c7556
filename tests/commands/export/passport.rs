//! Passport data against FAO/Bioversity Multi-Crop Passport Descriptors V.2.1.
//!
//! Source: Alercia, Diulgheroff and Mackay 2015, FAO/Bioversity Multi-Crop Passport Descriptors V.2.1, Rome. Numbers,
//! names, rules and codes as they are quoted in the schema GermplasmMCPD of the open BrAPI specification, version 2.

use super::{Rows, exported, rows};
use podbook::record::{Day, When};
use podbook::report::export::{FIELDS, mcpd_date};
use serde_json::Value;

/// Descriptors by number and name.
const PUBLISHED: &str = include_str!("mcpd_2_1.csv");

/// Codes of SAMPSTAT.
const STATUS: &str =
    "100 110 120 130 200 300 400 410 411 412 413 414 415 416 420 421 422 423 500 600 999";

fn field<'r>(rows: &'r Rows, row: usize, name: &str) -> &'r str {
    let at = rows.headings.iter().position(|heading| heading == name);
    &rows.rows[row][at.unwrap_or_else(|| panic!("no field {name}"))]
}

#[test]
fn the_columns_are_the_published_descriptors() {
    let mut reader = csv::Reader::from_reader(PUBLISHED.as_bytes());
    let names = reader
        .records()
        .map(|row| row.expect("a row")[1].to_owned());
    let names: Vec<String> = names.collect();
    assert_eq!(FIELDS.to_vec(), names);
    assert_eq!(rows("export passport").headings, names);
}

#[test]
fn values_keep_to_the_rules_of_their_fields() {
    let all = rows("export passport");
    assert!(all.rows.len() > 40);
    for row in 0..all.rows.len() {
        let of = |name: &str| field(&all, row, name);
        assert_eq!(of("GENUS"), "Nepenthes");
        let species = of("SPECIES");
        let is_epithet = species.chars().all(|c| c.is_lowercase() || c == '-');
        assert!(
            species == "sp." || (is_epithet && !species.is_empty()),
            "{species}"
        );
        let status = of("SAMPSTAT");
        assert!(
            status.is_empty() || STATUS.split(' ').any(|code| code == status),
            "{status}"
        );
        let date = of("ACQDATE");
        let (digits, hyphens) = date.split_at(date.find('-').unwrap_or(date.len()));
        let is_date = [4, 6, 8].contains(&digits.len())
            && digits.bytes().all(|byte| byte.is_ascii_digit())
            && hyphens.bytes().all(|byte| byte == b'-')
            && date.len() == 8;
        assert!(date.is_empty() || is_date, "{date}");
        // Distinct remarks are parted by `;` without a blank, each behind the name of its field.
        for remark in of("REMARKS").split(';') {
            let (name, text) = remark.split_once(':').expect("a field's name");
            assert!(FIELDS.contains(&name) && !text.starts_with(' '), "{remark}");
        }
        for name in FIELDS.iter().filter(|name| **name != "REMARKS") {
            assert!(!of(name).contains(';'), "{name}: {}", of(name));
        }
    }
}

#[test]
fn ancestry_is_purdy_notation_or_a_formula_that_says_so() {
    let all = rows("export passport X22-02-5 Vta1 Ven1 X15-02-3");
    let of = |code: &str, name: &str| {
        let row = (0..all.rows.len()).find(|&row| field(&all, row, "ACCENUMB") == code);
        field(&all, row.expect("a row of the plant"), name).to_owned()
    };
    assert_eq!(of("X15-02-3", "ANCEST"), "ventricosa/spathulata");
    // The cross was witnessed, but one founder's name is only claimed: that is not surely a hybrid.
    assert_eq!(of("X15-02-3", "SAMPSTAT"), "400");
    assert_eq!(
        of("X22-02-5", "ANCEST"),
        "ventricosa/spathulata//burbidgeae (claimed)/truncata (claimed)/3/spathulata"
    );
    assert!(of("X22-02-5", "REMARKS").contains("the father of X18-01 is one of two"));
    assert_eq!(
        of("Vta1", "ANCEST"),
        "N. alata × N. ventricosa (direction unknown)"
    );
    assert!(of("Vta1", "REMARKS").contains("ANCEST:a formula"));
    assert_eq!(
        (of("Ven1", "ANCEST"), of("Ven1", "SPECIES")),
        (String::new(), "ventricosa".into())
    );
}

/// The rule spelt out: what all days of a range have in common, by year, month and day.
fn common(from: i32, to: i32) -> Option<String> {
    let days = (from..=to).map(|day| Day(day).to_string().replace('-', ""));
    let days: Vec<String> = days.collect();
    let same = |of: usize| days.iter().all(|day| day[..of] == days[0][..of]);
    let certain = [8, 6, 4].into_iter().find(|&of| same(of))?;
    Some(format!("{:-<8}", &days[0][..certain]))
}

#[test]
fn a_date_is_as_certain_as_all_its_days() {
    let start = Day::new(2019, 11, 25).expect("a day").0;
    let lengths = [
        0, 1, 5, 6, 7, 27, 28, 29, 30, 31, 35, 36, 59, 90, 364, 365, 366, 401,
    ];
    for from in start..start + 430 {
        for length in lengths {
            let (first, last) = (Day(from), Day(from + length));
            let written = mcpd_date(When { first, last });
            assert_eq!(written, common(from, from + length), "{first} to {last}");
        }
    }
    let open = When {
        first: Day(start),
        last: Day::LAST,
    };
    assert_eq!((mcpd_date(open), mcpd_date(When::UNKNOWN)), (None, None));
}

/// What only the grower should read: everything in these fields.
const PRIVATE: [&str; 9] = [
    "supplier_code",
    "note",
    "place",
    "price",
    "to",
    "contact",
    "grower",
    "locality",
    "goal",
];

fn private_words(key: &str, value: &Value, out: &mut Vec<String>) {
    match value {
        Value::String(text) if PRIVATE.contains(&key) => out.push(text.clone()),
        Value::Array(all) => all.iter().for_each(|value| private_words(key, value, out)),
        Value::Object(all) => all
            .iter()
            .for_each(|(key, value)| private_words(key, value, out)),
        _ => {}
    }
}

#[test]
fn nothing_private_is_in_what_others_get() {
    let records: Value = serde_json::from_str(&exported("export records")).expect("JSON");
    let mut words = Vec::new();
    for page in ["registry", "clones", "pollen", "crosses"] {
        private_words(page, &records[page], &mut words);
    }
    let clones = records["clones"]["clones"].as_array().expect("founders");
    let suppliers = clones.iter().filter_map(|clone| clone["from"].as_str());
    words.extend(suppliers.map(str::to_owned));
    words.retain(|word| word.len() > 3);
    assert!(words.len() > 20, "{words:?}");
    for question in ["export passport", "export pedigree"] {
        let text = exported(question);
        for word in &words {
            assert!(!text.contains(word.as_str()), "{question}: {word}");
        }
    }
    let all = exported("export passport --suppliers --breeder --localities");
    for (page, field) in [
        ("clones", "from"),
        ("clones", "supplier_code"),
        ("clones", "locality"),
    ] {
        let of = clones.iter().filter_map(|clone| clone[field].as_str());
        let written = of.filter(|word| all.contains(word)).count();
        assert!(written > 0, "{page}: {field}");
    }
    assert!(all.contains("the demo's grower"));
}

/// A label of an open pollinated plant, and one whose seed parent is only assumed: the notation shows neither.
#[test]
fn what_the_notation_does_not_show_is_remarked() {
    let top = crate::bench_top::BenchTop::sound();
    for (code, label) in [
        ("Op1", "N. sibuyanensis x OP"),
        ("Lon9", "N. (truncata x veitchii) x lowii"),
        ("Lon8", "N. truncata/veitchii//lowii"),
    ] {
        let added = top.run(&["add", code, label]);
        assert_eq!(added.exit, Some(0), "{added}");
    }
    let run = top.run(&[
        "export", "passport", "Op1", "Lon9", "Lon8", "--format", "csv",
    ]);
    let row = |code: &str| {
        let row = run.stdout.lines().find(|line| line.contains(code));
        row.unwrap_or_else(|| panic!("{code}: {run}")).to_owned()
    };
    let open = row("Op1");
    assert!(
        open.contains("ANCEST:open pollinated: the pollen parent is not known"),
        "{open}"
    );
    assert!(open.contains("ANCEST:seed parent assumed first"), "{open}");
    assert!(
        row("Lon9").contains("truncata/veitchii//lowii"),
        "{}",
        row("Lon9")
    );
    assert!(
        row("Lon9").contains("ANCEST:seed parent assumed first"),
        "{}",
        row("Lon9")
    );
    // Strokes on a label name the seed parent first, so nothing is assumed there.
    assert!(!row("Lon8").contains("assumed"), "{}", row("Lon8"));
}
