//! Files of the registry folder that could not be read, and why, in words a grower knows.

use std::fmt;

/// A file or folder among the registry's files that could not be read.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unread {
    /// The path relative to the registry folder, with `/`; bytes that are not UTF-8 are shown as `�`.
    pub path: String,
    /// Why.
    pub why: WhyUnread,
}

/// Why a file was left out.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum WhyUnread {
    /// The bytes are not UTF-8 from `offset` on, in `line` (from 1).
    NotUtf8 {
        /// Offset of the first byte that is not UTF-8, counted in the file on disk.
        offset: u64,
        /// The line that byte stands in, from 1.
        line: u64,
        /// Whether the file looks like UTF-16, as some editors save it.
        utf16: bool,
    },
    /// A workbook of a spreadsheet program, by its first bytes.
    Spreadsheet,
    /// Longer than is read.
    TooLarge {
        /// Length in bytes.
        bytes: u64,
        /// The most that are read.
        most: u64,
    },
    /// A folder that bears the name of a file.
    Folder,
    /// A pipe, socket or device.
    NotAFile,
    /// A link that leads in a circle, or through too many links.
    LinkCircle,
    /// A link whose target is not there.
    LinkBroken,
    /// The name is not UTF-8.
    NameNotUtf8,
    /// A page, or a folder of pages, that would be read if its name were written without capitals.
    OtherCapitals,
    /// A `*.ron` file in a folder inside `crosses`, where none are looked for.
    TooDeep,
    /// A name such as `X22-01.ron.txt`, as plain editors save it; such a file is not read.
    OtherEnding,
    /// No permission to read.
    Forbidden,
    /// It is not there: it was listed a moment ago, or only named.
    Gone,
    /// A file of ours that a run ended from outside left behind; no page.
    LeftBehind,
    /// What a change was to write that was cut short, or is being written; no page.
    HalfWritten,
    /// The system refused, in its own words.
    System(String),
}

impl WhyUnread {
    /// Whether a page of the registry may have been lost to it, as against a file with another ending or in a place
    /// where nothing is looked for.
    pub fn is_of_a_page(&self) -> bool {
        !matches!(
            self,
            WhyUnread::TooDeep
                | WhyUnread::OtherEnding
                | WhyUnread::LeftBehind
                | WhyUnread::HalfWritten
        )
    }
}

impl fmt::Display for WhyUnread {
    /// What stands after "could not be read: ".
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let words = match self {
            WhyUnread::NotUtf8 { utf16: true, .. } => "it is saved as UTF-16; save it as UTF-8",
            WhyUnread::Spreadsheet => {
                "it is a workbook of a spreadsheet; save the sheet as text in UTF-8"
            }
            WhyUnread::NotUtf8 { line, .. } => {
                return write!(f, "line {line} is not UTF-8; save it as UTF-8");
            }
            WhyUnread::TooLarge { bytes, most } => {
                let most = most >> 20;
                return write!(f, "it holds {bytes} bytes, and {most} MiB is the most");
            }
            WhyUnread::Folder => "it is a folder, not a file",
            WhyUnread::NotAFile => "it is a pipe, socket or device, not a file",
            WhyUnread::LinkCircle => "it is a link that leads in a circle",
            WhyUnread::LinkBroken => "it is a link to a file that is not there",
            WhyUnread::NameNotUtf8 => "its name is not UTF-8; rename it",
            WhyUnread::OtherCapitals => "rename it without capitals",
            WhyUnread::TooDeep => "files in a folder inside `crosses` are not read",
            WhyUnread::OtherEnding => "its name does not end in .ron; rename it",
            WhyUnread::Forbidden => "permission denied",
            WhyUnread::Gone => "no file of that name is there",
            WhyUnread::LeftBehind => "it was left behind by a run that was stopped",
            WhyUnread::HalfWritten => "it is what a change was to write that was cut short",
            WhyUnread::System(words) => words,
        };
        f.write_str(words)
    }
}
