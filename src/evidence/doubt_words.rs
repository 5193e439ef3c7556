//! One statement or doubt about the parents of a cross, in words.

use super::doubt::{Doubt, Named, Side};
use super::envelopes::Contents;
use super::listed::{and, number_in_words, or};
use super::pollen_told::pollen_tellers;
use super::strength::Strength;
use super::used_mixed_up::mixed_up_siblings;
use super::whole::Evidence;
use crate::record::{Confidence, Parents};
use crate::registry::{CrossRow, KnownBy, PlantRow, PollenRow};
use crate::wording::{counted, each_once};

impl Evidence<'_, '_> {
    /// One statement or doubt about the parents of a cross.
    pub(super) fn doubt(&self, cross: CrossRow, doubt: Doubt) -> String {
        let origin = &self.registry[self.registry[cross].origin];
        let codes = |side: Side| {
            let of = origin.pairs.iter().map(|pair| match side {
                Side::Seed => self.parent_code(pair.seed),
                Side::Pollen => self.parent_code(pair.pollen),
            });
            each_once(of)
        };
        match doubt {
            Doubt::FreeText(confidence, named) => said(confidence, named),
            Doubt::Told => self.told(cross),
            Doubt::FatherTold => format!("father {}", self.father_told(cross)),
            Doubt::Envelope(lot, contents) => self.envelope(lot, contents),
            Doubt::Label => "parents by a label only, a claim".to_owned(),
            Doubt::NotKnown(side) => format!("{} not known", side_words(side)),
            Doubt::NeitherKnown => "parents not known".to_owned(),
            Doubt::Open(near) => self.open(cross, near),
            Doubt::OneOf(Side::Pollen, n) => format!(
                "father one of {} ({}){}",
                number_in_words(n),
                or(&codes(Side::Pollen)),
                match self.registry[cross].page.pods.is_empty() {
                    true => "",
                    false => ", the same one for the whole pod",
                }
            ),
            Doubt::OneOf(Side::Seed, n) => format!(
                "seed parent one of {} ({})",
                number_in_words(n),
                or(&codes(Side::Seed))
            ),
            Doubt::Mixed(_) => format!(
                "pollen of {} mixed on purpose, so fathers may differ from seed to seed",
                and(&codes(Side::Pollen))
            ),
            Doubt::OneOfPairs(n) => {
                let pairs = origin.pairs.iter().map(|pair| {
                    format!(
                        "{} × {}",
                        self.parent_code(pair.seed),
                        self.parent_code(pair.pollen)
                    )
                });
                format!(
                    "parents one of {} pairs ({})",
                    number_in_words(n),
                    or(&each_once(pairs))
                )
            }
            Doubt::SomeSeedling(side, of) => format!(
                "{} one seedling of {}, which one is not recorded",
                side_words(side),
                self.cross_code(of)
            ),
            Doubt::MixedUpBefore(side, plant, n) => self.mixed_up_before(side, plant, n),
            Doubt::Controls(_) => controls_words(doubt),
            Doubt::SameThread(zone) => format!(
                "father probable: {} may be the same flowers, dusted with other pollen",
                self.threads[&zone]
            ),
            Doubt::OneOfCrosses(n) => format!("from one of {} crosses", number_in_words(n)),
            Doubt::Unread(at) => {
                let place = self.registry.sources.locate(at);
                format!(
                    "parents in doubt: a field about them could not be read ({}, line {})",
                    place.path, place.line
                )
            }
        }
    }

    pub(super) fn told(&self, cross: CrossRow) -> String {
        let page = &self.registry[cross].page;
        match &page.told_by {
            Some(by) => format!("as told by the registry {}", by.registry),
            None => "as told by another grower".to_owned(),
        }
    }

    pub(super) fn father_told(&self, cross: CrossRow) -> String {
        match pollen_tellers(self.registry, cross).next() {
            Some((_, by)) => format!("as told by the registry {by}"),
            None => "as told by another grower".to_owned(),
        }
    }

    fn mixed_up_before(&self, side: Side, plant: PlantRow, n: usize) -> String {
        let others = mixed_up_siblings(self.registry, plant).into_iter();
        let itself = std::iter::once(self.registry.code(plant));
        let codes: Vec<String> = itself.chain(others.map(str::to_owned)).collect();
        format!(
            "{} one of {} ({}, mixed up by then)",
            side_words(side),
            number_in_words(n),
            or(&codes)
        )
    }

