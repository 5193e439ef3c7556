//! The way in: from the arguments of this process to its exit code.

use super::arguments::{Arguments, START, command, needed};
use super::misread::in_our_words;
use super::missing::{arguments_asked, verb, words_asked};
use super::request::{INTERRUPTED, Refusal, Request, tell};
use super::taken::as_typed;
use super::verbs::Verb;
use crate::text::system_words;
use clap::ArgMatches;
use clap::error::ErrorKind;
use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

/// Runs the program on the arguments of this process. What a recording lacks is asked for where a person is at a
/// terminal, and the line is then taken as if it had been typed so.
pub fn main() -> ExitCode {
    let mut line = help_last(std::env::args_os().collect());
    loop {
        match read(&line) {
            Ok((arguments, writes)) => match run(arguments, writes, &line) {
                Ok(code) => return code,
                Err(refusal) if words_asked(&refusal, &mut line) => {}
                Err(refusal) => return refused(refusal, writes),
            },
            Err(error) if records(&error) && arguments_asked(&error, &mut line) => {}
            Err(error) => return misread(&error),
        }
    }
}

/// `podbook help add` asks for what `podbook add --help` shows.
fn help_last(mut line: Vec<OsString>) -> Vec<OsString> {
    if line.get(1).is_some_and(|word| word == "help") {
        line.remove(1);
        line.push("--help".into());
    }
    line
}

/// The arguments of a line, and whether files are to be written.
fn read(line: &[OsString]) -> Result<(Arguments, bool), clap::Error> {
    let mut command = as_typed(needed(line.get(1).map(OsString::as_os_str)));
    let found = command.try_get_matches_from_mut(line);
    // The program ends soon, and to take a command line apart takes as long as to read one.
    std::mem::forget(command);
    let found = found?;
    let writes = writes(&found);
    Ok((Arguments::found(&found)?, writes))
}

/// Says what was not understood, or shows the help that was asked for.
fn misread(error: &clap::Error) -> ExitCode {
    if let Some(words) = in_our_words(error) {
        tell(&format!("podbook: {words}\n"));
        return ExitCode::from(2);
    }
    if error.kind() == ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand && verb(error).is_none()
    {
        tell(START);
        return ExitCode::from(2);
    }
    if error.use_stderr() {
        tell(&error.render().to_string());
        return ExitCode::from(2);
    }
    // Help and version are answers, not errors.
    match is_read(error.print().and_then(|()| std::io::stdout().flush())) {
        Ok(_) => ExitCode::SUCCESS,
        Err(refusal) => refused(refusal, false),
    }
}

/// Whether an answer was read to its end.
///
/// # Errors
/// If it could not be shown in full.
fn is_read(written: std::io::Result<()>) -> Result<bool, Refusal> {
    match written {
        Ok(()) => Ok(true),
        // The reader closed the pipe, as `head` does: it has what it wanted.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Ok(false),
        Err(error) => {
            let why = system_words(&error);
            let words = format!("the answer could not be shown in full: {why}");
            Err(Refusal::files(words))
        }
    }
}

/// Whether a line that was not understood was to record something.
fn records(error: &clap::Error) -> bool {
    verb(error).is_some_and(|verb| Verb::records(&verb))
}

/// Runs the verb and writes what it gives back. `writes` says that files were to be written: a refusal then says
/// whether any was.
///
/// # Errors
/// If nothing was answered.
fn run(arguments: Arguments, writes: bool, line: &[OsString]) -> Result<ExitCode, Refusal> {
    let request = Request::new(arguments.common, command, line);
    let outcome = arguments.verb.run(&request)?;
    tell(&outcome.remarks);
    let written = std::io::stdout().write_all(outcome.answer.bytes());
    Ok(match is_read(written) {
        Ok(true) if outcome.interrupted => ExitCode::from(INTERRUPTED),
        Ok(true) => ExitCode::from(u8::from(outcome.bad_news)),
        Ok(false) => ExitCode::SUCCESS,
        Err(refusal) => refused(refusal.after(&outcome.written), writes),
    })
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

/// Whether files are to be written: by `new`, by a recording, with `--apply` or with `-o`.
fn writes(matches: &ArgMatches) -> bool {
    // What is listed is a verb within a verb.
    let mut given = std::iter::successors(matches.subcommand(), |(_, given)| given.subcommand());
    given.any(|(verb, given)| {
        let applied = matches!(given.try_get_one::<bool>("apply"), Ok(Some(true)));
        let named = matches!(given.try_contains_id("output"), Ok(true));
        Verb::records(verb) || applied || named
    })
}
