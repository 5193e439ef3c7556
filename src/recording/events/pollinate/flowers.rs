//! Whether the flowers that were dusted were open: the spike that was named, and the flowers on record.

use super::event::{LASTS, Pollinate};
use crate::record::{Day, When};
use crate::recording::plants::{Named, code};
use crate::recording::recorded::Remark;
use crate::recording::slip::Slip;
use crate::registry::Registry;
use crate::wording::days;

impl Pollinate {
    /// Refuses a spike that the plant does not have.
    pub(super) fn known_spike(&self, registry: &Registry, seed: Named) -> Result<(), Slip> {
        let Some(spike) = &self.spike else {
            return Ok(());
        };
        let flowerings = registry.flowerings(seed.plant);
        let known: Vec<&str> = flowerings
            .iter()
            .filter_map(|flowering| flowering.code)
            .collect();
        match known.contains(&spike.as_str()) {
            true => Ok(()),
            false => Err(Slip::Unknown {
                what: "spike",
                code: spike.clone(),
                near: known.into_iter().map(str::to_owned).collect(),
            }),
        }
    }

    /// Refuses a day on which the flowers on record were not open; says so when none are on record for it.
    pub(super) fn open_spike(
        &self,
        registry: &Registry,
        seed: Named,
        on: When,
    ) -> Result<Vec<Remark>, Slip> {
        let near = |day: Day| {
            day.0 >= on.first.0.saturating_sub(200) && day.0 <= on.last.0.saturating_add(200)
        };
        let mut closed = None;
        for flowering in registry.flowerings(seed.plant) {
            if self.spike.is_some() && self.spike.as_deref() != flowering.code {
                continue;
            }
            let date = |text: Option<&str>| {
                text.map(|text| registry.when(text))
                    .filter(|when| when.last != Day::LAST)
            };
            let (seen, opened, over) = (
                date(flowering.spike),
                date(flowering.opened),
                date(flowering.over),
            );
            let last = over
                .map(|over| over.last)
                .or(opened.map(|opened| Day(opened.last.0 + LASTS)));
            match (opened, last) {
                (Some(opened), Some(last)) if opened.first <= on.last && on.first <= last => {
                    return Ok(Vec::new());
                }
                (Some(opened), _) if self.spike.is_some() || near(opened.last) => {
                    closed = Some(match over {
                        Some(over) if opened.is_bounded() => format!(
                            "its flowers were open from {} to {}",
                            opened.first, over.last
                        ),
                        Some(over) => format!("its flowers were over by {}", over.last),
                        None => format!("its first flower opened on {}", days(opened)),
                    });
                }
                (None, _) if seen.is_some_and(|seen| near(seen.last)) => {
                    closed = Some("its spike is on record without an open flower".to_owned());
                }
                _ => {}
            }
        }
        match closed {
            Some(recorded) => Err(Slip::Contradicts {
                asked: format!("{} was pollinated on {}", code(registry, seed), days(on)),
                recorded,
                help: format!(
                    "give the day with --on, or record the flowers first: podbook flower {} --opened DATE",
                    code(registry, seed)
                ),
            }),
            None => Ok(vec![Remark::NoSpike {
                plant: code(registry, seed),
            }]),
        }
    }
}
