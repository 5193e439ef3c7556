//! Why a pollination cannot be made, and whether it can the other way round.
//!
//! A plant that is gone bears no pods; its pollen may outlive it in an envelope. A plant sold or given away stands
//! elsewhere: that is told and refuses nothing.

use crate::analysis::pair::weigh::Intended;
use crate::lineage::PlantRow;
use crate::observation::pollen::{OwnResults, in_hand};
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate, Sex};

impl Intended<'_, '_> {
    /// Why one plant cannot bear pods by another; `in_hand` says whether an envelope of its pollen is.
    pub(crate) fn impossible(
        &self,
        [seed, pollen]: [PlantRow; 2],
        today: Day,
        in_hand: bool,
    ) -> Vec<String> {
        let code = |plant| self.registry.code(plant);
        let mut told = Vec::new();
        if seed == pollen {
            told.push(format!(
                "both are {}: ramets of one plant have one sex",
                code(seed)
            ));
        }
        for (plant, needed, other) in [(seed, Sex::Female, "male"), (pollen, Sex::Male, "female")] {
            let seen = sex_seen(self.registry, plant);
            if matches!(seen, SexSeen::Certain(sex) if sex != needed) {
                told.push(format!("{} was seen {other}", code(plant)));
            }
            let of_pollen = if plant == pollen && !in_hand {
                ", and no pollen of it is in hand"
            } else {
                ""
            };
            match presence(self.registry, plant, today) {
                Presence::NeverHere => told.push(format!("{} never stood here", code(plant))),
                Presence::Gone if plant == seed || !in_hand => {
                    told.push(format!("{}{of_pollen}", self.end_words(plant)));
                }
                _ => {}
            }
        }
        told.dedup();
        told
    }

    /// The same two the other way round, when that way nothing is known against it.
    pub(crate) fn other_way(&self, impossible: &[String], today: Day) -> Option<String> {
        let [seed, pollen] = self.pair;
        if impossible.is_empty() || seed == pollen {
            return None;
        }
        let envelopes = in_hand(self.registry, today, &OwnResults::of(self.registry, today));
        let stored = envelopes
            .iter()
            .any(|envelope| envelope.plant == Some(seed));
        let against = self.impossible([pollen, seed], today, stored);
        let [seed, pollen] = self.pair.map(|plant| self.registry.code(plant));
        against.is_empty().then(|| format!("♀ {pollen} × ♂ {seed}"))
    }

    /// Plants of the pair that stand here no more although nothing forbids them.
    pub(crate) fn elsewhere(&self, today: Day) -> Vec<String> {
        let [seed, pollen] = self.pair;
        let of = |plant: PlantRow| match presence(self.registry, plant, today) {
            Presence::LetGo => Some(format!("{}: it stands elsewhere", self.end_words(plant))),
            Presence::Gone if plant == pollen && plant != seed => Some(format!(
                "{}: only pollen in hand is left of it",
                self.end_words(plant)
            )),
            _ => None,
        };
        let mut told: Vec<String> = [seed, pollen].into_iter().filter_map(of).collect();
        told.dedup();
        told
    }

    /// `V3 was culled 2023-05 (weak)`, `V3 died 2023-05`.
    fn end_words(&self, plant: PlantRow) -> String {
        let code = self.registry.code(plant);
        match self.registry.fate(plant) {
            Some(fate @ Fate::Died { .. }) => format!("{code} {}", fate_words(fate)),
            Some(fate) => format!("{code} was {}", fate_words(fate)),
            None => format!("{code} has no piece left here"),
        }
    }
}
