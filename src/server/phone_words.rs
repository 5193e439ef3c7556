//! What was recorded, as a page says it: buttons and fields of its forms, no command.

use crate::recording::recorded::What;
use crate::recording::voice::label;

/// Events, and what their buttons say.
const EVENTS: [(&str, &str); 21] = [
    ("flower", "Flowered"),
    ("collect", "Pollen collected"),
    ("pollinate", "Pollinated"),
    ("took", "Flowers that set"),
    ("keep", "To keep"),
    ("gone", "Gone"),
    ("back", "Came back"),
    ("cutting", "Piece taken"),
    ("rooted", "Rooted"),
    ("pot", "Potted"),
    ("move", "Moved"),
    ("seen", "Looked for"),
    ("treat", "Treated"),
    ("muddle", "Muddled"),
    ("harvest", "Harvested"),
    ("sow", "Sown"),
    ("count", "Counted"),
    ("prick", "Pricked out"),
    ("number", "Numbered"),
    ("measure", "Measured"),
    ("photos", "Photo"),
];

/// The command of a change as a page says it: the event as its button has it, options as the fields of its form. What the page
/// sent along behind a `#` stays.
pub fn of_change(asked: &str) -> String {
    let (command, sent) = asked.split_at(asked.find(" # ").unwrap_or(asked.len()));
    let mut said: Vec<&str> = Vec::new();
    let mut is_quoted = false;
    for (at, word) in command.split(' ').enumerate() {
        let event = EVENTS.iter().find(|(of, _)| at == 0 && *of == word);
        said.push(match label(word).or(event.map(|(_, button)| *button)) {
            _ if is_quoted => word,
            Some(label) => label,
            None => word.strip_prefix("--").unwrap_or(word),
        });
        is_quoted ^= word.matches('\'').count() % 2 == 1;
    }
    said.join(" ") + sent
}

/// What happened. Of an undoing: what it took back, without the options of its command, and that Undo stands beside it.
pub fn happened(what: &What) -> String {
    let What::Undid {
        what, again, asked, ..
    } = what
    else {
        return what.words();
    };
    let (command, sent) = asked.split_once(" #").unwrap_or((asked, ""));
    let command = command.split(" -").next().unwrap_or(command);
    // “Found dead” on a row of a sitting: the readings of the row are a change of their own.
    let found_dead = command
        .strip_prefix("measure ")
        .filter(|_| sent.contains("line=dead"));
    let command = found_dead.map_or(command.to_owned(), |plant| format!("the end of {plant}"));
    let brings = if *again { "takes" } else { "brings" };
    format!("Undid {what}: {command}. Undo {brings} it back")
}

#[cfg(test)]
mod tests {
    use super::happened;
    use crate::recording::recorded::What;
    use crate::recording::voice::FIELDS;
    use crate::render::album::live::SCRIPT;

    #[test]
    fn fields_are_those_of_the_forms() {
        for (_, label) in FIELDS {
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
                "measure X24-02-9 --traits span --on 2025-06-01 # line=9",
                "measure X24-02-9. Undo brings it back",
            ),
            (
                true,
                "gone X24-02-9 --died",
                "gone X24-02-9. Undo takes it back",
            ),
        ] {
            let (what, asked) = ("change 7".to_owned(), asked.to_owned());
            let undid = What::Undid {
                what,
                again,
                asked,
                next: 8,
            };
            assert_eq!(happened(&undid), format!("Undid change 7: {words}"));
        }
    }
}
