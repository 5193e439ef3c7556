//! Seedlings counted: how many came up so far, how many are alive now.

use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::{counts_of, is_filled};
use crate::observation::seed_left::took_at_most;
use crate::observation::seedling_trays::SeedlingTray;
use crate::record::{Day, Tally, When};
use crate::recording::codes::next_part;
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::{Part, SOWING, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::trays::{not_empty_yet, not_gone, sowing_of};
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, field, words};
use crate::recording::written::{RonRecord, tally};
use crate::registry::{PotRow, Registry};
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
        let on = draft.day(&self.on)?;
        let tray: SeedlingTray = part(registry, &self.of, &SOWING)?;
        if self.up.is_none() && self.standing.is_none() {
            return Err(Slip::missing(
                "the count",
                Words::or(
                    "--up 12 for all that came up so far, or --standing 12 for those alive now",
                    "“Came up so far” or “Alive now”",
                ),
            ));
        }
        not_gone(registry, tray, &on)?;
        not_empty_yet(registry, tray, &on)?;
        let up = self.up.map(|up| came_up(draft, tray, (up, &on)));
        let up = up.transpose()?.flatten();
        let alive = self
            .standing
            .map(|standing| alive(draft, tray, (standing, &on)));
        let alive = alive.transpose()?.flatten();
        let code = tray.code(registry);
        let about = vec![registry[tray.cross()].page.code.to_owned(), code.clone()];
        let what = What::Counted {
            of: code,
            up: self.up,
            standing: self.standing,
        };
        Ok(Recorded::of(what, about, on.text)
            .remarks(up)
            .remarks(alive))
    }
}

/// Writes how many came up so far; what to say where that is sooner than usual.
fn came_up(
    draft: &mut Draft,
    tray: SeedlingTray,
    (up, on): (u32, &Dated),
) -> Result<Option<Words>, Slip> {
    let registry = draft.registry;
    let code = tray.code(registry);
    let SeedlingTray::Sowing(row) = tray else {
        return Err(Slip::contradicts(
            words!("{} was given"; field("--up")),
            format!("{code} is a community pot"),
            words!(
                "seedlings come up in a sowing: name the sowing, or use {}";
                field("--standing")
            ),
        ));
    };
    let sowing = &registry[row];
    let asked = format!("{up} came up so far in {code}");
    not_twice(registry, (&sowing.germinated, up, on), &asked)?;
    fits_total(registry, (&sowing.germinated, up, on), asked)?;
    no_more_than_sown(registry, tray, up)?;
    let (usual, sown) = Usual::since_sown(registry, row, "counted");
    let mut remark = None;
    // No seedling yet is no surprise on any day.
    if up > 0 {
        let help =
            words!("give the day of the count with {}, or correct that of the sowing"; day());
        usual.not_at_once(sown, on.when, help)?;
        remark = usual.remark(sown, on.when);
    }
    draft.change_part(row, &[FieldChange::Push("germinated", tally(&on.text, up))])?;
    Ok(remark)
}

/// Refuses a running total that falls, now or at a count of a later day.
fn fits_total(
    registry: &Registry,
    (counts, up, on): (&[Tally], u32, &Dated),
    asked: String,
) -> Result<(), Slip> {
    let counts = counts.iter().map(|tally| (tally, registry.when(tally.on)));
    // An earlier count, or one of that day, may not be greater; a later one may not be smaller.
    let same = |when: When| on.when.is_exact() && when == on.when;
    let is_contrary = |(tally, when): &(&Tally, When)| match tally.count.cmp(&up) {
        Ordering::Greater => when.surely_before(on.when) || same(*when),
        Ordering::Less => on.when.surely_before(*when),
        Ordering::Equal => false,
    };
    let contrary = counts.filter(is_contrary);
    let contrary = contrary.max_by_key(|(tally, _)| tally.count.abs_diff(up));
    let Some((Tally { count, on: day }, when)) = contrary else {
        return Ok(());
    };
    let which = match (when.surely_before(on.when), same(when)) {
        (true, _) => "an earlier count",
        (_, true) => "a count",
        _ => "a later count",
    };
    Err(Slip::contradicts(
        asked,
        format!("{count} had come up at {which} {}", at_date(day)),
        words!(
            "{} counts all that ever came up; use {} for those alive now";
            field("--up"), field("--standing")
        ),
    ))
}

/// Writes how many are alive; where the count is kept, if that is a new record.
fn alive(
    draft: &mut Draft,
    tray: SeedlingTray,
    (standing, on): (u32, &Dated),
) -> Result<Option<Words>, Slip> {
    let registry = draft.registry;
    let tally = tally(&on.text, standing);
    let pot = standing_pot(registry, tray)?;
    no_more_than_sown(registry, tray, standing)?;
    if let SeedlingTray::Pot(pot) = tray {
        no_other_pot(registry, pot, (standing, on))?;
    }
    if let Some(pot) = pot {
        let asked = format!("{standing} alive in {}", tray.code(registry));
        not_twice(registry, (&registry[pot].alive, standing, on), &asked)?;
        only_count(registry, pot, (standing, on))?;
        draft.change_part(pot, &[FieldChange::Push("alive", tally)])?;
        return Ok(None);
    }
    let page = &registry[tray.cross()].page;
    let pot = next_part('T', page.community_pots.iter().map(|pot| pot.code));
    let record = RonRecord::new()
        .text("code", &pot)
        .text("sowing", tray.own_code(registry))
        .value("alive", format!("[{tally}]"));
    let text = draft.cross(tray.cross());
    text.append("community_pots", &[record.line()])?;
    let kept = format!(
        "The count is kept as {}.{pot}, until they are pricked out",
        page.code
    );
    Ok(Some(kept.into()))
}

