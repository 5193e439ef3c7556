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
    /// The path leads out of the registry, or is not that of a page or of an entry of the journal.
    Outside,
    /// What lies where a change writes down its intent is not of podbook's making.
    NoIntent,
    /// A change that another computer began in a folder that both have; its name.
    OtherComputer(String),
    /// Another podbook is writing a change, and did not finish within the time one waits.
    BeingWritten,
    /// Another podbook may be writing a change: where there are no locks, one cannot see that it was cut short.
    NoLocks,
    /// The lock went away, or another file took its name, while the registry was held.
    LockLost,
    /// Another program gave the file its old text while the rest of the change was written.
    GivenBack,
    /// The account may not write there.
    Denied,
    /// A file of a change that was cut short could not be given its old bytes; its path, and why.
    StillNew(String, Box<WhyUnwritten>),
    /// It would be longer than is read: its length in bytes, and the most that are read.
    TooLarge {
        /// Length in bytes.
        bytes: u64,
        /// The most that are read.
        most: u64,
    },
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
            WhyUnwritten::OtherComputer(by) => {
                return write!(
                    f,
                    "the computer `{}` began it; wait until the folder here is as it is there, or run podbook there. If that computer is gone, or has another name now: podbook undo --cut-short",
                    crate::text::visible(by)
                );
            }
            WhyUnwritten::BeingWritten => {
                "another podbook is writing it and did not finish within 10 seconds"
            }
            WhyUnwritten::NoLocks => {
                "another podbook may still be writing it: this disk knows no locks, so podbook cannot tell. Once you are sure that none is: podbook undo --cut-short"
            }
            WhyUnwritten::LockLost => {
                "it was removed or replaced while podbook read the registry; run the command again"
            }
            WhyUnwritten::GivenBack => {
                "another program gave it its old text while the change was written; run the command again"
            }
            WhyUnwritten::Denied => "permission denied",
            WhyUnwritten::StillNew(path, why) => {
                return write!(f, "{path} could not be given its old text: {why}");
            }
            WhyUnwritten::TooLarge { bytes, most } => {
                let most = most >> 20;
                return write!(f, "it would hold {bytes} bytes, and {most} MiB is the most");
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
    match fault.kind() {
        io::ErrorKind::PermissionDenied => WhyUnwritten::Denied,
        _ => WhyUnwritten::System(system_words(&fault)),
    }
}
