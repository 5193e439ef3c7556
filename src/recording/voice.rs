//! Words in two voices: the keyboard has commands and options, a page of the server has buttons and fields.
//!
//! Both are said where a recording is refused or remarked on, so that neither changes without the other.

use std::fmt;

/// Where words are read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Voice {
    /// At the keyboard.
    Keyboard,
    /// On a page of the server.
    Page,
}

/// Events of a page, and what their buttons say.
pub const BUTTONS: [(&str, &str); 19] = [
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
];

/// Options whose field has another label in the form of one event.
pub const FIELDS_OF: [(&str, &str, &str); 23] = [
    ("flower", "--on", "open flowers"),
    ("flower", "--opened", "its first flower"),
    ("flower", "--over", "its last flower"),
    ("flower", "--seen", "a new spike"),
    ("flower", "--sex", "Sex the open flowers show"),
    ("collect", "--stored", "Where it is kept"),
    ("collect", "--dried", "How it was dried"),
    ("collect", "--code", "Code of the envelope"),
    ("took", "--pods", "Flowers that set"),
    ("back", "--place", "Where it stands now"),
    ("cutting", "--made", "How it was made"),
    ("cutting", "--code", "Letter of the new piece"),
    ("cutting", "--place", "Where the new piece stands"),
    ("move", "--to", "Where it stands now"),
    ("seen", "--except", "it was not found"),
    ("treat", "--by", "Who did it"),
    ("harvest", "--estimated", "The number of seeds is a guess"),
    ("sow", "--again", "Another pot like the one on record"),
    ("sow", "--medium", "Mix"),
    ("prick", "--moved", "Seedlings moved"),
    ("prick", "--to", "Community pot they went to"),
    ("prick", "--pot", "Kind of pot or tray"),
    ("measure", "--again", "in place of the row on record"),
];

/// Options, and how the label of their field begins.
pub const FIELDS: [(&str, &str); 30] = [
    ("--on", "Day"),
    ("--opened", "Day"),
    ("--over", "Day"),
    ("--seen", "Day"),
    ("--one-of", "Pollen"),
    ("--mixed", "Pollen"),
    ("--zone", "Zone"),
    ("--spike", "Spike"),
    ("--with", "Pollen"),
    ("--flowers", "Flowers treated"),
    ("--controls", "Controls"),
    ("--again", "Replace the count on record"),
    ("--why", "Why"),
    ("--to", "Who has it now"),
    ("--price", "Price"),
    ("--label", "Words on the tag it left with"),
    ("--all-pieces", "All of its pieces went"),
    ("--capsules", "Capsules"),
    ("--seeds", "Seeds"),
    ("--seedlings", "How many"),
    ("--stored", "How the seed is kept"),
    ("--container", "Sown in"),
    ("--up", "Came up so far"),
    ("--standing", "Alive now"),
    ("--place", "Place"),
    ("--against", "Against what"),
    ("--left", "Seedlings left behind"),
    ("--no-longer", "Take the mark off"),
    ("--pot", "Pot each goes into"),
    ("--note", "Remark"),
];

/// What the button of an event says; `None` where no page has one.
pub fn button(event: &str) -> Option<&'static str> {
    let of = BUTTONS.iter().find(|(of, _)| *of == event);
    of.map(|(_, button)| *button)
}

/// How the form of an event calls the field of an option; `None` where it has none.
pub fn label_of(event: &str, option: &str) -> Option<&'static str> {
    let own = |(of, field, _): &&(&str, &str, &str)| (*of, *field) == (event, option);
    let own = FIELDS_OF.iter().find(own).map(|(.., label)| *label);
    own.or_else(|| label(option))
}

/// How a page calls the field of an option, `--on`; `None` where no form has one.
pub fn label(option: &str) -> Option<&'static str> {
    let of = FIELDS.iter().find(|(of, _)| *of == option);
    of.map(|(_, label)| *label)
}

impl Voice {
    /// The words of this voice.
    pub fn or<T>(self, keyboard: T, page: T) -> T {
        match self {
            Voice::Keyboard => keyboard,
            Voice::Page => page,
        }
    }
}

/// Words in both voices.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Words {
    keyboard: Box<str>,
    /// None where a page says the same.
    page: Option<Box<str>>,
}

impl Words {
    /// What is said in either voice.
    pub fn of(said: impl Fn(Voice) -> String) -> Words {
        Words::or(said(Voice::Keyboard), said(Voice::Page))
    }

    /// Remarks that are said alike in either voice.
    pub fn all(remarks: impl IntoIterator<Item = String>) -> Vec<Words> {
        remarks.into_iter().map(Words::from).collect()
    }

    /// Words that a page says otherwise.
    pub fn or(keyboard: impl Into<Box<str>>, page: impl Into<Box<str>>) -> Words {
        Words {
            keyboard: keyboard.into(),
            page: Some(page.into()),
        }
    }

    /// As they are read there.
    pub fn said(&self, voice: Voice) -> &str {
        match voice {
            Voice::Keyboard => &self.keyboard,
            Voice::Page => self.page.as_ref().unwrap_or(&self.keyboard),
        }
    }
}

impl<T: Into<Box<str>>> From<T> for Words {
    fn from(words: T) -> Words {
        Words {
            keyboard: words.into(),
            page: None,
        }
    }
}

impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.keyboard)
    }
}

/// An option, or the field of a page that is filled in for it: `--on`, `“Day”`.
pub fn field(option: &str) -> Words {
    match label(option) {
        Some(label) => Words::or(option, format!("“{label}”")),
        None => option.into(),
    }
}

/// The option, or the field, of the day on which something happened.
pub fn day() -> Words {
    field("--on")
}

/// By which command something is recorded, and by which button; at the computer where there is none: `: podbook seen Ven1`,
/// `, under “Looked for” on its page`.
pub fn by(command: &str) -> Words {
    let button = button(command.split(' ').next().unwrap_or_default());
    let page = button.map(|button| format!(", under “{button}” on its page"));
    let page = page.unwrap_or_else(|| ", at the computer".to_owned());
    Words::or(format!(": podbook {command}"), page)
}

/// How flowers of a plant are recorded; `with` is the rest of the command: ` --opened DATE`, ` --sex female`.
pub fn flower(plant: &str, with: &str) -> Words {
    let sex = match with.starts_with(" --sex") {
        true => ", with “Sex the open flowers show”",
        false => "",
    };
    Words::or(
        format!("podbook flower {plant}{with}"),
        format!("“Flowered” on the page of the plant{sex}"),
    )
}

/// Words around others, as `format!` puts them together; what the text itself names is said alike in either voice.
macro_rules! words {
    ($text:literal; $($part:expr),+) => {
        $crate::recording::voice::Words::of(|voice| format!($text, $(($part).said(voice)),+))
    };
}
pub(crate) use words;
