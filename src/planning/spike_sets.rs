//! Pods that several pollens of one seed parent may have together, since they meet no more than some of its spikes.
//!
//! Sets that lie within one another or apart are nodes of the network and kept by it exactly. One that crosses another, or has
//! a pollination that must be made, cannot be; it is looked at once a plan is laid out.

use super::season::Season;
use super::shared_spikes::SharedSpikes;
use std::cmp::Reverse;

/// Where the network reaches a set from.
#[derive(Clone, Copy, Debug)]
pub(super) enum After {
    /// A seed parent.
    Seed(usize),
    /// A larger set.
    Set(usize),
}

/// One set.
#[derive(Clone, Copy, Debug)]
pub(super) struct SpikeSet {
    /// Pods at most.
    pub most: u32,
    /// `None` where it crosses another set.
    pub after: Option<After>,
}

/// The sets of a season, a larger one before those within it.
pub(super) struct SpikeSets {
    pub sets: Vec<SpikeSet>,
    /// For each pairing its sets, ascending.
    of_pairing: Vec<Vec<usize>>,
}

impl SpikeSets {
    pub fn of(season: &Season) -> Self {
        let shared = season.shared_spikes.iter();
        let mut shared: Vec<&SharedSpikes> = shared.filter(|of| !of.pairings.is_empty()).collect();
        shared.sort_by_key(|of| Reverse(of.pairings.len()));
        let mut of_pairing = vec![Vec::new(); season.pairings.len()];
        let mut sets: Vec<SpikeSet> = Vec::new();
        for (at, of) in shared.iter().enumerate() {
            let laid = |&other: &usize| sets[other].after.is_some();
            let shares = |&other: &usize| of.pairings.iter().any(|it| shared[other].holds(*it));
            let beside: Vec<usize> = (0..at).filter(laid).filter(shares).collect();
            let within = |other: &usize| of.pairings.iter().all(|it| shared[*other].holds(*it));
            let seed = || After::Seed(season.pairings[of.pairings[0]].seed);
            let after = beside.iter().all(within);
            let after = after.then(|| beside.last().map_or_else(seed, |last| After::Set(*last)));
            for pairing in &of.pairings {
                of_pairing[*pairing].push(at);
            }
            sets.push(SpikeSet {
                most: of.most,
                after,
            });
        }
        Self { sets, of_pairing }
    }

    /// The sets of a pairing.
    pub fn of_pairing(&self, pairing: usize) -> &[usize] {
        &self.of_pairing[pairing]
    }

    /// The smallest set of a pairing in the network.
    pub fn innermost(&self, pairing: usize) -> Option<usize> {
        let of = self.of_pairing[pairing].iter().rev().copied();
        of.into_iter().find(|&set| self.sets[set].after.is_some())
    }
}
