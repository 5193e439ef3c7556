//! The way in: from the arguments of this process to its exit code.

use super::arguments::{Arguments, command};
use super::misread::in_our_words;
use super::request;
use clap::{Command, FromArgMatches};
use std::process::ExitCode;

/// Runs the program on the arguments of this process.
pub fn main() -> ExitCode {
    let matches = with_negative_numbers(command()).try_get_matches();
    let arguments = match matches.and_then(|found| Arguments::from_arg_matches(&found)) {
        Ok(arguments) => arguments,
        Err(error) => {
            if let Some(words) = in_our_words(&error) {
                eprintln!("podbook: {words}");
                return ExitCode::from(2);
            }
            // Help and version are answers, not errors; a closed pipe while printing them is nobody's fault.
            let _ = error.print();
            return ExitCode::from(if error.use_stderr() { 2 } else { 0 });
        }
    };
    request::run(arguments)
}

/// Lets `-3` be a value of every option, so that what is wrong with it is told and not what it might be an option of.
fn with_negative_numbers(command: Command) -> Command {
    let command = command.mut_args(|arg| {
        let takes_values = arg.get_action().takes_values();
        arg.allow_negative_numbers(takes_values)
    });
    command.mut_subcommands(with_negative_numbers)
}
