//! Seed to sow, seedlings to count, seedlings to prick out.

use super::context::{DueContext, shifted};
use super::row::{DueRow, SeedSince, Task};
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::months::months;
use crate::observation::presence::is_over;
use crate::observation::seed_left::{SeedLeft, seed_left};
use crate::observation::seedling_trays::{SeedlingTray, is_count, lately_taken_out};
use crate::observation::sowing_left::{LeftBy, SowingAccount, sowing_left};
use crate::record::{CommunityPot, CrossPage, Pod, SeedLot, Sowing, When};
use crate::registry::{Cross, CrossRow, PotRow, SowingRow};

/// Seedlings still waiting to be pricked out.
pub(super) struct Waiting {
    /// Code of the sowing, or of the community pot.
    pub code: String,
    /// How many, least and most.
    pub seedlings: Option<(u32, u32)>,
    /// When they were sown.
    pub sown: When,
    /// Whether they are pricked out, into a community pot or anything else.
    pub pricked_out: bool,
    /// The last day on which others were taken out of the same sowing; `None` where none were.
    pub taken_out: Option<When>,
    /// Whether it is only that more came up than were taken out, so that there may be none.
    pub is_guess: bool,
}

impl DueContext<'_, '_> {
    /// Seed of a cross that is not sown.
    pub fn seed(&self, cross: &Cross) -> Vec<DueRow> {
        let page = &cross.page;
        let lots = page.seed_lots.iter().filter_map(|lot| self.lot(page, lot));
        let pods = page.pods.iter().filter_map(|pod| {
            let harvested = self.registry.when(pod.harvested?);
            let left = match is_whole(page, pod) && cross.seedlings.is_empty() {
                true => pod.seeds,
                false => Some(self.left_of_pod(page, pod)?),
            };
            let is_some = left != Some(0);
            let code = || format!("{}.{}", page.code, pod.code);
            let row = is_some
                .then(|| self.sow(code(), (left, false, None), (SeedSince::Harvest, harvested)));
            row.flatten()
        });
        lots.chain(pods).collect()
    }

    /// What is left of the counted seed of a pod that was sown without a lot; `None` where that is not known.
    fn left_of_pod(&self, page: &CrossPage, pod: &Pod) -> Option<u32> {
        let in_lots = page.seed_lots.iter().any(|lot| lot.pod == Some(pod.code));
        let seeds = pod.seeds.filter(|_| !in_lots)?;
        let sown = page.sowings.iter();
        let mut sown =
            sown.filter(|sowing| sowing.pod == Some(pod.code) && self.by_today(sowing.on));
        let first = sown.next()?.seeds?;
        sown.try_fold(seeds.saturating_sub(first), |left, sowing| {
            Some(left.saturating_sub(sowing.seeds?))
        })
    }

    fn lot(&self, page: &CrossPage, lot: &SeedLot) -> Option<DueRow> {
        let SeedLeft { sown, seeds, left } = seed_left(self.registry, page, lot, self.today);
        // Of a number that is not on record, where nothing is said of what is left, what was sown from is taken to be sown.
        let is_open = lot.left.is_some() || left.is_some() || sown.is_empty();
        if lot.is_used_up() || left == Some(0) || !is_open {
            return None;
        }
        let unknown = sown.iter().filter(|sowing| sowing.seeds.is_none());
        let took: Vec<String> = unknown
            .map(|sowing| format!("{}.{}", page.code, sowing.code))
            .collect();
        let pod = page.pods.iter().find(|pod| lot.pod == Some(pod.code));
        let harvested = pod.and_then(|pod| pod.harvested);
        let (since, on) = match (harvested, lot.came) {
            (None, Some(came)) => (SeedSince::Arrival, Some(came)),
            (harvested, _) => (SeedSince::Harvest, harvested),
        };
        let since = (since, on.map_or(When::UNKNOWN, |on| self.registry.when(on)));
        let stored = lot.stored.as_deref().map(str::to_owned);
        let code = format!("{}.{}", page.code, lot.code);
        let said = lot.left.as_deref();
        if said.is_none() && took.is_empty() {
            return self.sow(code, (left, lot.estimated, stored), since);
        }
        let task = Task::SeedLeft {
            left: said.map(str::to_owned),
            at_most: left.filter(|_| said.is_none()),
            took,
            seeds,
            estimated: lot.estimated,
            stored,
            months: months(since.1, When::on(self.today)),
            age_from: since.0,
        };
        self.of_seed(code, task, since.1)
    }

