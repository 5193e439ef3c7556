//! Why a pollination cannot be made, and whether it can the other way round.
//!
//! A plant that is gone bears no pods; its pollen may outlive it in an envelope. A plant sold or given away stands
//! elsewhere: the answer says so and refuses nothing.

use crate::analysis::pair::caution::{Caution, End};
use crate::analysis::pair::intended::Intended;
use crate::lineage::PlantRow;
use crate::observation::pollen::{OwnResults, in_hand};
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate, Sex};

/// Why a pollination cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Impossible {
    /// Both are ramets of one plant.
    OnePlant(String),
    /// A plant of the wrong sex: its code and the sex seen.
    Sex(String, Sex),
    /// A plant that never stood here.
    NeverHere(String),
    /// A plant that is gone.
    Gone {
        /// Its end.
        end: End,
        /// Whether its pollen is wanted and none of it is in hand.
        no_pollen: bool,
    },
}

/// The two the other way round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherWay {
    /// Seed parent.
    pub seed: String,
    /// Pollen parent.
    pub pollen: String,
}

impl Intended<'_, '_, '_> {
    /// Why one plant cannot bear pods by another; `in_hand` says whether an envelope of its pollen is.
    pub(crate) fn impossible(
        &self,
        [seed, pollen]: [PlantRow; 2],
        today: Day,
        in_hand: bool,
    ) -> Vec<Impossible> {
        let code = |plant| self.registry.code(plant);
        let mut told = Vec::new();
        if seed == pollen {
            told.push(Impossible::OnePlant(code(seed)));
        }
        for (plant, needed) in [(seed, Sex::Female), (pollen, Sex::Male)] {
            match sex_seen(self.registry, plant) {
                SexSeen::Certain(sex) if sex != needed => {
                    told.push(Impossible::Sex(code(plant), sex));
                }
                _ => {}
            }
            match presence(self.registry, plant, today) {
                // Pollen may have come from a plant that never did.
                Presence::NeverHere if plant == seed || !in_hand => {
                    told.push(Impossible::NeverHere(code(plant)))
                }
                Presence::Gone if plant == seed || !in_hand => told.push(Impossible::Gone {
                    end: self.end(plant),
                    no_pollen: plant == pollen && !in_hand,
                }),
                _ => {}
            }
        }
        told.dedup();
        told
    }

    /// The same two the other way round, when that way nothing is known against it.
    pub(crate) fn other_way(&self, impossible: &[Impossible], today: Day) -> Option<OtherWay> {
        let [seed, pollen] = self.pair;
        if impossible.is_empty() || seed == pollen {
            return None;
        }
        let envelopes = in_hand(self.registry, today, &OwnResults::of(self.registry, today));
        let stored = envelopes
            .iter()
            .any(|envelope| envelope.plant == Some(seed));
        let against = self.impossible([pollen, seed], today, stored);
        against.is_empty().then(|| OtherWay {
            seed: self.registry.code(pollen),
            pollen: self.registry.code(seed),
        })
    }

    /// Plants of the pair that stand here no more although nothing forbids them.
    pub(crate) fn elsewhere(&self, today: Day) -> Vec<Caution> {
        let [seed, pollen] = self.pair;
        let of = |plant: PlantRow| match presence(self.registry, plant, today) {
            Presence::LetGo => Some(Caution::Elsewhere(self.end(plant))),
            Presence::Gone if plant == pollen && plant != seed => {
                Some(Caution::OnlyPollenLeft(self.end(plant)))
            }
            _ => None,
        };
        let mut told: Vec<Caution> = [seed, pollen].into_iter().filter_map(of).collect();
        told.dedup();
        told
    }

    fn end(&self, plant: PlantRow) -> End {
        let fate = self.registry.fate(plant);
        End {
            plant: self.registry.code(plant),
            fate: fate.map(fate_words),
            died: matches!(fate, Some(Fate::Died { .. })),
        }
    }
}
