//! What a plant or pot may be while mix-ups are not settled: one walk, from today back in time, step by step.
//!
//! What was mixed up with another on a day may be what the other was by that day, so only mix-ups that were no later lead on.
//! Whose parents, which sowing, what age and which readings a plant may have all follow from this walk.

use super::mix_up::{MixUp, MixedUp};
use super::whole::Registry;
use crate::record::Day;
use std::collections::VecDeque;

/// Something that a plant or pot may be.
#[derive(Clone, Copy, Debug)]
pub struct MayBeOne<'r> {
    /// Its code, as the mix-up names it.
    pub code: &'r str,
    /// What that is; `None` for a code that is not on record.
    pub named: Option<MixedUp>,
    /// The last day on which it may have been that.
    pub by: Day,
}

impl MayBeOne<'_> {
    /// Whether two are the same plant or pot; of what is not on record, the same code.
    fn is(&self, other: &MayBeOne) -> bool {
        match (self.named, other.named) {
            (None, None) => self.code == other.code,
            (one, other) => one == other,
        }
    }
}

impl<'t> Registry<'t> {
    /// All that a plant or pot may have been by a day besides itself, in the order found.
    pub fn may_be(&self, this: MixedUp, by: Day) -> Vec<MayBeOne<'_>> {
        self.further(this, self.led_to(this, by), |_| true)
    }

    /// Others that a plant or pot may be, and then what these were mixed up with by then, step by step. Only those lead further
    /// that `leads` lets through.
    pub fn further<'r>(
        &'r self,
        this: MixedUp,
        first: impl Iterator<Item = MayBeOne<'r>>,
        leads: impl Fn(&MayBeOne) -> bool,
    ) -> Vec<MayBeOne<'r>> {
        let mut known: Vec<MayBeOne> = Vec::new();
        // Places in `known` of what is new, or may have been so later than was known.
        let mut to_come: VecDeque<usize> = VecDeque::new();
        let add = |known: &mut Vec<MayBeOne<'r>>, one: MayBeOne<'r>| {
            let place = known.iter().position(|of| of.is(&one));
            match place {
                _ if one.named == Some(this) => return None,
                Some(at) if known[at].by >= one.by => return None,
                Some(at) => known[at].by = one.by,
                None => known.push(one),
            }
            Some(place.unwrap_or(known.len() - 1))
        };
        for one in first {
            to_come.extend(add(&mut known, one));
        }
        while let Some(place) = to_come.pop_front() {
            let one = known[place];
            let Some(of) = one.named.filter(|_| leads(&one)) else {
                continue;
            };
            for other in self.led_to(of, one.by) {
                to_come.extend(add(&mut known, other));
            }
        }
        known
    }

    /// What the mix-ups lead to that a plant or pot had by a day.
    fn led_to(&self, of: MixedUp, by: Day) -> impl Iterator<Item = MayBeOne<'_>> {
        let open = self.open_mix_ups_of(of);
        let by_then = open.filter(move |muddle| self.when(muddle.on).first <= by);
        by_then.flat_map(move |muddle| self.others(of, muddle, by))
    }

    /// What one mix-up of a plant or pot, which was that by a day, leads to. A pot that some seedlings were put into from others
    /// leads to these, but they do not lead to it: no seedling came back.
    pub fn others<'r>(
        &'r self,
        of: MixedUp,
        muddle: &'r MixUp<'t>,
        by: Day,
    ) -> impl Iterator<Item = MayBeOne<'r>> {
        let by = by.min(self.when(muddle.on).last);
        let named = muddle.with.iter().map(move |code| MayBeOne {
            code,
            named: MixedUp::named(self, code),
            by,
        });
        named.filter(move |other| match (of, other.named) {
            (MixedUp::Pot(_), Some(MixedUp::Pot(other))) if !muddle.is_own => {
                let names_it = |code: &String| MixedUp::named(self, code) == Some(of);
                let says_so = |known: &MixUp| {
                    known.is_own && known.on == muddle.on && known.with.iter().any(names_it)
                };
                let mut of_other = self.open_mix_ups_of(MixedUp::Pot(other));
                of_other.any(says_so)
            }
            _ => true,
        })
    }
}
