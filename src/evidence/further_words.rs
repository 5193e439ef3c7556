//! The weakest cross further back, in words.

use super::doubt::{Doubt, Side};
use super::doubt_words::side_words;
use super::envelopes::Contents;
use super::listed::number_in_words;
use super::strength::Strength;
use super::unit::Unit;
use super::whole::Evidence;
use crate::record::Confidence;

impl Evidence<'_, '_> {
    /// The weakest cross further back, when it is weaker than the unit's own.
    pub(super) fn further_half(&self, unit: Unit, own: Strength) -> Option<String> {
        let further = self
            .further(unit)
            .filter(|further| further.strength > own)?;
        let statement = self.statement(Unit::Plant(further.holder))?;
        let (cross, doubt) = statement.weakest()?;
        let (code, holder) = (self.cross_code(cross), self.registry.code(further.holder));
        let words = match doubt {
            Doubt::FreeText(Confidence::Unknown, _) => {
                format!("how the parents of {code} are known is not recorded")
            }
            Doubt::FreeText(Confidence::OneOfSeveral, _) => {
                format!("the parents of {code} are one of several")
            }
            Doubt::FreeText(confidence, _) => {
                format!(
                    "the parents of {code} are {}",
                    Strength::from(confidence).words()
                )
            }
            Doubt::Told => format!("the parents of {code} are {}", self.told(cross)),
            Doubt::FatherTold => {
                format!("the father of {code} is {}", self.father_told(cross))
            }
            Doubt::Label => format!("the parents of {code} are claimed, by a label only"),
            Doubt::NotKnown(Side::Seed) => format!("the seed parent of {code} is not known"),
            Doubt::NotKnown(Side::Pollen) => format!("the father of {code} is not known"),
            Doubt::NeitherKnown => format!("the parents of {code} are not known"),
            Doubt::Open(_) => format!("the father of {code} is unknown (open pollination)"),
            Doubt::OneOf(Side::Pollen, n) => {
                format!("the father of {code} is one of {}", number_in_words(n))
            }
            Doubt::OneOf(Side::Seed, n) => {
                format!("the seed parent of {code} is one of {}", number_in_words(n))
            }
            Doubt::Mixed(n) => format!(
                "the father of {holder} is one of {} whose pollen was mixed",
                number_in_words(n)
            ),
            Doubt::OneOfPairs(n) => {
                format!(
                    "the parents of {code} are one of {} pairs",
                    number_in_words(n)
                )
            }
            Doubt::SomeSeedling(_, of) => format!(
                "a parent of {code} is one seedling of {}, which one is not recorded",
                self.cross_code(of)
            ),
            Doubt::MixedUpBefore(side, _, n) => format!(
                "the {} of {holder} is one of {} that were mixed up",
                side_words(side),
                number_in_words(n)
            ),
            Doubt::Envelope(_, Contents::OneOf(n)) => format!(
                "the father of {holder} is one of {} by the envelope",
                number_in_words(n)
            ),
            Doubt::Envelope(_, Contents::Mixed(n)) => format!(
                "the father of {holder} is one of {} whose pollen was mixed in the envelope",
                number_in_words(n)
            ),
            Doubt::Envelope(_, Contents::Unknown) => {
                format!("the father of {holder} is not known by the envelope")
            }
            Doubt::Controls(controls) => {
                let seen = match controls.flowers {
                    Some(1) => "the control flower set".to_owned(),
                    Some(all) => format!("{} of {all} control flowers set", controls.set),
                    None => "control flowers set".to_owned(),
                };
                format!("the father of {holder} is probable ({seen})")
            }
            Doubt::SameThread(zone) => format!(
                "the father of {holder} is probable ({} may be the same flowers)",
                self.threads[&zone]
            ),
            Doubt::Unread(_) => {
                format!(
                    "the parents of {holder} are in doubt: a field about them could not be read"
                )
            }
            Doubt::OneOfCrosses(n) => {
                format!("{holder} is from one of {} crosses", number_in_words(n))
            }
        };
        Some(format!("further back, {words}"))
    }
}
