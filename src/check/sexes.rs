//! Do the sexes seen agree with each other and with the parts the plants played?
//!
//! Which sex a plant showed, and how surely, is decided by `observation`: a guess gives a warning at most.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding, Severity};
use crate::observation::sex::is_of_before_a_mix_up;
use crate::observation::{Sighting, sighting, sighting_of};
use crate::record::{Parent, PollenSource, SeenBy, Sex, parents};
use crate::registry::{CrossRow, PlantRow};
use crate::text::{FileId, Span};

/// Where the sex of a flowering is written.
fn place(context: &CheckContext, plant: PlantRow, flowering: usize) -> Option<Span> {
    let anchor = context.anchor(plant)?;
    context.field(anchor, &format!("flowerings[{flowering}].sex"))
}

/// `male by buds`; how it is known.
fn sex_and_how(seen: Sighting) -> String {
    let sex = seen.sex.word();
    match seen.seen_by {
        SeenBy::Flowers => format!("{sex} by open flowers"),
        SeenBy::Buds => format!("{sex} by buds"),
        SeenBy::LeafTest => format!("{sex} by a leaf test"),
        SeenBy::Supplier => format!("{sex}, claimed by the supplier"),
        SeenBy::Unsaid => format!("{sex}, not recorded how seen"),
    }
}

/// The first seen and the first of the other sex.
fn two_sexes(all: &[Sighting]) -> Option<(Sighting, Sighting)> {
    let first = *all.first()?;
    let other = all.iter().find(|seen| seen.sex != first.sex)?;
    Some((first, *other))
}

/// Whether what was seen of a plant that is mixed up may be of before that; `None` where it is not mixed up.
fn before_a_mix_up(context: &CheckContext, plant: PlantRow, seen: Sighting) -> Option<bool> {
    let flowering = &context.registry.flowerings(plant)[seen.flowering];
    is_of_before_a_mix_up(context.registry, plant, flowering)
}

/// What decides the sex of a parent. What a pot showed since a mix-up says nothing of the plant that bore its code before.
fn decides(context: &CheckContext, plant: PlantRow) -> Option<Sighting> {
    let seen = sighting_of(context.registry, plant)?;
    (before_a_mix_up(context, plant, seen) != Some(false)).then_some(seen)
}

/// Whether the flowerings of a plant contradict each other.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let flowerings = context.registry.flowerings(plant);
    let seen = flowerings.iter().enumerate();
    let of_it = |of: &Sighting| before_a_mix_up(context, plant, *of) != Some(true);
    let all = seen.filter_map(|(at, f)| sighting(at, f)).filter(of_it);
    let all: Vec<Sighting> = all.collect();
    let sure: Vec<Sighting> = all.iter().copied().filter(Sighting::is_certain).collect();
    let Some((first, other)) = two_sexes(&sure).or_else(|| two_sexes(&all)) else {
        return Vec::new();
    };
    let code = context.registry.code(plant);
    let guesses = [first, other]
        .iter()
        .filter(|seen| !seen.is_certain())
        .count();
    let (severity, title) = match guesses {
        0 => (Severity::Fault, format!("{code} was seen as both sexes")),
        1 => (
            Severity::Note,
            format!("a guess at the sex of {code} was overruled"),
        ),
        _ => (
            Severity::Warning,
            format!("two guesses at the sex of {code} differ"),
        ),
    };
    let mut finding = Finding::new(severity, Code("sex-contradicted"), title)
        .at(place(context, plant, other.flowering))
        .found(format!(
            "{}; earlier, {}",
            sex_and_how(other),
            sex_and_how(first)
        ))
        .needed("one sex for a plant and all its pieces");
    if guesses < 1 {
        finding = finding
            .help("check the label first: two plants may have been swapped")
            .help("a guess from buds, a test or a supplier's word is written as `seen_by`");
    }
    finding = finding.related(place(context, plant, first.flowering), "seen here before");
    vec![finding]
}

