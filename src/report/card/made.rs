//! How a plant or a piece came to be.

use crate::lineage::PlantRow;
use crate::record::{Made, Ramet, ReceivedAs};
use crate::registry::{PlantKind, Registry};

/// `raised from seed here: a seedling, no other plant has its genes`; `None` where it is not recorded.
pub fn made(registry: &Registry, plant: PlantRow, piece: Option<&Ramet>) -> Option<String> {
    let code = registry.code(plant);
    if let Some(piece) = piece {
        let from = piece
            .from
            .map_or_else(|| code.clone(), |from| format!("{code}-{from}"));
        let same = format!("the same genes as {code}");
        let words = match piece.made {
            Some(Made::Cutting) => format!("a rooted cutting of {from}; {same}"),
            Some(Made::Division) => format!("a division of {from}; {same}"),
            Some(Made::Basal) => format!("a basal shoot of {from}; {same}"),
            Some(Made::LabCopy) => format!("a laboratory copy of {from}; {same}"),
            Some(Made::Original) => {
                return whole(registry, plant).map(|words| format!("{words}; the first piece"));
            }
            None => return None,
        };
        let day = |label: &str, on: Option<&str>| on.map(|on| format!("; {label} {on}"));
        let cut = day("cut", piece.cut).unwrap_or_default();
        return Some(format!(
            "{words}{cut}{}",
            day("rooted", piece.rooted).unwrap_or_default()
        ));
    }
    whole(registry, plant)
}

fn whole(registry: &Registry, plant: PlantRow) -> Option<String> {
    if registry.kind(plant) == PlantKind::Seedling {
        let pieces = registry.ramets(plant).len();
        let teller = registry.told_by(plant).map(|told| told.registry);
        let grown = match teller {
            Some(teller) => format!("seed-grown by the grower of the registry {teller}"),
            None => "seed-grown here".to_owned(),
        };
        return Some(match pieces > 1 {
            true => format!("{grown}; {pieces} pieces of it are on record"),
            false => format!("{grown}; unique, no other plant is like it"),
        });
    }
    let form = registry.founder(plant)?.form?;
    let words = match form {
        ReceivedAs::Seed => "received as seed and raised here; unique",
        ReceivedAs::Seedling => "received as a seedling",
        ReceivedAs::Cutting => "received as a cutting of another grower's plant",
        ReceivedAs::Division => "received as a division of another grower's plant",
        ReceivedAs::LabPlant => {
            "received as a plant from a laboratory; others may have the same genes"
        }
        ReceivedAs::Plant => "received as a grown plant",
    };
    Some(words.to_owned())
}
