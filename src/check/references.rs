//! Do ramets, flowerings, pollinations, community pots and mix-ups name records there are?
//!
//! Parents, pods, sowings, community pots and plants in sittings are looked up when the registry is built.

use super::context::{Anchor, CheckContext};
use super::flowerings::bearers;
use crate::diagnostic::{Code, Finding, Severity};
use crate::record::{Muddle, Parents, Pollination, parents};
use crate::registry::{CrossRow, PlantRow, Target, ids};
use crate::text::FileId;
use std::collections::BTreeMap;

/// A code that names no plant, or one that was left out because of a fault of its own. Of the codes near it only those
/// that may stand there are offered.
pub(super) fn unknown_plant(
    context: &CheckContext,
    (file, code): (FileId, &str),
    may_stand: impl Fn(Target) -> bool,
) -> Finding {
    if let Some(note) = context.registry.left_out("plant", code, file) {
        return note;
    }
    let near = context.registry.near(code).into_iter();
    Finding::fault(Code("unknown-plant"), format!("there is no plant `{code}`"))
        .at(context.span(file, code))
        .found(format!("`{code}`"))
        .needed("the code of a plant on record")
        .did_you_mean(near.filter(|near| context.registry.target(near).is_some_and(&may_stand)))
}

/// The plant named in a pollination, and pods named by community pots.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let page = context.page(cross);
    let file = context.cross(cross).file;
    let mut found = Vec::new();
    for parent in parents(page) {
        found.extend(lost_ramet(context, file, parent.code));
    }
    for pollination in &page.pollinations {
        if let Some(code) = pollination.plant {
            found.extend(of_mother(context, file, code));
        }
    }
    found.extend(of_near(context, cross));
    found.extend(
        page.pollinations
            .iter()
            .filter_map(|of| lost_spike(context, cross, of)),
    );
    let is_own = page.told_by.is_none();
    for community_pot in &page.community_pots {
        let muddled = community_pot.muddled.iter().filter(|_| is_own);
        found.extend(mixed_up_with(context, file, muddled));
        for pod in &community_pot.one_of {
            let local = page.pods.iter().any(|own| own.code == *pod);
            let other = matches!(context.registry.target(pod), Some(Target::Pod(..)));
            if !local && !other {
                let pods = page.pods.iter().map(|pod| pod.code);
                found.push(context.registry.unknown("pod", (file, pod), pods));
            }
        }
    }
    found
}

/// Plants named as shedding pollen near an open pollination.
fn of_near(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let Parents::Open { near, .. } = &context.page(cross).parents else {
        return Vec::new();
    };
    let file = context.cross(cross).file;
    let may_shed = |of: Target| {
        matches!(
            of,
            Target::Plant(_) | Target::Ramet(..) | Target::Cross(_) | Target::Species(_)
        )
    };
    let named = |code: &&&str| context.registry.target(code).is_some_and(may_shed);
    let lost = near.iter().filter(|code| !named(code));
    lost.map(|code| unknown_plant(context, (file, code), may_shed))
        .collect()
}

/// The spike a pollination names, when no flowering of the plant has that code.
fn lost_spike(
    context: &CheckContext,
    cross: CrossRow,
    pollination: &Pollination,
) -> Option<Finding> {
    let spike = pollination.spike?;
    let mothers = bearers(context, cross, pollination)?;
    let codes = mothers
        .iter()
        .flat_map(|&plant| context.registry.flowerings(plant));
    let codes: Vec<&str> = codes.filter_map(|flowering| flowering.code).collect();
    if mothers.is_empty() || codes.contains(&spike) {
        return None;
    }
    let (registry, file) = (context.registry, context.cross(cross).file);
    let left_out = mothers.iter().find_map(|&mother| {
        let whole = format!("{}-{spike}", registry.code(mother));
        let note = registry.left_out("spike", &whole, file)?;
        Some(note.at(context.span(file, spike)))
    });
    let unknown = || registry.unknown("spike", (file, spike), codes.into_iter());
    Some(left_out.unwrap_or_else(unknown))
}

/// A code that names a plant on record, and a ramet it does not have.
pub(super) fn lost_ramet(context: &CheckContext, file: FileId, code: &str) -> Option<Finding> {
    let code = code.trim();
    if context.registry.target(code).is_some() {
        return None;
    }
    let plant = context.plant(code)?;
    Some(unknown_ramet(context, plant, (file, code)))
}

/// The plant or ramet that was pollinated.
fn of_mother(context: &CheckContext, file: FileId, code: &str) -> Option<Finding> {
    match context.registry.target(code) {
        Some(Target::Plant(_) | Target::Ramet(..)) => None,
        _ => Some(match context.plant(code) {
            Some(plant) => unknown_ramet(context, plant, (file, code)),
            None => unknown_plant(context, (file, code), is_plant),
        }),
    }
}

