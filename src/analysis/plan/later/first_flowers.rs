//! At what age do this grower's seedlings flower first?

use crate::analysis::plan::flower_ages::FlowerAges;
use crate::lineage::PlantRow;
use crate::observation::provenance::sown;
use crate::record::When;
use crate::registry::{CrossRow, Registry};
use std::collections::BTreeMap;

/// Years from sowing to the first flower of hybrids and middling species: common practice.
const PRACTICE: (f64, f64) = (3.0, 6.0);
/// Seedlings a shortest and longest age must rest on.
const ENOUGH: usize = 3;
/// Days of a year.
pub(crate) const YEAR: f64 = 365.25;

/// Ages at the first flower, in years from sowing.
pub(crate) struct Ages {
    pub range: (f64, f64),
    pub of: FlowerAges,
}

/// Ages on record, by cross.
pub(crate) struct FirstFlowers {
    by_cross: BTreeMap<CrossRow, Vec<(f64, f64)>>,
}

impl FirstFlowers {
    pub fn of(registry: &Registry) -> FirstFlowers {
        let mut by_cross: BTreeMap<CrossRow, Vec<(f64, f64)>> = BTreeMap::new();
        for plant in registry.plants() {
            if let (Some(cross), Some(age)) = (registry.cross_of(plant), age(registry, plant)) {
                by_cross.entry(cross).or_default().push(age);
            }
        }
        FirstFlowers { by_cross }
    }

    /// The ages to go by for a cross: its own seedlings', else those of all, else common practice and the few there are.
    pub fn ages(&self, cross: CrossRow) -> Ages {
        let own = self.by_cross.get(&cross).map_or(&[][..], Vec::as_slice);
        let all: Vec<(f64, f64)> = self.by_cross.values().flatten().copied().collect();
        let told = |ages: &[(f64, f64)], of: FlowerAges| Ages {
            range: (
                ages.iter().map(|age| age.0).fold(f64::INFINITY, f64::min),
                ages.iter().map(|age| age.1).fold(0.0, f64::max),
            ),
            of,
        };
        if own.len() >= ENOUGH {
            told(own, FlowerAges::OfLine(own.len()))
        } else if all.len() >= ENOUGH {
            told(&all, FlowerAges::OfAll(all.len()))
        } else {
            // Few ages widen what stands in for them, and never narrow it.
            let wider =
                |(least, most): (f64, f64), age: &(f64, f64)| (age.0.min(least), age.1.max(most));
            Ages {
                range: all.iter().fold(PRACTICE, wider),
                of: FlowerAges::Practice(all.len()),
            }
        }
    }
}

/// Age at the first flower on record, least and greatest.
fn age(registry: &Registry, plant: PlantRow) -> Option<(f64, f64)> {
    let flowerings = registry.flowerings(plant).iter();
    let date = |text: Option<&str>| text.map(|text| registry.when(text));
    let opened = |when: &When| when.is_bounded();
    let seen = flowerings.filter_map(|f| date(f.opened.or(f.over)).filter(opened));
    let first = seen.min_by_key(|when| (when.first, when.last))?;
    let (least, most) = sown(registry, plant).days_until(first)?;
    (least > 0).then(|| (f64::from(least) / YEAR, f64::from(most) / YEAR))
}
