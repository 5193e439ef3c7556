//! What is on record of the two: crosses made before, flowers.

use crate::analysis::pair::answer::MadeBefore;
use crate::analysis::pair::weigh::Intended;
use crate::analysis::ready::made_before;
use crate::observation::flowers::{Spike, between_words, spikes};
use crate::observation::pollen::SetRate;
use crate::record::Day;

impl Intended<'_, '_> {
    pub(crate) fn made_before(&self) -> Vec<MadeBefore> {
        let [seed, pollen] = self.pair;
        let of = |code: String| {
            let cross = &self.registry.crosses[self.registry.cross(&code)? as usize];
            let pairs = &self.registry.origins()[cross.origin as usize].pairs;
            let lost = matches!(cross.page.parents, crate::record::Parents::DirectionLost(_));
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
            let numbered = cross.seedlings.len();
            Some(MadeBefore {
                cross: code,
                same_direction: (!lost).then_some(same),
                set,
                not_counted,
                numbered,
            })
        };
        made_before(self.registry, seed, pollen)
            .into_iter()
            .filter_map(of)
            .collect()
    }

    pub(crate) fn flowers(&self, today: Day) -> Vec<String> {
        let of_pair = spikes(self.registry, today)
            .into_iter()
            .filter(|s| self.pair.contains(&s.plant));
        let line = |spike: Spike| {
            format!(
                "{}: {} from {}, last {}",
                self.registry.code(spike.plant),
                if spike.opened { "open" } else { "expected" },
                between_words(spike.window.opens),
                between_words(spike.window.closes)
            )
        };
        of_pair.map(line).collect()
    }
}
