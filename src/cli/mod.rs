//! Arguments as typed, the request as meant, the exit code.
//!
//! One verb, one file under `verbs`. Exit codes: 0 answered; 1 answered with bad news (faults found, a label or an
//! epithet refused); 2 the arguments or a code in them were not understood; 3 a file could not be read or written.

mod arguments;
mod request;
mod verbs;

pub use arguments::{Arguments, command};
pub use request::{Outcome, Refusal, Request};

use clap::Parser;
use std::process::ExitCode;

/// Runs the program on the arguments of this process.
pub fn main() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => {
            // Help and version are answers, not errors; a closed pipe while printing them is nobody's fault.
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { 2 } else { 0 });
        }
    };
    request::run(arguments)
}
