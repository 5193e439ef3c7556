//! How many seedlings are left in a pot of which only a count is kept, once those that were numbered out of it are taken
//! off.
//!
//! A seedling numbered before the last count is out of that count already; one numbered on that day or after it is taken
//! off. Where the day of numbering is not recorded, the seedling is taken off the only count; of several counts it may be
//! out of the last already, and what is left is a range.

use crate::record::{Day, When};
use crate::registry::{PotRow, Registry};
use crate::wording::days;

/// What is left in a pot.
#[derive(Clone, Debug)]
pub struct CommunityPotLeft {
    /// The last count and its day.
    pub counted: Option<(u32, When)>,
    /// Seedlings numbered out of it since.
    pub taken: u32,
    /// Seedlings numbered out of it that may be out of the last count already.
    pub perhaps: u32,
    /// Least and most that are left; `None` without a count.
    pub left: Option<(u32, u32)>,
    /// Whether more were numbered than the count held.
    pub too_many: bool,
}

/// What is left today of a pot.
pub fn community_pot_left(registry: &Registry, pot: PotRow, today: Day) -> CommunityPotLeft {
    let by_today = registry[pot]
        .alive
        .iter()
        .filter(|tally| registry.when(tally.on).first <= today);
    let counts = by_today.clone().count();
    let counted = by_today
        .map(|tally| (tally.count, registry.when(tally.on)))
        .max_by_key(|(_, when)| when.last);
    let (mut taken, mut perhaps) = (0, 0);
    let seedlings = registry[pot.cross].seedlings.iter();
    let numbered = seedlings.filter(|plant| registry.road(**plant).2 == Some(pot));
    for &plant in numbered {
        let on = registry
            .seedling(plant)
            .and_then(|seedling| seedling.numbered);
        match (on.map(|on| registry.when(on)), counted) {
            (Some(on), _) if on.first > today => {}
            (Some(on), Some((_, count))) if on.surely_before(count) => {}
            (None, _) if counts > 1 => perhaps += 1,
            _ => taken += 1,
        }
    }
    CommunityPotLeft {
        left: counted.map(|(count, _)| {
            let most = count.saturating_sub(taken);
            (most.saturating_sub(perhaps), most)
        }),
        too_many: counted.is_some_and(|(count, _)| taken > count),
        counted,
        taken,
        perhaps,
    }
}

impl CommunityPotLeft {
    /// `11`, or `11–51` where it is not known which count a seedling was taken from.
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
        if self.taken + self.perhaps == 0 {
            return format!("{count} alive on {}", days(when));
        }
        format!(
            "{left} left: {count} alive on {}, {}",
            days(when),
            self.taken_words()
        )
    }

    /// How many were numbered out of it, in words; empty when none were.
    pub fn taken_words(&self) -> String {
        let mut told = Vec::new();
        if self.taken > 0 {
            told.push(format!("{} numbered since", self.taken));
        }
        if self.perhaps > 0 {
            told.push(format!("{} numbered without a date", self.perhaps));
        }
        if self.too_many {
            told.push("more than it held: check the counts".to_owned());
        }
        told.join(", ")
    }
}