    fn envelope(&self, lot: PollenRow, contents: Contents) -> String {
        let codes = self.registry[lot].from.codes().iter();
        let codes = each_once(codes.map(|code| code.trim().to_owned()));
        match contents {
            Contents::OneOf(n) => format!(
                "father one of {} by the envelope ({})",
                number_in_words(n),
                or(&codes)
            ),
            Contents::Mixed(_) => format!(
                "pollen of {} mixed in the envelope, so fathers may differ from seed to seed",
                and(&codes)
            ),
            Contents::Unknown => "father not known by the envelope".to_owned(),
        }
    }

    fn open(&self, cross: CrossRow, near: usize) -> String {
        let open = "father unknown (open pollination)".to_owned();
        let Parents::Open { near: codes, .. } = &self.registry[cross].page.parents else {
            return open;
        };
        let codes: Vec<String> = codes.iter().map(|code| (*code).to_owned()).collect();
        match near {
            0 => open,
            _ => format!(
                "father unknown (open pollination; {} shed pollen near it, but any other may be the father)",
                and(&codes)
            ),
        }
    }

    /// A possible parent.
    fn parent_code(&self, plant: Option<PlantRow>) -> String {
        let Some(plant) = plant else {
            return "?".to_owned();
        };
        match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
            Some(KnownBy::Species(epithet)) => format!("one {epithet}"),
            Some(KnownBy::SeedlingOf(cross)) => {
                format!("one seedling of {}", self.cross_code(cross))
            }
            Some(KnownBy::Label) => "?".to_owned(),
            None => self.registry.code(plant),
        }
    }
}

pub(super) fn said(confidence: Confidence, named: Named) -> String {
    if named == Named::Pairs {
        return match confidence {
            Confidence::Unknown => "how the possible parents are known is not recorded".to_owned(),
            confidence => format!("possible parents {}", Strength::from(confidence).words()),
        };
    }
    let whom = match named {
        Named::One(Side::Seed) => "seed parent",
        Named::One(Side::Pollen) => "pollen parent",
        _ => "parents",
    };
    let are = if named == Named::Both { "are" } else { "is" };
    match confidence {
        Confidence::Unknown => format!("how the {whom} {are} known is not recorded"),
        Confidence::OneOfSeveral => format!("{whom} one of several, the others not recorded"),
        confidence => format!("{whom} {}", Strength::from(confidence).words()),
    }
}

fn controls_words(doubt: Doubt) -> String {
    let Doubt::Controls(controls) = doubt else {
        return String::new();
    };
    let interval = controls.interval();
    let percent = |share: f64| format!("{:.0} %", share * 100.0);
    let joined = match (controls.by_days, controls.under_cover) {
        (false, false) => "",
        (true, false) => " (no spike named: the same plant in the same days)",
        (false, true) => " (they were covered; that its flowers were is not on record)",
        (true, true) => {
            " (no spike named: the same plant in the same days; they were covered; that its flowers were is not on record)"
        }
    };
    let set = controls.set;
    let Some(flowers) = controls.flowers else {
        return format!(
            "father probable: {} set, of a number not recorded, so how much stray pollen there was is not known{joined}",
            counted(set as usize, "control flower", "control flowers")
        );
    };
    let percent_up_to = percent(interval.high);
    match (set, flowers) {
        (0, 1) => format!(
            "the control flower did not set, so stray pollen may have set as many as {percent_up_to} of flowers (95 % limit){joined}"
        ),
        (_, 1) => format!(
            "father probable: the control flower set, so stray pollen in {} to {percent_up_to} (95 %){joined}",
            percent(interval.low)
        ),
        (0, _) => format!(
            "none of {} set, so stray pollen may have set as many as {} of flowers (95 % limit){joined}",
            counted(flowers as usize, "control flower", "control flowers"),
            percent_up_to
        ),
        _ => format!(
            "father probable: {set} of {} set, so stray pollen in {} to {} (95 %){joined}",
            counted(flowers as usize, "control flower", "control flowers"),
            percent(interval.low),
            percent_up_to
        ),
    }
}

pub(super) fn side_words(side: Side) -> &'static str {
    match side {
        Side::Seed => "seed parent",
        Side::Pollen => "father",
    }
}
