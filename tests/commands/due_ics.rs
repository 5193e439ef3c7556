//! The calendar of what is due, held against RFC 5545 and read back by a general reader of calendars.

use crate::demo::copied;
use icalendar::parser::{read_calendar, unfold};
use insta::assert_snapshot;
use podbook::record::Day;
use podbook::render::ics::calendar;
use podbook::report::due::CalendarEntry;
use proptest::prelude::*;

/// The calendar of the demo, bytes as they are written.
fn summer() -> String {
    let top = copied();
    let run = top.run(&["due", "--today", "2022-08-10", "-o", "due.ics"]);
    assert_eq!(run.exit, Some(0), "{run}");
    top.text("due.ics")
}

#[test]
fn the_demo_in_summer() {
    let text = summer();
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    assert_snapshot!(text.replace("\r\n", "\n"));
}

#[test]
fn the_same_bytes_on_standard_output_and_in_a_file() {
    let run = copied().run(&["due", "--today", "2022-08-10", "--format", "ics"]);
    assert_eq!(run.stdout, summer());
}

/// A task keeps its UID from one week to the next, so that a calendar replaces the entry (RFC 5545, 3.8.4.7).
#[test]
fn a_task_keeps_its_uid() {
    let uid = |today: &str| {
        let run = copied().run(&["due", "--today", today, "--format", "ics"]);
        let uid = run
            .stdout
            .lines()
            .find(|line| line.starts_with("UID:harvest"));
        uid.expect("a harvest").to_owned()
    };
    assert_eq!(uid("2022-08-01"), uid("2022-08-10"));
}

/// What RFC 5545 asks of the bytes: lines end in CR LF and hold at most 75 octets, each UTF-8 by itself here (3.1); no
/// control character stands in them (3.1, `CONTROL`).
fn is_well_formed(text: &str) {
    assert!(text.ends_with("\r\n"));
    for line in text.trim_end_matches("\r\n").split("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
        assert!(!line.contains(char::is_control), "{line:?}");
    }
}

/// 3.3.11: what a text says once the backslashes are taken off.
fn unescaped(value: &str) -> String {
    let mut out = String::new();
    let mut letters = value.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => match letters.next() {
                Some('n' | 'N') => out.push('\n'),
                Some(escaped @ ('\\' | ';' | ',')) => out.push(escaped),
                other => panic!("a backslash before {other:?}"),
            },
            ';' | ',' => panic!("`{letter}` without a backslash in {value}"),
            letter => out.push(letter),
        }
    }
    out
}

fn entry(summary: &str, description: &str) -> CalendarEntry {
    CalendarEntry {
        uid: "harvest.X24-01.A".to_owned(),
        first: Day::new(2024, 2, 28).expect("a day"),
        last: Day::new(2024, 2, 29).expect("a day"),
        summary: summary.to_owned(),
        description: description.to_owned(),
    }
}

fn today() -> Day {
    Day::new(2024, 2, 1).expect("a day")
}

/// The value of a property once the lines are unfolded (3.1: CR LF and one blank are taken out).
fn value<'t>(unfolded: &'t str, name: &str) -> &'t str {
    let line = unfolded
        .split("\r\n")
        .find_map(|line| line.strip_prefix(name));
    line.unwrap_or_else(|| panic!("no {name}"))
}

/// The end of an event of whole days is the day after its last (3.6.1): 28 to 29 February ends on 1 March.
#[test]
fn whole_days_end_the_day_after() {
    let text = calendar(&[entry("a", "b")], today());
    assert_eq!(value(&text, "DTSTART;VALUE=DATE:"), "20240228");
    assert_eq!(value(&text, "DTEND;VALUE=DATE:"), "20240301");
    assert_eq!(value(&text, "DTSTAMP:"), "20240201T000000Z");
}

#[test]
fn marks_are_escaped_and_long_lines_folded_between_letters() {
    let long = "♀ × ♂, ".repeat(40);
    let text = calendar(&[entry("a; b, c\\n", &format!("{long}\nsecond"))], today());
    is_well_formed(&text);
    let unfolded = text.replace("\r\n ", "");
    assert_eq!(unescaped(value(&unfolded, "SUMMARY:")), "a; b, c\\n");
    assert_eq!(
        unescaped(value(&unfolded, "DESCRIPTION:")),
        format!("{long}\nsecond")
    );
}

#[test]
fn a_general_reader_reads_it_back() {
    let text = summer();
    let unfolded = unfold(&text);
    let read = read_calendar(&unfolded).expect("a calendar");
    assert_eq!(read.components.len(), text.matches("BEGIN:VEVENT").count());
    for event in &read.components {
        assert_eq!(event.name, "VEVENT");
        for name in [
            "UID",
            "DTSTAMP",
            "DTSTART",
            "DTEND",
            "SUMMARY",
            "DESCRIPTION",
        ] {
            let found = event.properties.iter().filter(|of| of.name == name).count();
            assert_eq!(found, 1, "{name}");
        }
    }
}

proptest! {
    /// Whatever a record holds, the file is well formed, gives the words back but for what no text may hold, and a
    /// general reader finds the one event.
    #[test]
    fn any_words(summary in "\\PC{0,120}|[;,\\\\\\n\\r\\t\u{1b}a♀]{0,90}", description in "(?s).{0,200}") {
        let text = calendar(&[entry(&summary, &description)], today());
        is_well_formed(&text);
        let unfolded = text.replace("\r\n ", "");
        let lines = |text: &str| text.lines().map(|line| podbook::text::visible(line).into_owned()).collect::<Vec<_>>();
        prop_assert_eq!(unescaped(value(&unfolded, "SUMMARY:")), lines(&summary).join("\n"));
        prop_assert_eq!(unescaped(value(&unfolded, "DESCRIPTION:")), lines(&description).join("\n"));
        let unfolded = unfold(&text);
        let read = read_calendar(&unfolded).expect("a calendar");
        prop_assert_eq!(read.components.len(), 1);
    }
}
