//! Seedlings moved out of their sowing pot into a community pot.

use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::counts_of;
use crate::observation::seedling_trays::{SeedlingTray, is_count};
use crate::observation::sowing_left::{SowingAccount, into_pot_unrecorded};
use crate::record::{Day, When};
use crate::recording::codes::next_part;
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::{Part, SOWING, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::trays::not_gone;
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, words};
use crate::recording::written::{RonRecord, tally};
use crate::registry::ids::is_new_code;
use crate::registry::{PotRow, Registry, SowingRow, Target};
use crate::wording::counted;

/// A pricking out.
#[derive(Clone, Debug, Default)]
pub struct Prick {
    /// The sowing.
    pub sowing: String,
    /// How many were moved.
    pub moved: u32,
    /// How many were left behind.
    pub left: Option<u32>,
    /// The community pot they went to; the next free code if not given.
    pub to: Option<String>,
    /// The kind of pot or tray.
    pub pot: Option<String>,
    /// Where it stands.
    pub place: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Prick {
    /// Writes the move, and the community pot.
    ///
    /// # Errors
    /// If more are moved than came up, or the pot is of another sowing or muddled.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        if let Some(Target::CommunityPot(pot)) = registry.target(&self.sowing) {
            return Err(self.out_of_a_pot(registry, pot, draft.today));
        }
        let row: SowingRow = part(registry, &self.sowing, &SOWING)?;
        not_gone(registry, SeedlingTray::Sowing(row), &on)?;
        if self.moved == 0 {
            let needed = "at least one seedling";
            return Err(Slip::bad_number("the number moved", "0", needed));
        }
        let cross = registry[row.cross].page.code;
        let (sowing, pot) = (row.code(registry), self.pot_code(registry, row)?);
        let whole = format!("{cross}.{pot}");
        let standing = counts_of(registry, row).find(|at| registry[*at].fate.is_none());
        if standing.is_some_and(|at| registry[at].code == pot) {
            return Err(into_the_count(&whole, &sowing));
        }
        let mut pots = registry.community_pots(row.cross);
        let known = pots.find(|(_, of)| of.code == pot).map(|(at, _)| at);
        self.enough(registry, row, (&on, known))?;
        let pricking = RonRecord::new()
            .text("on", &on.text)
            .value("moved", self.moved)
            .value_if("left", self.left)
            .text("to", &pot);
        draft.change_part(row, &[FieldChange::Push("pricked_out", pricking.line())])?;
        match known {
            Some(into) => fits(registry, row, into, &on)?,
            None => self.new_pot(draft, row, (&pot, &on))?,
        }
        // Nothing is written of what was not counted: what is left follows from the counts and the prickings.
        if let (Some(count), Some(left)) = (standing, self.left) {
            draft.change_part(count, &[FieldChange::Push("alive", tally(&on.text, left))])?;
        }
        let about = vec![cross.to_owned(), sowing.clone(), whole.clone()];
        let what = What::Pricked {
            sowing,
            moved: self.moved,
            to: whole.clone(),
        };
        let tag = Some(whole).filter(|_| known.is_none());
        let (usual, sown) = Usual::since_sown(registry, row, "pricked out");
        let remark = usual.remark(sown, on.when);
        Ok(Recorded::of(what, about, on.text)
            .tag(tag, "pot")
            .remarks(remark))
    }

    /// Writes the pot they went to.
    fn new_pot(
        &self,
        draft: &mut Draft,
        row: SowingRow,
        (pot, on): (&str, &Dated),
    ) -> Result<(), Slip> {
        let record = RonRecord::new()
            .text("code", pot)
            .text("sowing", draft.registry[row].code)
            .value("alive", format!("[{}]", tally(&on.text, self.moved)))
            .text_if("pot", self.pot.as_ref())
            .text_if("place", self.place.as_ref());
        let page = draft.cross(row.cross);
        Ok(page.append("community_pots", &[record.line()])?)
    }

    /// The code of the pot: as its tag says it, or without the code of the cross; the next free one where none is given.
    fn pot_code(&self, registry: &Registry, row: SowingRow) -> Result<String, Slip> {
        let page = &registry[row.cross].page;
        let Some(to) = self.to.as_deref() else {
            return Ok(next_part(
                'T',
                page.community_pots.iter().map(|pot| pot.code),
            ));
        };
        let code = to.strip_prefix(&format!("{}.", page.code)).unwrap_or(to);
        match is_new_code(code) {
            true => Ok(code.to_owned()),
            false => Err(Slip::bad_code("community pot", code)),
        }
    }

    /// Refuses more seedlings than came up, those that were moved or numbered taken off; of those left, only what was taken
    /// out before.
    fn enough(
        &self,
        registry: &Registry,
        row: SowingRow,
        (on, into): (&Dated, Option<PotRow>),
    ) -> Result<(), Slip> {
        let sowing = &registry[row];
        let up = sowing.germinated.iter().map(|tally| tally.count).max();
        let Some(came_up) = up.or(sowing.seeds) else {
            return Ok(());
        };
        let (what, of) = match up {
            Some(_) => (
                "seedlings that came up and were not moved or numbered yet",
                "those that came up",
            ),
            None => (
                "seeds sown that were not moved or numbered yet",
                "the seeds sown",
            ),
        };
        let help = words!(
            "count again all that came up so far{}";
            Words::or(": `podbook count … --up N`", ", under “Counted”")
        );
        let account = SowingAccount::of(registry, row);
        let there = account.not_taken_out(came_up, Day::LAST);
        let there =
            there.saturating_add(into.map_or(0, |pot| may_be_these(registry, row, pot, on)));
        let behind = account.left_behind_then(on.when);
        if let Some(behind) = behind.filter(|behind| *behind < there.min(self.moved)) {
            return Err(Slip::too_many(
                "seedlings left behind at an earlier pricking out and not moved or numbered since",
                (self.moved, behind),
                help,
            ));
        }
        if self.moved > there {
            let before = self.perhaps_moved_before((registry, on.today), row, came_up);
            let refusal = || Slip::too_many(what, (self.moved, there), help);
            return Err(before.unwrap_or_else(refusal));
        }
        let day_before = Day(on.when.first.0.saturating_sub(1));
        let there = account.not_taken_out(came_up, day_before);
        match self.left {
            Some(left) if u64::from(self.moved) + u64::from(left) > u64::from(there) => {
                Err(Slip::contradicts(
                    format!(
                        "{} were pricked out of {} and {left} left there",
                        self.moved,
                        row.code(registry)
                    ),
                    format!("at most {there} of {of} stood there before"),
                    help,
                ))
            }
            _ => Ok(()),
        }
    }

    /// The refusal of more than are left once those in pots that no pricking out filled are taken off.
    fn perhaps_moved_before(
        &self,
        (registry, today): (&Registry, Day),
        row: SowingRow,
        came_up: u32,
    ) -> Option<Slip> {
        let mut pots = registry.community_pots(row.cross);
        let (pot, of) =
            pots.find(|(_, pot)| into_pot_unrecorded(registry, row, pot, |_| true) > 0)?;
        let (code, sowing) = (pot.code(registry), row.code(registry));
        Some(Slip::contradicts(
            format!(
                "{} were to be pricked out of {sowing}",
                counted(self.moved as usize, "seedling", "seedlings")
            ),
            format!(
                "at most {} of {came_up} can be left in it: those counted in {code} are out of it",
                SowingAccount::of(registry, row).not_taken_out(came_up, Day::LAST)
            ),
            words!(
                "if these are the seedlings of {code}, number them{}; if this is how they came there, {}";
                numbering(registry, pot, today),
                Words::or(
                    format!("add --to {} and --on with the day", of.code),
                    format!("fill in {} as the community pot, and the day", of.code)
                )
            ),
        ))
    }

    /// The refusal of a community pot, with what can be recorded of it.
    fn out_of_a_pot(&self, registry: &Registry, row: PotRow, today: Day) -> Slip {
        let (cross, code) = (registry[row.cross].page.code, row.code(registry));
        let sowing = registry[row].sowing;
        let sowing = sowing.map(|sowing| format!("{cross}.{sowing}"));
        Slip::nothing(match sowing {
            Some(sowing) if is_count(registry, row) => words!(
                "{code} is the count of those still standing in {sowing}\nname the sowing: {}";
                Words::or(format!("podbook prick {sowing} {}", self.moved), &*sowing)
            ),
            _ => words!(
                "{code} is a community pot: what stands there is pricked out\ngive each seedling a number when it gets its own pot{}";
                numbering(registry, row, today)
            ),
        })
    }
}