/// Refuses the same count of the same day once more.
fn not_twice(
    registry: &Registry,
    (counts, count, on): (&[Tally], u32, &Dated),
    asked: &str,
) -> Result<(), Slip> {
    let same = |known: &Tally| known.count == count && registry.when(known.on) == on.when;
    match on.when.is_exact() && counts.iter().any(same) {
        false => Ok(()),
        true => Err(Slip::contradicts(
            format!("{asked} {}", at_date(&on.text)),
            "the same count is on record for that day already",
            words!("if it was counted on another day, give that day with {}"; day()),
        )),
    }
}

/// Refuses another number of those alive on a day that has one. Where seedlings were pricked out, or got numbers, on that day
/// both may be right.
fn only_count(registry: &Registry, pot: PotRow, (standing, on): (u32, &Dated)) -> Result<(), Slip> {
    let of = &registry[pot];
    let page = &registry[pot.cross].page;
    let is_then = |day: &str| on.when.is_exact() && registry.when(day) == on.when;
    let mut seedlings = registry[pot.cross].seedlings.iter();
    let numbered = seedlings.any(|&plant| {
        let on = registry.seedling(plant).and_then(|of| of.numbered);
        on.is_some_and(is_then)
    });
    let pricked = sowing_of(registry, pot).map(|of| &of.pricked_out);
    if numbered || pricked.into_iter().flatten().any(|of| is_then(of.on)) {
        return Ok(());
    }
    let mut counts = of.alive.iter();
    let Some(known) = counts.find(|known| is_then(known.on) && known.count != standing) else {
        return Ok(());
    };
    let code = pot.code(registry);
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

/// Refuses more seedlings than there were seeds.
fn no_more_than_sown(registry: &Registry, tray: SeedlingTray, seedlings: u32) -> Result<(), Slip> {
    let sowing = match tray {
        SeedlingTray::Sowing(row) => Some(&registry[row]),
        SeedlingTray::Pot(pot) => sowing_of(registry, pot),
    };
    let page = &registry[tray.cross()].page;
    let most = sowing.and_then(|of| Some((of, took_at_most(page, of)?)));
    let Some((sowing, most)) = most.filter(|(_, most)| seedlings > *most) else {
        return Ok(());
    };
    let of = format!("{}.{}", page.code, sowing.code);
    let (what, help) = match (sowing.seeds, sowing.lot) {
        (None, Some(lot)) => (
            format!(
                "seeds of {}.{lot} that can have been sown in {of}",
                page.code
            ),
            "look at the tag of the pot and count again; or mark the number of seeds of the lot as estimated on its page",
        ),
        _ => (
            format!("seeds sown in {of}"),
            "count again, or correct the number of seeds sown",
        ),
    };
    Err(Slip::too_many(what, (seedlings, most), help))
}

/// Refuses a count of more than twice what stood in the pot the day before, or was put into it that day: a slip, or another pot. A smaller excess is a
/// warning of `check`, since seedlings are overlooked. Where the seed still comes up nothing is too many.
fn no_other_pot(
    registry: &Registry,
    pot: PotRow,
    (standing, on): (u32, &Dated),
) -> Result<(), Slip> {
    let of = &registry[pot];
    if sowing_of(registry, pot).is_some_and(|sowing| !is_filled(sowing, of)) {
        return Ok(());
    }
    let before = Day(on.when.first.0.saturating_sub(1));
    // Of a vague day it may have been counted on the last.
    let days = [before, on.when.first, on.when.last.min(on.today)];
    let left = days.map(|day| community_pot_left(registry, pot, day).left);
    let most = left.into_iter().flatten().map(|(_, most)| most).max();
    let Some(most) = most.filter(|most| standing > most.saturating_mul(2)) else {
        return Ok(());
    };
    Err(Slip::too_many(
        format!("seedlings in {} by the record", pot.code(registry)),
        (standing, most),
        Words::or(
            "look at the tag of the pot; seedlings that were added to it: podbook prick SOWING N --to POT",
            "look at the tag of the pot; record seedlings that were added to it under “Pricked out”",
        ),
    ))
}

/// The community pot that holds what is alive: the one named, or that of a sowing that nothing was pricked out into; none
/// when there is none yet.
fn standing_pot(registry: &Registry, tray: SeedlingTray) -> Result<Option<PotRow>, Slip> {
    let row = match tray {
        SeedlingTray::Pot(pot) => return Ok(Some(pot)),
        SeedlingTray::Sowing(row) => row,
    };
    let sowing = &registry[row];
    let counts: Vec<PotRow> = counts_of(registry, row).collect();
    let is_count = |at: &PotRow| counts.is_empty() || counts.contains(at);
    let pots: Vec<PotRow> = registry
        .community_pots(row.cross)
        .filter(|(_, pot)| pot.sowing == Some(sowing.code) && pot.fate.is_none())
        .filter(|(at, pot)| is_count(at) && !is_filled(sowing, pot))
        .map(|(at, _)| at)
        .collect();
    match pots.as_slice() {
        [] => Ok(None),
        [only] => Ok(Some(*only)),
        several => {
            let several = several.iter().map(|pot| pot.code(registry)).collect();
            let help = "count the one that is meant";
            Err(Slip::ambiguous("community pot", several, help))
        }
    }
}
