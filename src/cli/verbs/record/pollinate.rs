//! `podbook pollinate`: flowers of one zone dusted with pollen.

use super::command::command;
use crate::recording::events::pollinate::{GivenPollen, Pollinate as Event};
use clap::{ArgGroup, Args};

command! {
    #[command(
        after_help = "Example: podbook pollinate X18-01-4 --with Spe1-2105 --zone red --flowers 12 --dry-run --registry registry-demo\n\
        The page of the cross is begun if there is none for this pair and year; its code is printed, to go on the tag.\n\
        The same line on another day adds that day to the zone."
    )]
    Pollinate => Event;

    /// The seed parent, or the piece of it that flowers
    #[arg(value_name = "PLANT")]
    seed: String,
    #[command(flatten)]
    pollen: Pollen,
    /// A word for the zone, such as the colour of its thread [default: the next free letter]
    #[arg(long, value_name = "ZONE")]
    zone: Option<String>,
    /// Flowers dusted
    #[arg(long, value_name = "N")]
    flowers: Option<u32>,
    /// Code of the spike
    #[arg(long, value_name = "SPIKE")]
    spike: Option<String>,
    /// Flowers left alone, to measure stray pollen
    #[arg(long, value_name = "N")]
    controls: Option<u32>,
    /// The spike was covered against stray pollen
    #[arg(long)]
    covered: bool,
    /// What the cross is for
    #[arg(long, value_name = "WORDS")]
    goal: Option<String>,
    /// Remarks
    #[arg(long, value_name = "WORDS")]
    note: Option<String>,
}

/// Whose pollen it was: one of them.
#[derive(Args, Debug)]
#[command(group = ArgGroup::new("pollen").multiple(false))]
struct Pollen {
    /// An envelope of pollen, or a plant in flower
    #[arg(long = "with", value_name = "POLLEN", group = "pollen")]
    with_pollen: Option<String>,
    /// One of these plants or envelopes gave the pollen, not known which
    #[arg(long, value_name = "PLANT", value_delimiter = ',', group = "pollen")]
    one_of: Vec<String>,
    /// Pollen of these plants or envelopes together
    #[arg(long, value_name = "PLANT", value_delimiter = ',', group = "pollen")]
    mixed: Vec<String>,
    /// Left to pollen from anywhere
    #[arg(long, group = "pollen")]
    open: bool,
    /// With --open: plants that were shedding pollen near it
    #[arg(long, value_name = "PLANT", value_delimiter = ',', requires = "open")]
    near: Vec<String>,
}

impl From<Pollen> for Option<GivenPollen> {
    fn from(of: Pollen) -> Option<GivenPollen> {
        match of.with_pollen {
            Some(code) => Some(GivenPollen::With(code)),
            None if !of.one_of.is_empty() => Some(GivenPollen::OneOf(of.one_of)),
            None if !of.mixed.is_empty() => Some(GivenPollen::Mixed(of.mixed)),
            None if of.open => Some(GivenPollen::Open(of.near)),
            None => None,
        }
    }
}
