//! Seedlings get numbers of their own.

use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::counts_in_sowing;
use crate::observation::seedling_trays::SeedlingTray;
use crate::observation::sowing_left::most_left;
use crate::record::{CrossPage, Day};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::parts::{Part, part};
use crate::recording::plants::numbers;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::trays::{not_empty_yet, not_gone};
use crate::recording::voice::{Words, words};
use crate::recording::written::RonRecord;
use crate::registry::{CrossRow, PotRow, Registry, SowingRow};

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
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let (kind, cross, at) = part(registry, &self.from, &[Part::CommunityPot, Part::Sowing])?;
        let wanted = numbers(&self.numbers)?;
        let page = &registry[cross].page;
        let tray = match kind {
            Part::CommunityPot => SeedlingTray::Pot(PotRow { cross, at }),
            _ => SeedlingTray::Sowing(SowingRow { cross, at }),
        };
        not_gone(registry, tray, (draft.today, &on))?;
        not_empty_yet(registry, tray, &on)?;
        let (kind, at) = counted(page, (kind, at));
        let code = |number: &u32| format!("{}-{number}", page.code);
        if let Some(taken) = wanted
            .iter()
            .map(code)
            .find(|code| registry.plant(code).is_some())
        {
            let is_founder = |plant| registry.founder(plant).is_some();
            return Err(Slip::Taken(
                match registry.plant(&taken).is_some_and(is_founder) {
                    true => "plant",
                    false => "seedling",
                },
                taken,
            ));
        }
        enough(
            registry,
            (kind, cross, at),
            wanted.len() as u64,
            (draft.today, &on),
        )?;
        let pot = match &self.pot {
            Some(pot) => Some(super::pot::pot_width(pot)?),
            None => None,
        };
        let from = match kind {
            Part::CommunityPot => ("community_pot", page.community_pots[at].code),
            _ => ("sowing", page.sowings[at].code),
        };
        let records: Vec<String> = wanted
            .iter()
            .map(|number| {
                let potting = pot.as_ref().map(|pot| {
                    let potting = RonRecord::new().text("on", &on.text).text("pot", pot);
                    format!("[{}]", potting.line())
                });
                RonRecord::new()
                    .text("number", &number.to_string())
                    .text(from.0, from.1)
                    .text("numbered", &on.text)
                    .text_if("place", self.place.as_ref())
                    .value_if("pots", potting)
                    .line()
            })
            .collect();
        draft.cross(cross).append("seedlings", &records)?;
        let whole = format!("{}.{}", page.code, from.1);
        let plants: Vec<String> = wanted.iter().map(code).collect();
        Ok(Recorded {
            about: [page.code.to_owned(), whole.clone()]
                .into_iter()
                .chain(plants.iter().cloned())
                .collect(),
            tags: Vec::new(),
            remarks: Vec::new(),
            what: What::Numbered {
                plants,
                from: whole,
                on: on.text,
            },
        })
    }
}

/// The count of what stands in a sowing, where seedlings are numbered out of a sowing that has one; else what was named.
pub fn counted(page: &CrossPage, (kind, at): (Part, usize)) -> (Part, usize) {
    if kind != Part::Sowing {
        return (kind, at);
    }
    let pot = |at: &usize| &page.community_pots[*at];
    let counts = counts_in_sowing(page, &page.sowings[at]);
    let counts: Vec<usize> = counts
        .filter(|at| pot(at).fate.is_none() && !pot(at).alive.is_empty())
        .collect();
    match counts.as_slice() {
        [count] => (Part::CommunityPot, *count),
        _ => (kind, at),
    }
}

/// Refuses more seedlings than stand there.
///
/// # Errors
/// If so many are not left.
pub fn enough(
    registry: &Registry,
    (kind, cross, at): (Part, CrossRow, usize),
    asked: u64,
    (today, on): (Day, &Dated),
) -> Result<(), Slip> {
    let page = &registry[cross].page;
    let (there, what) = match kind {
        Part::CommunityPot => {
            let pot = &page.community_pots[at];
            let row = PotRow { cross, at };
            let left = |day: Day| community_pot_left(registry, row, day).left;
            // Where it was counted later, those numbered before are out of that count already.
            let day = on.when.last.min(today);
            let counts = pot.alive.iter();
            let is_counted_later = counts
                .map(|tally| registry.when(tally.on))
                .any(|when| when.first <= today && on.when.surely_before(when));
            let then = left(day).map(|(_, most)| most);
            let now = left(today).map(|(_, most)| most);
            let most = match then {
                Some(then) if is_counted_later => Some(then),
                _ => then.into_iter().chain(now).min(),
            };
            (
                most.map(u64::from),
                format!("seedlings left in {}.{}", page.code, pot.code),
            )
        }
        _ => {
            let row = SowingRow { cross, at };
            (
                left_in_sowing(registry, row),
                format!("seedlings left in {}.{}", page.code, registry[row].code),
            )
        }
    };
    match there {
        Some(there) if asked > there => Err(Slip::too_many(
            what,
            (asked, there),
            words!(
                "count them again first{}";
                Words::or(": `podbook count … --standing N`", ", under “Counted”")
            ),
        )),
        _ => Ok(()),
    }
}

/// The most seedlings of a sowing that still have no number and are in no community pot: of those that came up, or of the
/// seeds where they were not counted.
fn left_in_sowing(registry: &Registry, row: SowingRow) -> Option<u64> {
    let sowing = &registry[row];
    let up = sowing.germinated.iter().map(|tally| tally.count).max();
    let most = up.or(sowing.seeds)?;
    Some(u64::from(most_left(registry, row, most)))
}
