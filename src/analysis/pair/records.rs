//! What is on record of the two: crosses made before, flowers.

use crate::analysis::pair::answer::{FlowersOf, MadeBefore};
use crate::analysis::pair::intended::Intended;
use crate::analysis::ready::{SpikeState, are_surely_parents, crosses_between, state};
use crate::observation::flowers::{Spike, spikes};
use crate::observation::pollen::SetRate;
use crate::record::{Day, Parents};
use crate::registry::Cross;

impl Intended<'_, '_, '_> {
    pub(crate) fn made_before(&self) -> Vec<MadeBefore> {
        let [seed, pollen] = self.pair;
        let of = |cross: &Cross| {
            let pairs = &self.registry[cross.origin].pairs;
            let lost = matches!(cross.page.parents, Parents::DirectionLost(_));
            let same = pairs
                .iter()
                .any(|pair| (pair.seed, pair.pollen) == (Some(seed), Some(pollen)));
            let mut set = SetRate::default();
            let mut not_counted = 0;
            for pollination in &cross.page.pollinations {
                match (pollination.flowers, pollination.set) {
                    (Some(flowers), Some(pods)) => set.add(flowers, pods),
                    _ => not_counted += 1,
                }
            }
            MadeBefore {
                cross: cross.page.code.to_owned(),
                perhaps: !are_surely_parents(self.registry, cross, self.pair),
                same_direction: (!lost).then_some(same),
                set,
                not_counted,
                numbered: cross.seedlings.len(),
            }
        };
        crosses_between(self.registry, seed, pollen)
            .map(of)
            .collect()
    }

    pub(crate) fn flowers(&self, today: Day) -> Vec<FlowersOf> {
        let of_pair = spikes(self.registry, today)
            .into_iter()
            .filter(|s| self.pair.contains(&s.plant));
        let flowers = |spike: Spike| FlowersOf {
            plant: self.registry.code(spike.plant),
            opened: spike.opened,
            may_be_over: state(&spike, today) == SpikeState::MayBeOver,
            window: spike.window,
        };
        of_pair.map(flowers).collect()
    }
}
