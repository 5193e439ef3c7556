//! How a proposal is made: small crosses whole, those marked, levels, the index up to the quota.
//!
//! What is changed afterwards for both sexes and for the shelf is in `fit`.

use crate::analysis::select::answer::{Proposal, SelectCross, SelectRow};
use crate::analysis::select::known::Known;
use crate::analysis::select::numbered::page_number;
use crate::analysis::select::reason::{
    Behind, Caution, Gap, Levels, Places, Quota, Reason, Standing,
};
use crate::analysis::select::rules::{Counted, distinct};
use crate::record::{Day, KeepRules};
use crate::registry::Registry;
use crate::statistics::culling::Verdict;

/// What a choice is based on.
pub(crate) struct Chooser<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub rules: &'a KeepRules,
    pub traits: &'a [Counted],
    pub today: Day,
}

/// What was chosen.
#[derive(Default)]
pub(crate) struct Choice {
    pub crosses: Vec<SelectCross>,
    pub rows: Vec<SelectRow>,
    pub shelves: Option<(f64, f64)>,
    pub cautions: Vec<Caution>,
}

/// A proposal and its reason.
pub(crate) type Proposed = (Proposal, Reason);

impl Chooser<'_, '_> {
    pub fn choose(&self, known: &[Known]) -> Choice {
        let mut choice = Choice::default();
        for of in known {
            let rows = self.rows(of);
            choice.rows.extend(rows);
        }
        self.fit_shelf(&mut choice);
        for of in known {
            choice.crosses.push(self.cross(of, &choice.rows));
        }
        if known.iter().any(|of| !of.plants.is_empty()) && self.rules.both_sexes.is_some() {
            choice.cautions.push(Caution::UnsexedEven);
        }
        choice
    }

    fn quota(&self, of: &Known) -> Option<usize> {
        let code = self.registry[of.scope.cross].page.code;
        let own = self.rules.quotas.iter().find(|quota| quota.cross == code);
        own.map(|quota| quota.keep).or(self.rules.keep)
    }

    /// The rows of one cross, best index first, unread last.
    fn rows(&self, of: &Known) -> Vec<SelectRow> {
        let ranked = &of.ranked;
        let mut place = vec![None; of.plants.len()];
        for (rank, &plant) in ranked.iter().enumerate() {
            // Equal plants share a place.
            let equal = rank.checked_sub(1).map(|before| ranked[before]);
            let equal = equal.filter(|&before| of.value(before) == of.value(plant));
            place[plant] = equal.map_or(Some(rank + 1), |before| place[before]);
        }
        let rest = (0..of.plants.len()).filter(|&plant| place[plant].is_none());
        let order: Vec<usize> = ranked.iter().copied().chain(rest).collect();
        let proposed = self.proposed(of, &order, &place);
        order
            .iter()
            .map(|&plant| self.row(of, plant, (place[plant], proposed[plant].clone())))
            .collect()
    }

    fn row(
        &self,
        of: &Known,
        plant: usize,
        (place, (proposal, reason)): (Option<usize>, Proposed),
    ) -> SelectRow {
        let row = of.plants[plant];
        let score = of.scores[plant].as_ref();
        SelectRow {
            plant: self.registry.code(row),
            number: page_number(self.registry, row),
            cross: self.registry[of.scope.cross].page.code.to_owned(),
            index: score.map(|score| score.value),
            index_between: score.map(|score| (score.interval.low, score.interval.high)),
            readings: distinct(self.traits)
                .map(|at| of.readings[at][plant])
                .collect(),
            beside: Vec::new(),
            place,
            levels: self.levels(of, plant),
            front: of.fronts[plant],
            proposal,
            reason,
            row,
            read_elsewhere: (0..self.traits.len())
                .any(|at| self.traits[at].weight != 0.0 && of.instead[at][plant].is_some()),
            already_marked: self.registry.is_kept(row),
        }
    }

