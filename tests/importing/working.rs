//! What is shown while a command works: nothing before its time, one line after it, and an empty line at the end.

use podbook::cli::Working;
use std::io::Write;
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// What was written, seen from both threads.
#[derive(Clone, Default)]
struct Seen(Arc<Mutex<Vec<u8>>>);

impl Seen {
    fn text(&self) -> String {
        let bytes = self.0.lock().expect("no thread fails").clone();
        String::from_utf8(bytes).expect("words")
    }
}

impl Write for Seen {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.lock().expect("no thread fails").write(bytes)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

#[test]
fn each_stage_is_shown_on_one_line_which_is_emptied_at_the_end() {
    let seen = Seen::default();
    let working = Working::on(seen.clone(), Duration::ZERO);
    working.at("reading plants.csv");
    working.at("sorting 9 rows");
    drop(working);
    // Seconds are left out: a machine may be busy.
    let text = seen.text().replace(|c: char| c.is_ascii_digit(), "");
    let lines: Vec<&str> = text.split("\r\u{1b}[K").collect();
    assert_eq!(
        lines.first().zip(lines.last()),
        Some((&"", &"")),
        "{text:?}"
    );
    let shown = lines.iter().copied().filter(|line| !line.is_empty());
    let mut shown: Vec<&str> = shown.collect();
    shown.dedup();
    assert_eq!(shown, ["reading plants.csv:  s", "sorting  rows:  s"]);
}

#[test]
fn a_command_that_ends_in_time_shows_nothing() {
    let seen = Seen::default();
    let working = Working::on(seen.clone(), Duration::from_secs(3_600));
    working.at("reading plants.csv");
    drop(working);
    assert_eq!(seen.text(), "");
}
