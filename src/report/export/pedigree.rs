//! A pedigree in three columns, and a fourth that says how the parents are known or why a column is empty.

use super::table::ExportTable;
use crate::analysis::export::{KnownParents, Shared, known_parents};
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::lineage::PlantRow;
use crate::registry::{KnownBy, PlantKind, Registry};
use crate::report::cell::Cell;
use crate::wording::{counted, joined};

const HEADINGS: [&str; 4] = ["plant", "seed parent", "pollen parent", "how known"];
/// What stands in the fourth column of a founder.
const FOUNDER: &str = "founder, parents not recorded";

/// The pedigree of plants in the order of the registry, so that parents stand above their offspring. Parents without a
/// record of their own, such as "some maxima", are told in the fourth column and have no row.
pub fn pedigree_table<'c>(context: &'c Context, mut plants: Vec<PlantRow>) -> ExportTable<'c> {
    let registry = context.registry;
    plants.retain(|plant| registry.kind(*plant) != PlantKind::Unseen);
    let parents = Shared::of(context.evidence(), &plants, Parents::of);
    let said = said(registry, &plants, &parents);
    let row = move |plant| {
        let of = registry.origin_of(plant).map(|_| parents.by(plant));
        let side = |side: fn(&KnownParents) -> Option<PlantRow>| {
            let parent = of.as_ref().and_then(|of| side(&of.known));
            Cell::from(parent.map(|row| registry.code(row)))
        };
        vec![
            Cell::from(registry.code(plant)),
            side(|known| known.seed),
            side(|known| known.pollen),
            Cell::from(of.as_ref().map_or(FOUNDER, |of| of.words.as_str())),
        ]
    };
    ExportTable::of(HEADINGS, plants, row).remarked(said)
}

/// How many plants it holds, and how many parents are left empty.
fn said(registry: &Registry, plants: &[PlantRow], parents: &Shared<Parents>) -> String {
    let bred = plants
        .iter()
        .filter(|plant| registry.origin_of(**plant).is_some());
    let empty: usize = bred.map(|plant| parents.by(*plant).empty()).sum();
    let left_empty = match empty {
        0 => "no parent left empty".to_owned(),
        empty => format!(
            "{} left empty, the last column says why",
            counted(empty, "parent", "parents")
        ),
    };
    let plants = counted(plants.len(), "plant", "plants");
    format!("{plants}; {left_empty}")
}

/// The parents of a plant and how they are known.
#[derive(Clone)]
struct Parents {
    known: KnownParents,
    words: String,
}

impl Parents {
    fn of(evidence: &Evidence, plant: PlantRow) -> Self {
        let known = known_parents(evidence, plant);
        let words = words(evidence, plant, &known);
        Parents { known, words }
    }

    /// How many of the two are not known as plants.
    fn empty(&self) -> usize {
        let sides = [self.known.seed, self.known.pollen];
        sides.iter().filter(|side| side.is_none()).count()
    }
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
    joined(own.into_iter().chain(nameless), "; ")
}
