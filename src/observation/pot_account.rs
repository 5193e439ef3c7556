//! What was counted in a pot of seedlings that have no numbers, what was pricked out into it, and what was taken out of it, by
//! day and whatever the order in which it was entered.
//!
//! The number a pot begins with is that of the pricking out which filled it. It is no count made by eye: all that was pricked
//! out into the pot besides is added to it, on whatever day.
//!
//! On the day of a count nothing records which came first. A pricking out surely came before the count where the pot could not
//! have held so many without it, or where too few were counted to take so many; it surely came after where so many were
//! counted that they cannot have been taken yet. Else it may have been either.

use super::count_in_sowing::counts_in_sowing;
use crate::record::{CommunityPot, CrossPage, Day, Sowing, When};
use crate::registry::{CrossRow, PlantRow, PodRow, PotRow, Registry, SowingRow};

/// Seedlings pricked out at one time.
#[derive(Clone, Copy, Debug)]
pub struct Moved {
    /// How many.
    pub seedlings: u32,
    /// When.
    pub on: When,
    /// How many were counted as left behind.
    pub left: Option<u32>,
}

/// How something lies to a count.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Lies {
    /// The count holds it already.
    Before,
    /// Not known.
    Perhaps,
    /// It came after.
    After,
}

/// All that is on record of a pot by a day.
#[derive(Clone, Debug, Default)]
pub struct PotAccount {
    /// Counts made by eye, by their days.
    pub counts: Vec<(u32, When)>,
    /// The number it began with, where that is what was pricked out into it.
    pub began: Option<(u32, When)>,
    /// What was pricked out into it.
    pub into: Vec<Moved>,
    /// What was pricked out of the sowing, if this is the count of what stands there.
    pub out: Vec<Moved>,
    /// The days on which seedlings were numbered out of it; `None` where that is not recorded.
    pub numbered: Vec<Option<When>>,
    /// Those that died or left without a number while the others stayed.
    pub gone: Vec<Moved>,
    /// The days of seedlings numbered out of the sowing of which this is a count, where no record names the count.
    pub of_sowing: Vec<Option<When>>,
    /// Whether those may have been pricked out or counted elsewhere before.
    pub may_be_elsewhere: bool,
    /// Whether what was pricked out may be of another count of that sowing.
    is_shared: bool,
    /// The running totals of what came up in the sowing, if this is the count of what stands there.
    up: Vec<(u32, When)>,
    /// For each count the most that stood there before its day.
    pub before: Vec<Option<u64>>,
}

/// The account of a pot by a day.
pub fn pot_account(registry: &Registry, row: PotRow, today: Day) -> PotAccount {
    let numbered = days_numbered(registry, row.cross, today, |road| road.2 == Some(row));
    account_with(registry, row, today, Some(numbered))
}

