//! What a pollination set, with its controls.

use super::harvest::{least_capsules, pods_of};
use crate::analysis::due::practice;
use crate::observation::in_pod::was_dusted_since;
use crate::record::{Pollination, When};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::{Part, ZONE, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, words};
use crate::recording::written::text;
use crate::registry::{Registry, ZoneRow};
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
    /// When it was counted; if not given, when the count it replaces was, else the day it was entered.
    pub on: Option<String>,
    /// When it was entered, where it waited before it came here; today if not given.
    pub entered: Option<String>,
}

impl Took {
    /// Writes the count.
    ///
    /// # Errors
    /// If more set than flowers were treated, pods are counted on the day of the pollination, or a count is on record already.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let mut on = draft.day(if self.on.is_some() {
            &self.on
        } else {
            &self.entered
        })?;
        let zone: ZoneRow = part(registry, &self.zone, &ZONE)?;
        let (of, code) = (&registry[zone], zone.code(registry));
        fits(self.set, of.flowers, "flowers treated")?;
        self.is_first(of, &code)?;
        // A number that is put right is of the day it was counted; one after another dusting is a new count.
        let counted = of.counted.filter(|_| !was_dusted_since(registry, of));
        if let (None, Some(counted)) = (&self.on, counted) {
            on = dated(registry, "--on", Some(counted), draft.today)?;
        }
        self.fits_harvest(registry, zone, &on)?;
        let remark = self.shows(registry, zone, on.when)?;
        let controls = self.controls_of(of, &code)?;
        let mut changes = vec![
            FieldChange::Set("set", self.set.to_string()),
            FieldChange::Set("counted", text(&on.text)),
        ];
        if let Some((set, flowers)) = controls {
            changes.push(FieldChange::Set("control_flowers", flowers.to_string()));
            changes.push(FieldChange::Set("control_set", set.to_string()));
        }
        draft.change_part(zone, &changes)?;
        let about = vec![code.clone(), registry[zone.cross].page.code.to_owned()];
        let what = What::Took {
            zone: code,
            set: self.set,
            flowers: of.flowers,
            controls,
        };
        Ok(Recorded::of(what, about, on.text).remarks(remark))
    }

    /// Refuses a second count that is not to replace the first.
    fn is_first(&self, zone: &Pollination, code: &str) -> Result<(), Slip> {
        match zone.set.filter(|_| !self.again) {
            None => Ok(()),
            Some(set) => Err(Slip::contradicts(
                format!("{} pods were counted on {code}", self.set),
                format!("{set} are on record already"),
                Words::or(
                    "add --again to replace that count",
                    "tick “Replace the count on record”",
                ),
            )),
        }
    }

    /// Refuses a count after all pods were harvested, and one of fewer pods than were.
    fn fits_harvest(&self, registry: &Registry, zone: ZoneRow, on: &Dated) -> Result<(), Slip> {
        let (pods, code) = (pods_of(registry, zone), zone.code(registry));
        let harvested: Option<Vec<&str>> = pods.clone().map(|pod| pod.harvested).collect();
        let harvested = harvested.unwrap_or_default();
        let before = |day: &&str| registry.when(day).surely_before(on.when);
        if let Some(last) = harvested.last().filter(|_| harvested.iter().all(before)) {
            return Err(Slip::contradicts(
                format!("what took on {code} was counted {}", at_date(&on.text)),
                format!("its pods were harvested {}", at_date(last)),
                words!("give the day of the count with {}"; day()),
            ));
        }
        let capsules = least_capsules(pods);
        if capsules <= u64::from(self.set) {
            return Ok(());
        }
        let flowers = counted(self.set as usize, "flower", "flowers");
        let capsules = counted(capsules as usize, "capsule", "capsules");
        Err(Slip::contradicts(
            format!("{flowers} set on {code}"),
            format!("its harvest has at least {capsules}"),
            "count again, or correct the record of the harvest",
        ))
    }

    /// Refuses pods on the day of the pollination; what to say where they were counted early.
    fn shows(&self, registry: &Registry, zone: ZoneRow, on: When) -> Result<Option<Words>, Slip> {
        let usual = Usual {
            code: zone.code(registry),
            before: "pollinated",
            now: "counted",
            days: (practice::COUNT_SET.0, i32::MAX),
        };
        let dusted = registry[zone].on.iter().map(|day| registry.when(day));
        let last = dusted.max_by_key(|when| (when.first, when.last));
        let last = last.unwrap_or(When::UNKNOWN);
        // A pod that is not there is sure at once: the flower may have fallen.
        if self.set > 0 {
            let help = words!(
                "a set shows after a week or more: give the day of the count with {}, or count later";
                day()
            );
            usual.not_at_once(last, on, help)?;
        }
        Ok(usual.remark(last, on))
    }

    /// Pods on controls, and the flowers left as controls.
    fn controls_of(&self, zone: &Pollination, code: &str) -> Result<Option<(u32, u32)>, Slip> {
        let Some(typed) = &self.controls else {
            return Ok(None);
        };
        let (set, flowers) = controls(typed)?;
        if let Some(left) = zone.control_flowers.filter(|left| *left != flowers) {
            return Err(Slip::contradicts(
                format!("{flowers} controls were counted on {code}"),
                format!("{left} flowers were left as controls"),
                "count the same flowers, or correct the page",
            ));
        }
        fits(set, Some(flowers), "flowers left as controls")?;
        Ok(Some((set, flowers)))
    }
}

/// `0/5`: pods and flowers.
fn controls(typed: &str) -> Result<(u32, u32), Slip> {
    let numbers = typed
        .split_once('/')
        .and_then(|(set, flowers)| Some((set.trim().parse().ok()?, flowers.trim().parse().ok()?)));
    numbers.ok_or_else(|| Slip::bad_number("--controls", typed, "pods and flowers, such as 0/5"))
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
