//! Pods harvested from a zone: a pod record and the seed lot that comes of it.

use crate::observation::in_pod::{LEAST_RIPENING, RIPEN};
use crate::observation::provenance::covering;
use crate::record::{Pod, When};
use crate::recording::codes::next_part;
use crate::recording::draft::Draft;
use crate::recording::parts::{Part, ZONE, part};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, field, words};
use crate::recording::written::RonRecord;
use crate::registry::{Registry, ZoneRow};
use crate::wording::counted;

/// A harvest.
#[derive(Clone, Debug, Default)]
pub struct Harvest {
    /// The zone.
    pub zone: String,
    /// Capsules.
    pub capsules: Option<u32>,
    /// Seeds.
    pub seeds: Option<u32>,
    /// Whether their number is a guess.
    pub estimated: bool,
    /// Seeds with a visible embryo, percent.
    pub embryo_percent: Option<u8>,
    /// How the seed is kept.
    pub stored: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Harvest {
    /// Writes the pod and its seed lot; an empty pod has none.
    ///
    /// # Errors
    /// If more capsules are harvested than set, it was pollinated that day, later, or more than a year before, or the share of embryos is no percentage.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let zone: ZoneRow = part(registry, &self.zone, &ZONE)?;
        if let Some(percent) = self.embryo_percent.filter(|percent| *percent > 100) {
            let needed = "a percentage from 0 to 100";
            return Err(Slip::bad_number(
                "--embryo-percent",
                &percent.to_string(),
                needed,
            ));
        }
        if self.capsules == Some(0) {
            return Err(Slip::bad_number("--capsules", "0", "at least one capsule"));
        }
        let remark = self.ripened(registry, zone, on.when)?;
        let is_empty = self.seeds == Some(0);
        self.no_seed_kept(is_empty)?;
        let page = &registry[zone.cross].page;
        let code = |part: &str| format!("{}.{part}", page.code);
        let pod = next_part('P', page.pods.iter().map(|pod| pod.code));
        let pod_record = RonRecord::new()
            .text("code", &pod)
            .text("zone", registry[zone].zone)
            .value_if("capsules", self.capsules)
            .text("harvested", &on.text)
            .value_if("seeds", self.seeds)
            .text_if("note", self.note.as_ref());
        let text = draft.cross(zone.cross);
        text.append("pods", &[pod_record.line()])?;
        let mut about = vec![page.code.to_owned(), code(&pod)];
        let mut lot = None;
        if !is_empty {
            let next = next_part('L', page.seed_lots.iter().map(|lot| lot.code));
            text.append("seed_lots", &[self.lot(&next, &pod)])?;
            lot = Some(code(&next));
        }
        about.extend(lot.clone());
        about.push(zone.code(registry));
        let what = What::Harvested {
            pod: code(&pod),
            zone: zone.code(registry),
            lot: lot.clone(),
            capsules: self.capsules,
            seeds: self.seeds,
            estimated: self.estimated,
        };
        let recorded = Recorded::of(what, about, on.text).tag(lot, "seed envelope");
        Ok(recorded.remarks(remark))
    }

    /// Refuses a harvest on the day of the pollination or more than a year later, and more capsules than set; what to say
    /// where the days between are fewer or more than is usual.
    fn ripened(&self, registry: &Registry, zone: ZoneRow, on: When) -> Result<Option<Words>, Slip> {
        let usual = Usual {
            code: zone.code(registry),
            before: "pollinated",
            now: "harvested",
            days: RIPEN,
        };
        let days = registry[zone].on.iter().map(|day| registry.when(day));
        let dusted = covering(days.clone());
        // The last flowers of the zone: a pod is not ripe while they are still dusted.
        let last = days
            .filter(|day| day.is_bounded())
            .max_by_key(|day| (day.last, day.first));
        usual.not_at_once(
            last.unwrap_or(dusted),
            on,
            words!(
                "give the day of the harvest with {}, or correct that of the pollination{}";
                day(), Words::or(": `podbook undo`, or `on` of the zone in its page", ": Undo under Record, or at the computer")
            ),
        )?;
        if self.capsules.is_some() {
            self.no_more_than_set(registry, zone)?;
        }
        usual.within_a_year(
            dusted,
            on,
            words!(
                "give the day of the harvest with {}; if the flowers were pollinated again, record that first{}";
                day(), Words::or(": podbook pollinate", ", recorded under “Pollinated” on the page of the plant")
            ),
        )?;
        self.no_more_than_set(registry, zone)?;
        // A time that no pod ripens in is a warning of `check`, which is shown under the recording.
        let ripens = dusted.days_until(on);
        let ripens = ripens.is_some_and(|(_, most)| most >= LEAST_RIPENING);
        Ok(usual.remark(dusted, on).filter(|_| ripens))
    }

