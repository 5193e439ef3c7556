//! How many seedlings are left in a pot of which only a count is kept, once those that were pricked out into it are added and
//! those that were taken out of it are taken off.
//!
//! What happened before the last count is in that count already; what happened after it is added or taken off. Those that came
//! up since may have died since, so that what is left is a range. One numbered on
//! the day of the only count is taken off it, since it stood there first. On the day of a later count nothing records which
//! came first, so that what is left is a range; it is never more than the count before leaves once all that were taken out
//! since are taken off. Where the day of numbering is not recorded, the seedling is taken off the only count; of several
//! counts it may be out of the last already, and what is left is a range too. How prickings out lie to a count is the matter
//! of `pot_account`.
//!
//! Where it is not known which of several counts was the last, what is left is all that any of them leaves.
//!
//! Seedlings of several pots that were mixed up and put into a pot of their own are counted there. How many came from
//! which pot is not known, so what is left in each is a range until it is counted again.

use super::pot_account::{Lies, PotAccount, pot_account};
use crate::record::{Day, When};
use crate::registry::{PotRow, Registry};
use crate::wording::{at_date, counted, days};

/// What is left in a pot.
#[derive(Clone, Debug, Default)]
pub struct CommunityPotLeft {
    /// The last count and its day; before the first, the number pricked out into it.
    pub counted: Option<(u32, When)>,
    /// Other counts, of which one may be the last.
    pub or_counted: Vec<(u32, When)>,
    /// Seedlings numbered out of it since.
    pub taken: u32,
    /// Seedlings numbered out of it without a day, which may be out of the last count already.
    pub perhaps: u32,
    /// Seedlings numbered out of it on the day of the last count, perhaps before it.
    pub that_day: u32,
    /// Seedlings that died or left without a number since.
    pub gone: u32,
    /// Seedlings that died or left without a number, perhaps before the last count.
    pub perhaps_gone: u32,
    /// Seedlings pricked out into it that are not in the count.
    pub added: u32,
    /// Seedlings pricked out into it that may be in the count.
    pub perhaps_added: u32,
    /// Seedlings that came up since the count, at most, in the sowing in which these are counted.
    pub perhaps_up: u32,
    /// Seedlings pricked out of the sowing in which these are counted, since the count.
    pub moved: u32,
    /// Seedlings pricked out of that sowing, perhaps before the count, or perhaps of another count.
    pub perhaps_moved: u32,
    /// Seedlings numbered out of that sowing since the count, perhaps from elsewhere.
    pub perhaps_taken: u32,
    /// Pots into which seedlings of this one and of others were put together since.
    pub mixed_into: Vec<MixedInto>,
    /// Least and most that are left; `None` without a count.
    pub left: Option<(u32, u32)>,
    /// Whether more were taken out than it held.
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
    let account = pot_account(registry, pot, today);
    let mixed = mixed_into(registry, pot);
    let mut left = left_by(&account, mixed.clone(), today);
    for other in account.with_other_last() {
        let other = left_by(&other, mixed.clone(), today);
        let span = left.left.zip(other.left);
        left.left = span.map(|(one, other)| (one.0.min(other.0), one.1.max(other.1)));
        left.or_counted.extend(other.counted);
    }
    left
}

/// What is left by an account, whose last count is taken to be the last.
fn left_by(account: &PotAccount, mixed_into: Vec<MixedInto>, today: Day) -> CommunityPotLeft {
    let mut left = since_the_count(account);
    left.mixed_into = mixed_into;
    let counted = left.counted;
    left.mixed_into.retain(|mixed| {
        let already = counted.is_some_and(|(_, count)| mixed.on.surely_before(count));
        mixed.on.first <= today && !already
    });
    let Some((count, _)) = counted else {
        return left;
    };
    let stood = count.saturating_add(left.added);
    let taken = [left.taken, left.moved, left.gone];
    let taken = taken.into_iter().fold(0, u32::saturating_add);
    let perhaps_stood = stood.saturating_add(left.perhaps_added);
    let perhaps_stood = perhaps_stood.saturating_add(left.perhaps_up);
    left.too_many = taken > perhaps_stood;
    let mixed = left.mixed_into.iter().map(|mixed| mixed.seedlings);
    let mixed = mixed.fold(0u32, u32::saturating_add);
    let surely = stood.saturating_sub(taken);
    let perhaps = [
        left.perhaps,
        left.that_day,
        left.perhaps_gone,
        left.perhaps_moved,
        left.perhaps_taken,
    ];
    let least = perhaps.into_iter().chain([mixed]);
    let least = least.fold(surely, u32::saturating_sub);
    let most = perhaps_stood.saturating_sub(taken);
    let by_earlier = account.most_by_earlier();
    let by_earlier = by_earlier.map(|most| u32::try_from(most).unwrap_or(u32::MAX));
    let most = by_earlier.map_or(most, |earlier| most.min(earlier));
    left.left = Some((least.min(most), most));
    left
}

