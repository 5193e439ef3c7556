//! What else differed between two groups besides their parents: when sown and read, where, under which light, in
//! which pots, how and by whom; and, where it is on record, in what they were sown, where they stood, and what they were
//! treated with.
//!
//! Alike only where both sides say the same; what one side does not say is not taken to be alike, and neither are days that
//! are known to the month only.

use crate::lineage::PlantRow;
use crate::observation::places::place_noted;
use crate::observation::provenance::{covering, sown as day_sown, sure_sowing};
use crate::observation::series::Comparable;
use crate::record::{Day, FreeText, Sitting, Sowing, When};
use crate::registry::{Registry, SittingRow};
use crate::wording::{days, listed};
use serde::Serialize;
use std::collections::BTreeSet;

/// What may have differed.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
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
    /// Days of potting.
    PottedOn,
    /// In which mix they were sown.
    Medium,
    /// Where they were sown.
    SownAt,
    /// Where the plants themselves stand, as far as they say.
    Stands,
    /// What they were treated with.
    Treated,
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

/// A plant with the sittings that what is compared of it was read in, two at most.
pub type ReadIn = (PlantRow, [Option<SittingRow>; 2]);

/// Plants of one side.
pub type Used<'u> = &'u [ReadIn];

/// A reading as it is set beside others.
pub fn read_in(of: &Comparable) -> ReadIn {
    (of.plant, [Some(of.sitting), of.also_in])
}

/// What differed, or is not known to be alike, between the first of several sides and any of the others.
pub fn unlike_among(registry: &Registry, sides: &[Vec<ReadIn>]) -> Vec<Circumstance> {
    let Some((first, others)) = sides.split_first() else {
        return Vec::new();
    };
    let pairs = others
        .iter()
        .map(|other| circumstances(registry, first, other));
    unlike_once(pairs.flatten())
}

/// Of each circumstance that was not alike, or is not known to have been, one: where some differ, one that does.
pub fn unlike_once(found: impl Iterator<Item = Circumstance>) -> Vec<Circumstance> {
    let mut unlike: Vec<Circumstance> = found.filter(|of| of.alike != Some(true)).collect();
    unlike.sort_by_key(|of| (of.what, of.alike.is_none()));
    unlike.dedup_by_key(|of| of.what);
    unlike
}

/// What differed between two sides, in a fixed order. The first seven always stand; the others where one side says something.
pub fn circumstances(registry: &Registry, first: Used, second: Used) -> Vec<Circumstance> {
    let said = |of: fn(&Sitting) -> Option<String>| move |used: Used| said(registry, used, of);
    let two = |what: What, of: &dyn Fn(Used) -> Option<String>| {
        Circumstance::of(what, (of(first), of(second)), true)
    };
    let sown = [first, second].map(|used| sown(registry, used));
    let read = [first, second].map(|used| read_on(registry, used));
    let potted = [first, second].map(|used| pots(registry, used));
    let [pots_first, pots_second] = &potted;
    let widths = |pots: &Option<Pots>| pots.as_ref().map(|pots| pots.widths.clone());
    let of_plants = |what: What, of: &dyn Fn(&ReadIn) -> Option<String>| {
        let [first, second] = [first, second].map(|used| listed_of_some(used.iter().map(of)));
        let is_sure = first.1 && second.1;
        let (first, second) = (first.0, second.0);
        Circumstance::of(what, (first, second), is_sure)
    };
    let of_sowings = |what: What, of: fn(&Sowing) -> Option<String>| {
        of_plants(what, &|(plant, _)| {
            of(&registry[sure_sowing(registry, *plant)?])
        })
    };
    let mut found = vec![
        Days::alike(What::Sown, &sown),
        Days::alike(What::ReadOn, &read),
        two(What::Place, &said(|s| words(&s.place))),
        two(What::Light, &said(|s| words(&s.light))),
        Circumstance::of(What::Pot, (widths(pots_first), widths(pots_second)), true),
        two(What::Method, &said(|s| words(&s.method))),
        two(What::ReadBy, &said(|s| words(&s.by))),
    ];
    if let [Some(one), Some(other)] = potted {
        found.push(Days::alike(What::PottedOn, &[one.days, other.days]));
    }
    let further = [
        of_sowings(What::Medium, |s| words(&s.medium)),
        of_sowings(What::SownAt, |s| words(&s.place)),
        // Beside the place of the sitting, which may be where they were read.
        of_plants(What::Stands, &|(plant, _)| {
            place_noted(registry, *plant).map(str::to_owned)
        }),
        of_plants(What::Treated, &|(plant, at)| treated(registry, *plant, at)),
    ];
    let is_said = |of: &Circumstance| of.first.is_some() || of.second.is_some();
    found.extend(further.into_iter().filter(is_said));
    found
}

impl Circumstance {
    /// Of what both sides say; `is_sure` where the same words mean the same thing.
    fn of(
        what: What,
        (first, second): (Option<String>, Option<String>),
        is_sure: bool,
    ) -> Circumstance {
        let both = first.as_ref().zip(second.as_ref());
        let alike = both.map(|(a, b)| a == b);
        Circumstance {
            what,
            alike: alike.filter(|alike| is_sure || !alike),
            first,
            second,
        }
    }
}

fn words(text: &Option<FreeText>) -> Option<String> {
    text.as_deref().map(str::to_owned)
}