    fn no_more_than_set(&self, registry: &Registry, zone: ZoneRow) -> Result<(), Slip> {
        let (pods, code) = (pods_of(registry, zone), zone.code(registry));
        let before = least_capsules(pods.clone());
        let now = u64::from(self.capsules.unwrap_or(1));
        let (set, flowers) = (registry[zone].set, registry[zone].flowers);
        // One flower bears one pod at most, also where the set was not counted.
        let Some(most) = set.or(flowers).map(u64::from) else {
            return Ok(());
        };
        if before + now <= most {
            return Ok(());
        }
        let Some(set) = set.map(u64::from) else {
            return Err(Slip::too_many(
                format!("flowers treated on {code}"),
                (before + now, most),
                "count the capsules again, or correct the number of flowers",
            ));
        };
        let help = Words::or(
            "count the pods again, or replace the count with `podbook took … --again`",
            "count the pods again, and tick “Replace the count on record”",
        );
        if before == 0 {
            let what = format!("pods that set on {code}");
            return Err(Slip::too_many(what, (now, set), help));
        }
        let cross = registry[zone.cross].page.code;
        let uncounted = pods.clone().any(|pod| pod.capsules.is_none());
        let pods: Vec<String> = pods.map(|pod| format!("{cross}.{}", pod.code)).collect();
        let least = if uncounted { "at least " } else { "" };
        let all = before + now;
        let now = counted(now as usize, "capsule", "capsules");
        let help = match uncounted {
            true => words!(
                "if that is the same harvest, its capsules can be written on its record; else {}";
                help
            ),
            false => help,
        };
        Err(Slip::contradicts(
            format!("{now} of {code} would be {least}{all} in all"),
            format!(
                "{} set, and {least}{before} of them {} harvested already ({})",
                counted(set as usize, "flower", "flowers"),
                if before == 1 { "is" } else { "are" },
                pods.join(", ")
            ),
            help,
        ))
    }

    /// Refuses words about seed of a pod that held none.
    fn no_seed_kept(&self, is_empty: bool) -> Result<(), Slip> {
        let of_seed = [
            (self.embryo_percent.is_some(), "--embryo-percent"),
            (self.stored.is_some(), "--stored"),
        ];
        let given = of_seed.into_iter().find(|(given, _)| *given && is_empty);
        match given {
            None => Ok(()),
            Some((_, option)) => Err(Slip::contradicts(
                words!("{} was given"; field(option)),
                words!("{} 0 says that the pod was empty"; field("--seeds")),
                words!("leave out {}, or give the number of seeds"; field(option)),
            )),
        }
    }

    /// The seed of a pod.
    fn lot(&self, code: &str, pod: &str) -> String {
        RonRecord::new()
            .text("code", code)
            .text("pod", pod)
            .value_if("seeds", self.seeds)
            .value_if("estimated", self.estimated.then_some("true"))
            .value_if("embryo_percent", self.embryo_percent)
            .text_if("stored", self.stored.as_ref())
            .line()
    }
}

/// The pods on record of a zone.
pub(super) fn pods_of<'r, 't>(
    registry: &'r Registry<'t>,
    zone: ZoneRow,
) -> impl Iterator<Item = &'r Pod<'t>> + Clone {
    let own = Some(registry[zone].zone);
    let pods = registry[zone.cross].page.pods.iter();
    pods.filter(move |pod| pod.zone == own)
}

/// How many capsules some pods are at least: a harvest is of one or more.
pub(super) fn least_capsules<'r, 't: 'r>(pods: impl Iterator<Item = &'r Pod<'t>>) -> u64 {
    let capsules = pods.map(|pod| u64::from(pod.capsules.unwrap_or(1)));
    capsules.sum()
}