/// The account of a pot by a day, where the days on which seedlings were numbered out of it are known; `None` for one of
/// counts and prickings out alone, without those that were numbered or are gone.
pub fn account_with(
    registry: &Registry,
    row: PotRow,
    today: Day,
    numbered: Option<Vec<Option<When>>>,
) -> PotAccount {
    let (page, pot) = (&registry[row.cross].page, &registry[row]);
    let by_today = |on: When| on.first <= today;
    let sowing = page.sowings.iter().find(|of| Some(of.code) == pot.sowing);
    let mut moved = sowing.map_or_else(Vec::new, |sowing| moved_out(registry, sowing));
    let tallies = pot.alive.iter();
    let tallies = tallies.map(|tally| (tally.count, registry.when(tally.on)));
    let mut counts: Vec<(u32, When)> = tallies.collect();
    let is_into = |(to, _): &&(Option<&str>, Moved)| *to == Some(pot.code);
    let mut into = moved.iter().filter(is_into).map(|(_, of)| *of);
    let began_so = |of: &(u32, When)| into.any(|m| (m.seedlings, m.on) == *of);
    let began_so = counts.first().is_some_and(began_so);
    if began_so {
        counts.remove(0);
    }
    counts.retain(|(_, on)| by_today(*on));
    moved.retain(|(_, of)| by_today(of.on));
    let into = moved.iter().filter(is_into);
    let into: Vec<Moved> = into.map(|(_, of)| *of).collect();
    let gone = pot.gone.iter().map(|part| Moved {
        seedlings: part.count,
        on: registry.when(part.fate.on()),
        left: None,
    });
    let first_into = into.iter().min_by_key(|of| of.on.last);
    let began = first_into.filter(|_| began_so);
    let began = began.map(|of| (of.seedlings, of.on));
    let first = counts.iter().map(|(_, on)| *on).min_by_key(|on| on.first);
    // A pricking out that names no pot may have filled this one, unless it was counted before.
    let is_out = |(to, of): &&(Option<&str>, Moved)| {
        to.is_some() || first.is_some_and(|first| first.surely_before(of.on))
    };
    let mut account = PotAccount {
        gone: gone
            .filter(|of| numbered.is_some() && by_today(of.on))
            .collect(),
        numbered: numbered.unwrap_or_default(),
        counts,
        began,
        into,
        ..PotAccount::default()
    };
    account.counts.sort_by_key(|(_, on)| on.last);
    if let Some(sowing) = sowing.filter(|of| counts_in_sowing(page, of).any(|at| at == row.at)) {
        let out = moved.iter().filter(is_out);
        account.out = out.map(|(_, of)| *of).collect();
        account.stands_in(registry, row, (sowing, today));
    }
    account.bound();
    account
}

/// What was pricked out of a sowing, and the pot it went to where that is named.
fn moved_out<'r>(registry: &Registry, sowing: &'r Sowing) -> Vec<(Option<&'r str>, Moved)> {
    let moved = sowing.pricked_out.iter().map(|of| {
        let moved = Moved {
            seedlings: of.moved,
            on: registry.when(of.on),
            left: of.left,
        };
        (of.to.as_deref(), moved)
    });
    moved.collect()
}

/// Whether no other count of what stands in a sowing is kept beside this one.
fn is_only_count(page: &CrossPage, sowing: &Sowing, pot: &CommunityPot) -> bool {
    let counts: Vec<usize> = counts_in_sowing(page, sowing).collect();
    let mut open = counts.iter().map(|&at| &page.community_pots[at]);
    counts.len() == 1
        || pot.fate.is_none() && open.all(|of| of.code == pot.code || of.fate.is_some())
}

/// The day on which each seedling that came a way was numbered by today; `None` where that is not recorded.
fn days_numbered(
    registry: &Registry,
    cross: CrossRow,
    today: Day,
    came: impl Fn(Road) -> bool,
) -> Vec<Option<When>> {
    let seedlings = registry[cross].seedlings.iter();
    let numbered = seedlings.filter(|plant| came(registry.road(**plant)));
    let day = |plant: &PlantRow| {
        let seedling = registry.seedling(*plant)?;
        seedling.numbered.map(|on| registry.when(on))
    };
    let days = numbered.map(day);
    days.filter(|on| on.is_none_or(|on| on.first <= today))
        .collect()
}

/// A seedling's sowing, pod and community pot.
type Road = (Option<SowingRow>, Option<PodRow>, Option<PotRow>);

fn sum<'m>(moved: impl Iterator<Item = &'m Moved>) -> u64 {
    moved.map(|of| u64::from(of.seedlings)).sum()
}

impl PotAccount {
    /// Of the count of what stands in a sowing: what is on record of that sowing by a day.
    fn stands_in(&mut self, registry: &Registry, row: PotRow, (sowing, today): (&Sowing, Day)) {
        let (page, pot) = (&registry[row.cross].page, &registry[row]);
        self.is_shared = !is_only_count(page, sowing, pot);
        self.of_sowing = days_numbered(registry, row.cross, today, |road| {
            let at = road.0.map(|of| registry[of].code);
            road.2.is_none() && at == Some(sowing.code)
        });
        let of_it = |of: &&CommunityPot| of.sowing == Some(sowing.code);
        let is_alone = page.community_pots.iter().filter(of_it).count() == 1;
        self.may_be_elsewhere = !is_alone || !sowing.pricked_out.is_empty();
        let up = sowing.germinated.iter();
        let up = up.map(|tally| (tally.count, registry.when(tally.on)));
        self.up = up.filter(|(_, on)| on.first <= today).collect();
    }

