//! Seed of a lot sown in one container.

use crate::analysis::due::practice;
use crate::record::{Day, FreeText, NONE_LEFT, SeedLot, Sowing, When};
use crate::recording::codes::next_part;
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::parts::{Part, part};
use crate::recording::recorded::{Recorded, Tag, What};
use crate::recording::seed_lots::enough_seed;
use crate::recording::slip::Slip;
use crate::recording::usual::Usual;
use crate::recording::voice::Words;
use crate::recording::written::RonRecord;
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
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let (_, cross, at) = part(registry, &self.lot, &[Part::SeedLot])?;
        let page = &registry[cross].page;
        let lot = &page.seed_lots[at];
        if self.seeds == Some(0) {
            return Err(Slip::BadNumber(
                "--seeds",
                "0".to_owned(),
                "at least one seed",
            ));
        }
        let gone = none_left(
            lot,
            &format!("{}.{}", page.code, lot.code),
            (draft.today, &on),
        )?;
        let of_lot = page.sowings.iter();
        let mut sown = of_lot.filter(|sowing| sowing.lot == Some(lot.code));
        let is_same = |of: &&Sowing| {
            let day = of.on.map(|day| registry.when(day));
            let same = |said: &Option<FreeText>, asked: &Option<String>| {
                said.as_deref() == asked.as_deref()
            };
            on.when.is_exact()
                && day == Some(on.when)
                && of.seeds == self.seeds
                && same(&of.container, &self.container)
                && same(&of.place, &self.place)
        };
        if let Some(same) = sown.find(is_same).filter(|_| !self.again) {
            return Err(Slip::contradicts(
                format!(
                    "seed of {}.{} was sown {}",
                    page.code,
                    lot.code,
                    at_date(&on.text)
                ),
                format!("{}.{} is the same on record already", page.code, same.code),
                Words::or(
                    "add --again if this is another pot",
                    "tick “One more pot like one on record of that day” if this is another pot",
                ),
            ));
        }
        if let Some(seeds) = self.seeds {
            enough_seed(page, lot, seeds)?;
        }
        let usual = Usual {
            code: format!("{}.{}", page.code, lot.code),
            before: "harvested",
            now: "sown",
            days: practice::SOW,
        };
        let pod = page.pods.iter().find(|pod| Some(pod.code) == lot.pod);
        let harvested = pod.and_then(|pod| pod.harvested);
        let harvested = harvested.map_or(When::UNKNOWN, |day| registry.when(day));
        let remark = usual.remark(harvested, on.when);
        let code = next_part('S', page.sowings.iter().map(|sowing| sowing.code));
        let record = RonRecord::new()
            .text("code", &code)
            .text("lot", lot.code)
            .text("on", &on.text)
            .value_if("seeds", self.seeds)
            .text_if("container", self.container.as_ref())
            .text_if("medium", self.medium.as_ref())
            .text_if("place", self.place.as_ref())
            .text_if("note", self.note.as_ref());
        draft.cross(cross).append("sowings", &[record.line()])?;
        let whole = format!("{}.{code}", page.code);
        Ok(Recorded {
            about: vec![page.code.to_owned(), whole.clone()],
            tags: vec![Tag {
                code: whole.clone(),
                on: "pot",
            }],
            remarks: gone.map(Words::from).into_iter().chain(remark).collect(),
            what: What::Sown {
                sowing: whole,
                lot: format!("{}.{}", page.code, lot.code),
                seeds: self.seeds,
                on: on.text,
            },
        })
    }
}

/// Refuses seed of a lot that is on record as finished. Of an earlier day it is remarked on: the record does not say since when
/// nothing is left.
fn none_left(
    lot: &SeedLot,
    code: &str,
    (today, on): (Day, &Dated),
) -> Result<Option<String>, Slip> {
    let left = lot.left.as_deref();
    if !left.is_some_and(|left| NONE_LEFT.contains(&left)) {
        return Ok(None);
    }
    if on.when.last < today {
        return Ok(Some(format!(
            "Nothing is left of {code} now; whether there was some on that day is not on record"
        )));
    }
    Err(Slip::contradicts(format!("seed of {code} was sown {}", at_date(&on.text)), "nothing is left of it".to_owned(), "if it was sown before, give that day with --on; if some is left, correct `left` of the lot on its page"
            .to_owned()))
}
