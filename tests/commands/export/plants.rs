//! The sheet of plants against the pages: the latest reading of every trait, found the slow way.

use super::rows;
use podbook::record::{ClonesPage, CrossPage, Hemisphere, Sitting, When, read_page};
use podbook::text::Sources;
use std::collections::BTreeMap;
use std::path::Path;

/// Cell and day of the latest reading, by plant and trait.
type Latest = BTreeMap<(String, String), (When, String)>;

fn take(sittings: &[Sitting], code: impl Fn(&str) -> String, latest: &mut Latest) {
    for sitting in sittings {
        let on = When::read(sitting.on, Hemisphere::North).expect("a date");
        for row in sitting.rows.iter() {
            for (column, cell) in sitting.columns.iter().zip(&row[1..]) {
                let (trait_code, unit) = column.split_once(' ').unwrap_or((column, ""));
                let key = (code(&row[0]), trait_code.to_owned());
                let is_later = latest
                    .get(&key)
                    .is_none_or(|(last, _)| (on.last, on.first) >= (last.last, last.first));
                if !cell.is_empty() && is_later {
                    // A bare number has the unit of its heading.
                    let is_bare = cell
                        .bytes()
                        .all(|byte| byte.is_ascii_digit() || byte == b'.');
                    let unit = if is_bare { unit } else { "" };
                    let cell = format!("{} {unit}", &**cell).trim().to_owned();
                    latest.insert(key, (on, cell));
                }
            }
        }
    }
}

#[test]
fn the_latest_reading_stands_as_it_was_written() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
    let sources = Sources::read(&demo);
    let mut latest = Latest::new();
    let clones = sources.find("clones.ron").expect("founders");
    let clones = read_page::<ClonesPage>(&sources, clones)
        .0
        .expect("founders");
    take(&clones.sittings, str::to_owned, &mut latest);
    for (file, _) in sources
        .iter()
        .filter(|(_, source)| source.path.starts_with("crosses/"))
    {
        let page = read_page::<CrossPage>(&sources, file).0.expect("a cross");
        take(
            &page.sittings,
            |number| format!("{}-{number}", page.code),
            &mut latest,
        );
    }
    let sheet = rows("export plants");
    let column = |heading: &str| {
        sheet
            .headings
            .iter()
            .position(|of| of == heading)
            .expect("a column")
    };
    let mut compared = 0;
    for (code, name) in [
        ("span", "leaf span"),
        ("leaves", "leaf count"),
        ("banding", "rim banding"),
    ] {
        let (written, on) = (
            column(&format!("{name}, as written")),
            column(&format!("{name}, read on")),
        );
        for row in &sheet.rows {
            let known = latest.get(&(row[0].clone(), code.to_owned()));
            let known = known.map(|(on, cell)| (cell.as_str(), on.first.to_string()));
            let known = known.unwrap_or_default();
            assert_eq!(
                (row[written].as_str(), row[on].clone()),
                known,
                "{} {code}",
                row[0]
            );
            compared += usize::from(!row[written].is_empty());
        }
    }
    assert!(compared > 100, "{compared}");
    // A number a general reader takes as a number.
    let span = column("leaf span, cm");
    let spans = sheet.rows.iter().filter(|row| !row[span].is_empty());
    let spans: Vec<f64> = spans
        .map(|row| row[span].parse().expect("a number"))
        .collect();
    assert!(spans.len() > 30 && spans.iter().all(|span| (0.1..250.0).contains(span)));
}

#[test]
fn a_length_without_a_unit_has_no_value_in_one() {
    let top =
        crate::bench_top::BenchTop::sound().change("crosses/X22-02.ron", "\"span cm\"", "\"span\"");
    let told = top.run(&["export", "plants"]);
    let sheet = super::rows_of(&told.stdout);
    let column = |heading: &str| {
        sheet
            .headings
            .iter()
            .position(|of| of.ends_with(heading))
            .expect("a column")
    };
    let row = sheet
        .rows
        .iter()
        .find(|row| row[0] == "X22-02-1")
        .expect("its row");
    assert_eq!(
        (
            row[column(", cm")].as_str(),
            row[column("as written")].as_str()
        ),
        ("", "4.1")
    );
}

#[test]
fn what_is_private_is_said_so() {
    for (question, word) in [
        ("export plants", "private: "),
        ("export records", "private: "),
        ("export passport", "no suppliers"),
        (
            "export passport --suppliers",
            "private, because you asked for it: suppliers",
        ),
    ] {
        let told = crate::demo::demo(question);
        assert!(told.stderr.contains(word), "{told}");
    }
}
