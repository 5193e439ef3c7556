//! Options every verb takes.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Options every command takes.
#[derive(Args, Clone, Debug)]
#[command(next_help_heading = "Options of every command")]
pub struct Common {
    /// Folder of the registry [default: the nearest one upward]
    #[arg(long, global = true, value_name = "DIR")]
    pub registry: Option<PathBuf>,
    /// Show all of the answer, not only one screen of it
    #[arg(long, global = true)]
    pub full: bool,
    /// Answer as JSON, with every field
    #[arg(long, global = true)]
    pub json: bool,
    /// Take this day as today, such as 2024-05-14
    #[arg(long, global = true, value_name = "DATE")]
    pub today: Option<String>,
    /// Fit the text into so many columns [default: the terminal, or 80]
    #[arg(long, global = true, value_name = "COLUMNS")]
    pub width: Option<usize>,
    /// Colour severities: auto, always or never
    #[arg(
        long,
        global = true,
        value_name = "WHEN",
        default_value = "auto",
        hide_possible_values = true
    )]
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
