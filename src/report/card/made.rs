//! How a plant or a piece came to be, in words.

use crate::analysis::card::{HowMade, Offered};
use crate::observation::raised::{Raised, raised};
use crate::record::{Confidence, Made, Ramet, ReceivedAs};

/// `seed-grown here; unique, no other plant is like it`; `None` where it is not recorded.
pub fn made(of: Offered) -> Option<String> {
    let whole = match of.made()? {
        HowMade::Copy(made) => return of.piece.map(|piece| copy(of, made, piece)),
        HowMade::Seedling => seedling(of),
        HowMade::Received(form) => received(form).to_owned(),
    };
    Some(match of.piece {
        Some(_) => format!("{whole}; the first piece"),
        None => whole,
    })
}

fn copy(of: Offered, made: Made, piece: &Ramet) -> String {
    let code = of.registry.code(of.plant);
    let from = piece
        .from
        .map_or_else(|| code.clone(), |from| format!("{code}-{from}"));
    let what = match made {
        Made::Original => "a piece",
        Made::Cutting if piece.rooted.is_none() => "a cutting",
        Made::Cutting => "a rooted cutting",
        Made::Division => "a division",
        Made::Basal => "a basal shoot",
        Made::LabCopy => "a laboratory copy",
    };
    let day = |label: &str, on: Option<&str>| on.map(|on| format!("; {label} {on}"));
    let cut = day("cut", piece.cut).unwrap_or_default();
    let rooted = day("rooted", piece.rooted).unwrap_or_default();
    let unrooted = match made == Made::Cutting && piece.rooted.is_none() {
        true => "; not recorded as rooted",
        false => "",
    };
    format!("{what} of {from}; the same genes as {code}{cut}{rooted}{unrooted}")
}

fn seedling(of: Offered) -> String {
    let pieces = of.registry.ramets(of.plant).len();
    let grown = match raised(of.registry, of.plant) {
        Raised::NotRecorded => return raised_by_an_unknown(of, pieces),
        Raised::ByTeller(registry) => {
            format!("seed-grown by the grower of the registry {registry}")
        }
        Raised::Here => "seed-grown here".to_owned(),
    };
    match pieces > 1 {
        true => format!("{grown}; {pieces} pieces of it are on record"),
        false => format!("{grown}; unique, no other plant is like it"),
    }
}

/// A seedling that came as one. Whoever raised it may have kept a piece, so it is not called unique.
fn raised_by_an_unknown(of: Offered, pieces: usize) -> String {
    let cross = of.registry.cross_of(of.plant);
    let claimed =
        cross.is_some_and(|of_plant| of.registry[of_plant].page.confidence == Confidence::Claim);
    let what = if claimed {
        "a seedling, as claimed"
    } else {
        "a seedling"
    };
    let on_record = match pieces > 1 {
        true => format!("; {pieces} pieces of it are on record"),
        false => String::new(),
    };
    format!("{what}; who raised it is not recorded{on_record}")
}

fn received(form: ReceivedAs) -> &'static str {
    match form {
        ReceivedAs::Seed => "received as seed and raised here; unique",
        ReceivedAs::Seedling => "received as a seedling",
        ReceivedAs::Cutting => "received as a cutting of another grower's plant",
        ReceivedAs::Division => "received as a division of another grower's plant",
        ReceivedAs::LabPlant => {
            "received as a plant from a laboratory; others may have the same genes"
        }
        ReceivedAs::Plant => "received as a grown plant",
    }
}
