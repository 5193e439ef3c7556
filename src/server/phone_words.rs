//! What was recorded, as a page says it: buttons and fields of its forms, no command.

use crate::recording::measuring::is_dead;
use crate::recording::recorded::{Recorded, What};
use crate::recording::voice::{button, label_of};

/// The command of a change as a page says it: the event as its button has it, options as the fields of its form.
pub fn of_change(asked: &str) -> String {
    let (command, _) = parted(asked);
    let words = words(command);
    let Some((event, words)) = words.split_first() else {
        return String::new();
    };
    let mut said = match found_dead(asked) {
        true => "Found dead".to_owned(),
        false => named(event).to_owned(),
    };
    // The option before, which its value follows.
    let mut before = None;
    for word in words {
        let option = word.strip_prefix("--");
        said += match option {
            Some(_) => "; ",
            None if before.is_some() => ": ",
            None => " ",
        };
        said += &match (option, before) {
            (Some(bare), _) => label_of(event, word).unwrap_or(bare).to_owned(),
            // As the form has pollen that was mixed; commas are for one of several.
            (None, Some("mixed")) => word.replace(',', "+"),
            (None, _) => word.clone(),
        };
        before = option;
    }
    said
}

/// What the button of an event says; the event itself where a page has none.
fn named(event: &str) -> &str {
    match event {
        "measure" => "Measured",
        "photos" => "Photo",
        event => button(event).unwrap_or(event),
    }
}

/// A command, and what a page sent along behind a `#`.
fn parted(asked: &str) -> (&str, &str) {
    asked.split_once(" # ").unwrap_or((asked, ""))
}

/// The words of a command, without the quotes around those that hold blanks.
fn words(command: &str) -> Vec<String> {
    let (mut words, mut is_quoted) = (vec![String::new()], false);
    for part in command.split_inclusive(['\'', ' ']) {
        let (text, end) = part.split_at(part.len() - usize::from(part.ends_with(['\'', ' '])));
        let word = words.len() - 1;
        // A quote within quotes is written `'\''`.
        words[word] += text
            .strip_suffix('\\')
            .filter(|_| !is_quoted)
            .unwrap_or(text);
        match end {
            "'" if text.ends_with('\\') && !is_quoted => words[word].push('\''),
            "'" => is_quoted = !is_quoted,
            " " if is_quoted => words[word].push(' '),
            " " => words.push(String::new()),
            _ => {}
        }
    }
    words
}

/// Whether a row of a sitting, as a page sent it, says that the plant is dead.
pub fn found_dead(asked: &str) -> bool {
    let (command, sent) = parted(asked);
    let line = sent.trim_matches('\'').strip_prefix("line=");
    command.starts_with("measure ") && line.is_some_and(|line| line.split([';', ',']).any(is_dead))
}

/// What happened. Of an undoing: what it took back, without the options of its command, and that Undo stands beside it.
pub fn happened(recorded: &Recorded) -> String {
    let What::Undid {
        what, again, asked, ..
    } = &recorded.what
    else {
        return recorded.words();
    };
    let (command, _) = parted(asked);
    let command = command.split(" -").next().unwrap_or(command);
    // “Found dead” on a row of a sitting: the readings of the row are a change of their own.
    let taken = match command.strip_prefix("measure ") {
        Some(plant) if found_dead(asked) => format!("the end of {plant}"),
        _ => of_change(command),
    };
    let brings = if *again { "takes" } else { "brings" };
    format!("Undid {what}: {taken}. Undo {brings} it back")
}

#[cfg(test)]
mod tests {
    use super::{happened, of_change};
    use crate::recording::recorded::{Recorded, What};
    use crate::recording::voice::{BUTTONS, FIELDS, FIELDS_OF};
    use crate::render::album::live::SCRIPT;

    #[test]
    fn fields_are_those_of_the_forms() {
        let own = FIELDS_OF.map(|(.., label)| label);
        let buttons = BUTTONS.map(|(_, button)| button);
        let labels = FIELDS.map(|(_, label)| label);
        for label in labels.iter().chain(&own).chain(&buttons) {
            assert!(SCRIPT.contains(&format!("\"{label}")), "{label}");
        }
    }

    #[test]
    fn an_undoing_is_told_without_its_command() {
        for (again, asked, words) in [
            (
                false,
                "measure X24-02-9 --traits span --on 2025-06-01 # line=dead",
                "the end of X24-02-9. Undo brings it back",
            ),
            (
                false,
                "measure X24-02-9 --traits span,banding --on 2025-06-01 # line='8.5; dead'",
                "the end of X24-02-9. Undo brings it back",
            ),
            (
                false,
                "measure X24-02-9 --traits span --on 2025-06-01 # line=9",
                "Measured X24-02-9. Undo brings it back",
            ),
            (
                true,
                "gone X24-02-9 --died",
                "Gone X24-02-9. Undo takes it back",
            ),
        ] {
            let (what, asked) = ("change 7".to_owned(), asked.to_owned());
            let undid = What::Undid {
                what,
                again,
                asked,
                next: 8,
            };
            let undid = Recorded::of(undid, Vec::new(), "");
            assert_eq!(happened(&undid), format!("Undid change 7: {words}"));
        }
    }

    #[test]
    fn a_change_is_told_in_the_words_of_its_form() {
        for (asked, words) in [
            (
                "prick X22-02.S1 5 --to T1 --pot 'plug tray'",
                "Pricked out X22-02.S1 5; Community pot they went to: T1; Kind of pot or tray: plug tray",
            ),
            (
                "collect X22-02-14 --stored freezer --dried '3 days, O'\\''Neill'",
                "Pollen collected X22-02-14; Where it is kept: freezer; How it was dried: 3 days, O'Neill",
            ),
            (
                "sow X24-01.L1 --seeds 60 --medium 'peat, -- sand' --again",
                "Sown X24-01.L1; Seeds: 60; Mix: peat, -- sand; Another pot like the one on record",
            ),
            (
                "flower X22-02-14 --over 2025-06-01",
                "Flowered X22-02-14; its last flower: 2025-06-01",
            ),
            (
                "flower X22-02-14 --seen 2025-06-01",
                "Flowered X22-02-14; a new spike: 2025-06-01",
            ),
            (
                "seen X22-02-14 --except X22-02-14 --on 2025-06-01",
                "Looked for X22-02-14; it was not found: X22-02-14; Day: 2025-06-01",
            ),
            (
                "gone X22-02-14 --died --on 2025-06-01",
                "Gone X22-02-14; died; Day: 2025-06-01",
            ),
            (
                "measure X22-02-13 --traits span --again --on 2025-06-01 # span=9",
                "Measured X22-02-13; traits: span; in place of the row on record; Day: 2025-06-01",
            ),
            (
                "measure X22-02-13 --traits span --on 2025-06-01 # 'line=†; ! rot'",
                "Found dead X22-02-13; traits: span; Day: 2025-06-01",
            ),
            (
                "pollinate Ven1 --mixed Spa1,Tru1 --zone red",
                "Pollinated Ven1; Pollen: Spa1+Tru1; Zone: red",
            ),
            (
                "pollinate Ven1 --one-of Spa1,Tru1",
                "Pollinated Ven1; Pollen: Spa1,Tru1",
            ),
            ("add Ven1 'N. ventricosa'", "add Ven1 N. ventricosa"),
            ("", ""),
        ] {
            assert_eq!(of_change(asked), words);
        }
    }
}
