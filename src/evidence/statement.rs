//! What is recorded of the parents of one unit: statements and doubts, each with the cross it stands on.

use super::controls::{AllControls, Controls};
use super::doubt::{Doubt, Named, Side};
use super::envelopes::unsure_envelope;
use super::pollen_told::pollen_tellers;
use super::strength::Strength;
use super::unit::Unit;
use super::unread::UnreadDoubts;
use super::used_mixed_up::{mixed_up_siblings, used_mixed_up};
use crate::naming::recorded::Names;
use crate::naming::{Direction as Order, Part};
use crate::record::{Confidence, Parents};
use crate::registry::{CrossRow, KnownBy, Pair, PlantRow, PodRow, Registry, ZoneRow};
use std::collections::{BTreeMap, BTreeSet};

/// Whether it is known which parent bore the seed.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Direction {
    /// Known.
    Known,
    /// The first named is taken as the seed parent, as is the custom of labels.
    Assumed,
    /// Not known.
    Lost,
}

/// What is recorded of a unit's own parents.
#[derive(Clone, PartialEq, Debug)]
pub struct Statement {
    /// The crosses it may be of; one, unless a tray or a pot was muddled.
    pub crosses: Vec<CrossRow>,
    /// Statements and doubts in the order in which they are told, each with its cross.
    pub doubts: Vec<(CrossRow, Doubt)>,
    /// In which direction the cross was made, at worst.
    pub direction: Direction,
}

impl Statement {
    /// The weakest of all that is recorded.
    pub fn strength(&self) -> Strength {
        self.weakest()
            .map_or(Strength::Unknown, |(_, doubt)| doubt.strength())
    }

    /// The weakest doubt, the first of several, with its cross.
    pub fn weakest(&self) -> Option<(CrossRow, Doubt)> {
        let weaker = |one: (CrossRow, Doubt), other: (CrossRow, Doubt)| {
            if other.1.strength() > one.1.strength() {
                other
            } else {
                one
            }
        };
        self.doubts.iter().copied().reduce(weaker)
    }

    /// What control flowers showed, the worst of it.
    pub fn controls(&self) -> Option<Controls> {
        let of = |(_, doubt): &(CrossRow, Doubt)| match doubt {
            Doubt::Controls(controls) => Some(*controls),
            _ => None,
        };
        self.doubts.iter().filter_map(of).reduce(Controls::worse)
    }
}

/// What statements are made from.
pub(super) struct Stated<'s, 'e, 't> {
    pub registry: &'e Registry<'t>,
    pub names: &'e Names<'e, 't>,
    pub controls: &'s AllControls,
    pub threads: &'s BTreeMap<ZoneRow, String>,
    pub unread: &'s UnreadDoubts,
}

