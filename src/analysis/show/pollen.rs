//! An envelope of pollen: how old it is and what was set with it.

use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::pollen::{OwnResults, PollenAge, SetRate, age_on};
use crate::record::{PollenSource, When};
use crate::registry::PollenRow;

/// What came of an envelope.
#[derive(Clone, Copy)]
pub struct PollenSeen {
    /// The plant it is of; `None` where it is of several, of an unknown one, or of one that is not on record.
    pub plant: Option<PlantRow>,
    /// Age today or when it was finished; `None` when a day is not known.
    pub age: Option<PollenAge>,
    /// Whether it is finished.
    pub finished: bool,
    /// Pods set with it.
    pub set: SetRate,
}

/// What came of a pollen lot.
pub fn pollen(context: &Context, lot: PollenRow) -> PollenSeen {
    let registry = context.registry;
    let record = &registry[lot];
    let finished = record.finished.map(|on| registry.when(on));
    let until = finished.unwrap_or(When::on(context.today));
    PollenSeen {
        plant: plant(context, &record.from),
        age: age_on(registry, record, until),
        finished: finished.is_some(),
        set: OwnResults::of(registry, context.today).by_lot(lot),
    }
}

/// The plant that gave it, also where the record names one of its pieces.
fn plant(context: &Context, from: &PollenSource) -> Option<PlantRow> {
    let PollenSource::Plant(code) = from else {
        return None;
    };
    let registry = context.registry;
    let of_piece = || registry.plant(code.rsplit_once('-')?.0);
    registry.plant(code).or_else(of_piece)
}
