//! The parents of a plant by their codes, short enough for a tag and no surer than the record.

use crate::evidence::{Direction, Doubt, Evidence, Statement, Strength, Unit};
use crate::registry::{KnownBy, Origin, PlantRow, Registry};
use crate::wording::each_once;

/// Most parents of one side that are named one by one.
const MOST_NAMED: usize = 3;

/// `X18-01-4 × Spa1`, with what is uncertain in words; `None` for a plant or tray whose parents are not recorded, or known by a
/// label only.
pub fn parents_by_code(evidence: &Evidence, unit: Unit) -> Option<String> {
    let registry = evidence.registry();
    let origin = &registry[unit.origin(registry)?];
    let by_label = |row: &PlantRow| {
        let unseen = registry.unseen(*row);
        unseen.is_some_and(|unseen| unseen.known_by == KnownBy::Label)
    };
    // The name says all that such a label does.
    if origin.parents().iter().all(by_label) && !origin.parents().is_empty() {
        return None;
    }
    let own = evidence.statement(unit)?;
    let is_open = own
        .doubts
        .iter()
        .any(|(_, of)| matches!(of, Doubt::Open(_)));
    let code = |row: Option<PlantRow>, unknown: &str| {
        row.map_or_else(|| unknown.to_owned(), |row| known_as(registry, row))
    };
    let seeds = each_once(origin.pairs.iter().map(|pair| code(pair.seed, "?")));
    let unknown = if is_open { "open pollinated" } else { "?" };
    let pollens = each_once(origin.pairs.iter().map(|pair| code(pair.pollen, unknown)));
    // Of several crosses one may have mixed pollen: what is of one of them has one father of either.
    let is_mixed = own.crosses.len() < 2
        && own
            .doubts
            .iter()
            .any(|(_, of)| matches!(of, Doubt::Mixed(_)));
    let crossed = match (seeds.len(), pollens.len()) {
        (1, _) | (_, 1) => format!(
            "{} × {}",
            one_side(&seeds, false),
            one_side(&pollens, is_mixed)
        ),
        _ => one_of_pairs(origin, |row| code(row, "?")),
    };
    let direction = match own.direction {
        Direction::Known => "",
        Direction::Assumed => " (seed parent assumed first)",
        Direction::Lost => " (direction not known)",
    };
    Some(format!("{crossed}{direction}{}", doubt(&own)))
}

/// One side of a cross: a code, those that may be it, or those whose pollen was mixed.
fn one_side(codes: &[String], is_mixed: bool) -> String {
    match (codes, is_mixed) {
        ([one], _) => one.clone(),
        (some, true) if some.len() <= MOST_NAMED => format!("mixed ({})", some.join(" + ")),
        (some, false) if some.len() <= MOST_NAMED => format!("({})", some.join(" or ")),
        (many, true) => format!("mixed pollen of {}", many.len()),
        (many, false) => format!("one of {}", many.len()),
    }
}

/// A plant has one pair of them, however its pod was made.
fn one_of_pairs(origin: &Origin, code: impl Fn(Option<PlantRow>) -> String) -> String {
    if origin.pairs.len() > MOST_NAMED {
        return format!("one of {} pairs of parents", origin.pairs.len());
    }
    let pairs = origin.pairs.iter();
    let pairs = pairs.map(|pair| format!("{} × {}", code(pair.seed), code(pair.pollen)));
    format!("one of {}", pairs.collect::<Vec<_>>().join(" or "))
}

/// The code, or what is known of a parent without one.
pub fn known_as(registry: &Registry, plant: PlantRow) -> String {
    match registry.unseen(plant).map(|unseen| unseen.known_by) {
        None => registry.code(plant),
        Some(KnownBy::Species(epithet)) => format!("some {epithet}"),
        Some(KnownBy::SeedlingOf(cross)) => {
            format!("some {}", registry[cross].page.code)
        }
        Some(KnownBy::Label) => "a plant known by its label".to_owned(),
    }
}

/// What the codes alone do not show.
fn doubt(own: &Statement) -> &'static str {
    let doubts = || own.doubts.iter();
    match own.strength() {
        Strength::Claimed => " (claimed)",
        _ if doubts().any(|(_, doubt)| matches!(doubt, Doubt::Unread(_))) => " (parents in doubt)",
        // Stray pollen is said also where more than that is open.
        _ if doubts().any(|(_, doubt)| doubt.leaves_father_probable()) => " (father probable)",
        _ => "",
    }
}
