//! Options every verb takes.

use clap::{Args, ValueEnum};
use std::path::PathBuf;

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
