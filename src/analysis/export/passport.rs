//! What a garden asks of a plant it takes over: species, how it came to be, its ancestry, and how surely that is known.
//!
//! Plants of one origin and pod share most of this, which is worked out once.

use super::shared::Shared;
use crate::evidence::{Evidence, Strength, Unit};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Certainty, Direction, Formula, Leaf, Part, PartId, Unknown, purdy};
use crate::record::When;
use crate::registry::PlantKind;
use std::collections::BTreeSet;
use std::sync::Arc;

/// One plant.
#[derive(Clone, Debug)]
pub struct Passport {
    /// The plant.
    pub plant: PlantRow,
    /// What its formula says.
    pub named: Arc<NamedPlant>,
    /// When it came; none for a plant raised here.
    pub acquired: Option<When>,
    /// What kind of material it is; none where nothing on record says so.
    pub status: Option<Status>,
    /// How surely its descent, or a founder's name, is known, in one sentence.
    pub evidence: Arc<str>,
}

/// What a formula says of a plant.
#[derive(Clone, Debug)]
pub struct NamedPlant {
    /// The one species of it; none for a hybrid and for a plant whose species is not sure.
    pub taxon: Option<Taxon>,
    /// The parents; none for a founder that is not recorded as a cross.
    pub ancestry: Option<Ancestry>,
    /// The formula, genus with every parent.
    pub formula: String,
    /// Whether it is surely of two species or more.
    pub is_hybrid: bool,
    /// Why names of species may not mean the species they name.
    pub doubts: Vec<String>,
    /// What is recorded of the ancestry and cannot be seen in its text.
    pub unsaid: Unsaid,
}

/// What the text of an ancestry does not show.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Unsaid {
    /// A pollen parent is not known since the flower was open to any pollen.
    pub is_open: bool,
    /// The pollen of several plants that are not named was used together.
    pub is_mixed: bool,
    /// In some crosses the seed parent is known.
    pub has_known_order: bool,
    /// In some the first parent is only assumed to be the seed parent.
    pub has_assumed_order: bool,
}

/// A species.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Taxon {
    /// Lower-case epithet.
    pub epithet: String,
    /// Authors, as the species list has them.
    pub authors: Option<String>,
    /// What stands below the species: `var. globosa`.
    pub below: Option<String>,
}

/// Parents as text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Ancestry {
    /// In Purdy notation.
    Purdy(String),
    /// As a formula, where Purdy notation cannot say it.
    Formula(String),
}

/// Kinds of material that a record can show.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Status {
    /// Raised from a cross, whatever its parents.
    Bred,
    /// Surely a hybrid of species.
    Hybrid,
    /// A cultivar whose epithet was published.
    Cultivar,
}

/// Makes passports, and keeps what plants share.
pub struct Passports<'e, 'r, 't> {
    evidence: &'e Evidence<'r, 't>,
    named: Shared<'e, 'r, 't, Arc<NamedPlant>>,
    sentences: Shared<'e, 'r, 't, Arc<str>>,
}

impl<'e, 'r, 't> Passports<'e, 'r, 't> {
    /// Makes ready what these plants share.
    pub fn of(evidence: &'e Evidence<'r, 't>, plants: &[PlantRow]) -> Self {
        Passports {
            evidence,
            named: Shared::of(evidence, plants, |evidence, plant| {
                Arc::new(named(evidence, plant))
            }),
            sentences: Shared::of(evidence, plants, |evidence, plant| {
                Arc::from(evidence.sentence(Unit::Plant(plant)))
            }),
        }
    }

    /// The passport of a plant.
    pub fn passport(&self, plant: PlantRow) -> Passport {
        let registry = self.evidence.registry();
        let named = self.named.by(plant).into_owned();
        let arrived = registry.founder(plant).and_then(|founder| founder.on);
        Passport {
            plant,
            status: self.status(plant, &named),
            acquired: arrived.map(|on| registry.when(on)),
            evidence: self.sentences.by(plant).into_owned(),
            named,
        }
    }

    fn status(&self, plant: PlantRow, named: &NamedPlant) -> Option<Status> {
        let registry = self.evidence.registry();
        let cultivar = registry.cultivar(plant);
        if cultivar.is_some_and(|cultivar| cultivar.published.is_some()) {
            return Some(Status::Cultivar);
        }
        if named.is_hybrid && self.is_sure(plant) {
            return Some(Status::Hybrid);
        }
        (registry.kind(plant) == PlantKind::Seedling).then_some(Status::Bred)
    }

