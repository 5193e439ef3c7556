//! The plants of a pedigree, each by itself or with its siblings.

use super::asked::Asked;
use super::drawn::{DrawnKind, Fate};
use super::work::Work;
use crate::analysis::parentage::SharesAre;
use crate::ancestry::Part;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::numeric::{Fraction, nearest};
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::presence::{Presence, is_over, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::record;
use crate::registry::{CrossRow, KnownBy, OriginRow, PlantKind, PotRow};

/// One plant, or siblings drawn together.
#[derive(Clone, Debug, PartialEq)]
pub struct Member {
    /// Which.
    pub who: Who,
    /// Its generation; founders stand in 0.
    pub column: usize,
    /// What it is.
    pub kind: DrawnKind,
    /// What became of it.
    pub fate: Fate,
    /// The sex seen on its flowers.
    pub sex: Option<record::Sex>,
    /// What it descends from.
    pub shares: PartShares,
    /// What those shares are.
    pub shares_are: SharesAre,
    /// Whether it is what the pedigree is of.
    pub focus: bool,
    /// Whose evidence is that of its descent; `None` where no cross on record leads to it.
    pub unit: Option<Unit>,
}

/// Which plants a member is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Who {
    /// One plant.
    Plant(PlantRow),
    /// The seedlings of a cross, none of which is a parent of anything in the pedigree, or those of a part of it that was
    /// asked for.
    Siblings {
        /// What they come of.
        origin: OriginRow,
        /// The cross, or the part of one.
        of: Asked,
        /// How many have a number.
        seedlings: usize,
    },
    /// Mixed-up seedlings without numbers, in a community pot.
    Pot {
        /// The pot.
        pot: PotRow,
        /// Least and most that are left; `None` where they were not counted.
        left: Option<(u32, u32)>,
    },
}

/// Expected parts of a descent, each 0 to 1.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartShares {
    /// Of one species, by its number in the registry's descent.
    pub known: Vec<(u32, f64)>,
    /// Of one of several species, it is not known which.
    pub either: Vec<(Part, f64)>,
    /// Not known.
    pub unknown: f64,
}

impl PartShares {
    fn exact(parts: Vec<(Part, Fraction)>) -> PartShares {
        let parts = parts.iter();
        PartShares::of(parts.map(|(part, share)| (*part, nearest(share))))
    }

    /// Parts, each with its fraction.
    pub fn of(parts: impl IntoIterator<Item = (Part, f64)>) -> PartShares {
        let mut shares = PartShares::default();
        for (part, fraction) in parts {
            match part {
                Part::Species(species) => shares.known.push((species, fraction)),
                Part::OneOf(_) => shares.either.push((part, fraction)),
                Part::Unknown => shares.unknown += fraction,
            }
        }
        shares
    }
}

