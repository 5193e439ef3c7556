//! What a proposal must fit besides the plants' merit: a chance of both sexes, and room on the shelf.

use crate::analysis::select::answer::{Proposal, SelectRow};
use crate::analysis::select::choice::{Choice, Chooser, Proposed};
use crate::analysis::select::known::Known;
use crate::analysis::select::reason::{Caution, Places, Reason};
use crate::lineage::PlantRow;
use crate::observation::pieces_here;
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::shelf_room::room;
use crate::record::Sex;
use crate::statistics::proportion::both_sexes;

impl Chooser<'_, '_> {
    /// Keeps more, next best first, until the chance of both sexes is as wanted. A plant whose sex is there already is
    /// passed over.
    pub(crate) fn add_for_sexes(&self, of: &Known, order: &[usize], proposed: &mut [Proposed]) {
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
                proposed[plant] = (Proposal::Keep, Reason::ForBothSexes { chance, wanted });
            }
        }
    }

    pub(crate) fn sexes(&self, plants: impl Iterator<Item = PlantRow>) -> Sexes {
        plants.fold(Sexes::default(), |sexes, plant| {
            sexes.with(sex_seen(self.registry, plant))
        })
    }

    /// Offers the lowest of those kept by quota until what is kept fits the shelves.
    pub(crate) fn fit_shelf(&self, choice: &mut Choice) {
        let Some(shelf) = &self.rules.shelf else {
            return;
        };
        let room_of = |row: &SelectRow| {
            let pot = room(self.registry, row.row, shelf, self.today)?;
            let pieces = pieces_here(self.registry, row.row, self.today).max(1);
            Some(pot * pieces as f64)
        };
        let kept = |rows: &[SelectRow]| -> f64 {
            let kept = rows.iter().filter(|row| row.proposal == Proposal::Keep);
            kept.filter_map(room_of).sum()
        };
        let mut taken = kept(&choice.rows);
        if taken > shelf.shelves + 1e-9 && self.ranks_nothing() {
            undecide(&mut choice.rows);
            taken = kept(&choice.rows);
        }
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
            if row.proposal != Proposal::Keep || row.reason.spares_from_shelf() {
                continue;
            }
            // A plant in a pot of unknown width takes some room: it never stays for a better one.
            taken -= room_of(row).unwrap_or(0.0);
            row.proposal = Proposal::Sell;
            row.reason = Reason::NoRoom(Box::new(row.reason.clone()));
        }
        let unknown = choice
            .rows
            .iter()
            .filter(|row| row.proposal == Proposal::Keep && room_of(row).is_none())
            .count();
        if unknown > 0 {
            choice.cautions.push(Caution::PotUnknown(unknown));
        }
        if taken > shelf.shelves + 1e-9 {
            choice.cautions.push(Caution::ShelfTooSmall);
        }
        choice.shelves = Some((kept(&choice.rows), shelf.shelves));
    }
}

/// Leaves open which of those stay that nothing ranks and that the shelves do not take together.
fn undecide(rows: &mut [SelectRow]) {
    let is_open =
        |row: &&mut SelectRow| row.proposal == Proposal::Keep && !row.reason.spares_from_shelf();
    let mut open: Vec<&mut SelectRow> = rows.iter_mut().filter(is_open).collect();
    let n = open.len();
    for row in &mut open {
        row.proposal = Proposal::Undecided;
        let places = Places::Shelves;
        row.reason = Reason::Unranked { n, places };
    }
}

/// Certain sexes and plants not sexed among those kept.
#[derive(Clone, Copy, Default)]
pub(crate) struct Sexes {
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
    pub(crate) fn chance(self) -> f64 {
        match (self.female > 0, self.male > 0) {
            (true, true) => 1.0,
            (false, false) => both_sexes(self.unsexed, 1, 0.5).unwrap_or(0.0),
            _ => 1.0 - libm::pow(0.5, self.unsexed as f64),
        }
    }
}
