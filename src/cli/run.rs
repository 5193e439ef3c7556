//! The way in: from the arguments of this process to its exit code.

use super::arguments::{Arguments, command};
use super::misread::in_our_words;
use super::request;
use clap::{ArgMatches, Command, FromArgMatches};
use std::process::ExitCode;

/// Runs the program on the arguments of this process.
pub fn main() -> ExitCode {
    let matches = with_negative_numbers(command()).try_get_matches();
    let read = matches.and_then(|found| {
        let writes = writes(&found);
        Arguments::from_arg_matches(&found).map(|arguments| (arguments, writes))
    });
    let (arguments, writes) = match read {
        Ok(read) => read,
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
    request::run(arguments, writes)
}

/// Whether files are to be written: by `begin`, with `--apply` or with `-o`.
fn writes(matches: &ArgMatches) -> bool {
    // What is listed is a verb within a verb.
    let mut given = std::iter::successors(matches.subcommand(), |(_, given)| given.subcommand());
    given.any(|(verb, given)| {
        let applied = matches!(given.try_get_one::<bool>("apply"), Ok(Some(true)));
        let named = matches!(given.try_contains_id("output"), Ok(true));
        verb == "begin" || applied || named
    })
}

/// Lets `-3` be a value of every option, so that what is wrong with it is told and not what it might be an option of.
fn with_negative_numbers(command: Command) -> Command {
    let command = command.mut_args(|arg| {
        let takes_values = arg.get_action().takes_values();
        arg.allow_negative_numbers(takes_values)
    });
    command.mut_subcommands(with_negative_numbers)
}
