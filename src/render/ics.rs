//! Entries as an iCalendar file (RFC 5545, September 2009).
//!
//! Lines end in CR LF and are folded at 75 octets (3.1), never within a letter; texts are escaped (3.3.11); days stand
//! as dates without a time (3.3.4), and the end of an entry is the day after its last (3.6.1). The stamp is the day the
//! answer was asked for, not the clock, so that the same records give the same bytes.

use crate::record::Day;
use crate::report::due::CalendarEntry;

/// Octets of a line, its end not counted (RFC 5545, 3.1).
const OCTETS: usize = 75;

/// A calendar with these entries.
pub fn calendar(entries: &[CalendarEntry], today: Day) -> String {
    let mut out = String::new();
    for line in [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//podbook//due//EN",
    ] {
        fold(line, &mut out);
    }
    for entry in entries {
        event(entry, today, &mut out);
    }
    fold("END:VCALENDAR", &mut out);
    out
}

fn event(entry: &CalendarEntry, today: Day, out: &mut String) {
    let after = Day(entry.last.0.saturating_add(1));
    for line in [
        "BEGIN:VEVENT".to_owned(),
        format!("UID:{}", escaped(&entry.uid)),
        format!("DTSTAMP:{}T000000Z", date(today)),
        format!("DTSTART;VALUE=DATE:{}", date(entry.first)),
        format!("DTEND;VALUE=DATE:{}", date(after)),
        format!("SUMMARY:{}", escaped(&entry.summary)),
        format!("DESCRIPTION:{}", escaped(&entry.description)),
        "TRANSP:TRANSPARENT".to_owned(),
        "END:VEVENT".to_owned(),
    ] {
        fold(&line, out);
    }
}

/// A day as eight digits; one outside the years 0 to 9999 as the nearest that has them.
fn date(day: Day) -> String {
    match day.ymd() {
        Some((year @ 0..=9999, month, day)) => format!("{year:04}{month:02}{day:02}"),
        Some((year, ..)) if year < 0 => "00000101".to_owned(),
        _ => "99991231".to_owned(),
    }
}

/// A text as a value: the marks with a meaning get a backslash, a line break is `\n` (RFC 5545, 3.3.11). Control
/// characters, which no text may hold, and marks that turn the direction of writing are shown.
fn escaped(text: &str) -> String {
    let lines = text.lines().map(|line| {
        crate::text::visible(line)
            .replace('\\', "\\\\")
            .replace(';', "\\;")
            .replace(',', "\\,")
    });
    lines.collect::<Vec<_>>().join("\\n")
}

/// Adds a line, folded: a continuation begins with a blank, which counts.
fn fold(line: &str, out: &mut String) {
    let mut octets = 0;
    for letter in line.chars() {
        if octets + letter.len_utf8() > OCTETS {
            out.push_str("\r\n ");
            octets = 1;
        }
        octets += letter.len_utf8();
        out.push(letter);
    }
    out.push_str("\r\n");
}
