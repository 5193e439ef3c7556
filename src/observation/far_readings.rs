//! Lengths so far from those of their siblings that a slip is likelier than a plant: named beside every figure.
//!
//! Readings are judged within one sowing on one day, by the rule of `statistics::outlier`. They stay in the figures
//! until they are corrected, since only the grower can say which number was meant.

use crate::lineage::PlantRow;
use crate::observation::series::Comparable;
use crate::observation::trait_unit::TraitUnit;
use crate::record::When;
use crate::registry::Registry;
use crate::statistics::outlier::{Outlier, Slip, outliers};
use crate::wording::days;

/// Readings named one by one; of more only the number is given.
const NAMED: usize = 3;

/// A size as it stands in a figure.
#[derive(Clone, Copy)]
pub struct Sized {
    /// The plant.
    pub plant: PlantRow,
    /// Its day.
    pub when: When,
    /// The size in the unit shown.
    pub size: f64,
}

impl Sized {
    /// A comparable reading in the unit shown.
    pub fn of(reading: &Comparable, unit: &TraitUnit) -> Sized {
        Sized {
            plant: reading.plant,
            when: reading.when,
            size: unit.shown(reading.value),
        }
    }
}

/// Readings far from their siblings', each a caution; of many the first few and how many more.
pub fn far_readings(registry: &Registry, unit: &TraitUnit, sizes: Vec<Sized>) -> Vec<String> {
    let told = far_of(registry, unit, sizes);
    let more = told.len().saturating_sub(NAMED);
    let mut cautions: Vec<String> = told.into_iter().take(NAMED).map(|(_, told)| told).collect();
    if more > 0 {
        cautions.push(format!(
            "{more} more readings of {} are five times as large as their siblings', or a fifth: look through the sittings",
            unit.name
        ));
    }
    cautions
}

/// Every plant with a reading far from its siblings', in words.
pub fn far_of(
    registry: &Registry,
    unit: &TraitUnit,
    mut sizes: Vec<Sized>,
) -> Vec<(PlantRow, String)> {
    // Counts and plain numbers may be zero and have no typical factor.
    if unit.unit.is_empty() {
        return Vec::new();
    }
    let tray = |of: &Sized| {
        let sowing = registry.road(of.plant).0;
        (of.when, registry.cross_of(of.plant), sowing)
    };
    sizes.retain(|of| registry.cross_of(of.plant).is_some());
    sizes.sort_by_cached_key(|of| (tray(of), of.plant));
    let together = sizes.chunk_by(|a, b| tray(a) == tray(b));
    let told = together.flat_map(|same| {
        let values: Vec<f64> = same.iter().map(|of| of.size).collect();
        let found = outliers(&values).unwrap_or_default();
        // Whether a reading is in inches is a question for `check`: it bends a figure far less.
        let far = found.into_iter().filter(|of| of.slip == Slip::Far);
        let named = far.map(|far| {
            let of = same[far.place];
            (of.plant, words(registry, unit, of, far))
        });
        named.collect::<Vec<_>>()
    });
    told.collect()
}

fn words(registry: &Registry, unit: &TraitUnit, of: Sized, far: Outlier) -> String {
    let part = match far.is_above() {
        true => format!("{:.0} times", far.fold()),
        false => format!("{:.0} times smaller than", far.fold()),
    };
    format!(
        "{}: {} of {} on {} is {part} the median of its {} siblings read with it ({}); if it is a slip, correct it in that \
         sitting: until then it counts in the figures above",
        registry.code(of.plant),
        unit.name,
        unit.words(of.size),
        days(of.when),
        far.n - 1,
        unit.words(far.typical)
    )
}
