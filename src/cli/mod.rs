//! Arguments as typed, the request as meant, the exit code.
//!
//! One verb, one file under `verbs`. Exit codes: 0 answered; 1 answered with bad news (faults found, a label or an
//! epithet refused); 2 the arguments or a code in them were not understood; 3 a file could not be read or written,
//! and nothing was written; 4 something was written, and then something failed; 130 stopped by Ctrl-C.

mod arguments;
mod common;
mod groups;
mod guesses;
mod misread;
mod missing;
mod outcome;
mod recording;
mod request;
mod run;
mod taken;
mod verbs;
mod working;

pub use arguments::{Arguments, command};
pub use request::{Outcome, Refusal, Request};

pub use run::main;
pub use working::Working;
