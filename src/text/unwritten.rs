//! A file that was not written, and why, in words a grower knows.

use std::fmt;
use std::io;

use super::refusal::system_words;

/// A file that was not written, and why. What lay on disk lies there still.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unwritten {
    /// The path as it was given: for a registry's file relative to its folder, with `/`.
    pub path: String,
    /// Why.
    pub why: WhyUnwritten,
}

/// Why a file was not written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum WhyUnwritten {
    /// The file on disk is not as it was when it was read.
    Changed,
    /// The file is protected against writing.
    Protected,
    /// A file with this name is there already.
    Exists,
    /// The path leads out of the registry, or names no file.
    Outside,
    /// What lies where a change writes down its intent is not of podbook's making.
    NoIntent,
    /// A file of a change that was cut short could not be given its old bytes; its path.
    StillNew(String),
    /// What was read back is not what was written.
    NotReadBack,
    /// The system refused, in its own words.
    System(String),
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
            WhyUnwritten::NoIntent => {
                ".podbook-intent in the registry's folder was not written by podbook; move it away"
            }
            WhyUnwritten::StillNew(path) => {
                return write!(f, "{path} could not be given its old text");
            }
            WhyUnwritten::NotReadBack => "what was read back is not what was written",
            WhyUnwritten::System(words) => words,
        })
    }
}

impl From<io::Error> for WhyUnwritten {
    fn from(fault: io::Error) -> Self {
        match fault.kind() {
            io::ErrorKind::AlreadyExists => WhyUnwritten::Exists,
            io::ErrorKind::NotFound => WhyUnwritten::Changed,
            _ => refusal(fault),
        }
    }
}

/// The system's refusal in our words.
pub(super) fn refusal(fault: io::Error) -> WhyUnwritten {
    WhyUnwritten::System(system_words(&fault))
}
