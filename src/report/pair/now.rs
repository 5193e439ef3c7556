//! Whether an intended pollination can be made today, and what prevents it: the first line of the page.

use crate::analysis::pair::{FlowersOf, PairReport, SideRow};
use crate::observation::sex::SexSeen;
use crate::wording::{joined, joined_if_any, led_by};

impl PairReport {
    /// What forbids the pollination, or what is still lacking, or that nothing is.
    pub(super) fn now_words(&self) -> String {
        let (seed, pollen) = (&self.seed.id, &self.pollen.id);
        if !self.impossible.is_empty() {
            let other_way = led_by("; the other way round it can: ", self.other_way.as_ref());
            let why = joined(&self.impossible, "; ");
            return format!("{seed} × {pollen} cannot be made: {why}{other_way}");
        }
        let lacking = [
            self.sexes_in_doubt(),
            self.spike_lacking(),
            self.pollen_lacking(),
        ];
        match joined_if_any(lacking.into_iter().flatten(), "; ") {
            None => format!(
                "♀ {seed} × ♂ {pollen} can be made now: the spike is open, pollen is to be had"
            ),
            Some(lacking) => format!("♀ {seed} × ♂ {pollen} is not ready: {lacking}"),
        }
    }

    fn sexes_in_doubt(&self) -> Option<String> {
        let doubt = |side: &SideRow| match side.sex {
            SexSeen::Certain(_) => None,
            SexSeen::Unsexed => Some(format!("{} is unsexed", side.id)),
            SexSeen::MixedUp => Some(format!("the sex of {} is not known: mixed up", side.id)),
            sex => Some(format!("{} is {sex}", side.id)),
        };
        joined_if_any(
            [&self.seed, &self.pollen].into_iter().filter_map(doubt),
            ", ",
        )
    }

    /// Whether a spike of a plant is open; else what is known of the one that comes first.
    fn spike(&self, plant: &str) -> Flowers {
        let of_plant = || self.flowers.iter().filter(|of| of.plant == plant);
        let open = |of: &FlowersOf| of.opened && !of.may_be_over;
        match of_plant().next() {
            _ if of_plant().any(open) => Flowers::Open,
            Some(of) if of.may_be_over => Flowers::MayBeOver,
            Some(of) => Flowers::Expected(of.window.opens.to_string()),
            None => Flowers::NotOnRecord,
        }
    }

    fn spike_lacking(&self) -> Option<String> {
        let seed = &self.seed.id;
        match self.spike(seed) {
            Flowers::Open => None,
            Flowers::MayBeOver => Some(format!("the flowers of {seed} may be over")),
            Flowers::Expected(opens) => Some(format!("flowers of {seed} are expected {opens}")),
            Flowers::NotOnRecord => Some(format!("no open spike of {seed} is on record")),
        }
    }

    fn pollen_lacking(&self) -> Option<String> {
        let pollen = &self.pollen.id;
        let young = self.envelopes.iter().any(|of| !of.beyond_reports);
        match self.spike(pollen) {
            _ if young => None,
            Flowers::Open => None,
            _ if !self.envelopes.is_empty() => Some(format!(
                "the pollen of {pollen} in hand is older than pollen usually lasts"
            )),
            Flowers::MayBeOver => Some(format!(
                "the flowers of {pollen} may be over, and no pollen of it is in hand"
            )),
            Flowers::Expected(opens) => Some(format!("pollen of {pollen} is expected {opens}")),
            Flowers::NotOnRecord => Some(format!("no pollen of {pollen} is in hand")),
        }
    }
}

/// What is on record of the flowers of a plant today.
enum Flowers {
    /// A spike is open.
    Open,
    /// One opened, and may be over.
    MayBeOver,
    /// One is to open, and when.
    Expected(String),
    /// None.
    NotOnRecord,
}
