//! Seed of a lot sown in one container.

use crate::analysis::due::practice;
use crate::observation::seed_left::seed_left;
use crate::record::{Day, FreeText, Sowing, When};
use crate::recording::codes::next_part;
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::parts::{Part, SEED_LOT, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::seed_lots::enough_seed;
use crate::recording::slip::Slip;
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, words};
use crate::recording::written::RonRecord;
use crate::registry::{LotRow, Registry};
use crate::wording::at_date;

/// A sowing.
#[derive(Clone, Debug, Default)]
pub struct Sow {
    /// The seed lot.
    pub lot: String,
    /// Seeds sown.
    pub seeds: Option<u32>,
    /// What they were sown in.
    pub container: Option<String>,
    /// Mix.
    pub medium: Option<String>,
    /// Where it stands.
    pub place: Option<String>,
    /// Whether it is one more pot of what is on record of that day.
    pub again: bool,
    /// When; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Sow {
    /// Writes the sowing.
    ///
    /// # Errors
    /// If no seed is sown, nothing is left of the lot, more than the counted lot still holds, or the very same is on record of that day.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let lot: LotRow = part(registry, &self.lot, &SEED_LOT)?;
        if self.seeds == Some(0) {
            return Err(Slip::bad_number("--seeds", "0", "at least one seed"));
        }
        let gone =
            none_left(registry, lot, &on)?.or_else(|| self.uncounted(registry, lot, on.today));
        if !self.again {
            self.not_twice(registry, lot, &on)?;
        }
        if let Some(seeds) = self.seeds {
            enough_seed(registry, lot, seeds)?;
        }
        let page = &registry[lot.cross].page;
        let code = next_part('S', page.sowings.iter().map(|sowing| sowing.code));
        let record = RonRecord::new()
            .text("code", &code)
            .text("lot", registry[lot].code)
            .text("on", &on.text)
            .value_if("seeds", self.seeds)
            .text_if("container", self.container.as_ref())
            .text_if("medium", self.medium.as_ref())
            .text_if("place", self.place.as_ref())
            .text_if("note", self.note.as_ref());
        draft.cross(lot.cross).append("sowings", &[record.line()])?;
        let whole = format!("{}.{code}", page.code);
        let about = vec![page.code.to_owned(), whole.clone()];
        let remark = harvested_when(registry, lot, on.when);
        let what = What::Sown {
            sowing: whole.clone(),
            lot: lot.code(registry),
            seeds: self.seeds,
        };
        let recorded = Recorded::of(what, about, on.text).tag(whole, "pot");
        Ok(recorded.remarks(gone).remarks(remark))
    }

    /// That seed of an unknown number is sown of a lot of which nothing is left by its counts.
    fn uncounted(&self, registry: &Registry, row: LotRow, today: Day) -> Option<String> {
        let lot = &registry[row];
        let left = seed_left(registry, &registry[row.cross].page, lot, today).left;
        let is_empty = self.seeds.is_none() && left == Some(0) && !lot.estimated;
        is_empty.then(|| {
            format!(
                "By the counts on record nothing was left of {}: look whether it was another lot, or count the seeds again",
                row.code(registry)
            )
        })
    }

    /// Refuses what is on record of that day already.
    fn not_twice(&self, registry: &Registry, lot: LotRow, on: &Dated) -> Result<(), Slip> {
        let is_same = |of: &Sowing| {
            let day = of.on.map(|day| registry.when(day));
            let same = |said: &Option<FreeText>, asked: &Option<String>| {
                said.as_deref() == asked.as_deref()
            };
            of.lot == Some(registry[lot].code)
                && on.when.is_exact()
                && day == Some(on.when)
                && of.seeds == self.seeds
                && same(&of.container, &self.container)
                && same(&of.place, &self.place)
        };
        let mut sowings = registry.sowings(lot.cross);
        let Some((same, _)) = sowings.find(|(_, of)| is_same(of)) else {
            return Ok(());
        };
        Err(Slip::on_record(
            format!(
                "{} is already on record with the same seed, number, day and place",
                same.code(registry)
            ),
            Words::or(
                "add --again if this is another pot",
                "tick “Another pot like the one on record for that day” if this is another pot",
            ),
        ))
    }
}

fn sown(lot: &str, on: &Dated) -> String {
    format!("seed of {lot} was sown {}", at_date(&on.text))
}

/// What to say where the days since the harvest are fewer or more than is usual.
fn harvested_when(registry: &Registry, lot: LotRow, on: When) -> Option<Words> {
    let usual = Usual {
        code: lot.code(registry),
        before: "harvested",
        now: "sown",
        days: practice::SOW,
    };
    let mut pods = registry[lot.cross].page.pods.iter();
    let pod = pods.find(|pod| Some(pod.code) == registry[lot].pod);
    let harvested = pod.and_then(|pod| pod.harvested);
    let harvested = harvested.map_or(When::UNKNOWN, |day| registry.when(day));
    usual.remark(harvested, on)
}

/// Refuses seed of a lot that is on record as finished. Of an earlier day it is remarked on: the record does not say since when
/// nothing is left.
fn none_left(registry: &Registry, lot: LotRow, on: &Dated) -> Result<Option<String>, Slip> {
    let code = lot.code(registry);
    if !registry[lot].is_used_up() {
        return Ok(None);
    }
    if on.when.last < on.today {
        return Ok(Some(format!(
            "Nothing is left of {code} now; whether there was some on that day is not on record"
        )));
    }
    Err(Slip::contradicts(
        sown(&code, on),
        "nothing is left of it",
        words!(
            "if it was sown before, give that day with {}; if some is left, correct {}";
            day(), Words::or("`left` or `fate` of the lot on its page", "the record of the lot at the computer")
        ),
    ))
}
