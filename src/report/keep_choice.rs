//! How a proposal is made: small crosses whole, levels, index up to the quota, both sexes, room on the shelf.

use super::keep::{Counted, KeepCross, KeepRow, Known, Proposal};
use super::shelf_room::room;
use super::standing::{SexSeen, sex_seen};
use crate::lineage::PlantRow;
use crate::record::{Day, KeepRules, Sex};
use crate::registry::Registry;
use crate::statistics::culling::Verdict;
use crate::statistics::proportion::both_sexes;

/// What a choice rests on.
pub(super) struct Chooser<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub rules: &'a KeepRules,
    pub traits: &'a [Counted],
    pub today: Day,
}

/// What was chosen.
#[derive(Default)]
pub(super) struct Choice {
    pub crosses: Vec<KeepCross>,
    pub rows: Vec<KeepRow>,
    pub shelves: Option<(f64, f64)>,
    pub cautions: Vec<String>,
}

/// A proposal and its reason.
type Proposed = (Proposal, String);

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
            place[plant] = Some(rank + 1);
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
            Verdict::Unread(unread) => format!("unread: {}", names(unread)),
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
            Verdict::Unread(_) => {
                return (
                    Proposal::ReadFirst,
                    format!("{}: cannot be judged", self.level_words(of, plant)),
                );
            }
            Verdict::Passes => {}
        }
        let weighed = self.traits.iter().any(|of| of.weight != 0.0);
        if weighed && place.is_none() {
            return (
                Proposal::ReadFirst,
                "nothing that is weighed was read on it".to_owned(),
            );
        }
        let standing = match place {
            Some(place) => format!("place {place} of {}", of.ranked.len()),
            None => "reaches every level".to_owned(),
        };
        let unread = of.scores[plant].as_ref().map_or(0, |score| score.unread);
        let unsure = match unread {
            0 => String::new(),
            n => format!("; {n} of what is weighed unread, so less sure"),
        };
        match quota {
            None => (
                Proposal::Keep,
                format!("{standing}; no quota stated{unsure}"),
            ),
            Some(quota) if kept < quota => (
                Proposal::Keep,
                format!("{standing}, within the quota of {quota}{unsure}"),
            ),
            Some(quota) => {
                let tied = self.overlaps_kept(of, plant, quota);
                (
                    Proposal::Sell,
                    format!("{standing}, the quota of {quota} is full{tied}{unsure}"),
                )
            }
        }
    }

    /// Whether the last one kept by index can be told from this plant.
    fn overlaps_kept(&self, of: &Known, plant: usize, quota: usize) -> &'static str {
        let last = quota.checked_sub(1).and_then(|at| of.ranked.get(at));
        let interval = |plant: usize| of.scores[plant].as_ref().map(|score| score.interval);
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
            .map(|&at| {
                let unit = &self.traits[at].unit;
                let read =
                    of.readings[at][plant].map_or("unread".to_owned(), |value| unit.words(value));
                match self.traits[at].level {
                    Some(crate::statistics::culling::Level::AtLeast(least)) => {
                        format!("{} {read}, below {least}", unit.name)
                    }
                    Some(crate::statistics::culling::Level::AtMost(most)) => {
                        format!("{} {read}, above {most}", unit.name)
                    }
                    None => unit.name.clone(),
                }
            })
            .collect();
        told.join("; ")
    }

    /// Keeps more, next best first, until the chance of both sexes is as wanted. A plant whose sex is there already is
    /// passed over.
    fn add_for_sexes(&self, of: &Known, order: &[usize], proposed: &mut [Proposed]) {
        let Some(wanted) = self.rules.both_sexes else {
            return;
        };
        let kept = of.plants.iter().zip(proposed.iter());
        let kept = kept.filter(|(_, (what, _))| *what == Proposal::Keep);
        let mut sexes = self.sexes(kept.map(|(&plant, _)| plant));
        for &plant in order {
            let chance = sexes.chance();
            if chance >= wanted {
                return;
            }
            let with = sexes.with(sex_seen(self.registry, of.plants[plant]));
            if proposed[plant].0 == Proposal::Sell && with.chance() > chance {
                sexes = with;
                proposed[plant] = (
                    Proposal::Keep,
                    format!(
                        "for both sexes: chance {:.0} % without it, {:.0} % wanted",
                        chance * 100.0,
                        wanted * 100.0
                    ),
                );
            }
        }
    }

    fn sexes(&self, plants: impl Iterator<Item = PlantRow>) -> Sexes {
        plants.fold(Sexes::default(), |sexes, plant| {
            sexes.with(sex_seen(self.registry, plant))
        })
    }

    /// Offers the lowest of those kept by quota until what is kept fits the shelves.
    fn fit_shelf(&self, choice: &mut Choice) {
        let Some(shelf) = &self.rules.shelf else {
            return;
        };
        let room_of = |row: &KeepRow| room(self.registry, row.row, shelf, self.today);
        let kept = |rows: &[KeepRow]| -> f64 {
            let kept = rows.iter().filter(|row| row.proposal == Proposal::Keep);
            kept.filter_map(room_of).sum()
        };
        let unknown = choice
            .rows
            .iter()
            .filter(|row| row.proposal == Proposal::Keep && room_of(row).is_none())
            .count();
        if unknown > 0 {
            choice.cautions.push(format!(
                "{unknown} of those kept have no pot size on record: their room is not counted; say --pot CM to assume one"
            ));
        }
        let mut taken = kept(&choice.rows);
        let mut order: Vec<usize> = (0..choice.rows.len()).collect();
        order.sort_by(|&a, &b| {
            let index = |at: usize| choice.rows[at].index.unwrap_or(f64::NEG_INFINITY);
            index(a).total_cmp(&index(b)).then(b.cmp(&a))
        });
        for at in order {
            if taken <= shelf.shelves + 1e-9 {
                break;
            }
            let row = &mut choice.rows[at];
            let spared = row.already_marked
                || row.reason.starts_with("small cross")
                || row.reason.starts_with("for both");
            if row.proposal != Proposal::Keep || spared {
                continue;
            }
            if let Some(room) = room_of(row) {
                taken -= room;
                row.proposal = Proposal::Sell;
                row.reason = format!("no room: lowest index of those to keep ({})", row.reason);
            }
        }
        if taken > shelf.shelves + 1e-9 {
            choice
                .cautions
                .push("what must be kept takes more than the shelves there are".to_owned());
        }
        choice.shelves = Some((kept(&choice.rows), shelf.shelves));
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

/// Certain sexes and plants not sexed among those kept.
#[derive(Clone, Copy, Default)]
struct Sexes {
    female: u64,
    male: u64,
    unsexed: u64,
}

impl Sexes {
    fn with(mut self, seen: SexSeen) -> Sexes {
        match seen {
            SexSeen::Certain(Sex::Female) => self.female += 1,
            SexSeen::Certain(Sex::Male) => self.male += 1,
            _ => self.unsexed += 1,
        }
        self
    }

    /// The chance of both sexes; an unsexed plant is female or male with equal chance.
    fn chance(self) -> f64 {
        match (self.female > 0, self.male > 0) {
            (true, true) => 1.0,
            (false, false) => both_sexes(self.unsexed, 1, 0.5).unwrap_or(0.0),
            _ => 1.0 - libm::pow(0.5, self.unsexed as f64),
        }
    }
}
