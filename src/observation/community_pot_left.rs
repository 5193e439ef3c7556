//! How many seedlings are left in a pot of which only a count is kept, once those that were numbered out of it are taken
//! off.
//!
//! A seedling numbered before the last count is out of that count already; one numbered after it is taken off. One numbered on
//! the day of the only count is taken off it, since it stood there first. On the day of a later count nothing records which
//! came first, so that what is left is a range; it is never more than the count before leaves once all that were numbered
//! since are taken off. Where the day of numbering is not recorded, the seedling is taken off the only count; of several
//! counts it may be out of the last already, and what is left is a range too.
//!
//! Seedlings of several pots that were mixed up and put into a pot of their own are counted there. How many came from
//! which pot is not known, so what is left in each is a range until it is counted again.

use crate::record::{Day, When};
use crate::registry::{PlantRow, PotRow, Registry};
use crate::wording::{counted, days};

/// What is left in a pot.
#[derive(Clone, Debug)]
pub struct CommunityPotLeft {
    /// The last count and its day.
    pub counted: Option<(u32, When)>,
    /// Seedlings numbered out of it since.
    pub taken: u32,
    /// Seedlings numbered out of it without a day, which may be out of the last count already.
    pub perhaps: u32,
    /// Seedlings numbered out of it on the day of the last count, perhaps before it.
    pub that_day: u32,
    /// Pots into which seedlings of this one and of others were put together since.
    pub mixed_into: Vec<MixedInto>,
    /// Least and most that are left; `None` without a count.
    pub left: Option<(u32, u32)>,
    /// Whether more were numbered than the count held.
    pub too_many: bool,
}

/// A pot with mixed-up seedlings of several pots.
#[derive(Clone, Debug)]
pub struct MixedInto {
    /// Its code, with that of its cross.
    pub pot: String,
    /// How many were put into it, of all the pots together.
    pub seedlings: u32,
    /// When.
    pub on: When,
}

/// What is left today of a pot.
pub fn community_pot_left(registry: &Registry, pot: PotRow, today: Day) -> CommunityPotLeft {
    let by_today = registry[pot]
        .alive
        .iter()
        .filter(|tally| registry.when(tally.on).first <= today);
    let counts = by_today.map(|tally| (tally.count, registry.when(tally.on)));
    let counts: Vec<(u32, When)> = counts.collect();
    let counted = counts.iter().copied().max_by_key(|(_, when)| when.last);
    let (mut taken, mut perhaps, mut that_day) = (0, 0, 0);
    let numbered = days_numbered(registry, pot, today);
    for on in &numbered {
        match (*on, counted) {
            (Some(on), Some((_, count))) if on.surely_before(count) => {}
            (None, _) if counts.len() > 1 => perhaps += 1,
            (Some(on), Some((_, count))) if counts.len() > 1 && !count.surely_before(on) => {
                that_day += 1;
            }
            _ => taken += 1,
        }
    }
    let at_most = counted
        .filter(|_| that_day > 0)
        .and_then(|last| at_most(&counts, last, &numbered));
    let mut mixed_into = mixed_into(registry, pot);
    mixed_into.retain(|mixed| {
        let already = counted.is_some_and(|(_, count)| mixed.on.surely_before(count));
        mixed.on.first <= today && !already
    });
    let mixed = mixed_into.iter().map(|mixed| mixed.seedlings);
    let mixed = mixed.fold(0u32, u32::saturating_add);
    CommunityPotLeft {
        left: counted.map(|(count, _)| {
            let most = count.saturating_sub(taken);
            let least = [perhaps, that_day, mixed].into_iter();
            let least = least.fold(most, u32::saturating_sub);
            let most = at_most.map_or(most, |at_most| most.min(at_most));
            (least.min(most), most)
        }),
        mixed_into,
        too_many: counted.is_some_and(|(count, _)| taken > count),
        counted,
        taken,
        perhaps,
        that_day,
    }
}

