//! Do the sexes seen agree with each other and with the parts the plants played?
//!
//! Open flowers are certain. Buds, a leaf test and a supplier's word are not: they give a warning at most.

use super::ground::Ground;
use super::parents::{Parent, parents};
use crate::diagnostic::{Code, Finding, Severity};
use crate::record::{Flowering, PollenSource, SeenBy, Sex};
use crate::registry::PlantRow;
use crate::text::{FileId, Span};

/// The sex a plant was seen with: how surely, and by which flowering.
#[derive(Clone, Copy)]
struct Seen {
    sex: Sex,
    sure: bool,
    flowering: usize,
}

fn word(sex: Sex) -> &'static str {
    match sex {
        Sex::Female => "female",
        Sex::Male => "male",
    }
}

fn seen(at: usize, flowering: &Flowering) -> Option<Seen> {
    Some(Seen {
        sex: flowering.sex?,
        sure: flowering.seen_by == SeenBy::Flowers,
        flowering: at,
    })
}

/// The first sex seen surely, or else the first guessed; `None` when none was seen, or the flowers contradict each
/// other, which is told elsewhere.
fn sex_of(ground: &Ground, plant: PlantRow) -> Option<Seen> {
    let flowerings = ground.registry.flowerings(plant).iter().enumerate();
    let all: Vec<Seen> = flowerings.filter_map(|(at, f)| seen(at, f)).collect();
    let sure: Vec<Seen> = all.iter().copied().filter(|seen| seen.sure).collect();
    let told = if sure.is_empty() { &all } else { &sure };
    let first = *told.first()?;
    told.iter()
        .all(|seen| seen.sex == first.sex)
        .then_some(first)
}

/// Where the sex of a flowering is written.
fn place(ground: &Ground, plant: PlantRow, flowering: usize) -> Option<Span> {
    let anchor = ground.anchor(plant)?;
    ground.field(anchor, &format!("flowerings[{flowering}].sex"))
}

fn how(seen_by: SeenBy) -> &'static str {
    match seen_by {
        SeenBy::Flowers => "open flowers",
        SeenBy::Buds => "buds",
        SeenBy::LeafTest => "a leaf test",
        SeenBy::Supplier => "the supplier's word",
    }
}

/// The first seen and the first of the other sex.
fn two_sexes(all: &[Seen]) -> Option<(Seen, Seen)> {
    let first = *all.first()?;
    let other = all.iter().find(|seen| seen.sex != first.sex)?;
    Some((first, *other))
}

/// Whether the flowerings of a plant contradict each other.
pub(super) fn of_plant(ground: &Ground, plant: PlantRow) -> Vec<Finding> {
    let flowerings = ground.registry.flowerings(plant);
    let seen = flowerings.iter().enumerate();
    let all: Vec<Seen> = seen.filter_map(|(at, f)| self::seen(at, f)).collect();
    let sure: Vec<Seen> = all.iter().copied().filter(|seen| seen.sure).collect();
    let Some((first, other)) = two_sexes(&sure).or_else(|| two_sexes(&all)) else {
        return Vec::new();
    };
    let code = ground.registry.code(plant);
    let guesses = [first, other].iter().filter(|seen| !seen.sure).count();
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
    let tell = |seen: Seen| {
        let by = how(flowerings[seen.flowering].seen_by);
        format!("{} by {by}", word(seen.sex))
    };
    let mut finding = Finding::new(severity, Code("sex-contradicted"), title)
        .at(place(ground, plant, other.flowering))
        .found(format!("{}, and before {}", tell(other), tell(first)))
        .needed("one sex for a plant and all its ramets");
    if guesses < 1 {
        finding = finding
            .help("check the label first: two plants may have been swapped")
            .help("a guess from buds, a test or a supplier's word is written as `seen_by`");
    }
    if let Some(before) = place(ground, plant, first.flowering) {
        finding = finding.related(before, "seen here before");
    }
    vec![finding]
}