    /// Works out for each count the most that stood there before its day.
    fn bound(&mut self) {
        self.before.clear();
        for at in 0..self.counts.len() {
            let before = self.most(self.counts[at].1);
            self.before.push(before);
        }
    }

    /// The same account for each other count that may be the last, with that one as its last: counts of other numbers which
    /// no count surely follows.
    pub fn with_other_last(&self) -> Vec<PotAccount> {
        let last = self.counts.last().map(|(count, _)| *count);
        let may_be_last = |at: &usize| {
            let (count, on) = self.counts[*at];
            let mut all = self.counts.iter();
            Some(count) != last && all.all(|(_, other)| !on.surely_before(*other))
        };
        let others = (0..self.counts.len()).filter(may_be_last);
        let accounts = others.map(|at| {
            let mut account = self.clone();
            let count = account.counts.remove(at);
            account.counts.push(count);
            account.bound();
            account
        });
        accounts.collect()
    }

    /// The most that stood there before a day: what the last count before it and what is on record since leave. `None`
    /// where nothing says how many were there to begin with.
    pub fn most(&self, until: When) -> Option<u64> {
        // While these bounds are worked out, those of earlier counts are known.
        let known = &self.counts[..self.before.len()];
        let base = known.iter().rposition(|(_, on)| on.surely_before(until));
        self.most_since(base, Some(until))
    }

    /// What was pricked out into the pot on the day of a count.
    pub fn into_that_day(&self, count: usize) -> u64 {
        let when = self.counts[count].1;
        sum(self.into.iter().filter(|of| overlap(of.on, when)))
    }

    /// What was pricked out into the pot, or came up in it, and may not be included in a count; without a count, all that was
    /// pricked out into it.
    pub fn into_beside(&self, count: Option<usize>) -> u64 {
        let of = (0..self.into.len())
            .filter(|of| count.is_none_or(|at| self.lies_into(at, *of) != Lies::Before));
        sum(of.map(|of| &self.into[of])) + count.map_or(0, |at| self.up_since(at, None))
    }

    /// The most that came up after a count and before a day: totals are running ones, so that what is known to have been up
    /// at the count is taken off.
    pub fn up_since(&self, count: usize, until: Option<When>) -> u64 {
        let (counted, when) = self.counts[count];
        let most = |up: &mut dyn Iterator<Item = &(u32, When)>| up.map(|(up, _)| *up).max();
        let perhaps_later = until.and_then(|until| {
            let later = self.up.iter().filter(|(_, on)| !on.surely_before(until));
            later.map(|(up, _)| *up).min()
        });
        let up = perhaps_later.or_else(|| most(&mut self.up.iter()));
        let by_then = most(&mut self.up.iter().filter(|(_, on)| on.last <= when.last));
        let seen = u64::from(counted) + self.out_before(count);
        u64::from(up.unwrap_or(0)).saturating_sub(seen.max(by_then.unwrap_or(0).into()))
    }

    /// What was surely pricked out, numbered and gone out of the sowing before a count of what stands there.
    pub fn out_before(&self, count: usize) -> u64 {
        let when = self.counts[count].1;
        let moved = self.out.iter();
        let moved = moved.filter(|of| self.lies_out(count, of) == Lies::Before);
        let of_sowing = self.of_sowing.iter().filter(|_| !self.may_be_elsewhere);
        let numbered = self.numbered.iter().chain(of_sowing).flatten();
        let numbered = numbered.filter(|on| on.surely_before(when));
        let gone = self.gone.iter().filter(|of| of.on.surely_before(when));
        sum(moved) + sum(gone) + numbered.count() as u64
    }

