//! What else differed between two groups besides their parents: when sown and read, where, under which light, in
//! which pots, how and by whom.
//!
//! Alike only where both sides say the same; what one side does not say is not taken to be alike.

use crate::analysis::growth::grown::AtAge;
use crate::lineage::PlantRow;
use crate::observation::provenance::{covering, sown as day_sown};
use crate::record::{Day, Sitting, When};
use crate::registry::{Registry, SittingRow};
use crate::wording::{days, listed};
use serde::Serialize;
use std::collections::BTreeSet;

/// What may have differed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum What {
    /// Days of sowing.
    Sown,
    /// Days of reading.
    ReadOn,
    /// Where the plants stood.
    Place,
    /// Under which light.
    Light,
    /// In which pots.
    Pot,
    /// How they were read.
    Method,
    /// By whom.
    ReadBy,
}

/// One circumstance on both sides.
#[derive(Clone, PartialEq, Eq, Debug, Serialize)]
pub struct Circumstance {
    /// What it is.
    pub what: What,
    /// On the first side; `null` when not recorded.
    pub first: Option<String>,
    /// On the second side.
    pub second: Option<String>,
    /// Whether both are the same; `null` when one is not recorded.
    pub alike: Option<bool>,
}

/// Plants of one side with the size used of each.
pub type Used<'u> = &'u [(PlantRow, AtAge)];

/// What differed between two sides, in a fixed order.
pub fn circumstances(registry: &Registry, first: Used, second: Used) -> Vec<Circumstance> {
    let two = |what: What, of: &dyn Fn(Used) -> Option<String>| {
        let (first, second) = (of(first), of(second));
        let alike = first.as_ref().and_then(|a| second.as_ref().map(|b| a == b));
        Circumstance {
            what,
            first,
            second,
            alike,
        }
    };
    let said = |of: fn(&Sitting) -> Option<String>| move |used: Used| said(registry, used, of);
    vec![
        two(What::Sown, &|used| sown(registry, used)),
        two(What::ReadOn, &|used| read_on(registry, used)),
        two(
            What::Place,
            &said(|s| s.place.as_deref().map(str::to_owned)),
        ),
        two(
            What::Light,
            &said(|s| s.light.as_deref().map(str::to_owned)),
        ),
        two(What::Pot, &|used| pots(registry, used)),
        two(
            What::Method,
            &said(|s| s.method.as_deref().map(str::to_owned)),
        ),
        two(What::ReadBy, &said(|s| s.by.as_deref().map(str::to_owned))),
    ]
}

fn sittings(used: Used) -> BTreeSet<SittingRow> {
    used.iter()
        .flat_map(|(_, at)| at.sittings.into_iter().flatten())
        .collect()
}

fn known(when: When) -> Option<String> {
    (when != When::UNKNOWN).then(|| days(when))
}

fn sown(registry: &Registry, used: Used) -> Option<String> {
    known(covering(
        used.iter().map(|(plant, _)| day_sown(registry, *plant)),
    ))
}

fn read_on(registry: &Registry, used: Used) -> Option<String> {
    let dates = sittings(used)
        .into_iter()
        .map(|at| registry.when(registry[at].sitting.on));
    known(covering(dates))
}

/// What the sittings say, each word once; `None` when one of them says nothing.
fn said(registry: &Registry, used: Used, of: fn(&Sitting) -> Option<String>) -> Option<String> {
    let words = sittings(used)
        .into_iter()
        .map(|at| of(&registry[at].sitting));
    let words: BTreeSet<String> = words.collect::<Option<_>>()?;
    let words: Vec<String> = words.into_iter().collect();
    (!words.is_empty()).then(|| listed(&words))
}

/// The pot a plant stood in on a day: its own, or what its sowing was pricked out into.
fn pot_at(registry: &Registry, plant: PlantRow, day: Day) -> Option<String> {
    let by_then = |on: &str| Some(registry.when(on)).filter(|when| when.first <= day);
    let own = registry
        .pots(plant)
        .iter()
        .filter_map(|potting| Some((by_then(potting.on)?, potting.pot.to_string())));
    let own = own.max_by_key(|(when, _)| *when);
    let pricked_out = || {
        let sowing = &registry[registry.road(plant).0?];
        let moves = sowing.pricked_out.iter();
        let moves = moves.filter_map(|p| Some((by_then(p.on)?, p.to.as_deref()?.to_owned())));
        moves.max_by_key(|(when, _)| *when)
    };
    own.or_else(pricked_out).map(|(_, pot)| pot)
}

/// The pots the plants stood in when they were read; `None` when that of one is not recorded.
fn pots(registry: &Registry, used: Used) -> Option<String> {
    let mut pots = BTreeSet::new();
    for (plant, at) in used {
        let read = at
            .sittings
            .into_iter()
            .flatten()
            .map(|s| registry.when(registry[s].sitting.on).last)
            .max()?;
        pots.insert(pot_at(registry, *plant, read)?);
    }
    let pots: Vec<String> = pots.into_iter().collect();
    (!pots.is_empty()).then(|| listed(&pots))
}
