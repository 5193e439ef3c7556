//! Ages and rates are no surer than the days they are of, and a bare number is weighed by what was read of whom.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};

/// Three seedlings sown on a day, with sittings of leaf span: the day and a cell of each plant, blank where it was not read.
fn read(sown: &str, sittings: &[(&str, [&str; 3])]) -> BenchTop {
    let sitting = |(on, cells): &(&str, [&str; 3])| {
        let rows = (1..).zip(cells).filter(|(_, cell)| !cell.is_empty());
        let rows: String = rows
            .map(|(number, cell)| format!("[\"{number}\", \"{cell}\"], "))
            .collect();
        format!("(on: \"{on}\", columns: [\"span\"], rows: [{rows}]), ")
    };
    let sittings: String = sittings.iter().map(sitting).collect();
    of(&format!(
        "sowings: [(code: \"S1\", on: \"{sown}\", seeds: 10)],
         seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S1\"), (number: \"3\", sowing: \"S1\")],
         sittings: [{sittings}]"
    ))
}

/// Sown in October 2021 and read on 18 June 2023: 19.5 to 20.5 months, so 20 months may lie before the first reading.
#[test]
fn a_refused_age_says_which_ages_were_read() {
    let sittings = [
        ("2023-06-18", ["5.2 cm", "4 cm", ""]),
        ("2024-05-01", ["9.6 cm", "8 cm", ""]),
    ];
    let month = read("2021-10", &sittings);
    let read_at = "K was first read at 19.5–20.5 months and last at 30.0–31.0 months";
    for at in ["20", "31"] {
        holds(
            &said(&month, &format!("growth K --at {at}")),
            &[
                "the days of sowing and reading are too vague for it",
                read_at,
                "not: does not extrapolate",
            ],
        );
    }
    holds(
        &said(&month, "growth K"),
        &["from 19.5–20.5 to 30–31 months", "19.5–20.5 30.0–31.0"],
    );
    let stretched = "podbook does not extrapolate before the first or after the last reading";
    holds(&said(&month, "growth K --at 12"), &[stretched, read_at]);
    holds(
        &said(&read("2021-10-01", &sittings), "growth K --at 12"),
        &[stretched, "K was read at 20.5–31.0 months"],
    );
}

/// A plant's own later rate was called its siblings', and months and rates ran to the middle of a year.
#[test]
fn a_bare_number_of_a_year_is_weighed_by_all_its_days() {
    let own = [
        ("2023-11-20", ["7.9 cm", "", ""]),
        ("2024-02-18", ["8.6 cm", "", ""]),
        ("2024", ["10", "", ""]),
    ];
    let since = "\"10\" has no unit; as cm +2.1 cm in 1.4–13.4 months (rate 0.018 to 0.171 a month";
    holds(
        &said(&read("2021-01-01", &own), "growth K-1"),
        &[
            since,
            "no unit is clearly more likely",
            "not: rate of the other plants",
            "not: siblings' rate",
        ],
    );
    let others = [
        ("2023-11-20", ["7.9 cm", "7.9 cm", "7.9 cm"]),
        ("2024-02-18", ["", "8.6 cm", "8.6 cm"]),
        ("2024", ["10", "", ""]),
    ];
    holds(
        &said(&read("2021-01-01", &others), "growth K-1"),
        &[since, "mean rate of the other plants: 0.029; probably cm"],
    );
    // Twelve centimetres would be usual by December, four inches by January.
    let either = [others[0], others[1], ("2024", ["4", "", ""])];
    holds(
        &said(&read("2021-01-01", &either), "growth K-1"),
        &[
            "as inches 10.2 cm, +2.3 cm in 1.4–13.4 months",
            "probably in",
        ],
    );
}

/// What else was read of the plant that day says what the number is, not the reading of months before.
#[test]
fn a_bare_number_stands_beside_a_reading_of_its_day() {
    let sittings = [
        ("2023-11-20", ["7.9 cm", "", ""]),
        ("2024-02-18", ["8.6 cm", "", ""]),
        ("2024-02-18", ["3.5", "", ""]),
    ];
    holds(
        &said(&read("2021-01-01", &sittings), "growth K-1"),
        &[
            "as cm -5.1 cm from the other reading of that day; as inches 8.9 cm, +0.3 cm from the other reading of that day; \
             probably in",
            "not: rate before",
        ],
    );
}

/// The lines of typical sizes in the chart of two groups, and how many strokes show what ages are possible. Each group has six
/// plants of two sowings, which are read four days apart, and one of them again.
fn typical_sizes(sown: [&str; 2], again: Option<&str>) -> (Vec<String>, usize) {
    let sitting = |(on, of, size): (&str, &[u32], f64)| {
        let row = |n: &u32| format!("[\"{n}\", \"{}\"], ", size + f64::from(*n) * 0.5);
        let rows: String = of.iter().map(row).collect();
        format!("(on: \"{on}\", columns: [\"span cm\"], rows: [{rows}]), ")
    };
    let sittings = [
        ("2025-01-01", &[1, 3, 5][..], 2.0),
        ("2025-01-05", &[2, 4, 6], 2.0),
        ("2025-05-01", &[1, 3, 5], 4.0),
        ("2025-05-05", &[2, 4, 6], 4.0),
        ("2025-09-01", &[1, 3, 5], 6.0),
        ("2025-09-05", &[2, 4, 6], 6.0),
    ];
    let again = again.map(|on| (on, &[1][..], 4.0));
    let sittings: String = sittings.into_iter().chain(again).map(sitting).collect();
    let numbers: String = (1..=6)
        .map(|n| format!("(number: \"{n}\", sowing: \"S{}\"), ", 1 + n % 2))
        .collect();
    let fields = format!(
        "sowings: [(code: \"S1\", on: \"{}\"), (code: \"S2\", on: \"{}\")], seedlings: [{numbers}], sittings: [{sittings}]",
        sown[0], sown[1]
    );
    let other = format!("(code: \"L\", parents: known(seed: \"V\", pollen: \"S\"), {fields})");
    let top = of(&fields).file("crosses/L.ron", &other);
    said(&top, "growth K L -o chart.svg");
    let chart = top.text("chart.svg");
    let paths = chart.split("<path d=\"").skip(1);
    let strokes = |wide: &str| -> Vec<String> {
        let wide = format!("stroke-width=\"{wide}\"");
        let elements = paths.clone().filter_map(|path| path.split('>').next());
        let of_width = elements.filter(|path| path.contains(&wide));
        of_width
            .filter_map(|path| Some(path.split('"').next()?.to_owned()))
            .collect()
    };
    (strokes("1.8"), strokes("0.8").len())
}

/// Plants read a few days apart are one point of the typical size of their group, a second reading of that week is none, and a
/// plant of which the age is vague makes that of the point vague.
#[test]
fn a_typical_size_is_one_point_of_each_age() {
    let day = "2024-01-01";
    let (lines, ages) = typical_sizes([day, day], None);
    let points: Vec<usize> = lines.iter().map(|line| line.matches('L').count()).collect();
    assert_eq!((points, ages), (vec![2, 2], 0), "two lines of three points");
    assert_eq!(typical_sizes([day, day], Some("2025-01-08")).0, lines);
    // Each of the six points has the bar of an age, and its two ends.
    let vague = "2023-10 to 2024-03";
    for sown in [[day, vague], [vague, day]] {
        assert_eq!(typical_sizes(sown, None).1, 18, "{sown:?}");
    }
}