    fn levels(&self, of: &Known, plant: usize) -> Levels {
        let name = |&at: &usize| self.traits[at].unit.name.clone();
        match &of.verdicts[plant] {
            _ if self.traits.iter().all(|of| of.level.is_none()) => Levels::NotStated,
            Verdict::Passes => Levels::Reached,
            Verdict::Fails(missed) => Levels::Missed(missed.iter().map(name).collect()),
            Verdict::Unread(unread) => Levels::Unread(self.gaps(of, plant, unread.iter().copied())),
        }
    }

    /// A proposal for every plant of a cross, `order` from the best index down.
    fn proposed(&self, of: &Known, order: &[usize], place: &[Option<usize>]) -> Vec<Proposed> {
        let n = of.plants.len();
        if self.rules.small_cross.is_some_and(|small| n <= small) {
            return vec![(Proposal::Keep, Reason::SmallCross(n)); n];
        }
        let quota = self.quota(of);
        let mut proposed: Vec<Option<Proposed>> = vec![None; n];
        let (mut kept, mut last) = (0, None);
        for &plant in order {
            if let Some(mark) = self.registry.kept(of.plants[plant]) {
                let why = mark.why.as_deref().map(str::to_owned);
                proposed[plant] = Some((Proposal::Keep, Reason::Marked(why)));
                kept += 1;
                last = Some(plant);
            }
        }
        let unranked = self.unranked(of, (&proposed, kept), quota);
        for &plant in order {
            if proposed[plant].is_some() {
                continue;
            }
            if let Some(undecided) = unranked.as_ref().filter(|_| of.passes(plant)) {
                proposed[plant] = Some(undecided.clone());
                continue;
            }
            let quota = quota.map(|quota| (quota, kept, last));
            let decided = self.one(of, plant, place, quota);
            if decided.0 == Proposal::Keep {
                kept += 1;
                last = Some(plant);
            }
            proposed[plant] = Some(decided);
        }
        let mut proposed: Vec<Proposed> = proposed.into_iter().flatten().collect();
        self.add_for_sexes(of, order, &mut proposed);
        proposed
    }

    /// What is proposed for all that reach every level where the quota takes some of them and no weight ranks them.
    fn unranked(
        &self,
        of: &Known,
        (proposed, kept): (&[Option<Proposed>], usize),
        quota: Option<usize>,
    ) -> Option<Proposed> {
        let quota = quota.filter(|quota| *quota > kept && self.ranks_nothing())?;
        let open = (0..proposed.len()).filter(|&plant| proposed[plant].is_none());
        let n = open.filter(|&plant| of.passes(plant)).count();
        let places = Places::Quota(quota);
        (n > quota - kept).then_some((Proposal::Undecided, Reason::Unranked { n, places }))
    }

    /// Whether the rules have levels and no weight.
    pub(crate) fn ranks_nothing(&self) -> bool {
        self.traits.iter().all(|of| of.weight == 0.0)
    }

    fn one(
        &self,
        of: &Known,
        plant: usize,
        places: &[Option<usize>],
        quota: Option<(usize, usize, Option<usize>)>,
    ) -> Proposed {
        match &of.verdicts[plant] {
            Verdict::Fails(missed) => {
                let missed = missed.iter();
                let missed = missed
                    .filter_map(|&at| self.traits[at].missed(of.readings[at][plant]))
                    .collect();
                return (Proposal::LetGo, Reason::Misses(missed));
            }
            Verdict::Unread(unread) => {
                let gaps = self.gaps(of, plant, unread.iter().copied());
                return (Proposal::ReadFirst, Reason::LevelsUnread(gaps));
            }
            Verdict::Passes => {}
        }
        let weighed = (0..self.traits.len()).filter(|&at| self.traits[at].weight != 0.0);
        let cohort = |plant: usize| of.cohort_of(plant).map(|of| &of.cohort);
        let beside =
            |other: &usize| places[*other] == places[plant] && cohort(*other) == cohort(plant);
        let standing = match places[plant] {
            Some(place) => Standing::Place {
                place,
                tied: (0..places.len()).filter(beside).count(),
                of: of.ranked.len(),
                within: of.cohort_of(plant).map(|of| of.cohort.clone()),
            },
            None if weighed.clone().next().is_some() => {
                let gaps = self.gaps(of, plant, weighed);
                return (Proposal::ReadFirst, Reason::NoIndex(gaps));
            }
            None => Standing::EveryLevel,
        };
        let (proposal, quota) = match quota {
            None => (Proposal::Keep, Quota::NotStated),
            Some((quota, kept, _)) if kept < quota => (Proposal::Keep, Quota::Open(quota)),
            Some((quota, _, last)) => {
                let marked = self.outdone_mark(of, plant, places);
                let behind = marked.map_or_else(
                    || self.behind_last_kept(of, plant, last),
                    Behind::BetterThanMarked,
                );
                (Proposal::Sell, Quota::Full(quota, behind))
            }
        };
        let unread = of.scores[plant].as_ref().map_or(0, |score| score.unread);
        let reason = Reason::Standing {
            standing,
            quota,
            unread,
        };
        (proposal, reason)
    }

