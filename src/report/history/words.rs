//! Events in words: what happened, and what is on record of it.

use crate::analysis::history::{Piece, ReadHere, SpikeStage, What};
use crate::observation::cell::with_unit;
use crate::observation::standing::fate_word;
use crate::record::{Fate, Sex};
use crate::report::plants::copy_word;
use crate::wording::{age, joined, led_by, listed};

impl What<'_, '_> {
    /// What happened, in a few words.
    pub(super) fn words(&self) -> String {
        match self {
            What::Pollinated => "pollinated".to_owned(),
            What::Harvested => "pod harvested".to_owned(),
            What::Sown => "sown".to_owned(),
            What::CameUp => "came up".to_owned(),
            What::Numbered => "numbered".to_owned(),
            What::Received => "received".to_owned(),
            What::Potted(pot, None) => format!("potted, {pot}"),
            What::Potted(pot, Some(piece)) => format!("piece {piece} potted, {pot}"),
            What::Read(_, None) => "read, age not known".to_owned(),
            What::Read(_, Some(months)) => format!("read at {}", age(*months)),
            What::Spike(stage, sex) => spike(*stage, *sex),
            What::Piece(of) => piece(of),
            What::Treated(with, against) => format!("treated: {}", treatment(with, *against)),
            What::PlaceTreated(with, against) => {
                format!("its place treated: {}", treatment(with, *against))
            }
            What::Kept => "marked to keep".to_owned(),
            What::MixedUp(with) => format!("mixed up with {}", listed(*with)),
            What::Ended(fate, piece) => ended(fate, *piece),
            What::CameBack(None) => "came back".to_owned(),
            What::CameBack(Some(piece)) => format!("piece {piece} came back"),
        }
    }

    /// What was read, in one line; nothing for other events.
    pub(super) fn detail(&self) -> Option<String> {
        let What::Read(reads, _) = self else {
            return None;
        };
        let reads = reads.iter().map(read);
        Some(joined(reads, ", "))
    }
}

fn treatment(with: &str, against: Option<&str>) -> String {
    format!("{with}{}", led_by(" against ", against))
}

fn read(of: &ReadHere) -> String {
    format!("{} {}", of.of, with_unit(of.value.trim(), of.unit))
}

fn spike(stage: SpikeStage, sex: Option<Sex>) -> String {
    let sex = led_by(", ", sex);
    match stage {
        SpikeStage::Seen => format!("spike seen{sex}"),
        SpikeStage::Opened => format!("first flower open{sex}"),
        SpikeStage::Over => "last flower over".to_owned(),
    }
}

fn piece(of: &Piece) -> String {
    let what = copy_word(of.made).unwrap_or("piece");
    let done = if of.rooted { "rooted" } else { "taken" };
    format!("{what} {} {done}", of.code)
}

fn ended(fate: &Fate, piece: Option<&str>) -> String {
    let of = piece.map_or(String::new(), |piece| format!("piece {piece} "));
    // The picture may go with the plant, so it names no buyer and gives no reason.
    let how = match fate {
        Fate::Culled { .. } => "discarded",
        fate => fate_word(fate),
    };
    format!("{of}{how}")
}
