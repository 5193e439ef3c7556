//! Mix-ups of seedlings and of community pots as each of them has them, whichever record they stand on.
//!
//! A mix-up is in doubt on both sides. Where the record of one names another and that one's record is silent, the other has
//! the mix-up all the same, unless it only gave some of its seedlings to a pot of mixed-up ones.

use super::may_be::MayBeOne;
use super::mix_up::{MixUp, MixedUp};
use super::row_types::{CrossRow, PlantRow, PodRow};
use super::target::Target;
use super::whole::Registry;
use crate::record::Day;
use std::collections::{BTreeMap, BTreeSet};

impl MixedUp {
    /// The seedling or pot that a code names, a seedling also by one of its pieces.
    pub fn named(registry: &Registry, code: &str) -> Option<MixedUp> {
        match registry.target(code)? {
            Target::CommunityPot(pot) => Some(MixedUp::Pot(pot)),
            target => target.plant().map(MixedUp::Plant),
        }
    }

    /// The cross on whose page it stands; none for a founder.
    pub fn cross(self, registry: &Registry) -> Option<CrossRow> {
        match self {
            MixedUp::Plant(plant) => registry.cross_of(plant),
            MixedUp::Pot(pot) => Some(pot.cross),
        }
    }

    /// Its code.
    pub fn code(self, registry: &Registry) -> String {
        match self {
            MixedUp::Plant(plant) => registry.code(plant),
            MixedUp::Pot(pot) => {
                format!("{}.{}", registry[pot.cross].page.code, registry[pot].code)
            }
        }
    }
}

impl<'t> Registry<'t> {
    /// The mix-ups of a plant, settled or not: those of its own record in its order, then those that only others have.
    pub fn mix_ups(&self, plant: PlantRow) -> &[MixUp<'t>] {
        self.mix_ups_of(MixedUp::Plant(plant))
    }

    /// The same of a plant or a community pot.
    pub fn mix_ups_of(&self, of: MixedUp) -> &[MixUp<'t>] {
        self.mix_ups.get(&of).map_or(&[], Vec::as_slice)
    }

    /// Those of them that are not settled.
    pub fn open_mix_ups(&self, plant: PlantRow) -> impl Iterator<Item = &MixUp<'t>> {
        self.open_mix_ups_of(MixedUp::Plant(plant))
    }

    /// The same of a plant or a community pot.
    pub fn open_mix_ups_of(&self, of: MixedUp) -> impl Iterator<Item = &MixUp<'t>> {
        let all = self.mix_ups_of(of).iter();
        all.filter(|muddle| muddle.settled.is_none())
    }

    /// Codes of plants or pots that are of other crosses, or may be, and that this may be, each with what it names, where its own
    /// record names no pods that it may be of: those it is mixed up with, those that the pot was mixed up with out of which a
    /// plant was numbered, and what these were mixed up with before. A lineage comes without them, and has each mix-up on its
    /// own records.
    pub fn may_be_of_another_cross(&self, of: MixedUp) -> BTreeMap<&str, Option<MixedUp>> {
        if self.mix_ups.is_empty() {
            return BTreeMap::new();
        }
        let says = match of {
            MixedUp::Plant(plant) => !self.pods_it_may_be_of(plant).is_empty(),
            MixedUp::Pot(pot) => !self[pot].one_of.is_empty(),
        };
        let Some(cross) = of.cross(self).filter(|_| !says) else {
            return BTreeMap::new();
        };
        let is_told = self[cross].page.told_by.is_some();
        let pot = match of {
            MixedUp::Plant(plant) => self.stood_in(plant),
            MixedUp::Pot(_) => None,
        };
        let of_pot = pot.into_iter().flat_map(|(pot, numbered)| {
            let open = self.open_mix_ups_of(MixedUp::Pot(pot));
            let by_then = open.filter(move |muddle| !numbered.surely_before(self.when(muddle.on)));
            by_then.map(move |muddle| (MixedUp::Pot(pot), muddle, numbered.last))
        });
        let own = self
            .open_mix_ups_of(of)
            .map(|muddle| (of, muddle, Day::LAST));
        let open = own.chain(of_pot);
        let open = open.filter(|(_, muddle, _)| muddle.is_own || !is_told);
        let first = open.flat_map(|(of, muddle, by)| self.others(of, muddle, by));
        // A record that names pods names those of what came before, too.
        let leads = |one: &MayBeOne| {
            let pods = one.named.map(|of| self.pods_named_by(of, one.by));
            pods.is_some_and(|pods| pods.is_empty())
        };
        let others = self.further(of, first, leads);
        let others = others
            .into_iter()
            .filter(|one| self.is_of_another(cross, one));
        others.map(|one| (one.code, one.named)).collect()
    }

    /// Whether a code is that of a plant or pot that was of another cross when it was mixed up, or may have been; a founder is none.
    fn is_of_another(&self, cross: CrossRow, one: &MayBeOne) -> bool {
        let Some(named) = one.named else {
            let rest = one.code.trim().strip_prefix(self[cross].page.code);
            return !rest.is_some_and(|rest| rest.starts_with(['-', '.']));
        };
        let pods = self.pods_named_by(named, one.by);
        match pods.is_empty() {
            true => named.cross(self).is_some_and(|of| of != cross),
            false => pods.iter().any(|pod| pod.cross != cross),
        }
    }

    /// The pods that a plant or pot may have been of by a day: a mix-up that surely came later counts for nothing.
    fn pods_named_by(&self, of: MixedUp, by: Day) -> Vec<PodRow> {
        let is_later = |muddle: &&MixUp| muddle.is_own && by < self.when(muddle.on).first;
        let later = self.open_mix_ups_of(of).find(is_later);
        match (later, of) {
            (Some(muddle), _) => of.cross(self).map_or(Vec::new(), |cross| {
                self.pods_named(cross, &muddle.one_of_before)
            }),
            (None, MixedUp::Plant(plant)) => self.pods_it_may_be_of(plant),
            (None, MixedUp::Pot(pot)) => self.pods_of_pot(pot),
        }
    }

    /// Whether a plant is surely of the cross and pod on its record, as its siblings are.
    pub fn is_surely_of_its_pod(&self, plant: PlantRow) -> bool {
        self.pods_it_may_be_of(plant).is_empty()
            && self
                .may_be_of_another_cross(MixedUp::Plant(plant))
                .is_empty()
    }
}

