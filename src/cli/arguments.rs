//! The command line.

use super::common::Common;
use super::groups::grouped;
use super::verbs::Verb;
use clap::{CommandFactory, Parser};

/// Keeps the breeding records of Nepenthes: checks them, names every cross, shows who descends from whom, compares
/// siblings and draws the pedigree.
#[derive(Parser, Debug)]
#[command(name = "podbook", version, disable_help_subcommand = true)]
#[command(
    after_help = "Start with `podbook new my-plants`, or look at the demo: `podbook check --registry registry-demo`.\n\
    For your shell: `podbook completions SHELL`, `podbook man`.\n\
    Exit codes: 0 answered; 1 answered with bad news; 2 the request was not understood;\n\
    3 a file could not be read or written, and nothing was written; 4 written, then something\n\
    failed; 130 stopped by Ctrl-C."
)]
pub struct Arguments {
    /// Options every verb takes.
    #[command(flatten)]
    pub common: Common,
    /// What to do.
    #[command(subcommand)]
    pub verb: Verb,
}

/// The command line with the arguments of every verb, for completions and the man page.
pub fn command() -> clap::Command {
    let mut whole = bare();
    whole.build();
    whole
}

/// The command line with the names of the verbs; the arguments of a verb are made ready when it is met.
pub(super) fn bare() -> clap::Command {
    grouped(Arguments::command())
}