/// What went in and out since the last count, or since the pot was filled.
fn since_the_count(account: &PotAccount) -> CommunityPotLeft {
    let last = account.counts.len().checked_sub(1);
    let counted = last.map(|at| account.counts[at]).or(account.began);
    let mut of = CommunityPotLeft {
        counted,
        perhaps_up: last.map_or(0, |last| {
            u32::try_from(account.up_since(last, None)).unwrap_or(u32::MAX)
        }),
        ..CommunityPotLeft::default()
    };
    let is_only = account.counts.len() + usize::from(account.began.is_some()) < 2;
    for on in &account.numbered {
        match (*on, last.map(|at| account.counts[at].1)) {
            (Some(on), Some(count)) if on.surely_before(count) => {}
            (None, _) if !is_only => of.perhaps += 1,
            (Some(on), Some(count)) if !is_only && !count.surely_before(on) => of.that_day += 1,
            _ => of.taken += 1,
        }
    }
    for part in &account.gone {
        match last.map(|at| account.counts[at].1) {
            Some(count) if part.on.surely_before(count) => {}
            Some(count) if !is_only && !count.surely_before(part.on) => {
                add(&mut of.perhaps_gone, part.seedlings);
            }
            _ => add(&mut of.gone, part.seedlings),
        }
    }
    // Without a day nothing joins them to the count.
    for on in account.of_sowing.iter().flatten() {
        match last.map(|at| account.counts[at].1) {
            Some(count) if on.surely_before(count) => {}
            Some(count) if count.surely_before(*on) && !account.may_be_elsewhere => of.taken += 1,
            _ => of.perhaps_taken += 1,
        }
    }
    for (at, moved) in account.into.iter().enumerate() {
        match last.map_or(Lies::After, |last| account.lies_into(last, at)) {
            Lies::Before => {}
            Lies::Perhaps => add(&mut of.perhaps_added, moved.seedlings),
            Lies::After => add(&mut of.added, moved.seedlings),
        }
    }
    if let (None, Some((began, _))) = (last, account.began) {
        of.added -= began;
    }
    for moved in &account.out {
        match last.map_or(Lies::Before, |last| account.lies_out(last, moved)) {
            Lies::Before => {}
            Lies::Perhaps => add(&mut of.perhaps_moved, moved.seedlings),
            Lies::After => add(&mut of.moved, moved.seedlings),
        }
    }
    of
}

fn add(sum: &mut u32, seedlings: u32) {
    *sum = sum.saturating_add(seedlings);
}

/// The pots that hold mixed-up seedlings of this pot and of others: the mix-up that filled them names this pot. Two pots that
/// were taken for each other have a sowing each, and no seedling left either of them.
fn mixed_into(registry: &Registry, pot: PotRow) -> Vec<MixedInto> {
    let code = format!("{}.{}", registry[pot.cross].page.code, registry[pot].code);
    let mut found = Vec::new();
    for row in registry.pots_of_several_crosses(pot.cross) {
        let of = &registry[row];
        let named =
            |with: &str| with == code || row.cross == pot.cross && with == registry[pot].code;
        let mix_up = of.filled_by();
        let mix_up = mix_up.filter(|of| of.with.iter().any(|with| named(with)));
        let first = of.alive.first().map(|tally| tally.count);
        if let (Some(mix_up), Some(seedlings)) = (mix_up, first) {
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
    /// Whether seedlings were taken out of it, pricked out into it or came up in it since the count, or may have been.
    pub fn is_changed(&self) -> bool {
        let numbered = self.taken + self.perhaps + self.that_day > 0;
        let gone = self.gone > 0 || self.perhaps_gone > 0;
        let is_sure = self.or_counted.is_empty();
        let pricked = [
            self.added,
            self.perhaps_added,
            self.perhaps_up,
            self.moved,
            self.perhaps_moved,
        ];
        !is_sure
            || numbered
            || gone
            || self.perhaps_taken > 0
            || pricked != [0; 5]
            || !self.mixed_into.is_empty()
    }

    /// `11`, or `11–51` where it is not known whether a count includes those that were numbered.
    pub fn left_words(&self) -> Option<String> {
        self.left.map(|(least, most)| match least == most {
            true => least.to_string(),
            false => format!("{least}–{most}"),
        })
    }

    /// `11 left: 51 alive on 2024-05-01, 40 numbered since`; `not counted`.
    pub fn words(&self) -> String {
        self.words_of("left")
    }

    /// The same of a pot that came to an end: `11 then: 51 alive on 2024-05-01, 40 numbered since`.
    pub fn words_at_the_end(&self) -> String {
        self.words_of("then")
    }

    fn words_of(&self, when_left: &str) -> String {
        let (Some(left), Some((count, when))) = (self.left_words(), self.counted) else {
            return "not counted".to_owned();
        };
        if !self.is_changed() {
            return format!("{count} alive {}", at_date(&days(when)));
        }
        format!(
            "{left} {when_left}: {count} alive {}, {}",
            at_date(&days(when)),
            self.taken_words()
        )
    }

    /// How many were pricked out into it, taken out of it or mixed up with others, in words; empty when none were.
    pub fn taken_words(&self) -> String {
        let mut told = Vec::new();
        if self.perhaps_up > 0 {
            told.push(format!("up to {} came up since", self.perhaps_up));
        }
        for (count, on) in &self.or_counted {
            told.push(format!(
                "{count} {}, and which count was the last is not known",
                at_date(&days(*on))
            ));
        }
        let since = [
            (self.added, "more pricked out into it"),
            (
                self.perhaps_added,
                "pricked out into it, perhaps before that count",
            ),
            (self.moved, "pricked out since"),
            (
                self.perhaps_moved,
                "pricked out, perhaps not after that count",
            ),
            (self.taken, "numbered since"),
            (self.perhaps, "numbered without a date"),
            (self.that_day, "numbered, perhaps before that count"),
            (self.gone, "gone since"),
            (self.perhaps_gone, "gone, perhaps before that count"),
            (
                self.perhaps_taken,
                "numbered out of the sowing, perhaps not of these",
            ),
        ];
        let since = since.into_iter().filter(|(seedlings, _)| *seedlings > 0);
        told.extend(since.map(|(seedlings, what)| format!("{seedlings} {what}")));
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
