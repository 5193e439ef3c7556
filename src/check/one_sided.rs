//! Does everything that was mixed up say so, and of which pods it may be?
//!
//! The mix-up counts for all of them, but which pods each may be of stands on its own record.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::record::Muddle;
use crate::registry::{CrossRow, MixUp, MixedUp, PlantRow};

/// What the mix-ups on the record of a seedling leave out.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let seedling = context.registry.seedling(plant);
    let muddled = seedling.map_or(&[][..], |seedling| &seedling.muddled);
    of_record(context, MixedUp::Plant(plant), muddled)
}

/// The same of the community pots of a cross.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let pots = context.registry.community_pots(cross);
    pots.flat_map(|(row, pot)| of_record(context, MixedUp::Pot(row), &pot.muddled))
        .collect()
}

/// What is missing about those that a record names as mixed up with it, and that are not known apart yet.
fn of_record(context: &CheckContext, this: MixedUp, muddled: &[Muddle]) -> Vec<Finding> {
    let registry = context.registry;
    let Some(cross) = this.cross(registry) else {
        return Vec::new();
    };
    let file = registry[cross].file;
    let code = this.code(registry);
    let of_another = registry.may_be_of_another_cross(this);
    let open = muddled.iter().filter(|muddle| muddle.settled.is_none());
    let named = open.flat_map(|muddle| muddle.with.iter().map(move |other| (muddle, *other)));
    let found = named.filter_map(|(muddle, other)| {
        let row = MixedUp::named(registry, other)?;
        let is_same = |of: &&MixUp| of.on == muddle.on && of.with.contains(&code);
        let there = registry.mix_ups_of(row).iter().find(is_same);
        let two = (code.as_str(), other);
        let found = match there {
            Some(of) if !of.is_own => Some(silent(two, muddle.on)),
            Some(of) if of.settled.is_some() && of.with.len() == 1 => Some(settled_there(two)),
            _ if of_another.contains_key(other) => {
                Some(without_pods(two, row.cross(registry) == Some(cross)))
            }
            _ => None,
        };
        found.map(|found| found.at(context.span(file, other)))
    });
    found.collect()
}

fn silent((code, other): (&str, &str), on: &str) -> Finding {
    Finding::warning(
        Code("mix-up-on-one-side"),
        format!("{code} was mixed up with {other}, whose record does not say so"),
    )
    .found(format!("`muddled` on the record of {code} only"))
    .needed("the mix-up on the record of each of them")
    .help(format!(
        "add `muddled: [(on: \"{on}\", with: [\"{code}\"])]` to {other}, and to both `one_of` where they may be of different pods: until then {other} counts as mixed up, but keeps the name of the cross it is recorded under"
    ))
}

fn settled_there((code, other): (&str, &str)) -> Finding {
    Finding::warning(
        Code("mix-up-on-one-side"),
        format!("{code} is still mixed up with {other}, whose record says that this is settled"),
    )
    .found(format!("`settled` on the record of {other} only"))
    .needed("both settled or both open: of two, neither is known without the other")
    .help(format!(
        "if it is known which is which: podbook muddle {code} --settled; if not, take `settled` out of the record of {other}"
    ))
}

fn without_pods((code, other): (&str, &str), is_sibling: bool) -> Finding {
    let which = match is_sibling {
        true => ", which may be of another cross,",
        false => " of another cross,",
    };
    Finding::warning(
        Code("mix-up-without-pods"),
        format!("{code} was mixed up with {other}{which} but names no pods that it may be of"),
    )
    .found(format!("`muddled` without `one_of` on the record of {code}"))
    .needed("`one_of` with the pods that each may be of")
    .help("until then the evidence names both crosses, but name, parentage and kinship follow the cross it is recorded under")
}