    /// The last count that is surely before another, or the number the pot began with.
    pub fn count_before(&self, count: usize) -> Option<(u32, When)> {
        let when = self.counts[count].1;
        let earlier = self.counts.iter().rev();
        let mut earlier = earlier.chain(&self.began);
        earlier.find(|(_, on)| on.surely_before(when)).copied()
    }

    /// The most that is left by what was counted before the last count; `None` where that count was of more.
    pub fn most_by_earlier(&self) -> Option<u64> {
        let last = self.counts.last()?;
        let mut earlier = self.counts.iter();
        let base = earlier.rposition(|(_, on)| on.surely_before(last.1));
        let most = self.before.last().copied().flatten()?;
        let most = most + self.into_that_day(self.counts.len() - 1);
        let left = self.most_since(base, None);
        left.filter(|_| u64::from(last.0) <= most)
    }

    fn most_since(&self, base: Option<usize>, until: Option<When>) -> Option<u64> {
        let by_then = |on: When| until.is_none_or(|until| on.surely_before(until));
        let since =
            |on: When| by_then(on) && base.is_none_or(|at| self.counts[at].1.surely_before(on));
        let stood = match base {
            Some(at) => u64::from(self.counts[at].0) + self.up_since(at, until),
            None if !self.into.is_empty() => 0,
            None => self.up.iter().map(|(up, _)| u64::from(*up)).max()?,
        };
        let came = (0..self.into.len()).filter(|of| {
            by_then(self.into[*of].on)
                && base.is_none_or(|at| self.lies_into(at, *of) != Lies::Before)
        });
        let came = sum(came.map(|of| &self.into[of]));
        let out = self.out.iter().filter(|of| !self.is_shared && since(of.on));
        let numbered = self.numbered.iter().flatten().filter(|on| since(**on));
        let gone = self.gone.iter().filter(|of| since(of.on));
        let taken = sum(out) + sum(gone) + numbered.count() as u64;
        Some((stood + came).saturating_sub(taken))
    }

    /// How a pricking out into the pot lies to a count.
    pub fn lies_into(&self, count: usize, of: usize) -> Lies {
        let ((counted, when), moved) = (self.counts[count], self.into[of]);
        if let Some(lies) = by_day(moved.on, when) {
            return lies;
        }
        let others = self.into.iter().enumerate();
        let others = others.filter(|(at, other)| *at != of && overlap(other.on, when));
        let without = self.before[count].unwrap_or(0) + sum(others.map(|(_, other)| other));
        let with = without + u64::from(moved.seedlings);
        match without < u64::from(counted) && u64::from(counted) <= with {
            true => Lies::Before,
            false => Lies::Perhaps,
        }
    }

    /// How a pricking out of the sowing lies to a count of what stands there.
    pub fn lies_out(&self, count: usize, moved: &Moved) -> Lies {
        let (counted, when) = self.counts[count];
        match by_day(moved.on, when) {
            Some(Lies::After) if self.is_shared => return Lies::Perhaps,
            Some(lies) => return lies,
            None if self.is_shared => return Lies::Perhaps,
            None if moved.left == Some(counted) => return Lies::Before,
            None => {}
        }
        let died = self.before[count].and_then(|before| before.checked_sub(u64::from(counted)));
        let too_few_are_gone = died.is_some_and(|died| u64::from(moved.seedlings) > died);
        match (moved.seedlings > counted, too_few_are_gone) {
            (true, false) => Lies::Before,
            (false, true) => Lies::After,
            _ => Lies::Perhaps,
        }
    }
}

/// How the days of something and of a count lie; `None` where they may be one.
fn by_day(on: When, count: When) -> Option<Lies> {
    match (on.surely_before(count), count.surely_before(on)) {
        (true, _) => Some(Lies::Before),
        (_, true) => Some(Lies::After),
        _ => None,
    }
}

fn overlap(one: When, other: When) -> bool {
    by_day(one, other).is_none()
}
