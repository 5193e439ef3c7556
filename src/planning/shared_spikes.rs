//! How many pods pollens may have together that meet only some of the spikes of a seed parent.

use std::collections::BTreeSet;

/// Spikes of one seed parent, and the pairings whose pollen meets none but these: what their pods come to at most.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SharedSpikes {
    /// Indices of the pairings, ascending; all of one seed parent.
    pub pairings: Vec<usize>,
    /// Pods the spikes bear.
    pub most: u32,
}

/// A pairing with the spikes that its pollen can meet, ascending.
pub type MetSpikes = (usize, Vec<usize>);

/// Sets of spikes looked at for one seed parent; more than the spikes of any plant come to.
const MOST_SETS: usize = 1_000;

impl SharedSpikes {
    /// What the pairings of one seed parent may bear together, ascending by index, where their pollen meets only some of its
    /// spikes, each of which bears so many pods of `places`.
    ///
    /// Pods can be put on spikes that they meet if, and only if, for any spikes the pods that meet none but these are no more
    /// than those bear (Hall 1935); only unions of what is met need be looked at.
    pub fn of_parent(met: &[MetSpikes], places: &[u32]) -> Vec<SharedSpikes> {
        let shared = |spikes: &Vec<usize>| SharedSpikes {
            pairings: met
                .iter()
                .filter(|(_, met)| met.iter().all(|spike| spikes.contains(spike)))
                .map(|(pairing, _)| *pairing)
                .collect(),
            most: spikes.iter().map(|&spike| places[spike]).sum(),
        };
        let unions = unions(met);
        let some = unions.iter().filter(|spikes| spikes.len() < places.len());
        // What one pairing may bear is its own limit.
        some.map(shared)
            .filter(|of| of.pairings.len() > 1)
            .collect()
    }

    /// Whether a pairing is one of them.
    pub fn holds(&self, pairing: usize) -> bool {
        self.pairings.binary_search(&pairing).is_ok()
    }

    /// Whether the spikes bear the pods of a plan.
    pub fn bear(&self, pods: &[(usize, u32)]) -> bool {
        let on_them = pods.iter().filter(|(at, _)| self.holds(*at));
        on_them.map(|(_, n)| u64::from(*n)).sum::<u64>() <= u64::from(self.most)
    }
}

/// The spikes met, and all that several of them are together.
fn unions(met: &[MetSpikes]) -> BTreeSet<Vec<usize>> {
    let mut sets: BTreeSet<Vec<usize>> = met.iter().map(|(_, spikes)| spikes.clone()).collect();
    let mut new: Vec<Vec<usize>> = sets.iter().cloned().collect();
    while let Some(one) = new.pop() {
        let union = |other: &Vec<usize>| -> Vec<usize> {
            let both: BTreeSet<usize> = one.iter().chain(other).copied().collect();
            both.into_iter().collect()
        };
        let unions: Vec<Vec<usize>> = sets.iter().map(union).collect();
        for union in unions {
            if sets.len() < MOST_SETS && sets.insert(union.clone()) {
                new.push(union);
            }
        }
    }
    sets
}
