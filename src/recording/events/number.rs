//! Seedlings get numbers of their own.

use super::pot::pot_width;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::counts_of;
use crate::observation::seedling_trays::SeedlingTray;
use crate::observation::sowing_left::most_left;
use crate::record::{CommunityPot, Day};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::parts::{COMMUNITY_POT, Part, part};
use crate::recording::plants::numbers;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::trays::{not_empty_yet, not_gone};
use crate::recording::voice::{Words, words};
use crate::recording::written::RonRecord;
use crate::registry::{PotRow, Registry, SowingRow};

/// Seedlings taken out of a community pot or a sowing and numbered.
#[derive(Clone, Debug, Default)]
pub struct Number {
    /// The community pot or sowing.
    pub from: String,
    /// The numbers: `1-40`.
    pub numbers: String,
    /// The pot each goes into.
    pub pot: Option<String>,
    /// Where they stand.
    pub place: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Number {
    /// Writes the seedlings.
    ///
    /// # Errors
    /// If a number is given already, or more are numbered than stand there.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let named: SeedlingTray = part(registry, &self.from, &COMMUNITY_POT)?;
        let wanted = numbers(&self.numbers)?;
        not_gone(registry, named, &on)?;
        not_empty_yet(registry, named, &on)?;
        let tray = counted(registry, named);
        let cross = registry[tray.cross()].page.code;
        let plants = wanted.iter().map(|number| format!("{cross}-{number}"));
        let plants: Vec<String> = plants.collect();
        are_free(registry, &plants)?;
        enough(registry, tray, wanted.len() as u64, &on)?;
        let pot = self.pot.as_deref().map(pot_width).transpose()?;
        let potting = pot.map(|pot| {
            let potting = RonRecord::new().text("on", &on.text).text("pot", &pot);
            format!("[{}]", potting.line())
        });
        let from = match tray {
            SeedlingTray::Pot(_) => "community_pot",
            SeedlingTray::Sowing(_) => "sowing",
        };
        let record = |number: &u32| {
            RonRecord::new()
                .text("number", &number.to_string())
                .text(from, tray.own_code(registry))
                .text("numbered", &on.text)
                .text_if("place", self.place.as_ref())
                .value_if("pots", potting.as_ref())
                .line()
        };
        let records: Vec<String> = wanted.iter().map(record).collect();
        draft.cross(tray.cross()).append("seedlings", &records)?;
        let whole = tray.code(registry);
        let about = [vec![cross.to_owned(), whole.clone()], plants.clone()].concat();
        let what = What::Numbered {
            plants,
            from: whole,
            on: on.text,
        };
        Ok(Recorded::of(what, about))
    }
}

/// Refuses codes of which a plant has one already.
fn are_free(registry: &Registry, codes: &[String]) -> Result<(), Slip> {
    let mut taken = codes
        .iter()
        .filter_map(|code| Some((code, registry.plant(code)?)));
    match taken.next() {
        None => Ok(()),
        Some((code, plant)) if registry.founder(plant).is_some() => Err(Slip::taken("plant", code)),
        Some((code, _)) => Err(Slip::taken("seedling", code)),
    }
}

/// The count of what stands in a sowing, where seedlings are numbered out of a sowing that has one; else what was named.
pub fn counted(registry: &Registry, named: SeedlingTray) -> SeedlingTray {
    let SeedlingTray::Sowing(row) = named else {
        return named;
    };
    let is_open = |pot: &CommunityPot| pot.fate.is_none() && !pot.alive.is_empty();
    let mut counts = counts_of(registry, row).filter(|pot| is_open(&registry[*pot]));
    match (counts.next(), counts.next()) {
        (Some(count), None) => SeedlingTray::Pot(count),
        _ => named,
    }
}

/// Refuses more seedlings than stand there.
///
/// # Errors
/// If so many are not left.
pub fn enough(registry: &Registry, tray: SeedlingTray, asked: u64, on: &Dated) -> Result<(), Slip> {
    let there = match tray {
        SeedlingTray::Pot(row) => left_in_pot(registry, row, on),
        SeedlingTray::Sowing(row) => left_in_sowing(registry, row),
    };
    match there.map(u64::from) {
        Some(there) if asked > there => Err(Slip::too_many(
            format!("seedlings left in {}", tray.code(registry)),
            (asked, there),
            words!(
                "count them again first{}";
                Words::or(": `podbook count … --standing N`", ", under “Counted”")
            ),
        )),
        _ => Ok(()),
    }
}

/// The most seedlings left in a community pot, then and now.
fn left_in_pot(registry: &Registry, row: PotRow, on: &Dated) -> Option<u32> {
    let today = on.today;
    let left = |day: Day| Some(community_pot_left(registry, row, day).left?.1);
    let (then, now) = (left(on.when.last.min(today)), left(today));
    // Where it was counted later, those numbered before are out of that count already.
    let counts = registry[row].alive.iter();
    let is_counted_later = counts
        .map(|tally| registry.when(tally.on))
        .any(|when| when.first <= today && on.when.surely_before(when));
    match then {
        Some(then) if is_counted_later => Some(then),
        _ => then.into_iter().chain(now).min(),
    }
}

/// The most seedlings of a sowing that still have no number and are in no community pot: of those that came up, or of the
/// seeds where they were not counted.
fn left_in_sowing(registry: &Registry, row: SowingRow) -> Option<u32> {
    let sowing = &registry[row];
    let up = sowing.germinated.iter().map(|tally| tally.count).max();
    Some(most_left(registry, row, up.or(sowing.seeds)?))
}
