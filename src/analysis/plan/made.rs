//! What was pollinated before a plan is asked for: it keeps its places on the spikes and its pots.

use crate::lineage::PlantRow;
use crate::observation::in_pod::InPod;
use crate::record::Day;
use crate::registry::Registry;

/// Pollinations whose pods may be ripening here. Each counts as a pod of the plan does.
#[derive(Default)]
pub(crate) struct Made {
    /// Their codes, by page.
    pub zones: Vec<String>,
    /// The plant that bears each, and the places of those of its spikes that may.
    on: Vec<(PlantRow, Vec<usize>)>,
    /// Seed and pollen parent of each whose parents are sure.
    pairs: Vec<(PlantRow, PlantRow)>,
}

impl Made {
    /// What was made by today. Flowers that were only left alone, as a control, are no pod that was meant.
    pub fn of(registry: &Registry, today: Day) -> Made {
        let in_pod = InPod { registry, today };
        let mut made = Made::default();
        for one in in_pod.ripening().iter().filter(|of| !of.is_of_controls()) {
            made.zones.push(one.code());
            let spikes = in_pod.spikes_of(one.bearer, one.zone);
            made.on.push((one.bearer.plant, spikes));
            let pairs = &registry[one.cross.origin].pairs;
            if let [pair] = pairs[..] {
                made.pairs.extend(pair.seed.zip(pair.pollen));
            }
        }
        made
    }

    /// Pots that their seedlings take.
    pub fn pots(&self, of_each: u32) -> u32 {
        of_each.saturating_mul(self.zones.len() as u32)
    }

    /// Seed and pollen parent of each whose parents are sure.
    pub fn pairs(&self) -> &[(PlantRow, PlantRow)] {
        &self.pairs
    }

    /// Whether a pair was made.
    pub fn has(&self, pair: (PlantRow, PlantRow)) -> bool {
        self.pairs.contains(&pair)
    }

    /// Pods that some spikes of a plant may still bear, where each may bear `most`. What may be on one of several is on the
    /// first of them that has a place left.
    pub fn places_left(&self, plant: PlantRow, spikes: &[usize], most: u32) -> Vec<u32> {
        let mut left = vec![most; spikes.len()];
        for (_, may_be_on) in self.on.iter().filter(|(on, _)| *on == plant) {
            let mut own = spikes.iter().zip(&mut left);
            let free = own.find(|(spike, left)| may_be_on.contains(spike) && **left > 0);
            if let Some((_, left)) = free {
                *left -= 1;
            }
        }
        left
    }
}