impl Work<'_, '_, '_> {
    /// A plant by itself; `focus` marks the one on offer.
    pub fn plant(&self, plant: PlantRow, focus: bool) -> Member {
        let parts = self.context.descent().shares_of(self.lineage, plant);
        Member {
            who: Who::Plant(plant),
            column: 0,
            kind: self.kind(plant),
            fate: self.fate(plant),
            sex: match sex_seen(self.registry, plant) {
                SexSeen::Certain(sex) => Some(sex),
                _ => None,
            },
            shares: PartShares::exact(parts.unwrap_or_default()),
            shares_are: SharesAre::of_unit(self.context, Unit::Plant(plant)),
            focus,
            unit: Some(Unit::Plant(plant)),
        }
    }

    fn kind(&self, plant: PlantRow) -> DrawnKind {
        match self.registry.kind(plant) {
            PlantKind::Seedling => DrawnKind::Seedling,
            PlantKind::Unseen => match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
                Some(KnownBy::SeedlingOf(_)) => DrawnKind::Seedling,
                _ => DrawnKind::Founder,
            },
            PlantKind::Founder => match self.names.founder(plant) {
                Some(founder) if founder.formula.generations() > 0 => DrawnKind::Clone,
                _ => DrawnKind::Founder,
            },
        }
    }

    fn fate(&self, plant: PlantRow) -> Fate {
        let registry = self.registry;
        let presence = presence(registry, plant, self.context.today);
        if matches!(presence, Presence::Here | Presence::NeverHere) {
            return Fate::Here;
        }
        if let Some(fate) = registry.fate(plant) {
            return ended(fate);
        }
        let pieces = registry.ramets(plant).iter();
        let mut ends = pieces.filter_map(|piece| piece.fate.as_ref()).map(ended);
        let first = ends.next().unwrap_or(Fate::Gone);
        match ends.all(|end| end == first) {
            true => first,
            false => Fate::Gone,
        }
    }

    /// How many numbered seedlings an origin has; those of a muddled tray have origins of their own.
    pub fn seedlings_of(&self, origin: OriginRow) -> usize {
        let certain = |plant: &&PlantRow| self.registry.origin_of(**plant) == Some(origin);
        let cross = self.names.cross_of_origin(origin);
        cross.map_or(0, |cross| {
            self.registry[cross]
                .seedlings
                .iter()
                .filter(certain)
                .count()
        })
    }

    /// The seedlings of a cross.
    pub fn batch(&self, cross: CrossRow, focus: bool) -> Member {
        let origin = self.registry[cross].origin;
        let unit = self.names.cross_of_origin(origin).map(Unit::Cross);
        Member {
            unit,
            ..self.together(
                origin,
                Asked::Cross(cross),
                (self.seedlings_of(origin), focus),
            )
        }
    }

    /// The seedlings of a community pot that have no number; `None` when none is left today.
    pub fn pot(&self, pot: PotRow) -> Option<Member> {
        let (registry, today) = (self.registry, self.context.today);
        let left = community_pot_left(registry, pot, today).left;
        let fate = registry[pot].fate.as_ref();
        let is_over = fate.is_some_and(|fate| is_over(registry, fate, today));
        if is_over || left.is_some_and(|(_, most)| most == 0) {
            return None;
        }
        let (origin, of) = (registry.origin_of_pot(pot), Asked::Pot(pot));
        Some(Member {
            who: Who::Pot { pot, left },
            unit: Some(of.unit()),
            ..self.together(origin, of, (0, false))
        })
    }

    /// The seedlings of one pod or sowing, and their number.
    pub fn part(&self, asked: Asked, cross: CrossRow) -> (Member, usize) {
        let cross = &self.registry[cross];
        let is_of = |plant: &&PlantRow| {
            let (sowing, pod, pot) = self.registry.road(**plant);
            match asked {
                Asked::Pod(asked) => pod == Some(asked),
                Asked::Sowing(asked) => sowing == Some(asked),
                Asked::Pot(asked) => pot == Some(asked),
                Asked::Plant(_) | Asked::Cross(_) => true,
            }
        };
        let seedlings = cross.seedlings.iter().filter(is_of).count();
        let origin = asked.unit().origin(self.registry).unwrap_or(cross.origin);
        let batch = Member {
            unit: Some(asked.unit()),
            ..self.together(origin, asked, (seedlings, true))
        };
        (batch, seedlings)
    }

    fn together(&self, origin: OriginRow, of: Asked, (seedlings, focus): (usize, bool)) -> Member {
        let parts = self.context.descent().shares_of_origin(origin);
        Member {
            who: Who::Siblings {
                origin,
                of,
                seedlings,
            },
            column: 0,
            kind: DrawnKind::Siblings,
            fate: Fate::default(),
            sex: None,
            shares: PartShares::exact(parts.unwrap_or_default()),
            shares_are: SharesAre::of_unit(self.context, of.unit()),
            focus,
            unit: None,
        }
    }
}

fn ended(fate: &record::Fate) -> Fate {
    match fate {
        record::Fate::Died { .. } => Fate::Dead,
        record::Fate::Culled { .. } => Fate::Culled,
        record::Fate::Lost { .. } => Fate::Lost,
        record::Fate::Sold { .. } => Fate::Sold,
        record::Fate::Given { .. } => Fate::LetGo,
        record::Fate::Elsewhere => Fate::Here,
    }
}
