//! What is dated after today: it was not seen yet, so no answer given today may be made of it.
//!
//! Left out are observations: sittings, counts of seedlings and of pods, prickings out, flowers, and returns of plants, which
//! are away until then. A record that others name, such as a pod or a sowing, stays, and so does its date: `check` finds that.

use super::readings::ReadingTable;
use super::whole::Registry;
use crate::record::{
    CrossPage, Day, Fate, Few, Flowering, Pollination, Ramet, RegistryPage, Return, SeenBy, Tally,
    When,
};

impl Registry<'_> {
    /// Leaves out observations that surely lie after a day, and returns how many dates those have: as many as `check` finds
    /// fault with. The sittings after them get other rows. Dates that reach past the day end there.
    pub fn leave_out_after(&mut self, day: Day) -> usize {
        let plants = self.plant_count();
        let mut sittings = std::mem::take(&mut self.readings).into_sittings();
        let before = sittings.len();
        sittings.retain(|head| self.when(head.sitting.on).first <= day);
        let mut left_out = before - sittings.len();
        self.readings = ReadingTable::new(sittings, plants);
        self.last_day = day;
        let day = NotAfter {
            settings: &self.settings,
            day,
        };
        for cross in &mut self.crosses {
            left_out += day.of_page(&mut cross.page);
            for seedling in &mut cross.details {
                let keeps = |of: &mut Flowering| day.keeps(of, &mut left_out);
                seedling.flowerings.retain_mut(keeps);
                left_out += day.pieces(&mut seedling.ramets);
                let away = day.not_back(&mut seedling.came_back);
                left_out += away.len();
                seedling.fate = away
                    .into_iter()
                    .next()
                    .map(Box::new)
                    .or(seedling.fate.take());
            }
        }
        for founder in &mut self.founders {
            let keeps = |of: &mut Flowering| day.keeps(of, &mut left_out);
            founder.flowerings.retain_mut(keeps);
            left_out += day.pieces(&mut founder.ramets);
            let away = day.not_back(&mut founder.came_back);
            left_out += away.len();
            founder.fate = away.into_iter().next().or(founder.fate.take());
        }
        left_out
    }
}

/// The last day that counts. What is left out is counted by its dates.
struct NotAfter<'s, 't> {
    settings: &'s RegistryPage<'t>,
    day: Day,
}

impl NotAfter<'_, '_> {
    fn is_after(&self, text: &str) -> bool {
        When::read(text, self.settings.hemisphere).is_ok_and(|when| when.first > self.day)
    }

    fn of_page(&self, page: &mut CrossPage) -> usize {
        let mut left_out = 0;
        for pollination in &mut page.pollinations {
            left_out += self.set(pollination);
        }
        for sowing in &mut page.sowings {
            left_out += self.tallies(&mut sowing.germinated);
            let before = sowing.pricked_out.len();
            sowing
                .pricked_out
                .retain(|pricking| !self.is_after(pricking.on));
            left_out += before - sowing.pricked_out.len();
        }
        for pot in &mut page.community_pots {
            left_out += self.tallies(&mut pot.alive);
        }
        left_out
    }

    /// Takes out the returns of days to come, and gives how what is not back yet had left, the earliest first.
    fn not_back<'t>(&self, returns: &mut Few<Return<'t>>) -> Vec<Fate<'t>> {
        let to_come = returns.iter().filter(|back| self.is_after(back.on));
        let away: Vec<Fate> = to_come.map(|back| back.left.clone()).collect();
        if !away.is_empty() {
            returns.retain_mut(|back| !self.is_after(back.on));
        }
        away
    }

    fn pieces(&self, pieces: &mut [Ramet]) -> usize {
        let mut left_out = 0;
        for piece in pieces {
            let away = self.not_back(&mut piece.came_back);
            left_out += away.len();
            piece.fate = away.into_iter().next().or(piece.fate.take());
        }
        left_out
    }

    fn tallies(&self, of: &mut Vec<Tally>) -> usize {
        let before = of.len();
        of.retain(|tally| !self.is_after(tally.on));
        before - of.len()
    }

    /// Pods that are said to be counted on a day to come.
    fn set(&self, of: &mut Pollination) -> usize {
        if !of.counted.is_some_and(|on| self.is_after(on)) {
            return 0;
        }
        (of.counted, of.set, of.control_set) = (None, None, None);
        1
    }

    /// Whether a spike is to stay. One of a day to come is none yet; flowers of another that have not opened show no sex.
    fn keeps(&self, flowering: &mut Flowering, left_out: &mut usize) -> bool {
        let after = |on: Option<&str>| on.is_some_and(|on| self.is_after(on));
        let not_yet = [flowering.spike, flowering.opened, flowering.over].map(after);
        *left_out += not_yet.iter().filter(|after| **after).count();
        let [spike, opened, over] = not_yet;
        if opened && flowering.seen_by == SeenBy::Flowers {
            flowering.sex = None;
        }
        if opened {
            flowering.opened = None;
        }
        if opened || over {
            flowering.over = None;
        }
        let is_none_yet = spike || opened && flowering.spike.is_none();
        if is_none_yet {
            (flowering.spike, flowering.opened, flowering.sex) = (None, None, None);
        }
        // A pollination may name it.
        !is_none_yet || flowering.code.is_some()
    }
}
