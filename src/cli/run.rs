//! The way in: from the arguments of this process to its exit code.

use super::arguments::Arguments;
use super::request;
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