impl Stated<'_, '_, '_> {
    /// The statement of a unit; none for a plant whose parents are not recorded.
    pub fn of(&self, unit: Unit) -> Option<Statement> {
        let cross = unit.cross(self.registry)?;
        let mixed_up = unit.mixed_up_with(self.registry);
        let others = mixed_up.values().flatten().copied().map(Unit::from);
        let (mut pods, mut crosses, mut of_any_pod) =
            (Vec::new(), BTreeSet::new(), BTreeSet::new());
        for unit in std::iter::once(unit).chain(others) {
            let own = unit.pods(self.registry);
            crosses.extend(own.iter().map(|pod| pod.cross));
            if own.is_empty() {
                of_any_pod.extend(unit.cross(self.registry));
            }
            pods.extend(own);
        }
        crosses.extend(&of_any_pod);
        let mut statement = Statement {
            doubts: Vec::new(),
            direction: Direction::Known,
            crosses: crosses.into_iter().collect(),
        };
        let not_on_record = mixed_up.values().filter(|of| of.is_none()).count();
        let crosses = statement.crosses.len() + not_on_record;
        if crosses > 1 {
            statement.doubts.push((cross, Doubt::OneOfCrosses(crosses)));
        }
        for &cross in &statement.crosses {
            let own = pods.iter().copied();
            let own = own.filter(|pod| pod.cross == cross && !of_any_pod.contains(&cross));
            let zones = self.zones(cross, unit, own);
            let mut doubts = self.of_cross(cross, &zones);
            if let Some(at) = self.unread.of(self.registry, unit, (cross, &zones)) {
                // What the page says may be what that field takes back.
                doubts.retain(|doubt| !matches!(doubt, Doubt::FreeText(..)));
                doubts.push(Doubt::Unread(at));
            }
            let doubts = doubts.into_iter();
            let page = &self.registry[cross].page;
            let told = page.told_by.as_ref().map(|_| Doubt::Told);
            let doubts = told.into_iter().chain(doubts);
            statement.doubts.extend(doubts.map(|doubt| (cross, doubt)));
            statement.direction = statement.direction.max(self.direction(cross));
        }
        Some(statement)
    }

    /// The pollinations a unit may be of.
    fn zones(
        &self,
        cross: CrossRow,
        unit: Unit,
        pods: impl Iterator<Item = PodRow>,
    ) -> Vec<ZoneRow> {
        let rows = |keep: &dyn Fn(&str) -> bool| -> Vec<ZoneRow> {
            let all = self.registry.zones(cross);
            all.filter(|(_, of)| keep(of.zone))
                .map(|(row, _)| row)
                .collect()
        };
        if let Unit::Zone(zone) = unit {
            return vec![zone];
        }
        let zones: Option<Vec<&str>> = pods.map(|pod| self.registry[pod].zone).collect();
        let named = rows(&|zone| zones.as_ref().is_some_and(|zones| zones.contains(&zone)));
        // A pod that names no zone, or names one that is not there, may be of any.
        match named.is_empty() {
            true => rows(&|_| true),
            false => named,
        }
    }

    /// What the page of a cross says, for seed of these pollinations.
    fn of_cross(&self, cross: CrossRow, zones: &[ZoneRow]) -> Vec<Doubt> {
        let page = &self.registry[cross];
        let pairs = &self.registry[page.origin].pairs;
        let sides = Sides::of(pairs);
        match &page.page.parents {
            Parents::Unknown => vec![Doubt::NeitherKnown],
            _ if !sides.seed && !sides.pollen => vec![Doubt::NeitherKnown],
            Parents::LabelOnly(_) => {
                // A label is how they are known; only a page that doubts the label says more.
                let doubted = page.page.confidence == Confidence::OneOfSeveral;
                let said = doubted.then_some(Doubt::FreeText(page.page.confidence, Named::Both));
                std::iter::once(Doubt::Label).chain(said).collect()
            }
            parents => {
                let mut doubts = of_sides(parents, page.page.confidence, sides);
                let lost = self.lost_numbers(pairs).into_iter();
                doubts.extend(lost.map(|(side, of)| Doubt::SomeSeedling(side, of)));
                for (side, plant) in used_mixed_up(self.registry, (cross, zones), pairs) {
                    let known = doubts.into_iter();
                    doubts = known.filter_map(|of| of_other_than(side, of)).collect();
                    let among = mixed_up_siblings(self.registry, plant).len() + 1;
                    doubts.push(Doubt::MixedUpBefore(side, plant, among));
                }
                let envelope = self.envelope(zones).filter(|_| sides.pollen);
                if envelope.is_some() {
                    doubts = doubts.into_iter().filter_map(of_seed_parent).collect();
                }
                doubts.extend(envelope);
                let mut told = pollen_tellers(self.registry, cross);
                if sides.pollen && told.any(|(zone, _)| zones.contains(&zone)) {
                    doubts = doubts.into_iter().flat_map(of_father_told).collect();
                }
                let controls = self.of_spikes(zones).map(Doubt::Controls);
                let mut threads = zones.iter().filter(|zone| self.threads.contains_key(zone));
                let thread = threads.next().map(|zone| Doubt::SameThread(*zone));
                let seen = controls.into_iter().chain(thread).filter(|_| sides.pollen);
                let seen: Vec<Doubt> = seen.collect();
                if seen.iter().any(|of| of.leaves_father_probable()) {
                    doubts = doubts.into_iter().filter_map(of_seed_parent).collect();
                }
                doubts.extend(seen);
                doubts
            }
        }
    }

    /// Parents that are some seedling of a cross, told once for each side and cross.
    fn lost_numbers(&self, pairs: &[Pair]) -> BTreeSet<(Side, CrossRow)> {
        let lost = |side: Side, plant: Option<PlantRow>| Some((side, self.seedling_of(plant?)?));
        let of_pair = |pair: &Pair| [lost(Side::Seed, pair.seed), lost(Side::Pollen, pair.pollen)];
        pairs.iter().flat_map(of_pair).flatten().collect()
    }

    /// The envelope used for these zones that is least sure of the father, the first of several, where the page is surer.
    fn envelope(&self, zones: &[ZoneRow]) -> Option<Doubt> {
        let unsure = |zone: &ZoneRow| unsure_envelope(self.registry, *zone);
        let unsure = zones.iter().filter_map(unsure);
        let unsure = unsure.map(|(lot, contents)| Doubt::Envelope(lot, contents));
        unsure.reduce(|one, other| match other.strength() > one.strength() {
            true => other,
            false => one,
        })
    }

    /// The worst that controls of these zones showed; if none set, only when every zone had some.
    fn of_spikes(&self, zones: &[ZoneRow]) -> Option<Controls> {
        let of = |zone: &ZoneRow| self.controls.of_zone(*zone);
        let worst = zones.iter().filter_map(of).reduce(Controls::worse)?;
        (worst.set > 0 || zones.iter().all(|zone| of(zone).is_some())).then_some(worst)
    }

    fn seedling_of(&self, plant: PlantRow) -> Option<CrossRow> {
        match self.registry.unseen(plant)?.known_by {
            KnownBy::SeedlingOf(cross) => Some(cross),
            _ => None,
        }
    }

    fn direction(&self, cross: CrossRow) -> Direction {
        match &self.registry[cross].page.parents {
            Parents::DirectionLost(_) => Direction::Lost,
            Parents::LabelOnly(_) => {
                let label = self.names.label_formula(cross);
                match label.part(label.top()) {
                    Part::Cross(cross) => match cross.direction {
                        Order::Known => Direction::Known,
                        Order::Assumed => Direction::Assumed,
                        Order::Unknown => Direction::Lost,
                    },
                    _ => Direction::Lost,
                }
            }
            _ => Direction::Known,
        }
    }
}

