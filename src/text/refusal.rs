//! Why the system refused, in words a grower knows: no error numbers, no temporary file's name, no name of ours.

use super::disk::WhyUnwritten;
use super::folder::WhyUnread;
use std::fmt;
use std::io;

/// What the system said, without any path or number: "permission denied", "no space left on device".
pub fn system_words(fault: &io::Error) -> String {
    if fault.kind() == io::ErrorKind::PermissionDenied {
        return "permission denied".to_owned();
    }
    let told = fault.to_string();
    let told = told.split(" at path \"").next().unwrap_or(&told);
    let told = told.split(" (os error").next().unwrap_or(told);
    let mut letters = told.chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
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
            WhyUnread::TooLarge { bytes } => {
                return write!(f, "it holds {bytes} bytes, and 4 GiB is the most");
            }
            WhyUnread::Folder => "it is a folder, not a file",
            WhyUnread::NotAFile => "it is a pipe, socket or device, not a file",
            WhyUnread::LinkCircle => "it is a link that leads in a circle",
            WhyUnread::LinkBroken => "it is a link to a file that is not there",
            WhyUnread::NameNotUtf8 => "its name is not UTF-8; rename it",
            WhyUnread::TooDeep => "files in a folder inside `crosses` are not read",
            WhyUnread::OtherEnding => "its name does not end in .ron; rename it",
            WhyUnread::Forbidden => "permission denied",
            WhyUnread::Gone => "no file of that name is there",
            WhyUnread::LeftBehind => "it was left behind by a run that was stopped",
            WhyUnread::System(words) => words,
        };
        f.write_str(words)
    }
}

impl fmt::Display for WhyUnwritten {
    /// What stands after "could not be written: ".
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            WhyUnwritten::Changed => "it changed on disk after it was read; run the command again",
            WhyUnwritten::Protected => {
                "it is protected against writing; allow writing and run the command again"
            }
            WhyUnwritten::Exists => "a file of that name is there already",
            WhyUnwritten::Outside => "its path leads out of the registry",
            WhyUnwritten::NotReadBack => "what was read back is not what was written",
            WhyUnwritten::System(words) => words,
        })
    }
}