    fn sow(
        &self,
        code: String,
        (seeds, estimated, stored): (Option<u32>, bool, Option<String>),
        since: (SeedSince, When),
    ) -> Option<DueRow> {
        let task = Task::Sow {
            seeds,
            estimated,
            stored,
            months: months(since.1, When::on(self.today)),
            age_from: since.0,
        };
        self.of_seed(code, task, since.1)
    }

    fn of_seed(&self, code: String, task: Task, since: When) -> Option<DueRow> {
        let is_here = since.first <= self.today;
        let row = is_here.then(|| self.after(code, task, since, self.ranges.sow));
        row.flatten()
    }

    /// Sowings of a cross to count.
    pub fn counts(&self, cross: CrossRow) -> Vec<DueRow> {
        let page = &self.registry[cross].page;
        let sowings = self.registry.sowings(cross);
        sowings
            .filter(|(row, sowing)| self.is_uncounted(*row) && sowing.seeds != Some(0))
            .filter_map(|(_, sowing)| self.count(page, sowing))
            .collect()
    }

    fn count(&self, page: &CrossPage, sowing: &Sowing) -> Option<DueRow> {
        let sown = sowing.on.map_or(When::UNKNOWN, |on| self.registry.when(on));
        let last = self.last_count(sowing);
        let may_prick = shifted(sown, self.ranges.prick_out.days)
            .is_none_or(|window| window.earliest <= self.today.0);
        if last.is_some_and(|(up, _)| Some(up) == sowing.seeds || up > 0 && may_prick) {
            return None;
        }
        let (since, range) = match last {
            Some((_, when)) => (when, self.ranges.count_again),
            None => (self.registry.when(sowing.on?), self.ranges.germination),
        };
        let task = Task::CountSeedlings {
            up: last.map(|(up, _)| up),
            sown: sowing.seeds,
        };
        self.after(format!("{}.{}", page.code, sowing.code), task, since, range)
    }

    /// Seedlings of a cross to prick out.
    pub fn prick_out(&self, cross: CrossRow) -> Vec<DueRow> {
        let waiting = self.waiting(cross).into_iter();
        waiting
            .filter(|of| !of.pricked_out && !of.is_guess)
            .filter_map(|of| {
                let task = Task::PrickOut {
                    seedlings: of.seedlings,
                    is_rest: of.taken_out.is_some(),
                };
                match of.taken_out {
                    Some(on) => self.after(of.code, task, on, self.ranges.count_again),
                    None => self.after(of.code, task, of.sown, self.ranges.prick_out),
                }
            })
            .collect()
    }

    /// Seedlings of a cross that are still a count: in community pots, up in their sowing, left there, or pricked out of it.
    pub fn waiting(&self, cross: CrossRow) -> Vec<Waiting> {
        let pots = self.registry.community_pots(cross);
        let pots = pots.filter_map(|(row, _)| self.pot(row));
        let sowings = self.registry.sowings(cross);
        let standing = sowings.filter_map(|(row, _)| self.standing(row));
        let sowings = self.registry.sowings(cross);
        let elsewhere = sowings.filter_map(|(row, _)| self.elsewhere(row));
        pots.chain(standing).chain(elsewhere).collect()
    }

    /// Seedlings pricked out of a sowing less than a year ago into something that is not on record as a community pot. Some
    /// of the plants that came from no sowing on record may be of them.
    fn elsewhere(&self, row: SowingRow) -> Option<Waiting> {
        let registry = self.registry;
        let (seedlings, on) = SowingAccount::of(registry, row).pricked_out_elsewhere(self.today);
        if seedlings == 0 || !lately_taken_out(registry, row, on, self.today) {
            return None;
        }
        let plants = registry[row.cross].seedlings.iter();
        let nameless = plants.filter(|plant| registry.road(**plant).0.is_none());
        let most = u32::try_from(seedlings).unwrap_or(u32::MAX);
        let nameless = u32::try_from(nameless.count()).unwrap_or(u32::MAX);
        let least = most.saturating_sub(nameless);
        Some(Waiting {
            pricked_out: true,
            ..self.in_sowing(row, Some((least, most)))
        })
    }

