//! What was said of plants when they were sold or given away, and what would be said of them now.

use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::naming::recorded::TopOf;
use crate::naming::{Writing, breeder};
use crate::record::Fate;
use crate::registry::{PlantKind, PlantRow};
use crate::text::one_line;

/// A plant that left with a text that would read differently now.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Changed {
    /// The plant.
    pub plant: PlantRow,
    /// One of its pieces, by its place in the record, when that is what left.
    pub ramet: Option<u32>,
    /// When it left, as written.
    pub on: String,
    /// What was said.
    pub was: String,
    /// What would be said now.
    pub now: String,
}

/// A plant that left; a piece of it by its place in the record, when that is what left.
pub type Left = (PlantRow, Option<u32>);

/// What became of the texts that went along.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Promised {
    /// Those that would read differently, in the order of the plants.
    pub changed: Vec<Changed>,
    /// Texts that still hold.
    pub unchanged: Vec<Left>,
    /// Plants and pieces that left without a text on record.
    pub without: Vec<Left>,
}

impl Promised {
    /// Leaves only some plants; a plant stands for its pieces too.
    pub fn only(&mut self, asked: &[Left]) {
        let is_asked = |&(plant, piece): &Left| {
            let fits = |&(of, part): &Left| of == plant && (part.is_none() || part == piece);
            asked.iter().any(fits)
        };
        self.changed.retain(|of| is_asked(&(of.plant, of.ramet)));
        self.unchanged.retain(is_asked);
        self.without.retain(is_asked);
    }
}

/// The name of a plant in full and how surely its descent is known: what is said of it when it leaves.
pub fn statement(evidence: &Evidence, plant: PlantRow) -> String {
    let names = evidence.names();
    let formula = names.formula(TopOf::Plant(plant), false);
    let name = breeder(&formula, &Writing::plain(names.vocabulary()));
    let name = name.unwrap_or_else(|_| "name not known".to_owned());
    format!("{name}; {}", evidence.sentence(Unit::Plant(plant)))
}

/// Compares what was said with what would be said now.
pub fn promised(context: &Context) -> Promised {
    let evidence = context.evidence();
    let registry = evidence.registry();
    let mut found = Promised::default();
    let plants = registry
        .plants()
        .filter(|plant| registry.kind(*plant) != PlantKind::Unseen);
    for plant in plants {
        let whole = registry.fate(plant).map(|fate| (None, fate));
        let ramets = registry.ramets(plant).iter().enumerate();
        let pieces = ramets.filter_map(|(at, ramet)| Some((Some(at as u32), ramet.fate.as_ref()?)));
        for (ramet, fate) in whole.into_iter().chain(pieces) {
            let (Fate::Sold { on, said, .. } | Fate::Given { on, said, .. }) = fate else {
                continue;
            };
            let Some(was) = said else {
                found.without.push((plant, ramet));
                continue;
            };
            let now = statement(evidence, plant);
            match ***was == *one_line(&now) {
                true => found.unchanged.push((plant, ramet)),
                false => found.changed.push(Changed {
                    plant,
                    ramet,
                    on: (*on).to_owned(),
                    was: was.to_string(),
                    now,
                }),
            }
        }
    }
    found
}
