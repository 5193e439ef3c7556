//! Seedlings counted: how many came up so far, how many are alive now.

use crate::analysis::due::practice;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::{counts_in_sowing, is_filled};
use crate::observation::seedling_trays::SeedlingTray;
use crate::record::{Day, Tally, When};
use crate::recording::codes::next_part;
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::{Part, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::trays::{not_empty_yet, not_gone};
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, field, words};
use crate::recording::written::{RonRecord, tally};
use crate::registry::{CrossRow, PotRow, Registry, SowingRow};
use crate::wording::at_date;
use std::cmp::Ordering;

/// A count of a sowing or a community pot.
#[derive(Clone, Debug, Default)]
pub struct Count {
    /// The sowing or community pot.
    pub of: String,
    /// Seedlings that came up so far, those that died since included.
    pub up: Option<u32>,
    /// Seedlings alive now and not numbered.
    pub standing: Option<u32>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Count {
    /// Writes the counts.
    ///
    /// # Errors
    /// If nothing was counted, or fewer came up than before or more than were sown.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let (kind, cross, at) = part(registry, &self.of, &[Part::Sowing, Part::CommunityPot])?;
        if self.up.is_none() && self.standing.is_none() {
            return Err(Slip::missing(
                "the count",
                Words::or(
                    "--up 12 for all that came up so far, or --standing 12 for those alive now",
                    "“Came up so far” or “Alive now”",
                ),
            ));
        }
        let tray = match kind {
            Part::Sowing => SeedlingTray::Sowing(SowingRow { cross, at }),
            _ => SeedlingTray::Pot(PotRow { cross, at }),
        };
        not_gone(registry, tray, (draft.today, &on))?;
        not_empty_yet(registry, tray, &on)?;
        let page = &registry[cross].page;
        let mut remarks = Vec::new();
        let again = |counts: &[Tally], count: u32| {
            let same = |known: &Tally| known.count == count && registry.when(known.on) == on.when;
            on.when.is_exact() && counts.iter().any(same)
        };
        let twice = |code: &str, count: String| {
            Slip::contradicts(
                format!("{count} in {}.{code} {}", page.code, at_date(&on.text)),
                "the same count is on record for that day already",
                words!("if it was counted on another day, give that day with {}"; day()),
            )
        };
        let code = match kind {
            Part::Sowing => page.sowings[at].code.to_owned(),
            _ => page.community_pots[at].code.to_owned(),
        };
        if let Some(up) = self.up {
            if kind != Part::Sowing {
                return Err(Slip::contradicts(
                    words!("{} was given"; field("--up")),
                    format!("{}.{code} is a community pot", page.code),
                    words!(
                        "seedlings come up in a sowing: name the sowing, or use {}";
                        field("--standing")
                    ),
                ));
            }
            if again(&page.sowings[at].germinated, up) {
                return Err(twice(&code, format!("{up} came up so far")));
            }
            remarks.extend(self.came_up(draft, cross, at, (up, &on))?);
        }
        if let Some(standing) = self.standing {
            let tally = tally(&on.text, standing);
            let pot = standing_pot(draft, cross, kind, at)?;
            if kind == Part::CommunityPot {
                no_other_pot(draft, PotRow { cross, at }, (standing, &on))?;
            }
            if pot.is_some_and(|pot| again(&page.community_pots[pot].alive, standing)) {
                return Err(twice(&code, format!("{standing} alive")));
            }
            if let Some(at) = pot {
                only_count(registry, PotRow { cross, at }, (standing, &on))?;
            }
            match pot {
                Some(pot) => draft.cross(cross).change_at(
                    "community_pots",
                    pot,
                    &[FieldChange::Push("alive", tally)],
                )?,
                None => {
                    let pot = next_part('T', page.community_pots.iter().map(|pot| pot.code));
                    let record = RonRecord::new()
                        .text("code", &pot)
                        .text("sowing", &code)
                        .value("alive", format!("[{tally}]"));
                    draft
                        .cross(cross)
                        .append("community_pots", &[record.line()])?;
                    let kept = format!(
                        "The count is kept as {}.{pot}, until they are pricked out",
                        page.code
                    );
                    remarks.push(kept.into());
                }
            }
        }
        let whole = format!("{}.{code}", page.code);
        Ok(Recorded {
            about: vec![page.code.to_owned(), whole.clone()],
            tags: Vec::new(),
            remarks,
            what: What::Counted {
                of: whole,
                up: self.up,
                standing: self.standing,
                on: on.text,
            },
        })
    }

