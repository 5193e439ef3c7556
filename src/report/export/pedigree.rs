//! A pedigree in three columns, and a fourth that says how the parents are known or why a column is empty.

use super::table::ExportTable;
use crate::analysis::export::{KnownParents, known_parents};
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::lineage::PlantRow;
use crate::registry::{KnownBy, OriginRow, PlantKind, PodRow};
use crate::report::table::Table;
use crate::wording::counted;
use std::collections::HashMap;
use std::rc::Rc;

/// What stands in the fourth column of a founder.
const FOUNDER: &str = "founder, parents not recorded";

/// The pedigree of plants in the order of the registry, so that parents stand above their offspring. Parents without a
/// record of their own, such as "some maxima", are told in the fourth column and have no row.
pub fn pedigree_table(context: &Context, plants: &[PlantRow]) -> ExportTable {
    let evidence = context.evidence();
    let registry = evidence.registry();
    let mut shared = HashMap::new();
    let seen = plants
        .iter()
        .filter(|plant| registry.kind(**plant) != PlantKind::Unseen);
    let rows: Vec<_> = seen
        .map(|&plant| (plant, parents(evidence, plant, &mut shared)))
        .collect();
    let side = |parent: Option<PlantRow>| parent.map(|row| registry.code(row));
    let table: Table = Table::of(&rows)
        .text("plant", |(plant, _)| registry.code(*plant))
        .text("seed parent", |(_, of)| side(of.as_ref()?.known.seed))
        .text("pollen parent", |(_, of)| side(of.as_ref()?.known.pollen))
        .text("how known", |(_, of)| {
            of.as_ref().map_or(FOUNDER, |of| &of.words)
        })
        .into();
    let known = rows.iter().filter_map(|(_, of)| of.as_ref());
    let empty = |of: &Rc<Shared>| {
        [of.known.seed, of.known.pollen]
            .iter()
            .filter(|side| side.is_none())
            .count()
    };
    let empty: usize = known.map(empty).sum();
    let plants = counted(table.rows.len(), "plant", "plants");
    let left_empty = match empty {
        0 => "no parent left empty".to_owned(),
        empty => format!(
            "{} left empty, the last column says why",
            counted(empty, "parent", "parents")
        ),
    };
    ExportTable {
        remarks: vec![format!("{plants}; {left_empty}")],
        table,
    }
}

/// What the plants of one origin and pod share.
struct Shared {
    known: KnownParents,
    words: String,
}

/// The parents of a plant and how they are known; none for a founder.
fn parents(
    evidence: &Evidence,
    plant: PlantRow,
    shared: &mut HashMap<(OriginRow, Option<PodRow>), Rc<Shared>>,
) -> Option<Rc<Shared>> {
    let registry = evidence.registry();
    let origin = registry.origin_of(plant)?;
    let new = || {
        let known = known_parents(evidence, plant);
        let words = words(evidence, plant, &known);
        Rc::new(Shared { known, words })
    };
    Some(match registry.pods_it_may_be_of(plant).is_empty() {
        true => {
            let key = (origin, registry.road(plant).1);
            shared.entry(key).or_insert_with(new).clone()
        }
        false => new(),
    })
}

fn words(evidence: &Evidence, plant: PlantRow, known: &KnownParents) -> String {
    let registry = evidence.registry();
    let own = evidence.own(Unit::Plant(plant));
    let species = |row: &&PlantRow| {
        let unseen = registry.unseen(**row);
        unseen.is_some_and(|of| matches!(of.known_by, KnownBy::Species(_)))
    };
    // A label and a lost number have been told by then; a species that stands for a plant has not.
    let nameless = known.without_record.iter().filter(species);
    let nameless = nameless.map(|&row| format!("no plant on record: {}", registry.code(row)));
    own.into_iter()
        .chain(nameless)
        .collect::<Vec<_>>()
        .join("; ")
}