    /// Whether neither a cross nor a name behind it is weaker than another grower's own record.
    fn is_sure(&self, plant: PlantRow) -> bool {
        let unit = Unit::Plant(plant);
        let name = self.evidence.weakest_name(unit);
        self.evidence.strength(unit) <= Strength::Told
            && name.is_none_or(|name| name.strength <= Strength::Told)
    }
}

fn named(evidence: &Evidence, plant: PlantRow) -> NamedPlant {
    let names = evidence.names();
    let formula = names.formula(TopOf::Plant(plant), false);
    let written = names.formula_alone(TopOf::Plant(plant));
    let written = written.unwrap_or_else(|long| long.to_string());
    let is_cross = !matches!(formula.part(formula.top()), Part::Leaf(_));
    let ancestry = is_cross.then(|| match purdy(&formula) {
        Some(text) => Ancestry::Purdy(text),
        None => Ancestry::Formula(written.clone()),
    });
    NamedPlant {
        taxon: taxon(evidence, plant, &formula),
        ancestry,
        is_hybrid: is_hybrid(&formula),
        formula: written,
        doubts: names.doubts([TopOf::Plant(plant)]),
        unsaid: unsaid(&formula),
    }
}

fn unsaid(formula: &Formula) -> Unsaid {
    let mut unsaid = Unsaid::default();
    for (_, part) in formula.parts() {
        match part {
            Part::Leaf(Leaf::Unknown(Unknown::OpenPollinated)) => unsaid.is_open = true,
            Part::Leaf(Leaf::Unknown(Unknown::MixedPollen)) => unsaid.is_mixed = true,
            Part::Cross(cross) if cross.is_written_out() => match cross.direction {
                Direction::Known => unsaid.has_known_order = true,
                Direction::Assumed => unsaid.has_assumed_order = true,
                Direction::Unknown => {}
            },
            _ => {}
        }
    }
    unsaid
}

/// The species of a formula, each as its leaf, when every end is a species named without `aff.` or `cf.` and every part but
/// the whole is stated; of the whole `allowed` says how little sure it may be.
fn species(formula: &Formula, allowed: Certainty) -> Option<BTreeSet<&Leaf>> {
    let mut found = BTreeSet::new();
    let most = |id: PartId| match id == formula.top() {
        true => allowed,
        false => Certainty::Stated,
    };
    for (id, part) in formula.parts() {
        if formula.marks(id).certainty > most(id) {
            return None;
        }
        if let Part::Leaf(leaf) = part {
            leaf.sure_species()?;
            found.insert(leaf);
        }
    }
    Some(found)
}

/// Whether the record of the plant's own parents is a claim, as a founder's name may be, makes no other species of it.
fn taxon(evidence: &Evidence, plant: PlantRow, formula: &Formula) -> Option<Taxon> {
    let allowed = match evidence.registry().origin_of(plant) {
        Some(_) => Certainty::Claimed,
        None => Certainty::Stated,
    };
    let found = species(formula, allowed)?;
    let mut epithets: Vec<&str> = found
        .iter()
        .filter_map(|leaf| leaf.sure_species())
        .collect();
    epithets.dedup();
    let [epithet] = epithets[..] else {
        return None;
    };
    let below = match found.first() {
        Some(Leaf::Species { infraspecific, .. }) if found.len() == 1 => infraspecific.as_ref(),
        _ => None,
    };
    let row = evidence.names().vocabulary().species(epithet);
    let authors = row.map(|row| row.authors.clone());
    Some(Taxon {
        epithet: epithet.to_owned(),
        authors: authors.filter(|authors| !authors.is_empty()),
        below: below.map(ToString::to_string),
    })
}

/// Whether a formula of crosses alone joins two species or more; one of several, or mixed pollen, is not looked into.
fn is_hybrid(formula: &Formula) -> bool {
    let plain = |(_, part): (_, &Part)| matches!(part, Part::Leaf(_) | Part::Cross(_));
    let epithets = species(formula, Certainty::Stated).map(|found| {
        let epithets = found.into_iter().filter_map(|leaf| leaf.sure_species());
        epithets.collect::<BTreeSet<_>>().len()
    });
    formula.parts().all(plain) && epithets.is_some_and(|of| of > 1)
}
