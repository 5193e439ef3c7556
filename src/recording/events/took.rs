//! What a pollination set, with its controls.

use crate::analysis::due::practice;
use crate::record::When;
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::{Part, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, words};
use crate::recording::written::text;
use crate::wording::{at_date, counted};

/// A count of pods that set.
#[derive(Clone, Debug, Default)]
pub struct Took {
    /// The zone.
    pub zone: String,
    /// Pods that set; 0 is a result.
    pub set: u32,
    /// Pods on controls, and flowers left as controls: `0/5`.
    pub controls: Option<String>,
    /// Whether an earlier count is to be replaced.
    pub again: bool,
    /// When it was counted; today if not given.
    pub on: Option<String>,
}

impl Took {
    /// Writes the count.
    ///
    /// # Errors
    /// If more set than flowers were treated, pods are counted on the day of the pollination, or a count is on record already.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let (_, cross, at) = part(registry, &self.zone, &[Part::Zone])?;
        let page = &registry[cross].page;
        let zone = &page.pollinations[at];
        let code = format!("{}.{}", page.code, zone.zone);
        fits(self.set, zone.flowers, "flowers treated")?;
        if let Some(set) = zone.set.filter(|_| !self.again) {
            return Err(Slip::contradicts(
                format!("{} pods were counted on {code}", self.set),
                format!("{set} are on record already"),
                Words::or(
                    "add --again to replace that count",
                    "tick “In place of the count on record”",
                ),
            ));
        }
        // A number that is put right is of the day it was counted.
        let on = match (&self.on, zone.counted) {
            (None, Some(counted)) => dated(registry, "--on", Some(counted), draft.today)?,
            _ => on,
        };
        let own = page.pods.iter().filter(|pod| pod.zone == Some(zone.zone));
        let harvested: Option<Vec<&str>> = own.map(|pod| pod.harvested).collect();
        let harvested = harvested.unwrap_or_default();
        let before = |day: &&str| registry.when(day).surely_before(on.when);
        if let Some(last) = harvested.last().filter(|_| harvested.iter().all(before)) {
            return Err(Slip::contradicts(
                format!("what took on {code} was counted {}", at_date(&on.text)),
                format!("its pods were harvested {}", at_date(last)),
                words!("give the day of the count with {}"; day()),
            ));
        }
        let own = page.pods.iter().filter(|pod| pod.zone == Some(zone.zone));
        let capsules: u64 = own.map(|pod| u64::from(pod.capsules.unwrap_or(1))).sum();
        if capsules > u64::from(self.set) {
            return Err(Slip::contradicts(
                format!(
                    "{} set on {code}",
                    counted(self.set as usize, "flower", "flowers")
                ),
                format!(
                    "its harvest has at least {}",
                    counted(capsules as usize, "capsule", "capsules")
                ),
                "count again, or correct the record of the harvest",
            ));
        }
        let usual = Usual {
            code: code.clone(),
            before: "pollinated",
            now: "counted",
            days: (practice::COUNT_SET.0, i32::MAX),
        };
        let last = zone.on.iter().map(|day| registry.when(day));
        let last = last.max_by_key(|when| (when.first, when.last));
        let last = last.unwrap_or(When::UNKNOWN);
        let sooner = usual.not_at_once(
            last,
            on.when,
            words!(
                "a set shows after a week or more: give the day of the count with {}, or count later";
                day()
            ),
        );
        // A pod that is not there is sure at once: the flower may have fallen.
        if self.set > 0 {
            sooner?;
        }
        let mut changes = vec![
            FieldChange::Set("set", self.set.to_string()),
            FieldChange::Set("counted", text(&on.text)),
        ];
        let controls = self.controls.as_deref().map(controls).transpose()?;
        if let Some((set, flowers)) = controls {
            if let Some(left) = zone.control_flowers.filter(|left| *left != flowers) {
                return Err(Slip::contradicts(
                    format!("{flowers} controls were counted on {code}"),
                    format!("{left} flowers were left as controls"),
                    "count the same flowers, or correct the page",
                ));
            }
            fits(set, Some(flowers), "flowers left as controls")?;
            changes.push(FieldChange::Set("control_flowers", flowers.to_string()));
            changes.push(FieldChange::Set("control_set", set.to_string()));
        }
        let flowers = zone.flowers;
        draft.cross(cross).change_at("pollinations", at, &changes)?;
        Ok(Recorded {
            about: vec![code.clone(), page.code.to_owned()],
            tags: Vec::new(),
            remarks: usual.remark(last, on.when).into_iter().collect(),
            what: What::Took {
                zone: code,
                set: self.set,
                flowers,
                controls,
                on: on.text,
            },
        })
    }
}

/// `0/5`: pods and flowers.
fn controls(typed: &str) -> Result<(u32, u32), Slip> {
    let numbers = typed
        .split_once('/')
        .and_then(|(set, flowers)| Some((set.trim().parse().ok()?, flowers.trim().parse().ok()?)));
    numbers.ok_or(Slip::BadNumber(
        "--controls",
        typed.to_owned(),
        "pods and flowers, such as 0/5",
    ))
}

fn fits(set: u32, flowers: Option<u32>, what: &str) -> Result<(), Slip> {
    match flowers {
        Some(flowers) if set > flowers => Err(Slip::too_many(
            what,
            (set, flowers),
            "one flower bears one pod at most: count again, or correct the number of flowers",
        )),
        _ => Ok(()),
    }
}
