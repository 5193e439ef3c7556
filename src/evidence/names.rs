//! How the names of founders are known. A founder is what its tag says; that never makes a cross less witnessed.

use super::strength::Strength;
use crate::naming::recorded::{FounderName, Names};
use crate::naming::{Certainty, Formula, Leaf, Part};
use crate::registry::{KnownBy, PlantRow, Registry};

/// A founder's name.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct NameLink {
    /// How it is known.
    pub strength: Strength,
    /// What stands in its way besides.
    pub kind: NameKind,
    /// The founder.
    pub plant: PlantRow,
}

/// What stands in the way of a name.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum NameKind {
    /// Nothing.
    Plain,
    /// Only a hybrid's Latin name: it gives the parents if the name is right, and no generation.
    HybridNameAlone,
    /// The name itself is in doubt: claimed, cf., aff., sp. and the like.
    Provisional,
    /// The label could not be read.
    NotRead,
}

/// The name of a plant whose parents are not recorded.
pub(super) fn name_link(registry: &Registry, names: &Names, plant: PlantRow) -> NameLink {
    let link = |strength, kind| NameLink {
        strength,
        kind,
        plant,
    };
    if let Some(founder) = names.founder(plant) {
        let kind = kind(founder);
        let told = registry
            .founder(plant)
            .is_some_and(|of| of.told_by.is_some());
        let least = if told && !is_by_me(founder) {
            Strength::Told
        } else {
            Strength::Witnessed
        };
        let strength = Strength::from(founder.confidence).max(least);
        return match kind {
            NameKind::Plain => link(strength, kind),
            NameKind::NotRead => link(Strength::Unknown, kind),
            _ => link(strength.max(Strength::Claimed), kind),
        };
    }
    let Some(unseen) = registry.unseen(plant) else {
        return link(Strength::Unknown, NameKind::Plain);
    };
    let page = &registry[unseen.cross].page;
    let said = Strength::from(page.confidence);
    let said = match page.told_by {
        Some(_) => said.max(Strength::Told),
        None => said,
    };
    match unseen.known_by {
        // A label says what the parent was, whatever else the page says of the cross.
        KnownBy::Label if said == Strength::OneOfSeveral => link(said, NameKind::Plain),
        KnownBy::Label => link(Strength::Claimed, NameKind::Plain),
        // Whoever witnessed a cross did not witness of which species a plant was that was never seen.
        KnownBy::Species(_) => link(said.max(Strength::Claimed), NameKind::Plain),
        _ => link(said, NameKind::Plain),
    }
}

/// Whether a name is an opinion of whoever keeps the registry.
pub(super) fn is_by_me(founder: &FounderName) -> bool {
    founder.by.as_deref() == Some("me")
}

fn kind(founder: &FounderName) -> NameKind {
    if founder.refused.is_some() {
        NameKind::NotRead
    } else if is_provisional(&founder.formula) {
        NameKind::Provisional
    } else if founder.hybrid_name_alone {
        NameKind::HybridNameAlone
    } else {
        NameKind::Plain
    }
}

/// Whether any part of a label's formula is in doubt.
fn is_provisional(formula: &Formula) -> bool {
    formula.parts().any(|(id, part)| {
        let in_doubt = match part {
            Part::Leaf(Leaf::Species { qualifier, .. }) => qualifier.is_some(),
            Part::Leaf(Leaf::Unnamed { .. }) => true,
            _ => false,
        };
        in_doubt || formula.marks(id).certainty != Certainty::Stated
    })
}