/// Words of each plant, each once; `None` when one of them says nothing.
fn listed_once(words: impl Iterator<Item = Option<String>>) -> Option<String> {
    let words: BTreeSet<String> = words.collect::<Option<_>>()?;
    let words: Vec<String> = words.into_iter().collect();
    (!words.is_empty()).then(|| listed(&words))
}

/// What stands for a plant that says nothing, where another of its side does.
const NOT_SAID: &str = "?";

/// Words of each plant, each once, and whether all plants have some; `None` when none has.
fn listed_of_some(words: impl Iterator<Item = Option<String>>) -> (Option<String>, bool) {
    let words: BTreeSet<Option<String>> = words.collect();
    let all_say = !words.contains(&None);
    let says_some = words.iter().any(Option::is_some);
    let words = words.into_iter().rev();
    let words: Vec<String> = words
        .map(|word| word.unwrap_or_else(|| NOT_SAID.to_owned()))
        .collect();
    (says_some.then(|| listed(&words)), all_say)
}

/// Days of some records.
#[derive(Clone, PartialEq, Eq)]
struct Days {
    /// The records, where two that are one are of one day.
    of: BTreeSet<usize>,
    days: BTreeSet<When>,
}

impl Days {
    fn words(&self) -> Option<String> {
        let covered = covering(self.days.iter().copied());
        (covered != When::UNKNOWN).then(|| days(covered))
    }

    /// Whether the days of two sides were the same. Of a month, two sides may have had other days; one record had one.
    fn alike(what: What, [first, second]: &[Days; 2]) -> Circumstance {
        let is_exact = |of: &Days| of.days.iter().all(|day| day.is_exact());
        let is_one = first.of == second.of && first.of.len() == 1;
        let is_sure = is_one || (is_exact(first) && is_exact(second));
        Circumstance::of(what, (first.words(), second.words()), is_sure)
    }
}

fn sittings(used: Used) -> BTreeSet<SittingRow> {
    used.iter()
        .flat_map(|(_, sittings)| sittings.iter().flatten().copied())
        .collect()
}

fn sown(registry: &Registry, used: Used) -> Days {
    // A sowing that is not known is the same as no other.
    let of = |&(plant, _): &ReadIn| {
        let sowing = sure_sowing(registry, plant);
        sowing.map_or(usize::MAX - plant.index(), |row| row.at)
    };
    Days {
        of: used.iter().map(of).collect(),
        days: used
            .iter()
            .map(|(plant, _)| day_sown(registry, *plant))
            .collect(),
    }
}

fn read_on(registry: &Registry, used: Used) -> Days {
    let sittings = sittings(used);
    let day = |at: &SittingRow| registry.when(registry[*at].sitting.on);
    Days {
        of: sittings.iter().map(|at| at.index()).collect(),
        days: sittings.iter().map(day).collect(),
    }
}

/// What the sittings say, each word once; `None` when one of them says nothing.
fn said(registry: &Registry, used: Used, of: fn(&Sitting) -> Option<String>) -> Option<String> {
    let sittings = sittings(used).into_iter();
    listed_once(sittings.map(|at| of(&registry[at].sitting)))
}

/// The last day on which a size was read.
fn last_read(registry: &Registry, sittings: &[Option<SittingRow>; 2]) -> Option<Day> {
    let sittings = sittings.iter().flatten();
    let days = sittings.map(|at| registry.when(registry[*at].sitting.on).last);
    days.max()
}

/// The pot a plant stood in on a day, and since when: its own, or what its sowing was pricked out into. `None` also where
/// it may have been potted on after that day.
fn pot_at(registry: &Registry, plant: PlantRow, day: Day) -> Option<(String, When)> {
    let by_then = |on: &str| Some(registry.when(on)).filter(|when| when.first <= day);
    let own = registry
        .pots(plant)
        .iter()
        .filter_map(|potting| Some((potting.pot.to_string(), by_then(potting.on)?)));
    let own = own.max_by_key(|(_, when)| *when);
    let pricked_out = || {
        let sowing = &registry[sure_sowing(registry, plant)?];
        let moves = sowing.pricked_out.iter();
        let moves = moves.filter_map(|p| Some((p.to.as_deref()?.to_owned(), by_then(p.on)?)));
        moves.max_by_key(|(_, when)| *when)
    };
    own.or_else(pricked_out)
        .filter(|(_, when)| when.last <= day)
}

/// The pots of one side.
struct Pots {
    widths: String,
    days: Days,
}

/// The pots the plants stood in when they were read; `None` when that of one is not recorded.
fn pots(registry: &Registry, used: Used) -> Option<Pots> {
    let mut pots = BTreeSet::new();
    let mut days = Days {
        of: BTreeSet::new(),
        days: BTreeSet::new(),
    };
    for (plant, at) in used {
        let (pot, when) = pot_at(registry, *plant, last_read(registry, at)?)?;
        pots.insert(pot);
        days.of.insert(plant.index());
        days.days.insert(when);
    }
    let pots: Vec<String> = pots.into_iter().collect();
    (!pots.is_empty()).then(|| Pots {
        widths: listed(&pots),
        days,
    })
}

/// What a plant was treated with by the day it was read, with the days; `None` where nothing is on record.
fn treated(registry: &Registry, plant: PlantRow, at: &[Option<SittingRow>; 2]) -> Option<String> {
    let read = last_read(registry, at)?;
    let mut told: Vec<String> = (registry.treatments(plant).iter())
        .filter(|of| registry.when(of.on).first <= read)
        .map(|of| format!("{} {}", &*of.product, of.on))
        .collect();
    told.sort();
    (!told.is_empty()).then(|| told.join(", "))
}