/// Whether a seed parent was seen male, or a pollen parent female.
pub(super) fn of_cross(ground: &Ground, cross: usize) -> Vec<Finding> {
    let file = ground.cross(cross).file;
    let all = parents(ground.page(cross));
    let mut found: Vec<Finding> = Vec::new();
    if let crate::record::Parents::DirectionLost(_) = ground.page(cross).parents {
        found.extend(same_sex(ground, file, &all));
        return found;
    }
    for parent in &all {
        if let Some(plant) = ground.plant(parent.code) {
            found.extend(wrong_part(ground, file, parent, plant));
        }
    }
    found
}

fn wrong_part(ground: &Ground, file: FileId, parent: &Parent, plant: PlantRow) -> Option<Finding> {
    let seen = sex_of(ground, plant)?;
    let needed = if parent.bore_the_seed {
        Sex::Female
    } else {
        Sex::Male
    };
    if seen.sex == needed {
        return None;
    }
    let severity = if seen.sure && parent.certain {
        Severity::Fault
    } else {
        Severity::Warning
    };
    let (code, part) = if parent.bore_the_seed {
        (Code("male-seed-parent"), "seed parent")
    } else {
        (Code("female-pollen-parent"), "pollen parent")
    };
    let by = how(ground.registry.flowerings(plant)[seen.flowering].seen_by);
    let title = format!("the {part} {} was seen {}", parent.code, word(seen.sex));
    let finding = Finding::new(severity, code, title)
        .at(ground.span(file, parent.code))
        .found(format!("{} by {by}", word(seen.sex)))
        .needed(format!("a {} plant as {part}", word(needed)))
        .help("were the two parents written the wrong way round, or two labels swapped?");
    let finding = if parent.certain {
        finding
    } else {
        finding.help("it cannot be the one: take it out of the candidates if you are sure")
    };
    Some(match place(ground, plant, seen.flowering) {
        Some(seen) => finding.related(seen, "seen here"),
        None => finding,
    })
}

/// Two parents of one sex, whichever bore the seed.
fn same_sex(ground: &Ground, file: FileId, all: &[Parent]) -> Option<Finding> {
    let [one, other] = all else { return None };
    let (a, b) = (ground.plant(one.code)?, ground.plant(other.code)?);
    let (x, y) = (sex_of(ground, a)?, sex_of(ground, b)?);
    if x.sex != y.sex || a == b {
        return None;
    }
    let severity = if x.sure && y.sure {
        Severity::Fault
    } else {
        Severity::Warning
    };
    let title = format!("both parents were seen {}", word(x.sex));
    let finding = Finding::new(severity, Code("parents-of-one-sex"), title)
        .at(ground.span(file, one.code))
        .found(format!("{} and {}", one.code, other.code))
        .needed("a female and a male plant")
        .help("check the labels of both");
    Some(match place(ground, b, y.flowering) {
        Some(seen) => finding.related(seen, "seen here"),
        None => finding,
    })
}

/// Whether pollen was taken from a plant seen female.
pub(super) fn of_pollen(ground: &Ground) -> Vec<Finding> {
    let Some(file) = ground.registry.pollen_file else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for lot in &ground.registry.pollen {
        let (codes, certain) = match &lot.from {
            PollenSource::Plant(code) => (vec![*code], true),
            PollenSource::OneOf(codes) => (codes.clone(), false),
            PollenSource::Mixed(codes) => (codes.clone(), true),
            PollenSource::Unknown => continue,
        };
        for code in codes {
            let Some(plant) = ground.plant(code) else {
                continue;
            };
            let Some(seen) = sex_of(ground, plant).filter(|seen| seen.sex == Sex::Female) else {
                continue;
            };
            let severity = if seen.sure && certain {
                Severity::Fault
            } else {
                Severity::Warning
            };
            let finding = Finding::new(
                severity,
                Code("pollen-of-a-female"),
                format!(
                    "the pollen {} is said to be of {code}, which was seen female",
                    lot.code
                ),
            )
            .at(ground.span(file, code))
            .found(format!("pollen of {code}"))
            .needed("pollen of a plant seen male")
            .help("re-read the envelope and the plant's label");
            found.push(match place(ground, plant, seen.flowering) {
                Some(seen) => finding.related(seen, "seen here"),
                None => finding,
            });
        }
    }
    found
}
