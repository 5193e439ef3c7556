//! The command line.

use super::common::Common;
use super::groups::grouped;
use super::verbs::Verb;
use clap::{ArgMatches, Args, Command, FromArgMatches};
use std::ffi::OsStr;

const ABOUT: &str = "Keeps the breeding records of Nepenthes: checks them, names every cross, shows who descends from whom, compares siblings and draws the pedigree";

const AFTER: &str = "Start with `podbook new my-plants`, or look at the demo: `podbook check --registry registry-demo`.\n\
    For your shell: `podbook completions SHELL`, `podbook man`.\n\
    Exit codes: 0 answered; 1 answered, and something is wrong, such as a fault or a mismatch; 2 the request was not understood; \
    3 a file could not be read or written, and nothing was written; 4 written, then something \
    failed; 130 stopped by Ctrl-C.";

/// What `podbook` alone shows: where to begin, on one screen.
pub(super) const START: &str = "\
podbook keeps the breeding records of Nepenthes. Where to begin:

  podbook new my-plants    Start a new registry in a folder of its own
  podbook import           Bring in tables of plants, crosses and readings you have
  podbook add              Record a plant that arrived
  podbook pollinate        Record a pollination; then harvest, sow, count, number, measure
  podbook serve            Show the registry in a browser, and record from a phone
  podbook due              Show what is due
  podbook show CODE        Show all about one plant, cross, pod, pollen lot or species
  podbook name CODE        Name a plant, pod or cross from its recorded parents
  podbook plan             Plan the season's pollinations
  podbook card CODE        Write the sale card of a plant
  podbook check            Find every fault in the registry

All commands: `podbook --help`. One of them: `podbook add --help`.
A registry to look at: `podbook check --registry registry-demo`.
";

/// What was typed.
#[derive(Debug)]
pub struct Arguments {
    /// Options every verb takes.
    pub common: Common,
    /// What to do.
    pub verb: Verb,
}

impl Arguments {
    /// What was found in a line.
    ///
    /// # Errors
    /// If there is no verb, or its arguments do not fit together.
    pub fn found(found: &ArgMatches) -> Result<Arguments, clap::Error> {
        Ok(Arguments {
            common: Common::from_arg_matches(found)?,
            verb: Verb::found(found)?,
        })
    }
}

/// The command line with the arguments of every verb, for completions and the man page.
pub fn command() -> Command {
    let mut whole = bare();
    whole.build();
    whole
}

/// The command line with the names of the verbs; the arguments of a verb are made ready when it is met.
pub(super) fn bare() -> Command {
    grouped(Verb::all(top()))
}

/// What a line needs of the command line, by its first word: the verb that it names, no verb for the version, else all.
/// To know sixty verbs takes longer than many an answer.
pub(super) fn needed(first: Option<&OsStr>) -> Command {
    match first.and_then(OsStr::to_str) {
        Some("--version" | "-V") => top(),
        Some(word) => Verb::with(top(), word).unwrap_or_else(|_| bare()),
        None => bare(),
    }
}

/// The program, with the options every verb takes.
fn top() -> Command {
    let program = Command::new("podbook")
        // Not the name of the file, which differs from system to system.
        .bin_name("podbook")
        .version(env!("CARGO_PKG_VERSION"))
        .about(ABOUT)
        .after_help(AFTER)
        .disable_help_subcommand(true)
        .subcommand_required(true)
        .arg_required_else_help(true);
    Common::augment_args(program).about(ABOUT)
}