    /// Traits without a reading, with what was read instead.
    fn gaps(&self, of: &Known, plant: usize, missing: impl Iterator<Item = usize>) -> Vec<Gap> {
        missing
            .map(|at| Gap {
                name: self.traits[at].unit.name.clone(),
                instead: of.instead[at][plant].clone(),
            })
            .collect()
    }

    /// The lowest plant marked before, of those of its age, if this plant clearly has the higher index.
    fn outdone_mark(&self, of: &Known, plant: usize, places: &[Option<usize>]) -> Option<String> {
        let cohort = |plant: usize| of.cohort_of(plant).map(|of| &of.cohort);
        let is_marked = |&other: &usize| {
            self.registry.kept(of.plants[other]).is_some() && cohort(other) == cohort(plant)
        };
        let marked = (0..places.len()).filter(|&other| places[other].is_some());
        let lowest = marked
            .filter(is_marked)
            .max_by_key(|&other| places[other])?;
        let interval = |plant: usize| of.scores[plant].as_ref().map(|score| score.interval);
        let is_better = interval(plant)?.low > interval(lowest)?.high;
        is_better.then(|| self.registry.code(of.plants[lowest]))
    }

    /// Whether the last one kept by index can be distinguished from this plant.
    fn behind_last_kept(&self, of: &Known, plant: usize, last: Option<usize>) -> Behind {
        let Some(last) = last else {
            return Behind::Behind;
        };
        let interval = |plant: usize| of.scores[plant].as_ref().map(|score| score.interval);
        let code = || self.registry.code(of.plants[last]);
        match (interval(last), interval(plant)) {
            (Some(_), Some(_)) if of.value(last) == of.value(plant) => Behind::Equal(code()),
            (Some(kept), Some(this)) if this.high >= kept.low => Behind::NotSurely(code()),
            _ => Behind::Behind,
        }
    }

    fn cross(&self, of: &Known, rows: &[SelectRow]) -> SelectCross {
        let mine: Vec<&SelectRow> = rows
            .iter()
            .filter(|row| of.plants.binary_search(&row.row).is_ok())
            .collect();
        let count = |what: Proposal| mine.iter().filter(|row| row.proposal == what).count();
        let quota = self.quota(of);
        let best = quota.unwrap_or(0);
        let kept = mine
            .iter()
            .filter(|row| row.proposal == Proposal::Keep)
            .map(|row| row.row);
        SelectCross {
            id: of.scope.code(self.registry),
            here: of.plants.len(),
            quota,
            keep: count(Proposal::Keep),
            sell: count(Proposal::Sell),
            let_go: count(Proposal::LetGo),
            read_first: count(Proposal::ReadFirst),
            undecided: count(Proposal::Undecided),
            on_front: mine.iter().filter(|row| row.front == Some(1)).count(),
            index_on_front: mine
                .iter()
                .filter(|row| row.place.is_some_and(|place| place <= best) && row.front == Some(1))
                .count(),
            pass_levels: of
                .verdicts
                .iter()
                .filter(|verdict| **verdict == Verdict::Passes)
                .count(),
            both_sexes: self.rules.both_sexes.map(|_| self.sexes(kept).chance()),
            read_at: of.read_at.clone(),
        }
    }
}
