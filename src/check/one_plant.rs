//! Are both parents one plant? *Nepenthes* is dioecious: ramets of one plant are of one sex.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding, Severity};
use crate::record::Parents;
use crate::registry::CrossRow;

/// A cross whose two parents are, or may be, one plant.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let pairs: Vec<(&str, &str)> = match &context.page(cross).parents {
        Parents::Known { seed, pollen } => vec![(seed, pollen)],
        Parents::DirectionLost((a, b)) => vec![(a, b)],
        Parents::PollenOneOf { seed, pollen, .. } | Parents::PollenMixed { seed, pollen, .. } => {
            pollen.iter().map(|pollen| (*seed, *pollen)).collect()
        }
        Parents::SeedOneOf { seed, pollen } => seed.iter().map(|seed| (*seed, *pollen)).collect(),
        Parents::OneOfPairs(pairs) => pairs.iter().map(|pair| (pair.seed, pair.pollen)).collect(),
        _ => Vec::new(),
    };
    let certain = pairs.len() == 1;
    let one_plant = |(a, b): &&(&str, &str)| {
        let plant = context.plant(a);
        plant.is_some() && plant == context.plant(b)
    };
    let same = pairs.iter().filter(one_plant);
    same.map(|(seed, pollen)| told(context, cross, (seed, pollen), certain))
        .collect()
}

fn told(
    context: &CheckContext,
    cross: CrossRow,
    (seed, pollen): (&str, &str),
    certain: bool,
) -> Finding {
    let severity = if certain {
        Severity::Fault
    } else {
        Severity::Warning
    };
    let title = if seed.trim() == pollen.trim() {
        format!("{} is both parents", seed.trim())
    } else {
        "both parents are pieces of one plant".to_owned()
    };
    let finding = Finding::new(severity, Code("one-plant-both-parents"), title)
        .at(context.span(context.cross(cross).file, pollen))
        .found(format!("{seed} and {pollen}"))
        .needed("two plants: one plant and all its pieces are of one sex")
        .help("if the pollen came from a sibling or another clone, write that plant");
    if certain {
        finding
    } else {
        finding.help("take this candidate out, since it cannot be the one")
    }
}