/// The day on which each seedling that was numbered out of a pot by today got its number; `None` where that is not recorded.
fn days_numbered(registry: &Registry, pot: PotRow, today: Day) -> Vec<Option<When>> {
    let seedlings = registry[pot.cross].seedlings.iter();
    let numbered = seedlings.filter(|plant| registry.road(**plant).2 == Some(pot));
    let day = |plant: &PlantRow| {
        let seedling = registry.seedling(*plant)?;
        seedling.numbered.map(|on| registry.when(on))
    };
    let days = numbered.map(day);
    days.filter(|on| on.is_none_or(|on| on.first <= today))
        .collect()
}

/// The most that the count before the last one leaves, all that were numbered since taken off; `None` where there is no such
/// count or the pot grew since.
fn at_most(counts: &[(u32, When)], last: (u32, When), numbered: &[Option<When>]) -> Option<u32> {
    let before = counts.iter().filter(|(_, when)| when.surely_before(last.1));
    let (before, when) = before.max_by_key(|(_, when)| when.last)?;
    let since = numbered.iter().flatten();
    let since = since.filter(|on| when.surely_before(**on)).count();
    let left = u32::try_from(u64::from(*before).saturating_sub(since as u64)).ok();
    left.filter(|_| *before >= last.0)
}

/// The pots that hold mixed-up seedlings of this pot and of others: they come from no sowing, and their mix-up names this
/// pot. Two pots that were taken for each other have a sowing each, and no seedling left either of them.
fn mixed_into(registry: &Registry, pot: PotRow) -> Vec<MixedInto> {
    let code = format!("{}.{}", registry[pot.cross].page.code, registry[pot].code);
    let mut found = Vec::new();
    for row in registry.pots_of_several_crosses(pot.cross) {
        let of = &registry[row];
        let named =
            |with: &str| with == code || row.cross == pot.cross && with == registry[pot].code;
        let mix_up = of
            .muddled
            .iter()
            .find(|muddle| muddle.with.iter().any(|with| named(with)));
        let first = of.alive.first().map(|tally| tally.count);
        if let (Some(mix_up), Some(seedlings), None) = (mix_up, first, of.sowing) {
            found.push(MixedInto {
                pot: format!("{}.{}", registry[row.cross].page.code, of.code),
                seedlings,
                on: registry.when(mix_up.on),
            });
        }
    }
    found
}

impl CommunityPotLeft {
    /// Whether seedlings were taken out of it since the count, or may have been.
    pub fn is_less(&self) -> bool {
        self.taken + self.perhaps + self.that_day > 0 || !self.mixed_into.is_empty()
    }

    /// `11`, or `11–51` where it is not known whether a count includes those that were numbered.
    pub fn left_words(&self) -> Option<String> {
        self.left.map(|(least, most)| match least == most {
            true => least.to_string(),
            false => format!("{least}–{most}"),
        })
    }

    /// `11 left: 51 counted on 2024-05-01, 40 numbered since`; `not counted`.
    pub fn words(&self) -> String {
        let (Some(left), Some((count, when))) = (self.left_words(), self.counted) else {
            return "not counted".to_owned();
        };
        if !self.is_less() {
            return format!("{count} alive on {}", days(when));
        }
        format!(
            "{left} left: {count} alive on {}, {}",
            days(when),
            self.taken_words()
        )
    }

    /// How many were numbered out of it or mixed up with others, in words; empty when none were.
    pub fn taken_words(&self) -> String {
        let mut told = Vec::new();
        if self.taken > 0 {
            told.push(format!("{} numbered since", self.taken));
        }
        if self.perhaps > 0 {
            told.push(format!("{} numbered without a date", self.perhaps));
        }
        if self.that_day > 0 {
            told.push(format!(
                "{} numbered, perhaps before that count",
                self.that_day
            ));
        }
        if self.too_many {
            told.push("more than it held: check the counts".to_owned());
        }
        for mixed in &self.mixed_into {
            told.push(format!(
                "up to {} put into {} on {}, from this pot and others: count again",
                counted(mixed.seedlings as usize, "seedling", "seedlings"),
                mixed.pot,
                days(mixed.on)
            ));
        }
        told.join(", ")
    }
}