/// The refusal of the count of what stands in a sowing as the pot its seedlings went to.
fn into_the_count(pot: &str, sowing: &str) -> Slip {
    Slip::contradicts(
        format!("seedlings were to go into {pot}"),
        format!("that is the count of those still standing in {sowing}"),
        words!(
            "give the pot they went to another code, or {}";
            Words::or("leave out --to", "none")
        ),
    )
}

/// How many counted in a pot on that day or since may be those that are moved now.
fn may_be_these(registry: &Registry, row: SowingRow, pot: PotRow, on: &Dated) -> u32 {
    let held = |by: &dyn Fn(When) -> bool| into_pot_unrecorded(registry, row, &registry[pot], by);
    held(&|_| true).saturating_sub(held(&|day| day.surely_before(on.when)))
}

/// Refuses a pot that holds seedlings of another sowing, or is gone.
fn fits(registry: &Registry, row: SowingRow, into: PotRow, on: &Dated) -> Result<(), Slip> {
    let there = registry[into].sowing;
    if there == Some(registry[row].code) {
        return not_gone(registry, SeedlingTray::Pot(into), on);
    }
    Err(Slip::contradicts(
        format!(
            "seedlings of {} were to go into {}",
            row.code(registry),
            into.code(registry)
        ),
        match there {
            Some(other) => format!("it holds seedlings of {other}"),
            None => "the sowing it comes from is not on record".to_owned(),
        },
        "put them into another pot, or they are muddled",
    ))
}

/// How the seedlings of a community pot are numbered, from the first free number on.
fn numbering(registry: &Registry, row: PotRow, today: Day) -> Words {
    let code = row.code(registry);
    let cross = registry[row.cross].page.code;
    let is_free = |number: &u32| registry.plant(&format!("{cross}-{number}")).is_none();
    let first = (1..).find(is_free).unwrap_or(1);
    let left = community_pot_left(registry, row, today).left;
    let last = left.map_or(first, |(_, most)| first.saturating_add(most.max(1) - 1));
    Words::or(
        format!(": podbook number {code} {first}-{last} --pot 5cm"),
        ", under “Numbered”",
    )
}
