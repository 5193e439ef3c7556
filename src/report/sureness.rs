//! How surely a name is known: what its own page says of the parents, and the weakest statement behind it.

use super::road::pods_it_may_be_of;
use crate::naming::recorded::{Names, TopOf};
use crate::record::Confidence;
use crate::registry::{PlantRow, Registry};

/// A confidence in the trade's words.
pub fn confidence_words(confidence: Confidence) -> &'static str {
    match confidence {
        Confidence::Witnessed => "witnessed",
        Confidence::Tag => "by the tag",
        Confidence::Claim => "by somebody's word",
        Confidence::OneOfSeveral => "one of several",
        Confidence::Unknown => "not said how it is known",
    }
}

/// What a name rests on: how the parentage of the plant is known, and the weakest link behind it.
pub fn rests_on(registry: &Registry, names: &Names, top: TopOf) -> String {
    let cross = match top {
        TopOf::Cross(cross) => Some(cross),
        TopOf::Plant(plant) => registry.cross_of(plant),
    };
    let own = match (cross, top) {
        (Some(_), TopOf::Plant(plant)) if possible_crosses(registry, plant).len() > 1 => {
            let of: Vec<String> = possible_crosses(registry, plant)
                .into_iter()
                .map(|cross| format!("of {}", registry.crosses[cross as usize].page.code))
                .collect();
            format!("parents one of several, {}", of.join(" or "))
        }
        (Some(cross), _) => match registry.crosses[cross as usize].page.confidence {
            Confidence::Unknown => "how the parents are known is not said".to_owned(),
            confidence => format!("parents {}", confidence_words(confidence)),
        },
        (None, TopOf::Plant(plant)) => match names.founder(plant) {
            Some(founder) if founder.refused.is_some() => {
                "the received name could not be read".to_owned()
            }
            Some(founder) if founder.identified => {
                format!(
                    "identified as \"{}\", {}",
                    founder.label,
                    confidence_words(founder.confidence)
                )
            }
            Some(founder) => format!("name as received, {}", confidence_words(founder.confidence)),
            None => "named only as a parent, never seen here".to_owned(),
        },
        (None, TopOf::Cross(_)) => String::new(),
    };
    let start: Vec<PlantRow> = match top {
        TopOf::Plant(plant) => vec![plant],
        TopOf::Cross(cross) => registry.origins()[registry.crosses[cross as usize].origin as usize]
            .pairs
            .iter()
            .flat_map(|pair| [pair.seed, pair.pollen])
            .flatten()
            .collect(),
    };
    let pages = match top {
        TopOf::Plant(plant) => possible_crosses(registry, plant),
        TopOf::Cross(_) => Vec::new(),
    };
    match weakest(registry, names, &start, &pages) {
        Some((confidence, code)) => format!(
            "{own}; weakest behind it: {code}, {}",
            confidence_words(confidence)
        ),
        None => own,
    }
}

/// The crosses a seedling from a muddled tray may be of; none for a plant whose cross is certain.
fn possible_crosses(registry: &Registry, plant: PlantRow) -> Vec<u32> {
    let pods = pods_it_may_be_of(registry, plant).into_iter();
    let mut crosses: Vec<u32> = pods.map(|(cross, _)| cross).collect();
    crosses.sort_unstable();
    crosses.dedup();
    if crosses.len() > 1 {
        crosses
    } else {
        Vec::new()
    }
}

/// The least certain statement among the ancestors of a plant, when it is less than a tag.
fn weakest(
    registry: &Registry,
    names: &Names,
    start: &[PlantRow],
    pages: &[u32],
) -> Option<(Confidence, String)> {
    let of_page = |cross: u32| {
        let page = &registry.crosses[cross as usize].page;
        (page.confidence, page.code.to_owned())
    };
    let above = names.lineage().pedigree.with_ancestors(start);
    let behind = above
        .into_iter()
        .filter(|plant| !start.contains(plant) || start.len() > 1);
    // Of a parent nobody saw we know what its cross page says, and as surely as it says it.
    let page_of = |plant: PlantRow| {
        let unseen = registry.unseen(plant).map(|unseen| unseen.cross);
        registry.cross_of(plant).or(unseen)
    };
    let sure = |plant: PlantRow| match page_of(plant) {
        Some(cross) => of_page(cross),
        None => {
            let confidence = names
                .founder(plant)
                .map_or(Confidence::Unknown, |founder| founder.confidence);
            (confidence, registry.code(plant))
        }
    };
    let least = behind
        .map(sure)
        .chain(pages.iter().map(|&cross| of_page(cross)))
        .max_by(|a, b| a.0.cmp(&b.0).then_with(|| b.1.cmp(&a.1)))?;
    (least.0 > Confidence::Tag).then_some(least)
}