/// Whether a seed parent was seen male, or a pollen parent female.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let file = context.cross(cross).file;
    let all = parents(context.page(cross));
    let mut found: Vec<Finding> = Vec::new();
    if let crate::record::Parents::DirectionLost(_) = context.page(cross).parents {
        found.extend(same_sex(context, file, &all));
        return found;
    }
    for parent in &all {
        if let Some(plant) = context.plant(parent.code) {
            found.extend(wrong_part(context, file, parent, plant));
        }
    }
    found
}

fn wrong_part(
    context: &CheckContext,
    file: FileId,
    parent: &Parent,
    plant: PlantRow,
) -> Option<Finding> {
    let seen = decides(context, plant)?;
    let needed = if parent.bore_the_seed {
        Sex::Female
    } else {
        Sex::Male
    };
    if seen.sex == needed {
        return None;
    }
    let severity = if seen.is_certain() && parent.certain {
        Severity::Fault
    } else {
        Severity::Warning
    };
    let (code, part) = if parent.bore_the_seed {
        (Code("male-seed-parent"), "seed parent")
    } else {
        (Code("female-pollen-parent"), "pollen parent")
    };
    let (was, here) = seen_or_recorded(seen.is_certain());
    let title = format!("the {part} {} {was} {}", parent.code, seen.sex.word());
    let finding = Finding::new(severity, code, title)
        .at(context.span(file, parent.code))
        .found(sex_and_how(seen))
        .needed(format!("a {} plant as {part}", needed.word()))
        .help("were the parents written the wrong way round, or two labels swapped?");
    let finding = match (parent.certain, seen.is_certain()) {
        (true, _) => finding,
        (false, true) => finding.help("its open flowers rule it out: take it out of the candidates if you are sure of the plant"),
        (false, false) => finding.help("if its flowers prove that sex, it cannot be the one: take it out of the candidates then"),
    };
    Some(finding.related(place(context, plant, seen.flowering), here))
}

/// What a sex that is certain is called, and one that is a guess; then what stands at its place.
fn seen_or_recorded(is_certain: bool) -> (&'static str, &'static str) {
    match is_certain {
        true => ("was seen", "seen here"),
        false => ("is on record as", "recorded here"),
    }
}

/// Two parents of one sex, whichever bore the seed.
fn same_sex(context: &CheckContext, file: FileId, all: &[Parent]) -> Option<Finding> {
    let [one, other] = all else { return None };
    let (a, b) = (context.plant(one.code)?, context.plant(other.code)?);
    let (x, y) = (decides(context, a)?, decides(context, b)?);
    if x.sex != y.sex || a == b {
        return None;
    }
    let severity = if x.is_certain() && y.is_certain() {
        Severity::Fault
    } else {
        Severity::Warning
    };
    let were = match severity {
        Severity::Fault => "were seen",
        _ => "are on record as",
    };
    let (_, here) = seen_or_recorded(y.is_certain());
    let title = format!("both parents {were} {}", x.sex.word());
    Some(
        Finding::new(severity, Code("parents-of-one-sex"), title)
            .at(context.span(file, one.code))
            .found(format!("{} and {}", one.code, other.code))
            .needed("a female and a male plant")
            .help("check the labels of both")
            .related(place(context, b, y.flowering), here),
    )
}

/// Whether pollen was taken from a plant seen female.
pub(super) fn of_pollen(context: &CheckContext) -> Vec<Finding> {
    let Some(file) = context.registry.pollen_file else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for lot in &context.registry.pollen {
        let certain = !matches!(lot.from, PollenSource::OneOf(_));
        for &code in lot.from.codes() {
            let Some(plant) = context.plant(code) else {
                continue;
            };
            let Some(seen) = decides(context, plant).filter(|seen| seen.sex == Sex::Female) else {
                continue;
            };
            let severity = if seen.is_certain() && certain {
                Severity::Fault
            } else {
                Severity::Warning
            };
            let (was, here) = seen_or_recorded(seen.is_certain());
            let finding = Finding::new(
                severity,
                Code("pollen-of-a-female"),
                format!(
                    "the pollen {} is recorded as from {code}, which {was} female",
                    lot.code
                ),
            )
            .at(context.span(file, code))
            .found(format!("pollen of {code}"))
            .needed("pollen of a plant seen male")
            .help("re-read the envelope and the plant's label");
            found.push(finding.related(place(context, plant, seen.flowering), here));
        }
    }
    found
}
