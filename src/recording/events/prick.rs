//! Seedlings moved out of their sowing pot into a community pot.

use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::counts_in_sowing;
use crate::observation::seedling_trays::{SeedlingTray, is_count};
use crate::observation::sowing_left::{into_pot_unrecorded, left_behind_then, not_taken_out};
use crate::record::{Day, When};
use crate::recording::codes::next_part;
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::{Part, part};
use crate::recording::recorded::{Recorded, Tag, What};
use crate::recording::slip::Slip;
use crate::recording::trays::not_gone;
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
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        if let Some(Target::CommunityPot(pot)) = registry.target(&self.sowing) {
            return Err(self.out_of_a_pot(registry, pot, draft.today));
        }
        let (_, cross, at) = part(registry, &self.sowing, &[Part::Sowing])?;
        let from = SeedlingTray::Sowing(SowingRow { cross, at });
        not_gone(registry, from, (draft.today, &on))?;
        let page = &registry[cross].page;
        let sowing = &page.sowings[at];
        if self.moved == 0 {
            return Err(Slip::BadNumber(
                "the number moved",
                "0".to_owned(),
                "at least one seedling",
            ));
        }
        // As its tag says it, or without the code of the cross.
        let whole = format!("{}.", page.code);
        let to = self.to.as_deref();
        let pot = match to.map(|to| to.strip_prefix(&whole).unwrap_or(to)) {
            Some(code) if !is_new_code(code) => {
                return Err(Slip::BadCode("community pot", code.to_owned()));
            }
            Some(code) => code.to_owned(),
            None => next_part('T', page.community_pots.iter().map(|pot| pot.code)),
        };
        let mut standing = counts_in_sowing(page, sowing);
        let standing = standing.find(|&at| page.community_pots[at].fate.is_none());
        if standing.is_some_and(|at| page.community_pots[at].code == pot) {
            return Err(Slip::contradicts(
                format!("seedlings were to go into {}.{pot}", page.code),
                format!(
                    "that is the count of those still standing in {}.{}",
                    page.code, sowing.code
                ),
                words!(
                    "give the pot they went to another code, or {}";
                    Words::or("leave out --to", "none")
                ),
            ));
        }
        let known = page
            .community_pots
            .iter()
            .position(|known| known.code == pot);
        let row = SowingRow { cross, at };
        self.enough(registry, row, (&on, known, draft.today))?;
        let pricking = RonRecord::new()
            .text("on", &on.text)
            .value("moved", self.moved)
            .value_if("left", self.left)
            .text("to", &pot);
        let push = FieldChange::Push("pricked_out", pricking.line());
        draft.cross(cross).change_at("sowings", at, &[push])?;
        let whole = format!("{}.{pot}", page.code);
        match known {
            Some(known) => {
                let there = &page.community_pots[known];
                if there.sowing != Some(sowing.code) {
                    return Err(Slip::contradicts(
                        format!(
                            "seedlings of {}.{} were to go into {whole}",
                            page.code, sowing.code
                        ),
                        match there.sowing {
                            Some(other) => format!("it holds seedlings of {other}"),
                            None => "the sowing it comes from is not on record".to_owned(),
                        },
                        "put them into another pot, or they are muddled",
                    ));
                }
                let into = PotRow { cross, at: known };
                not_gone(registry, SeedlingTray::Pot(into), (draft.today, &on))?;
            }
            None => {
                let record = RonRecord::new()
                    .text("code", &pot)
                    .text("sowing", sowing.code)
                    .value("alive", format!("[{}]", tally(&on.text, self.moved)))
                    .text_if("pot", self.pot.as_ref())
                    .text_if("place", self.place.as_ref());
                draft
                    .cross(cross)
                    .append("community_pots", &[record.line()])?;
            }
        }
        // Nothing is written of what was not counted: what is left follows from the counts and the prickings.
        if let (Some(at), Some(left)) = (standing, self.left) {
            let push = FieldChange::Push("alive", tally(&on.text, left));
            draft
                .cross(cross)
                .change_at("community_pots", at, &[push])?;
        }
        let tag = Tag {
            code: whole.clone(),
            on: "pot",
        };
        Ok(Recorded {
            about: vec![
                page.code.to_owned(),
                format!("{}.{}", page.code, sowing.code),
                whole.clone(),
            ],
            tags: if known.is_some() {
                Vec::new()
            } else {
                vec![tag]
            },
            remarks: Vec::new(),
            what: What::Pricked {
                sowing: format!("{}.{}", page.code, sowing.code),
                moved: self.moved,
                to: whole,
                on: on.text,
            },
        })
    }

    /// Refuses more seedlings than came up, those that were moved or numbered taken off; of those left, only what was taken
    /// out before.
    fn enough(
        &self,
        registry: &Registry,
        row: SowingRow,
        (on, into, today): (&Dated, Option<usize>, Day),
    ) -> Result<(), Slip> {
        let sowing = &registry[row];
        let up = sowing.germinated.iter().map(|tally| tally.count).max();
        let Some(came_up) = up.or(sowing.seeds) else {
            return Ok(());
        };
        let there = not_taken_out(registry, row, came_up, Day::LAST);
        // What was counted in that pot on that day or since may be these.
        let into = into.map(|at| &registry[row.cross].page.community_pots[at]);
        let may_be_these = into.map_or(0, |pot| {
            let held = |by: &dyn Fn(When) -> bool| into_pot_unrecorded(registry, row, pot, by);
            held(&|_| true).saturating_sub(held(&|day| day.surely_before(on.when)))
        });
        let there = there.saturating_add(may_be_these);
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
        let behind = left_behind_then(registry, row, on.when);
        if let Some(behind) = behind.filter(|behind| *behind < there.min(self.moved)) {
            return Err(Slip::too_many(
                "seedlings left behind at a pricking out before, and not moved or numbered since",
                (self.moved, behind),
                help.clone(),
            ));
        }
        if self.moved > there {
            if let Some(refusal) = self.perhaps_moved_before((registry, today), row, came_up) {
                return Err(refusal);
            }
            return Err(Slip::too_many(what, (self.moved, there), help));
        }
        let Some(left) = self.left else {
            return Ok(());
        };
        let day_before = Day(on.when.first.0.saturating_sub(1));
        let there = not_taken_out(registry, row, came_up, day_before);
        if u64::from(self.moved) + u64::from(left) <= u64::from(there) {
            return Ok(());
        }
        Err(Slip::contradicts(
            format!(
                "{} were pricked out of {} and {left} left there",
                self.moved,
                SeedlingTray::Sowing(row).code(registry)
            ),
            format!("at most {there} of {of} stood there before"),
            help,
        ))
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
        let [code, sowing] =
            [SeedlingTray::Pot(pot), SeedlingTray::Sowing(row)].map(|tray| tray.code(registry));
        Some(Slip::contradicts(
            format!(
                "{} were to be pricked out of {sowing}",
                counted(self.moved as usize, "seedling", "seedlings")
            ),
            format!(
                "at most {} of {came_up} can be left in it: those counted in {code} are out of it",
                not_taken_out(registry, row, came_up, Day::LAST)
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
        let (page, pot) = (&registry[row.cross].page, &registry[row]);
        let code = SeedlingTray::Pot(row).code(registry);
        let sowing = pot.sowing.map(|sowing| format!("{}.{sowing}", page.code));
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

/// How the seedlings of a community pot are numbered, from the first free number on.
fn numbering(registry: &Registry, row: PotRow, today: Day) -> Words {
    let code = SeedlingTray::Pot(row).code(registry);
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
