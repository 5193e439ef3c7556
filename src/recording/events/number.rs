//! Seedlings get numbers of their own.

use super::pot::pot_width;
use crate::observation::seedling_trays::SeedlingTray;
use crate::recording::draft::Draft;
use crate::recording::parts::{COMMUNITY_POT, Part, part};
use crate::recording::plants::numbers;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::taken_out::{counted, enough};
use crate::recording::trays::{not_empty_yet, not_gone};
use crate::recording::usual::Usual;
use crate::recording::written::RonRecord;
use crate::registry::Registry;

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
        let sown = match named {
            SeedlingTray::Sowing(row) => Some(Usual::since_sown(registry, row, "numbered")),
            SeedlingTray::Pot(_) => None,
        };
        let remark = sown.and_then(|(usual, sown)| usual.remark(sown, on.when));
        let what = What::Numbered {
            plants,
            from: whole,
        };
        Ok(Recorded::of(what, about, on.text).remarks(remark))
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
