//! How a proposal is made: small crosses whole, those marked, levels, the index up to the quota.
//!
//! What is changed afterwards for both sexes and for the shelf is in `keep_fit`.

use crate::analysis::select::answer::{KeepCross, KeepRow, Proposal};
use crate::analysis::select::known::Known;
use crate::analysis::select::rules::{Counted, missed_words};
use crate::record::{Day, KeepRules};
use crate::registry::Registry;
use crate::statistics::culling::Verdict;

/// What a choice rests on.
pub(crate) struct Chooser<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub rules: &'a KeepRules,
    pub traits: &'a [Counted],
    pub today: Day,
}

/// What was chosen.
#[derive(Default)]
pub(crate) struct Choice {
    pub crosses: Vec<KeepCross>,
    pub rows: Vec<KeepRow>,
    pub shelves: Option<(f64, f64)>,
    pub cautions: Vec<String>,
}

/// A proposal and its reason.
pub(crate) type Proposed = (Proposal, String);

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
            choice.cautions.push(
                "the chance of both sexes takes each unsexed seedling as female or male with equal chance".to_owned(),
            );
        }
        choice
    }

    fn quota(&self, of: &Known) -> Option<usize> {
        let code = self.registry.crosses[of.scope.cross as usize].page.code;
        let own = self.rules.quotas.iter().find(|quota| quota.cross == code);
        own.map(|quota| quota.keep).or(self.rules.keep)
    }

    /// The rows of one cross, best index first, unread last.
    fn rows(&self, of: &Known) -> Vec<KeepRow> {
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
    ) -> KeepRow {
        let row = of.plants[plant];
        let score = of.scores[plant].as_ref();
        KeepRow {
            plant: self.registry.code(row),
            cross: self.registry.crosses[of.scope.cross as usize]
                .page
                .code
                .to_owned(),
            index: score.map(|score| score.value),
            index_between: score.map(|score| (score.interval.low, score.interval.high)),
            place,
            levels: self.level_words(of, plant),
            front: of.fronts[plant],
            proposal,
            reason,
            row,
            read_elsewhere: (0..self.traits.len())
                .any(|at| self.traits[at].weight != 0.0 && of.instead[at][plant].is_some()),
            already_marked: self.registry.is_kept(row),
        }
    }

    fn level_words(&self, of: &Known, plant: usize) -> String {
        let names = |places: &[usize]| -> String {
            let names: Vec<&str> = places
                .iter()
                .map(|&at| self.traits[at].unit.name.as_str())
                .collect();
            names.join(", ")
        };
        match &of.verdicts[plant] {
            _ if self.traits.iter().all(|of| of.level.is_none()) => String::new(),
            Verdict::Passes => "reached".to_owned(),
            Verdict::Fails(missed) => format!("missed: {}", names(missed)),
            Verdict::Unread(unread) => {
                let (elsewhere, never): (Vec<usize>, Vec<usize>) = unread
                    .iter()
                    .partition(|&&at| of.instead[at][plant].is_some());
                let told = [("unread", never), ("not comparable", elsewhere)];
                let told = told.iter().filter(|(_, places)| !places.is_empty());
                let told: Vec<String> = told
                    .map(|(word, places)| format!("{word}: {}", names(places)))
                    .collect();
                told.join("; ")
            }
        }
    }

    /// A proposal for every plant of a cross, `order` from the best index down.
    fn proposed(&self, of: &Known, order: &[usize], place: &[Option<usize>]) -> Vec<Proposed> {
        let n = of.plants.len();
        if self.rules.small_cross.is_some_and(|small| n <= small) {
            let why = format!("small cross of {n}, kept whole");
            return vec![(Proposal::Keep, why); n];
        }
        let quota = self.quota(of);
        let mut proposed: Vec<Option<Proposed>> = vec![None; n];
        let mut kept = 0;
        for &plant in order {
            if let Some(mark) = self.registry.kept(of.plants[plant]) {
                let why = mark
                    .why
                    .as_deref()
                    .map_or(String::new(), |why| format!(" ({why})"));
                proposed[plant] = Some((Proposal::Keep, format!("marked to keep already{why}")));
                kept += 1;
            }
        }
        for &plant in order {
            if proposed[plant].is_some() {
                continue;
            }
            let decided = self.one(of, plant, place[plant], (kept, quota));
            kept += usize::from(decided.0 == Proposal::Keep);
            proposed[plant] = Some(decided);
        }
        let mut proposed: Vec<Proposed> = proposed.into_iter().flatten().collect();
        self.add_for_sexes(of, order, &mut proposed);
        proposed
    }

    fn one(
        &self,
        of: &Known,
        plant: usize,
        place: Option<usize>,
        (kept, quota): (usize, Option<usize>),
    ) -> Proposed {
        match &of.verdicts[plant] {
            Verdict::Fails(missed) => return (Proposal::LetGo, self.missed(of, plant, missed)),
            Verdict::Unread(unread) => {
                let told = self.instead_words(of, plant, unread.iter().copied());
                let told = told.unwrap_or_else(|| self.level_words(of, plant));
                return (Proposal::ReadFirst, format!("{told}: cannot be judged"));
            }
            Verdict::Passes => {}
        }
        let weighed = self.traits.iter().any(|of| of.weight != 0.0);
        if weighed && place.is_none() {
            let places = (0..self.traits.len()).filter(|&at| self.traits[at].weight != 0.0);
            let told = self.instead_words(of, plant, places);
            return (
                Proposal::ReadFirst,
                told.unwrap_or_else(|| "nothing that is weighed was read on it".to_owned()),
            );
        }
        let standing = match place {
            Some(place) => match of.cohort_of(plant) {
                Some(cohort) => format!(
                    "place {place} of {}, judged within {}",
                    of.ranked.len(),
                    cohort.label
                ),
                None => format!("place {place} of {}", of.ranked.len()),
            },
            None => "reaches every level".to_owned(),
        };
        let unread = of.scores[plant].as_ref().map_or(0, |score| score.unread);
        let unsure = match unread {
            0 => String::new(),
            n => format!("; {n} of what is weighed not read at its age, so less sure"),
        };
        match quota {
            None => (
                Proposal::Keep,
                format!("{standing}; no quota stated{unsure}"),
            ),
            Some(quota) if kept < quota => {
                (Proposal::Keep, format!("{standing}, quota {quota}{unsure}"))
            }
            Some(quota) => {
                let tied = self.overlaps_kept(of, plant, quota);
                (
                    Proposal::Sell,
                    format!("{standing}, quota {quota} full{tied}{unsure}"),
                )
            }
        }
    }

    /// What was read instead of what is missing; `None` when none of it was ever read.
    fn instead_words(
        &self,
        of: &Known,
        plant: usize,
        missing: impl Iterator<Item = usize>,
    ) -> Option<String> {
        let mut told: Vec<String> = Vec::new();
        let mut ever = false;
        for at in missing {
            let instead = of.instead[at][plant].as_ref();
            ever |= instead.is_some();
            let unread = || format!("{} unread", self.traits[at].unit.name);
            let words = instead.cloned().unwrap_or_else(unread);
            if !told.contains(&words) {
                told.push(words);
            }
        }
        ever.then(|| told.join("; "))
    }

    /// Whether the last one kept by index can be told from this plant.
    fn overlaps_kept(&self, of: &Known, plant: usize, quota: usize) -> &'static str {
        let last = quota.checked_sub(1).and_then(|at| of.ranked.get(at));
        let interval = |plant: usize| of.scores[plant].as_ref().map(|score| score.interval);
        if last.is_some_and(|&last| of.value(last) == of.value(plant)) {
            return "; equal to the last one kept";
        }
        match (last.and_then(|&last| interval(last)), interval(plant)) {
            (Some(kept), Some(this)) if this.high >= kept.low => {
                "; not surely behind the last one kept"
            }
            _ => "",
        }
    }

    fn missed(&self, of: &Known, plant: usize, missed: &[usize]) -> String {
        let told: Vec<String> = missed
            .iter()
            .map(|&at| missed_words(&self.traits[at], of.readings[at][plant]))
            .collect();
        told.join("; ")
    }

    fn cross(&self, of: &Known, rows: &[KeepRow]) -> KeepCross {
        let mine: Vec<&KeepRow> = rows
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
        KeepCross {
            id: of.scope.code(self.registry),
            here: of.plants.len(),
            quota,
            keep: count(Proposal::Keep),
            sell: count(Proposal::Sell),
            let_go: count(Proposal::LetGo),
            read_first: count(Proposal::ReadFirst),
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
