//! Who raised the clone, when it came about, what copies there are.

use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::provenance::{Provenance, provenance};
use crate::observation::raised::{Raised, raised};
use crate::observation::standing::departed;
use crate::registry::{PlantKind, Registry};

/// What is on record of a clone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RegistrationSeen<'r> {
    /// The plant.
    pub plant: PlantRow,
    /// What stands against its registration; `None` where nothing does.
    pub away: Option<Away>,
    /// Who raised it; `None` where it is not recorded.
    pub raised_by: Option<RaisedBy<'r>>,
    /// When its cross was made, its seed sown, and when it came up.
    pub origin: Provenance,
    /// When it first opened a flower, as typed; `None` where that is not recorded.
    pub first_flower: Option<&'r str>,
    /// Rooted pieces on record, also those that are gone.
    pub pieces: usize,
    /// Whether it is not recorded of one of them how it was made.
    pub made_unknown: bool,
}

/// What stands against a registration.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Away {
    /// The plant is no longer here.
    Gone,
    /// Another grower raised it, who may have named it.
    RaisedElsewhere,
    /// It is not on record who raised it, and that one may have named it.
    RaisedByUnknown,
}

/// Who raised a plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RaisedBy<'r> {
    /// The grower of this registry, by name.
    Own(&'r str),
    /// The grower of another registry, by that registry's name.
    Registry(&'r str),
}

/// What is on record of a clone that is to be registered.
pub fn registration<'r>(context: &Context<'r, '_>, plant: PlantRow) -> RegistrationSeen<'r> {
    let registry = context.registry;
    let opened = registry.flowerings(plant).iter().filter_map(|of| of.opened);
    let pieces = registry.ramets(plant);
    RegistrationSeen {
        plant,
        away: away(context, plant),
        raised_by: raised_by(registry, plant),
        origin: provenance(registry, plant),
        first_flower: opened.min_by_key(|on| registry.when(on).first),
        pieces: pieces.len(),
        made_unknown: pieces.iter().any(|of| of.made.is_none()),
    }
}

fn away(context: &Context, plant: PlantRow) -> Option<Away> {
    let registry = context.registry;
    if departed(registry, plant, None, context.today).is_some() {
        return Some(Away::Gone);
    }
    match (registry.kind(plant), raised(registry, plant)) {
        (PlantKind::Seedling, Raised::Here) => None,
        (PlantKind::Seedling, Raised::NotRecorded) => Some(Away::RaisedByUnknown),
        _ => Some(Away::RaisedElsewhere),
    }
}

/// The grower of this registry for what was sown here, else the one whose record it is.
fn raised_by<'r>(registry: &'r Registry, plant: PlantRow) -> Option<RaisedBy<'r>> {
    if registry.kind(plant) != PlantKind::Seedling {
        let told = registry.told_by(plant)?;
        return Some(RaisedBy::Registry(told.registry));
    }
    match raised(registry, plant) {
        Raised::Here => registry.settings.grower.as_deref().map(RaisedBy::Own),
        Raised::ByTeller(name) => Some(RaisedBy::Registry(name)),
        Raised::NotRecorded => None,
    }
}
