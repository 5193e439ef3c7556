//! Pods harvested from a zone: a pod record and the seed lot that comes of it.

use crate::analysis::due::practice;
use crate::check::LEAST_RIPENING;
use crate::observation::provenance::covering;
use crate::record::{CrossPage, Pollination, When};
use crate::recording::codes::next_part;
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::parts::{Part, part};
use crate::recording::recorded::{Recorded, Tag, What};
use crate::recording::slip::Slip;
use crate::recording::usual::Usual;
use crate::recording::voice::{Words, day, field, words};
use crate::recording::written::RonRecord;
use crate::registry::Registry;
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
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let (_, cross, at) = part(registry, &self.zone, &[Part::Zone])?;
        let page = &registry[cross].page;
        let zone = &page.pollinations[at];
        if let Some(percent) = self.embryo_percent.filter(|percent| *percent > 100) {
            return Err(Slip::BadNumber(
                "--embryo-percent",
                percent.to_string(),
                "a percentage from 0 to 100",
            ));
        }
        let remark = self.ripened(registry, (page, zone), on.when)?;
        let pod = next_part('P', page.pods.iter().map(|pod| pod.code));
        let is_empty = self.seeds == Some(0);
        self.no_seed_kept(is_empty)?;
        let pod_record = RonRecord::new()
            .text("code", &pod)
            .text("zone", zone.zone)
            .value_if("capsules", self.capsules)
            .text("harvested", &on.text)
            .value_if("seeds", self.seeds)
            .text_if("note", self.note.as_ref());
        let text = draft.cross(cross);
        text.append("pods", &[pod_record.line()])?;
        let code = |part: &str| format!("{}.{part}", page.code);
        let mut lot = None;
        if !is_empty {
            let next = next_part('L', page.seed_lots.iter().map(|lot| lot.code));
            text.append("seed_lots", &[self.lot(&next, &pod)])?;
            lot = Some(code(&next));
        }
        let about = [Some(page.code.to_owned()), Some(code(&pod)), lot.clone()];
        let tag = |lot: &String| Tag {
            code: lot.clone(),
            on: "seed envelope",
        };
        Ok(Recorded {
            about: about
                .into_iter()
                .flatten()
                .chain([code(zone.zone)])
                .collect(),
            tags: lot.iter().map(tag).collect(),
            remarks: remark.into_iter().collect(),
            what: What::Harvested {
                pod: code(&pod),
                zone: code(zone.zone),
                lot,
                capsules: self.capsules,
                seeds: self.seeds,
                estimated: self.estimated,
                on: on.text,
            },
        })
    }

    /// Refuses a harvest on the day of the pollination or more than a year later, and more capsules than set; what to say
    /// where the days between are fewer or more than is usual.
    fn ripened(
        &self,
        registry: &Registry,
        (page, zone): (&CrossPage, &Pollination),
        on: When,
    ) -> Result<Option<Words>, Slip> {
        let usual = Usual {
            code: format!("{}.{}", page.code, zone.zone),
            before: "pollinated",
            now: "harvested",
            days: practice::RIPEN,
        };
        let days = zone.on.iter().map(|day| registry.when(day));
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
                day(), Words::or(": `podbook undo`, or `on` of the zone in its page", " at the computer")
            ),
        )?;
        if self.capsules.is_some() {
            self.no_more_than_set(page, zone)?;
        }
        usual.within_a_year(
            dusted,
            on,
            words!(
                "give the day of the harvest with {}; pods of a new pollination are of a zone of their own{}";
                day(), Words::or(": podbook pollinate", ", recorded under “Pollinated” on the page of the plant")
            ),
        )?;
        self.no_more_than_set(page, zone)?;
        // A time that no pod ripens in is a warning of `check`, which is shown under the recording.
        let ripens = dusted.days_until(on);
        let ripens = ripens.is_some_and(|(_, most)| most >= LEAST_RIPENING);
        Ok(usual.remark(dusted, on).filter(|_| ripens))
    }

    fn no_more_than_set(&self, page: &CrossPage, zone: &Pollination) -> Result<(), Slip> {
        let pods = page.pods.iter().filter(|pod| pod.zone == Some(zone.zone));
        // A harvest is of one capsule at least.
        let before = pods.clone().map(|pod| u64::from(pod.capsules.unwrap_or(1)));
        let before: u64 = before.sum();
        let now = u64::from(self.capsules.unwrap_or(1));
        let help = Words::or(
            "count the pods again, or replace the count with `podbook took … --again`",
            "count the pods again, and tick “In place of the count on record”",
        );
        let code = format!("{}.{}", page.code, zone.zone);
        match zone.set.filter(|set| before + now > u64::from(*set)) {
            None => Ok(()),
            Some(set) if before == 0 => Err(Slip::too_many(
                format!("pods that set on {code}"),
                (now, set),
                help,
            )),
            Some(set) => {
                let pods: Vec<String> = pods
                    .map(|pod| format!("{}.{}", page.code, pod.code))
                    .collect();
                let capsules = |of: u64| counted(of as usize, "capsule", "capsules");
                Err(Slip::contradicts(
                    format!(
                        "{} of {code} would be {} in all",
                        capsules(now),
                        before + now
                    ),
                    format!(
                        "{} set, and {before} of them are harvested already ({})",
                        counted(set as usize, "flower", "flowers"),
                        pods.join(", ")
                    ),
                    help,
                ))
            }
        }
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
