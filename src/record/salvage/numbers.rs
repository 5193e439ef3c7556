//! The words for values where a number belongs: texts, words around a number, numbers out of range.

use super::words::{Told, Wrong};
use crate::diagnostic::{Code, Finding};
use crate::text::outline::Kind as Shape;

impl Told<'_, '_> {
    /// A text or another value where a number belongs, with the number in it where it is plain.
    pub fn no_number(self, wrong: &Wrong, what: &str) -> Finding {
        let needed = format!("{what} without quotation marks");
        let finding = self.kind_finding(wrong, what, &needed);
        let text = self.inside(wrong.part);
        let quoted = self.outline.part(wrong.part).kind == Shape::Text;
        let fits = |text: &str| matches!((wrong.trial)(text), Some(Ok(())));
        let within = number_within(text).filter(|number| fits(&number.replace(',', "")));
        match within {
            _ if !quoted => finding,
            _ if fits(text) => finding.write_so(text, " without quotation marks"),
            Some(number) if number == text => finding
                .renamed(Code("comma-in-number"))
                .write(number.replace(',', "")),
            Some(number) => finding
                .renamed(Code("words-around-number"))
                .write(number.replace(',', ""))
                .help("write what is uncertain about it under `note`"),
            None => finding,
        }
    }

    /// A number its field cannot hold, with the limits the typed parse takes.
    pub fn out_of_bounds(self, wrong: &Wrong) -> Finding {
        let fits = |word: &&&str| matches!((wrong.trial)(word), Some(Ok(())));
        let most = ["4294967295", "2147483647", "65535", "255"];
        let most = most.iter().find(fits).unwrap_or(&"less");
        let least = ["-2147483648", "0"];
        let least = least.iter().find(fits).unwrap_or(&"0");
        Finding::fault(
            Code("number-out-of-range"),
            self.title(wrong, "a number within its range"),
        )
        .at(self.value(wrong.part))
        .found(self.found(wrong.part))
        .needed(format!("a whole number from {least} to {most}"))
    }
}

/// The only number in a text, thousands with their commas; `None` for none or several, or one with a minus or fraction.
fn number_within(text: &str) -> Option<&str> {
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let in_number = |c: char| c.is_ascii_digit() || c == ',';
    let rest = &text[start..];
    let number = &rest[..rest.find(|c: char| !in_number(c)).unwrap_or(rest.len())];
    let number = number.trim_end_matches(',');
    let after = &rest[number.len()..];
    let alone =
        !after.contains(|c: char| c.is_ascii_digit()) && !after.starts_with(['.', '/', '%']);
    let mut groups = number.split(',').skip(1);
    (alone && !text[..start].ends_with(['-', '.', '−']) && groups.all(|group| group.len() == 3))
        .then_some(number)
}
