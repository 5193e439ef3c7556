//! Spikes that are open or about to open, with what could be put on them; pollen that ages out.

use super::context::DueContext;
use super::ranges::{By, DayRange};
use super::row::{Basis, DueRow, Task, Urgency};
use crate::analysis::ready::state;
use crate::observation::flowers::{Forecast, Spike};
use crate::observation::pollen::{Envelope, OwnResults, in_hand, place_words, reported_days};
use crate::planning::windows::{Between, meeting};
use crate::record::{Day, PollenLot, PollenPlace, Sex, When};
use crate::wording::{days, each_once};

impl DueContext<'_, '_> {
    /// Spikes to look at, except those of which a zone was dusted or pollen was collected.
    pub fn spikes(&self, spikes: &[Spike], pollen: &[Envelope]) -> Vec<DueRow> {
        let rest = spikes
            .iter()
            .filter(|spike| !self.is_dusted(spike) && !self.is_collected(spike));
        rest.filter_map(|spike| self.spike(spike, spikes, pollen))
            .collect()
    }

    fn spike(&self, spike: &Spike, spikes: &[Spike], pollen: &[Envelope]) -> Option<DueRow> {
        let bears = spike.planned_sex() != Some(Sex::Male);
        let task = Task::Spike {
            state: state(spike, self.today),
            sex: spike.sex,
            pollen: match bears {
                true => self.pollen_for(spike, spikes, pollen),
                false => Vec::new(),
            },
        };
        let window = Between {
            earliest: spike.window.opens.earliest,
            latest: spike.window.closes.latest,
        };
        let code = spike.code(self.registry);
        let basis = match spike.forecast == Forecast::default() {
            true => Basis::Record,
            false => Basis::Spike(spike.forecast),
        };
        let mut row = self.on(code, task, Some(window), basis)?;
        row.spike = spike.apart.clone();
        row.since = (spike.seen != When::UNKNOWN).then(|| crate::wording::days(spike.seen));
        Some(row)
    }

    /// What could be put on a spike: pollen of males in flower on the same days, then envelopes, the freshest first.
    fn pollen_for(&self, female: &Spike, spikes: &[Spike], pollen: &[Envelope]) -> Vec<String> {
        let males = spikes.iter().filter(|male| {
            male.planned_sex() == Some(Sex::Male)
                && male.plant != female.plant
                && meeting(female.window, male.window, 0).possible()
        });
        let stored = pollen
            .iter()
            .filter(|of| of.plant.is_some_and(|plant| plant != female.plant))
            .filter(|of| !self.is_past(of));
        let mut codes: Vec<String> = each_once(males.map(|male| male.code(self.registry)));
        codes.extend(stored.map(|of| of.lot.clone()));
        codes
    }

    /// The pollen in hand today.
    pub fn pollen_in_hand(&self) -> Vec<Envelope> {
        let results = OwnResults::of(self.registry, self.today);
        in_hand(self.registry, self.today, &results)
    }

    /// Pollen that will be older than it is planned with; what is already is a record left open.
    pub fn ageing(&self, pollen: &[Envelope]) -> Vec<DueRow> {
        let lot = |of: &Envelope| {
            let at = self.registry.pollen_lot(&of.lot)?;
            let lot = &self.registry[at];
            let place = lot.stored.filter(|place| *place != PollenPlace::Fresh)?;
            self.lasts(of, lot, place)
        };
        pollen.iter().filter_map(lot).collect()
    }

    /// Whether pollen is older than planned with, on every reading of its date.
    fn is_past(&self, of: &Envelope) -> bool {
        let lot = self.registry.pollen_lot(&of.lot);
        let place = lot.and_then(|at| self.registry[at].stored);
        match (place, of.age_days) {
            (Some(place), Some((least, _))) => least > self.lasting(place).days.1,
            _ => false,
        }
    }

    fn lasts(&self, of: &Envelope, lot: &PollenLot, place: PollenPlace) -> Option<DueRow> {
        let range = self.lasting(place);
        let task = Task::UsePollen {
            of: of.of.clone(),
            place: place_words(place),
        };
        let mut collected = self.registry.when(lot.collected?);
        let in_words = days(collected);
        if collected.first == Day::FIRST {
            // Of the last day it can be of.
            collected = When::on(collected.last);
        }
        let mut row = self.after(lot.code.to_owned(), task, collected, range)?;
        row.since = row.since.map(|_| in_words);
        if row.urgency == Urgency::Overdue {
            row.urgency = Urgency::LongOverdue;
        }
        Some(row)
    }
}

impl DueContext<'_, '_> {
    /// How long pollen kept in a place is planned with: by the goals, else by what growers report.
    fn lasting(&self, place: PollenPlace) -> DayRange {
        let set = match place {
            PollenPlace::Fresh => self.options.pollen_lasts.fresh,
            PollenPlace::Room => self.options.pollen_lasts.room,
            PollenPlace::Fridge => self.options.pollen_lasts.fridge,
            PollenPlace::Freezer => self.options.pollen_lasts.freezer,
        };
        let (days, by) = match set {
            Some(days) => (days, By::Goals),
            None => (reported_days(place), By::Practice),
        };
        let days = i32::try_from(days).unwrap_or(i32::MAX);
        DayRange {
            days: (days, days),
            by,
            own: 0,
        }
    }
}