    /// A running total never falls, and never passes what was sown.
    fn came_up(
        &self,
        draft: &mut Draft,
        cross: CrossRow,
        at: usize,
        (up, on): (u32, &Dated),
    ) -> Result<Option<Words>, Slip> {
        let page = &draft.registry[cross].page;
        let sowing = &page.sowings[at];
        let counts = sowing.germinated.iter();
        let counts = counts.map(|tally| (tally, draft.registry.when(tally.on)));
        let counts: Vec<(&Tally, When)> = counts.collect();
        // An earlier count, or one of that day, may not be greater; a later one may not be smaller.
        let same = |when: When| on.when.is_exact() && when == on.when;
        let is_contrary = |(tally, when): &(&Tally, When)| match tally.count.cmp(&up) {
            Ordering::Greater => when.surely_before(on.when) || same(*when),
            Ordering::Less => on.when.surely_before(*when),
            Ordering::Equal => false,
        };
        let contrary = counts.iter().filter(|of| is_contrary(of));
        let contrary = contrary.max_by_key(|(tally, _)| tally.count.abs_diff(up));
        if let Some((tally, when)) = contrary {
            let which = match (when.surely_before(on.when), same(*when)) {
                (true, _) => "an earlier count",
                (_, true) => "a count",
                _ => "a later count",
            };
            return Err(Slip::contradicts(
                format!("{up} came up so far in {}.{}", page.code, sowing.code),
                format!(
                    "{} had come up at {which} {}",
                    tally.count,
                    at_date(tally.on)
                ),
                words!(
                    "{} counts all that ever came up; use {} for those alive now";
                    field("--up"), field("--standing")
                ),
            ));
        }
        if let Some(seeds) = sowing.seeds.filter(|seeds| up > *seeds) {
            return Err(Slip::too_many(
                format!("seeds sown in {}.{}", page.code, sowing.code),
                (up, seeds),
                "count again, or correct the number of seeds sown",
            ));
        }
        let usual = Usual {
            code: format!("{}.{}", page.code, sowing.code),
            before: "sown",
            now: "counted",
            days: (practice::GERMINATION.0, i32::MAX),
        };
        let sown = sowing
            .on
            .map_or(When::UNKNOWN, |day| draft.registry.when(day));
        let mut remark = None;
        // No seedling yet is no surprise on any day.
        if up > 0 {
            usual.not_at_once(
                sown,
                on.when,
                words!("give the day of the count with {}, or correct that of the sowing"; day()),
            )?;
            remark = usual.remark(sown, on.when);
        }
        let push = FieldChange::Push("germinated", tally(&on.text, up));
        draft.cross(cross).change_at("sowings", at, &[push])?;
        Ok(remark)
    }
}

/// Refuses another number of those alive on a day that has one. Where seedlings were pricked out, or got numbers, on that day
/// both may be right.
fn only_count(registry: &Registry, pot: PotRow, (standing, on): (u32, &Dated)) -> Result<(), Slip> {
    let of = &registry[pot];
    let page = &registry[pot.cross].page;
    let is_then = |day: &str| on.when.is_exact() && registry.when(day) == on.when;
    let mut sowings = page
        .sowings
        .iter()
        .filter(|sowing| of.sowing == Some(sowing.code));
    let mut seedlings = registry[pot.cross].seedlings.iter();
    let numbered = seedlings.any(|&plant| {
        let seedling = registry.seedling(plant);
        let on = seedling.and_then(|of| of.numbered);
        on.is_some_and(is_then)
    });
    if numbered || sowings.any(|sowing| sowing.pricked_out.iter().any(|of| is_then(of.on))) {
        return Ok(());
    }
    let mut counts = of.alive.iter();
    let Some(known) = counts.find(|known| is_then(known.on) && known.count != standing) else {
        return Ok(());
    };
    let code = format!("{}.{}", page.code, of.code);
    Err(Slip::contradicts(
        format!("{standing} alive in {code} {}", at_date(&on.text)),
        format!("{} are on record for that day", known.count),
        words!(
            "give the day of this count with {}; if the other was a slip, take it back{}";
            day(), Words::or(
                format!(" (`podbook undo`) or correct `alive` of {} on the page of {}", of.code, page.code),
                format!(" or correct the record of {code}")
            )
        ),
    ))
}

/// Refuses a count of more than twice what stood in the pot the day before: a slip, or another pot. A smaller excess is a
/// warning of `check`, since seedlings are overlooked. Where the seed still comes up nothing is too many.
fn no_other_pot(draft: &Draft, pot: PotRow, (standing, on): (u32, &Dated)) -> Result<(), Slip> {
    let registry = draft.registry;
    let of = &registry[pot];
    let mut sowings = registry[pot.cross].page.sowings.iter();
    let sowing = sowings.find(|sowing| of.sowing == Some(sowing.code));
    if sowing.is_some_and(|sowing| !is_filled(sowing, of)) {
        return Ok(());
    }
    let before = Day(on.when.first.0.saturating_sub(1));
    let left = community_pot_left(registry, pot, before).left;
    let Some((_, most)) = left.filter(|(_, most)| standing > most.saturating_mul(2)) else {
        return Ok(());
    };
    Err(Slip::too_many(
        format!(
            "seedlings in {}.{} by the record",
            registry[pot.cross].page.code, registry[pot].code
        ),
        (standing, most),
        Words::or(
            "look at the tag of the pot; seedlings that were added to it: podbook prick SOWING N --to POT",
            "look at the tag of the pot; record seedlings that were added to it at the computer",
        ),
    ))
}

/// The community pot that holds what is alive: the one named, or that of a sowing that nothing was pricked out into; none
/// when there is none yet.
fn standing_pot(
    draft: &Draft,
    cross: CrossRow,
    kind: Part,
    at: usize,
) -> Result<Option<usize>, Slip> {
    if kind == Part::CommunityPot {
        return Ok(Some(at));
    }
    let page = &draft.registry[cross].page;
    let sowing = &page.sowings[at];
    let counts: Vec<usize> = counts_in_sowing(page, sowing).collect();
    let is_count = |at: &usize| counts.is_empty() || counts.contains(at);
    let pots = page.community_pots.iter().enumerate();
    let pots: Vec<(usize, &str)> = pots
        .filter(|(_, pot)| pot.sowing == Some(sowing.code) && pot.fate.is_none())
        .filter(|(at, pot)| is_count(at) && !is_filled(sowing, pot))
        .map(|(at, pot)| (at, pot.code))
        .collect();
    match pots.as_slice() {
        [] => Ok(None),
        [(at, _)] => Ok(Some(*at)),
        several => Err(Slip::ambiguous(
            "community pot",
            several
                .iter()
                .map(|(_, pot)| format!("{}.{pot}", page.code))
                .collect(),
            "count the one that is meant",
        )),
    }
}
