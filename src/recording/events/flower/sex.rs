//! The sex that is given of a plant: seen on open flowers, guessed from buds, or said of it without any flower.

use super::event::Flower;
use crate::observation::sex::{SexSeen, Sighting, sex_seen, told_apart};
use crate::observation::who_it_may_be::may_be;
use crate::record::{SeenBy, Sex};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, words};
use crate::registry::{PlantRow, Registry};
use crate::wording::listed;

impl Flower {
    /// Whether a sex is given that no flower showed, and nothing of a spike: a supplier's word or a test on a leaf.
    pub(super) fn is_claim(&self) -> bool {
        let of_spike = [
            &self.spike,
            &self.seen,
            &self.opened,
            &self.over,
            &self.open_on,
        ];
        let shown_by_none = matches!(self.seen_by, Some("supplier" | "leaf_test"));
        self.sex.is_some() && shown_by_none && of_spike.into_iter().all(Option::is_none)
    }

    pub(super) fn is_by_open_flowers(&self) -> bool {
        self.seen_by.is_none_or(|by| by == "flowers")
    }

    /// The sex with how it is known.
    pub(super) fn as_seen(&self, sex: Sex) -> SexSeen {
        match self.seen_by {
            None | Some("flowers") => SexSeen::Certain(sex),
            Some("buds") => SexSeen::Guess(sex, SeenBy::Buds),
            Some("leaf_test") => SexSeen::Guess(sex, SeenBy::LeafTest),
            Some("supplier") => SexSeen::Guess(sex, SeenBy::Supplier),
            Some(_) => SexSeen::Guess(sex, SeenBy::Unsaid),
        }
    }

    /// The sex on record of the plant, if another one is given now.
    pub(super) fn other_sex(&self, registry: &Registry, plant: PlantRow) -> Option<SexSeen> {
        let known = sex_seen(registry, plant);
        match known {
            SexSeen::Certain(sex) | SexSeen::Guess(sex, _) if self.sex? != sex => Some(known),
            _ => None,
        }
    }

    /// What to write into the record of a spike: open flowers outweigh a guess that stands there, and no guess takes the
    /// place of what they showed.
    pub(super) fn sex_to_write(
        &self,
        registry: &Registry,
        plant: PlantRow,
        known: Option<Sighting>,
    ) -> Result<(Option<Sex>, Option<&'static str>), Slip> {
        let (Some(asked), Some(known)) = (self.sex, known) else {
            return Ok((self.sex, self.seen_by));
        };
        match (self.is_by_open_flowers(), known.is_certain()) {
            (true, false) => Ok((Some(asked), Some("flowers"))),
            (false, true) if asked != known.sex => {
                Err(contradicts(registry, plant, (asked, known.sex)))
            }
            (false, true) => Ok((None, None)),
            _ => Ok((Some(asked), self.seen_by)),
        }
    }

    /// Flowers of one sex on a plant whose flowers were of the other.
    pub(super) fn sex_fits(&self, registry: &Registry, plant: PlantRow) -> Result<(), Slip> {
        match (sex_seen(registry, plant), self.sex) {
            (SexSeen::Certain(known), Some(asked))
                if known != asked && self.is_by_open_flowers() =>
            {
                Err(contradicts(registry, plant, (asked, known)))
            }
            _ => Ok(()),
        }
    }

    /// Which of several plants that were mixed up a pot is, where its open flowers tell.
    pub(super) fn told_apart(&self, draft: &Draft, plant: PlantRow) -> Option<Words> {
        let registry = draft.registry;
        let sex = self.sex.filter(|_| self.is_by_open_flowers())?;
        let given = [&self.opened, &self.open_on, &self.over];
        let typed = given.into_iter().find_map(|typed| typed.as_deref());
        let on = dated(registry, "--opened", typed, draft.today).ok()?.when;
        let it_is = told_apart(registry, plant, (sex, on))?;
        let others = may_be(registry, plant)?.others;
        let (code, is) = (registry.code(plant), registry.code(it_is));
        let all = others.iter().map(|&of| registry.code(of));
        let all: Vec<String> = [code.clone()].into_iter().chain(all).collect();
        let (so, tags) = match it_is == plant {
            true => ("that plant: its tag is right".to_owned(), "right"),
            false => (
                format!("the plant that was {is}"),
                "swapped says what to correct",
            ),
        };
        let settle = match others.len() {
            1 => Words::or(
                format!(
                    "; to settle: podbook muddle {} --settled --tags-{tags}",
                    all.join(" ")
                ),
                "; settle it at the computer",
            ),
            _ => "".into(),
        };
        let (all, sex) = (listed(&all), sex.word());
        Some(words!(
            "Before {all} were mixed up, only {is} had shown {sex} flowers: so the pot tagged {code} is {so}{}";
            settle
        ))
    }
}

fn contradicts(registry: &Registry, plant: PlantRow, (asked, known): (Sex, Sex)) -> Slip {
    Slip::contradicts(
        format!(
            "{} was to be recorded as {}",
            registry.code(plant),
            asked.word()
        ),
        format!("its open flowers were {}", known.word()),
        "look at the tag: it may be another plant; or correct the record of its flowers",
    )
}
