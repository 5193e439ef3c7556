//! Is the pollen that was used that of the recorded pollen parent?

use super::context::CheckContext;
use super::events::Event;
use super::references::{lost_ramet, unknown_plant};
use crate::diagnostic::{Code, Finding, Severity};
use crate::evidence::{Contents, EnvelopeSays, envelope_says};
use crate::record::{PollenLot, PollenSource, Pollination, parents};
use crate::registry::{CrossRow, Target, Who};
use crate::text::FileId;

/// Envelopes whose plant is not on record.
pub(super) fn of_pollen(context: &CheckContext) -> Vec<Finding> {
    let Some(file) = context.registry.pollen_file else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for lot in &context.registry.pollen {
        for &code in lot.from.codes() {
            if Who::named(context.registry, code).is_none() {
                found.push(unknown_plant(context, (file, code), may_give_pollen));
            }
            found.extend(lost_ramet(context, file, code));
        }
        found.extend(before_it_was_collected(context, file, lot));
        found.extend(thawed_after_the_end(context, file, lot));
    }
    found
}

/// What was done with an envelope before its pollen was collected; only the first of it.
fn before_it_was_collected<'t>(
    context: &CheckContext<'_, 't>,
    file: FileId,
    lot: &PollenLot<'t>,
) -> Option<Finding> {
    let event = |clause, on| Event::new(context, file, clause, on);
    let collected = event("its pollen was collected", lot.collected?)?;
    let thawed = lot.thawed.iter().map(|on| ("the envelope was thawed", *on));
    let finished = lot.finished.map(|on| ("the envelope was finished", on));
    let mut done = thawed
        .chain(finished)
        .filter_map(|(clause, on)| event(clause, on));
    done.find_map(|done| done.must_follow(context, &collected))
}

/// An envelope that was thawed after it was finished.
fn thawed_after_the_end<'t>(
    context: &CheckContext<'_, 't>,
    file: FileId,
    lot: &PollenLot<'t>,
) -> Option<Finding> {
    let finished = Event::new(context, file, "the envelope was finished", lot.finished?)?;
    let thawed = lot.thawed.iter();
    let mut thawed = thawed.filter_map(|on| Event::new(context, file, "it was thawed", on));
    let finding = thawed.find_map(|thawed| finished.must_follow(context, &thawed))?;
    Some(Finding {
        severity: Severity::Warning,
        ..finding
    })
}

/// A plant, a ramet, or some plant of a species or cross.
fn may_give_pollen(target: Target) -> bool {
    use Target::*;
    matches!(target, Plant(_) | Ramet(..) | Species(_) | Cross(_))
}

/// Each pollination's envelope against the pollen parents.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let pollinations = context.page(cross).pollinations.iter();
    pollinations
        .filter_map(|pollination| of_pollination(context, cross, pollination))
        .collect()
}

fn of_pollination(
    context: &CheckContext,
    cross: CrossRow,
    pollination: &Pollination,
) -> Option<Finding> {
    let code = pollination.pollen?;
    let file = context.cross(cross).file;
    let place = context.span(file, code);
    let Some(lot) = context.registry.pollen_lot(code) else {
        let lots = context.registry.pollen.iter().map(|lot| lot.code);
        return Some(context.registry.unknown("pollen lot", (file, code), lots));
    };
    let lot = &context.registry[lot];
    let finding = compare(context, cross, lot)?.at(place);
    let written = parents(context.page(cross));
    let father = written.iter().find(|parent| !parent.bore_the_seed);
    let father = father.and_then(|father| context.span(context.cross(cross).file, father.code));
    Some(finding.related(father, "the recorded pollen parent"))
}

/// What an envelope says against what the parents say.
fn compare(context: &CheckContext, cross: CrossRow, lot: &PollenLot) -> Option<Finding> {
    let says = envelope_says(context.registry, cross, lot);
    let (code, title, needed, help) = match says {
        EnvelopeSays::Agrees => return None,
        EnvelopeSays::Other => (
            Code("other-pollen"),
            "the pollen used is not from the recorded pollen parent",
            "pollen of the pollen parent",
            "which of the two is right: the envelope or the parents? record a second father as a second cross",
        ),
        EnvelopeSays::More => (
            Code("pollen-parent-not-recorded"),
            "the pollen used is known, but the parents name no pollen parent",
            "the plant of the envelope as pollen parent",
            "name the pollen parent if no other pollen can have come in; an uncovered spike can be `open`",
        ),
        EnvelopeSays::Less(Contents::Unknown) => (
            Code("unknown-pollen-used"),
            "pollen from an unknown envelope was used for a named cross",
            "an envelope that names its plant, or `pollen_unknown` as parents",
            "write `pollen_unknown(seed: …)`, or name the plant on the envelope if you know it",
        ),
        EnvelopeSays::Less(Contents::OneOf(_)) => (
            Code("unsure-pollen-used"),
            "the parents are more certain than the envelope",
            "`pollen_one_of` with the same plants as on the envelope",
            "name on the envelope the one plant if you know it, or name all of them as parents",
        ),
        EnvelopeSays::Less(Contents::Mixed(_)) => (
            Code("mixed-pollen-used"),
            "mixed pollen was used, but the parents do not say so",
            "`pollen_mixed` with the plants of the mixture",
            "in a mixture each seed has its own father, so no seedling's father is known",
        ),
    };
    let finding = match says {
        EnvelopeSays::Other => Finding::fault(code, title),
        _ => Finding::warning(code, title),
    };
    let finding = finding.found(format!("{} holds {}", lot.code, contents(lot)));
    Some(finding.needed(needed).help(help))
}

fn contents(lot: &PollenLot) -> String {
    match &lot.from {
        PollenSource::Plant(code) => format!("pollen of {code}"),
        PollenSource::OneOf(codes) => format!("pollen of one of {}", codes.join(", ")),
        PollenSource::Mixed(codes) => format!("mixed pollen of {}", codes.join(", ")),
        PollenSource::Unknown => "pollen of an unknown plant".into(),
    }
}
