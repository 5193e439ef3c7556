//! How a plant or a piece came to be, in words.

use crate::analysis::card::{HowMade, Offered};
use crate::observation::raised::{Raised, raised};
use crate::record::{Confidence, Made, Ramet, ReceivedAs};
use crate::report::plants::copy_word;
use crate::wording::led_by;

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
    let from = format!("{code}{}", led_by("-", piece.from));
    let is_unrooted = made == Made::Cutting && piece.rooted.is_none();
    let what = match made {
        Made::Cutting if !is_unrooted => "rooted cutting",
        made => copy_word(Some(made)).unwrap_or("piece"),
    };
    let (cut, rooted) = (
        led_by("; cut ", piece.cut),
        led_by("; rooted ", piece.rooted),
    );
    let unrooted = match is_unrooted {
        true => "; not recorded as rooted",
        false => "",
    };
    format!("a {what} of {from}; the same genes as {code}{cut}{rooted}{unrooted}")
}

fn seedling(of: Offered) -> String {
    let raised = raised(of.registry, of.plant);
    let grown = match raised {
        Raised::NotRecorded => raised_by_an_unknown(of),
        Raised::ByTeller(registry) => {
            format!("seed-grown by the grower of the registry {registry}")
        }
        Raised::Here => "seed-grown here".to_owned(),
    };
    match of.registry.ramets(of.plant).len() {
        pieces @ 2.. => format!("{grown}; {pieces} pieces of it are on record"),
        // Whoever raised a seedling that came as one may have kept a piece.
        _ if raised == Raised::NotRecorded => grown,
        _ => format!("{grown}; unique, no other plant is like it"),
    }
}

fn raised_by_an_unknown(of: Offered) -> String {
    let cross = of.registry.cross_of(of.plant);
    let cross = cross.map(|cross| &of.registry[cross].page);
    let claimed = match cross.is_some_and(|page| page.confidence == Confidence::Claim) {
        true => ", as claimed",
        false => "",
    };
    format!("a seedling{claimed}; who raised it is not recorded")
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