fn is_plant(target: Target) -> bool {
    target.plant().is_some()
}

fn unknown_ramet(context: &CheckContext, plant: PlantRow, (file, code): (FileId, &str)) -> Finding {
    let registry = context.registry;
    let ramets = registry.ramets(plant).iter().map(|ramet| ramet.code);
    let piece = code.rsplit('-').next().unwrap_or(code);
    let whole = format!("{}-{piece}", registry.code(plant));
    match registry.left_out("piece", &whole, file) {
        Some(note) => note.at(context.span(file, code)),
        None => registry.unknown("piece", (file, code), ramets),
    }
}

/// What plants and pots that are still mixed up name as the others. A warning: a lineage is handed over without them.
fn mixed_up_with<'m, 't: 'm>(
    context: &CheckContext,
    file: FileId,
    muddled: impl Iterator<Item = &'m Muddle<'t>>,
) -> Vec<Finding> {
    let may_be = |of: Target| is_plant(of) || matches!(of, Target::CommunityPot(_));
    let open = muddled.filter(|muddle| muddle.settled.is_none());
    let named = open.flat_map(|muddle| &muddle.with);
    let lost = named.filter(|code| !context.registry.target(code).is_some_and(may_be));
    lost.map(|code| {
        let of = unknown_plant(context, (file, code), may_be);
        let severity = of.severity.min(Severity::Warning);
        Finding { severity, ..of }
    })
    .collect()
}

/// Codes of ramets: sound, each once, each taken from one there is.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let Some(Anchor { file, .. }) = context.anchor(plant) else {
        return Vec::new();
    };
    let ramets = context.registry.ramets(plant);
    let own = context.registry.seedling(plant);
    let own = own.filter(|_| context.registry.told_by(plant).is_none());
    let mut found = mixed_up_with(
        context,
        file,
        own.into_iter().flat_map(|of| of.muddled.iter()),
    );
    let mut first: BTreeMap<&str, &str> = BTreeMap::new();
    for ramet in ramets {
        if !ids::is_ramet_code(ramet.code) {
            found.push(bad_ramet_code(ramet.code).at(context.span(file, ramet.code)));
        } else if let Some(before) = first.insert(ramet.code, ramet.code) {
            found.push(twice(context, file, before, ramet.code));
        }
        found.extend(code_of_another(context, file, (plant, ramet.code)));
    }
    let flowered = context.registry.flowerings(plant).iter();
    let named = ramets
        .iter()
        .filter_map(|ramet| ramet.from)
        .chain(flowered.filter_map(|flowering| flowering.ramet));
    for code in named {
        if !first.contains_key(code) {
            found.push(unknown_ramet(context, plant, (file, code)));
        }
    }
    for ramet in ramets.iter().filter(|ramet| ramet.from == Some(ramet.code)) {
        found.push(
            Finding::fault(
                Code("ramet-of-itself"),
                "this piece is said to be cut from itself",
            )
            .at(context.span(file, ramet.from.unwrap_or(ramet.code)))
            .found(format!("`{}`", ramet.code))
            .needed("the piece it was cut from, or nothing"),
        );
    }
    found
}

/// A plant of its own that has the code of a piece: what is recorded under the code is recorded of that plant.
fn code_of_another(
    context: &CheckContext,
    file: FileId,
    (plant, ramet): (PlantRow, &str),
) -> Option<Finding> {
    let registry = context.registry;
    let code = format!("{}-{ramet}", registry.code(plant));
    let other = registry.plant(&code)?;
    let finding = Finding::fault(
        Code("repeated-code"),
        format!("{code} is a piece and a plant of its own"),
    )
    .at(context.span(file, ramet))
    .found("a code that another plant has")
    .needed("each plant and each piece under a code of its own")
    .help("read both tags, and give one of the two another code: what is recorded under it goes to the plant");
    Some(finding.related(registry.place(other), "the plant of that code"))
}

fn bad_ramet_code(code: &str) -> Finding {
    Finding::fault(Code("bad-code"), "this cannot be the code of a piece")
        .found(format!("`{code}`"))
        .needed("a code that begins with a letter, such as `a` or `b2`")
        .help("numbers are for seedlings, letters for pieces, so that the two are never mixed up")
}

fn twice(context: &CheckContext, file: FileId, first: &str, second: &str) -> Finding {
    Finding::fault(
        Code("repeated-code"),
        format!("piece `{second}` is recorded twice"),
    )
    .at(context.span(file, second))
    .found("a code already given")
    .needed("each piece under a letter of its own")
    .help("give one of the two another letter, and re-read its tag first")
    .related(context.span(file, first), "first given here")
}
