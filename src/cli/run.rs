//! The way in: from the arguments of this process to its exit code.

use super::arguments::{Arguments, bare, command};
use super::misread::in_our_words;
use super::request::{INTERRUPTED, Refusal, Request, tell};
use super::taken::as_typed;
use crate::text::system_words;
use clap::{ArgMatches, FromArgMatches};
use std::io::Write;
use std::process::ExitCode;

/// Runs the program on the arguments of this process.
pub fn main() -> ExitCode {
    let matches = as_typed(bare()).try_get_matches();
    let read = matches.and_then(|found| {
        let writes = writes(&found);
        Arguments::from_arg_matches(&found).map(|arguments| (arguments, writes))
    });
    let (arguments, writes) = match read {
        Ok(read) => read,
        Err(error) => {
            if let Some(words) = in_our_words(&error) {
                tell(&format!("podbook: {words}\n"));
                return ExitCode::from(2);
            }
            if error.use_stderr() {
                tell(&error.render().to_string());
                return ExitCode::from(2);
            }
            // Help and version are answers, not errors; a closed pipe while printing them is nobody's fault.
            let _ = error.print();
            return ExitCode::SUCCESS;
        }
    };
    run(arguments, writes)
}

/// Runs the verb and writes what it gives back. `writes` says that files were to be written: a refusal then says
/// whether any was.
fn run(arguments: Arguments, writes: bool) -> ExitCode {
    let request = Request::new(arguments.common, command);
    match arguments.verb.run(&request) {
        Ok(outcome) => {
            tell(&outcome.remarks);
            match std::io::stdout().write_all(outcome.answer.bytes()) {
                Ok(()) if outcome.interrupted => ExitCode::from(INTERRUPTED),
                Ok(()) => ExitCode::from(u8::from(outcome.bad_news)),
                // The reader closed the pipe, as `head` does: it has what it wanted.
                Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
                Err(error) => {
                    let why = system_words(&error);
                    let refusal =
                        Refusal::files(format!("the answer could not be shown in full: {why}"));
                    refused(refusal.after(&outcome.written), writes)
                }
            }
        }
        Err(refusal) => refused(refusal, writes),
    }
}

/// Says why nothing, or not all, was done.
fn refused(refusal: Refusal, writes: bool) -> ExitCode {
    tell(&format!("podbook: {}\n", refusal.words));
    match refusal.written.as_slice() {
        [] if writes && refusal.exit == 3 => tell("nothing was written\n"),
        [] => {}
        written => tell(&format!("written all the same: {}\n", written.join(", "))),
    }
    ExitCode::from(refusal.exit)
}

/// Commands that write, unless they are only to show what they would.
const RECORDING: [&str; 29] = [
    "new",
    "handover",
    "album",
    "add",
    "add-seed",
    "flower",
    "collect",
    "thaw",
    "finish",
    "pollinate",
    "took",
    "harvest",
    "sow",
    "count",
    "prick",
    "number",
    "pot",
    "move",
    "cutting",
    "measure",
    "keep",
    "gone",
    "muddle",
    "treat",
    "opinion",
    "seen",
    "correct",
    "merge",
    "undo",
];

/// Whether files are to be written: by `new`, by a recording, with `--apply` or with `-o`.
fn writes(matches: &ArgMatches) -> bool {
    // What is listed is a verb within a verb.
    let mut given = std::iter::successors(matches.subcommand(), |(_, given)| given.subcommand());
    given.any(|(verb, given)| {
        let applied = matches!(given.try_get_one::<bool>("apply"), Ok(Some(true)));
        let named = matches!(given.try_contains_id("output"), Ok(true));
        RECORDING.contains(&verb) || applied || named
    })
}