    /// What stands in a sowing: what was counted there; else what is up, where none were taken out; else what may be left
    /// for a year after others were pricked out or numbered.
    fn standing(&self, row: SowingRow) -> Option<Waiting> {
        let sowing = &self.registry[row];
        let left = sowing_left(self.registry, row, self.today);
        let by_count = left.by == LeftBy::Count;
        if by_count && left.left.is_none_or(|(_, most)| most > 0) {
            return Some(self.in_sowing(row, left.left));
        }
        if self.is_uncounted(row) {
            let (up, _) = self.last_count(sowing).filter(|(up, _)| *up > 0)?;
            return Some(self.in_sowing(row, Some((up, up))));
        }
        let seedlings = left.left.filter(|(_, most)| *most > 0)?;
        let stands = SeedlingTray::Sowing(row).stands(self.registry, self.today);
        let taken_out = left.taken_out.filter(|_| stands)?;
        Some(Waiting {
            taken_out: Some(taken_out),
            is_guess: left.by == LeftBy::CameUp,
            ..self.in_sowing(row, Some(seedlings))
        })
    }

    fn in_sowing(&self, row: SowingRow, seedlings: Option<(u32, u32)>) -> Waiting {
        let on = self.registry[row].on;
        Waiting {
            code: SeedlingTray::Sowing(row).code(self.registry),
            seedlings,
            sown: on.map_or(When::UNKNOWN, |on| self.registry.when(on)),
            pricked_out: false,
            taken_out: None,
            is_guess: false,
        }
    }

    /// What stands in a community pot: those seedlings are pricked out, whether or not it is on record when. The count of
    /// what stands in a sowing is no such pot.
    fn pot(&self, row: PotRow) -> Option<Waiting> {
        let page = &self.registry[row.cross].page;
        let pot = &self.registry[row];
        let today = self.today;
        let gone = pot.fate.as_ref();
        if gone.is_some_and(|fate| is_over(self.registry, fate, today)) {
            return None;
        }
        let left = community_pot_left(self.registry, row, today).left;
        if left.is_some_and(|(_, most)| most == 0) || is_count(self.registry, row) {
            return None;
        }
        let of = |code: &&str| page.sowings.iter().find(|sowing| sowing.code == *code);
        let sown = pot.sowing.as_ref().and_then(of).and_then(|of| of.on);
        Some(Waiting {
            code: format!("{}.{}", page.code, pot.code),
            seedlings: left,
            sown: sown.map_or(When::UNKNOWN, |on| self.registry.when(on)),
            pricked_out: true,
            taken_out: None,
            is_guess: false,
        })
    }

    /// Whether a sowing's seedlings are still in it: none numbered, none in a community pot, none pricked out.
    fn is_uncounted(&self, row: SowingRow) -> bool {
        let (cross, sowing) = (&self.registry[row.cross], &self.registry[row]);
        let of_it = |pot: &CommunityPot| pot.sowing == Some(sowing.code);
        let mut numbered = cross.seedlings.iter();
        let gone = sowing.fate.as_ref();
        self.by_today(sowing.on)
            && !gone.is_some_and(|fate| is_over(self.registry, fate, self.today))
            && sowing.pricked_out.is_empty()
            && !cross.page.community_pots.iter().any(of_it)
            && !numbered.any(|plant| self.registry.road(*plant).0 == Some(row))
            // Seedlings without a sowing may be of any.
            && !cross.seedlings.iter().any(|plant| self.registry.road(*plant).0.is_none())
    }

    /// How many came up, and when that was counted: of running totals the largest, since the days of two may overlap.
    fn last_count(&self, sowing: &Sowing) -> Option<(u32, When)> {
        let counts = sowing.germinated.iter();
        let counts = counts.map(|tally| (tally.count, self.registry.when(tally.on)));
        counts
            .filter(|(_, when)| when.first <= self.today)
            .max_by_key(|(up, when)| (*up, when.last))
    }
}

/// Whether no seed of a pod is recorded as taken out.
fn is_whole(page: &CrossPage, pod: &Pod) -> bool {
    let alone = page.pods.len() == 1;
    let of_it = |code: Option<&str>| code == Some(pod.code) || alone && code.is_none();
    !page.seed_lots.iter().any(|lot| of_it(lot.pod))
        && !page.sowings.iter().any(|sowing| of_it(sowing.pod))
        && page.community_pots.is_empty()
}