/// The mix-ups of everything that has any.
pub(super) fn mix_ups<'t>(registry: &Registry<'t>) -> BTreeMap<MixedUp, Vec<MixUp<'t>>> {
    let mut own = on_own_records(registry);
    own.extend(of_pots(registry));
    let mut all = own.clone();
    for (&this, muddled) in &own {
        let filled = match this {
            MixedUp::Pot(pot) => registry[pot].filled_by().is_some(),
            MixedUp::Plant(_) => false,
        };
        for muddle in muddled.iter().skip(usize::from(filled)) {
            for other in others(registry, this, muddle) {
                let known = own.get(&other).map_or(&[][..], Vec::as_slice);
                if !known.iter().any(|of| is_same(registry, (this, muddle), of)) {
                    add(
                        all.entry(other).or_default(),
                        seen_from(registry, other, (this, muddle)),
                    );
                }
            }
        }
    }
    all
}

fn on_own_records<'t>(registry: &Registry<'t>) -> BTreeMap<MixedUp, Vec<MixUp<'t>>> {
    let pages = registry.crosses.iter();
    let pages = pages.filter(|page| page.details.iter().any(|of| !of.muddled.is_empty()));
    let plants = pages.flat_map(|page| page.seedlings.iter());
    let muddled = plants.filter_map(|&plant| {
        let own = registry.seedling(plant)?.muddled.iter().map(MixUp::of);
        let own: Vec<MixUp> = own.collect();
        (!own.is_empty()).then_some((MixedUp::Plant(plant), own))
    });
    muddled.collect()
}

fn of_pots<'t>(registry: &Registry<'t>) -> BTreeMap<MixedUp, Vec<MixUp<'t>>> {
    let pots = registry.cross_rows();
    let pots = pots.flat_map(|cross| registry.community_pots(cross));
    let muddled = pots.filter(|(_, pot)| !pot.muddled.is_empty());
    muddled
        .map(|(row, pot)| {
            (
                MixedUp::Pot(row),
                pot.muddled.iter().map(MixUp::of).collect(),
            )
        })
        .collect()
}

/// What a mix-up names beside the plant or pot it stands on; founders are none of it.
fn others(registry: &Registry, this: MixedUp, muddle: &MixUp) -> BTreeSet<MixedUp> {
    let named = muddle.with.iter();
    let named = named.filter_map(|code| MixedUp::named(registry, code));
    let known = named.filter(|&of| of != this && of.cross(registry).is_some());
    known.collect()
}

/// Whether a mix-up on another record may be this one of a plant or pot: it names it, and may be of the same day.
fn is_same(registry: &Registry, (this, muddle): (MixedUp, &MixUp), other: &MixUp) -> bool {
    let names_it = other
        .with
        .iter()
        .any(|code| MixedUp::named(registry, code) == Some(this));
    let [on, of_other] = [muddle.on, other.on].map(|on| registry.when(on));
    names_it && !on.surely_before(of_other) && !of_other.surely_before(on)
}

/// A mix-up of a plant or pot as one of the others has it.
fn seen_from<'t>(
    registry: &Registry,
    other: MixedUp,
    (this, muddle): (MixedUp, &MixUp<'t>),
) -> MixUp<'t> {
    let further = muddle
        .with
        .iter()
        .filter(|code| MixedUp::named(registry, code) != Some(other));
    let with = [this.code(registry)].into_iter().chain(further.cloned());
    let mut with: Vec<String> = with.collect();
    with.sort_unstable();
    MixUp {
        with,
        one_of_before: Vec::new(),
        is_own: false,
        ..muddle.clone()
    }
}

/// Adds a mix-up, unless it was added from another of its plants.
fn add<'t>(known: &mut Vec<MixUp<'t>>, muddle: MixUp<'t>) {
    let same = |of: &&mut MixUp| !of.is_own && (of.on, of.settled) == (muddle.on, muddle.settled);
    match known.iter_mut().find(same) {
        Some(of) => {
            of.with.extend(muddle.with);
            of.with.sort_unstable();
            of.with.dedup();
        }
        None => known.push(muddle),
    }
}
