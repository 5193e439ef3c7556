//! By which method a sitting was read, which of several methods counts, and which pages are one sitting.

use crate::lineage::PlantRow;
use crate::observation::series::readings::Comparable;
use crate::record::When;
use crate::registry::{Registry, SittingRow};
use std::collections::{BTreeMap, BTreeSet};

/// Day, place and method of a sitting: pages on which they are alike are one. Days not known to the day are one where they
/// are written alike.
pub type SittingKey<'r> = (When, &'r str, &'r str);

/// What makes a page one sitting with others.
pub fn sitting_key<'r>(registry: &'r Registry, page: SittingRow) -> SittingKey<'r> {
    let sitting = &registry[page].sitting;
    let place = sitting.place.as_deref().unwrap_or("");
    let method = sitting.method.as_deref().unwrap_or("");
    (registry.when(sitting.on), place, method)
}

/// The method of a sitting however it is spelt; `None` where it is not recorded.
pub fn method_of(registry: &Registry, sitting: SittingRow) -> Option<String> {
    let method = registry[sitting].sitting.method.as_deref();
    method.map(|method| method.trim().to_lowercase())
}

/// Keeps, of the readings that belong together, those of the method with most of them and those without a recorded method;
/// returns how many were left out.
pub fn one_method<K: Ord>(
    registry: &Registry,
    readings: &mut Vec<Comparable>,
    together: impl Fn(&Comparable) -> K,
) -> usize {
    let mut of_sitting: BTreeMap<SittingRow, Option<String>> = BTreeMap::new();
    for same in readings.chunk_by(|a, b| a.sitting == b.sitting) {
        let method = of_sitting.entry(same[0].sitting);
        method.or_insert_with_key(|sitting| method_of(registry, *sitting));
    }
    if of_sitting.values().flatten().collect::<BTreeSet<_>>().len() < 2 {
        return 0;
    }
    let mut counts: BTreeMap<(K, &str), usize> = BTreeMap::new();
    for same in readings.chunk_by(|a, b| a.sitting == b.sitting && together(a) == together(b)) {
        if let Some(method) = &of_sitting[&same[0].sitting] {
            *counts.entry((together(&same[0]), method)).or_default() += same.len();
        }
    }
    let mut main: BTreeMap<K, (usize, &str)> = BTreeMap::new();
    for ((of, method), n) in counts {
        let most = main.entry(of).or_insert((n, method));
        *most = (n, method).max(*most);
    }
    let before = readings.len();
    readings.retain(|reading| {
        let method = of_sitting[&reading.sitting].as_deref();
        let main = || main.get(&together(reading)).map(|(_, main)| *main);
        method.is_none() || method == main()
    });
    before - readings.len()
}

/// Keeps of the readings of a plant, and of those of others beside them, those of one method: of those by which it was read
/// itself the one with most readings. Beside a named method none of its own is read without.
pub fn one_method_of(registry: &Registry, plant: PlantRow, readings: &mut Vec<Comparable>) {
    let method = |of: &Comparable| method_of(registry, of.sitting);
    let own = readings.iter().filter(|of| of.plant == plant);
    let by: BTreeSet<String> = own.filter_map(method).collect();
    let may_stand = |of: &Comparable| match method(of) {
        Some(method) => by.contains(&method),
        None => of.plant != plant,
    };
    readings.retain(|of| by.is_empty() || may_stand(of));
    one_method(registry, readings, |_| ());
}