/// Which sides of a cross are recorded, and how many pairs there are to choose from.
#[derive(Clone, Copy)]
struct Sides {
    seed: bool,
    pollen: bool,
    pairs: usize,
}

impl Sides {
    fn of(pairs: &[Pair]) -> Sides {
        let apart: BTreeSet<_> = pairs.iter().map(|pair| (pair.seed, pair.pollen)).collect();
        Sides {
            seed: pairs.iter().any(|pair| pair.seed.is_some()),
            pollen: pairs.iter().any(|pair| pair.pollen.is_some()),
            pairs: apart.len(),
        }
    }
}

/// What a page says of the parents it names, and which are not known or one of several.
fn of_sides(parents: &Parents, confidence: Confidence, sides: Sides) -> Vec<Doubt> {
    let (named, several) = named(parents, sides);
    let told = several.is_some_and(|doubt| doubt.strength() >= Strength::OneOfSeveral);
    let of_nobody = match named {
        Named::One(Side::Seed) => !sides.seed,
        Named::One(Side::Pollen) => !sides.pollen,
        _ => false,
    };
    let said = said(confidence, named, told).filter(|_| !of_nobody);
    let open = matches!(parents, Parents::Open { .. });
    let no_seed = (!sides.seed).then_some(Doubt::NotKnown(Side::Seed));
    let no_pollen = (!sides.pollen && !open).then_some(Doubt::NotKnown(Side::Pollen));
    [said, several, no_seed, no_pollen]
        .into_iter()
        .flatten()
        .collect()
}

/// Which parents a page names for certain, and which of them are one of several.
fn named(parents: &Parents, sides: Sides) -> (Named, Option<Doubt>) {
    let pairs = sides.pairs;
    let of_father = |doubt| (Named::One(Side::Seed), Some(doubt));
    match parents {
        Parents::PollenOneOf { .. } if pairs > 1 => of_father(Doubt::OneOf(Side::Pollen, pairs)),
        Parents::PollenMixed { .. } if pairs > 1 => of_father(Doubt::Mixed(pairs)),
        Parents::Open { near, .. } => of_father(Doubt::Open(near.len())),
        Parents::SeedOneOf { .. } if pairs > 1 => (
            Named::One(Side::Pollen),
            Some(Doubt::OneOf(Side::Seed, pairs)),
        ),
        Parents::OneOfPairs(_) if pairs > 1 => (Named::Pairs, Some(Doubt::OneOfPairs(pairs))),
        _ if !sides.seed => (Named::One(Side::Pollen), None),
        _ if !sides.pollen => (Named::One(Side::Seed), None),
        _ => (Named::Both, None),
    }
}

/// What is left of a statement where stray pollen was seen, or the envelope is not sure: the father is no longer witnessed by it.
fn of_seed_parent(doubt: Doubt) -> Option<Doubt> {
    of_other_than(Side::Pollen, doubt)
}

/// What is left of a statement where something else is said of the parent on one side.
fn of_other_than(side: Side, doubt: Doubt) -> Option<Doubt> {
    let other = match side {
        Side::Seed => Side::Pollen,
        Side::Pollen => Side::Seed,
    };
    match doubt {
        // How surely is not recorded anyway, or others are possible: that holds of both parents.
        Doubt::FreeText(Confidence::Unknown | Confidence::OneOfSeveral, _) => Some(doubt),
        Doubt::FreeText(confidence, Named::Both) => {
            Some(Doubt::FreeText(confidence, Named::One(other)))
        }
        Doubt::FreeText(_, Named::One(of)) if of == side => None,
        doubt => Some(doubt),
    }
}

/// What is left of a statement where the envelope is another grower's: whoever made the cross did not see its father.
fn of_father_told(doubt: Doubt) -> Vec<Doubt> {
    match doubt {
        Doubt::FreeText(confidence, Named::Both | Named::One(Side::Pollen))
            if Strength::from(confidence) < Strength::Told =>
        {
            let seed = of_seed_parent(doubt).into_iter();
            seed.chain([Doubt::FatherTold]).collect()
        }
        doubt => vec![doubt],
    }
}

/// How the page says they are known; `told` when another doubt already says what `one_of_several` would.
fn said(confidence: Confidence, named: Named, told: bool) -> Option<Doubt> {
    let repeats = match (confidence, named) {
        (Confidence::OneOfSeveral, _) => told,
        (Confidence::Witnessed, Named::Pairs) => true,
        _ => false,
    };
    (!repeats).then_some(Doubt::FreeText(confidence, named))
}
