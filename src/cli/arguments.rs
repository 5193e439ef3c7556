//! The command line.

use super::verbs::Verb;
use clap::{Args, CommandFactory, Parser, ValueEnum};
use std::path::PathBuf;

/// Keeps the breeding records of Nepenthes: checks them, names every cross, shows who descends from whom, compares
/// siblings and draws the pedigree.
#[derive(Parser, Debug)]
#[command(
    name = "podbook",
    version,
    propagate_version = true,
    disable_help_subcommand = true
)]
#[command(
    after_help = "Start with `podbook begin my-plants`, or look at the demo: `podbook check --registry registry-demo`.\n\
    Exit codes: 0 answered; 1 answered with bad news; 2 arguments not understood; 3 a file could not be read or written;\n    130 stopped by Ctrl-C, with the best plan so far."
)]
pub struct Arguments {
    /// Options every verb takes.
    #[command(flatten)]
    pub common: Common,
    /// What to do.
    #[command(subcommand)]
    pub verb: Verb,
}

/// Options every verb takes.
#[derive(Args, Clone, Debug)]
pub struct Common {
    /// Folder of the registry [default: the nearest folder upward that holds registry.ron]
    #[arg(long, global = true, value_name = "DIR")]
    pub registry: Option<PathBuf>,
    /// Answer as JSON
    #[arg(long, global = true)]
    pub json: bool,
    /// The day that counts as today, such as 2024-05-14 [default: the clock's]
    #[arg(long, global = true, value_name = "DATE")]
    pub today: Option<String>,
    /// Columns to write within [default: the terminal's, 80 when piped]
    #[arg(long, global = true, value_name = "COLUMNS")]
    pub width: Option<usize>,
    /// Whether to colour severities
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto")]
    pub colour: Colour,
}

/// When to colour.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub enum Colour {
    /// On a terminal, unless NO_COLOR is set.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

/// The command line as clap knows it, for completions and the man page.
pub fn command() -> clap::Command {
    Arguments::command()
}
