//! From names to descent: which species each founder is of, and the expected shares of every plant.

use crate::ancestry::{
    Composition, FounderDescent, Founders, LabelGeneration, Part, Reserves, Shares, TooDeep,
};
use crate::lineage::{Lineage, Pair, PlantRow};
use crate::naming::recorded::{NameAlone, Names, NamesAlone, TopOf};
use crate::naming::{
    Certainty, Formula, FormulaBuilder, Leaf, LineOfTwo, Part as FormulaPart, ShareOf, line_of_two,
    shares as label_shares,
};
use crate::numeric::{Fraction, nearest};
use crate::registry::{KnownBy, OriginRow, Registry};
use std::collections::{BTreeMap, BTreeSet};

/// Numbers of the batches of seed that several founders were raised from. Two growers may call two packets by the same words.
fn batches(registry: &Registry) -> BTreeMap<PlantRow, u32> {
    let founders = registry.founders().iter().enumerate();
    let mut founders: Vec<((Option<&str>, &str), PlantRow)> = founders
        .filter_map(|(row, founder)| {
            let by = founder.told_by.as_ref().map(|by| by.registry);
            Some(((by, founder.batch?), PlantRow::new(row)))
        })
        .collect();
    founders.sort_unstable();
    let of_one = founders.chunk_by(|one, other| one.0 == other.0);
    let shared = of_one.filter(|batch| batch.len() > 1);
    (0..)
        .zip(shared)
        .flat_map(|(number, batch)| batch.iter().map(move |of| (of.1, number)))
        .collect()
}

/// The descent of a whole registry.
pub struct Descent {
    /// Species and provisional taxa in the order in which founders bring them in; a part's number is its place here.
    pub species: Vec<String>,
    /// What is known of the founders.
    pub founders: Founders,
    /// Exact shares.
    pub shares: Shares,
    /// What keeps them from being those of one plant.
    pub reserves: Reserves,
}

impl Descent {
    /// Works out founders and shares.
    pub fn of(registry: &Registry, lineage: &Lineage, names: &Names) -> Descent {
        let mut species = Taxa::default();
        let without_parents = registry
            .plants()
            .take_while(|&plant| registry.origin_of(plant).is_none());
        for plant in without_parents {
            let (formula, alone) = called(registry, names, plant);
            let named = match alone.whole {
                true => composition(&formula, &mut species),
                false => None,
            };
            let descent = match named {
                Some(whole) => FounderDescent::Named(Box::new(whole)),
                None => founder_descent(&formula, &mut species),
            };
            let behind = alone.sides.map(|side| side != NameAlone::No);
            species.founders.state_names_behind(plant, &descent, behind);
            species.founders.state(plant, descent);
            if let Some(generation) = generation(&formula, &mut species).filter(|_| !alone.any()) {
                species.founders.state_generation(plant, generation);
            }
        }
        let founders = (species.founders)
            .with_provisional(species.provisional)
            .with_batches(batches(registry));
        let shares = Shares::of(&lineage.pedigree, &founders);
        let reserves = Reserves::of(&lineage.pedigree, &founders, &shares);
        Descent {
            species: species.names,
            founders,
            shares,
            reserves,
        }
    }

    /// The name of what a share is of.
    pub fn part_name(&self, part: Part) -> String {
        self.name_in(&self.shares, part)
    }

    /// The same of a part of other shares over the same species.
    pub(crate) fn name_in(&self, shares: &Shares, part: Part) -> String {
        match part {
            Part::Species(at) => self.species[at as usize].clone(),
            Part::Unknown => "unknown".to_owned(),
            Part::OneOf(set) => {
                let members = shares.members(set).iter();
                let names = members.map(|&member| self.name_in(shares, member));
                names.collect::<Vec<String>>().join(" or ")
            }
        }
    }

    /// The shares of a plant, largest first, then by name; `unknown` last.
    ///
    /// # Errors
    /// When the line is too long for exact shares.
    pub fn shares_of(
        &self,
        lineage: &Lineage,
        plant: PlantRow,
    ) -> Result<Vec<(Part, Fraction)>, TooDeep> {
        Ok(self.ordered(
            &self.shares,
            self.shares.composition(&lineage.pedigree, plant)?,
        ))
    }

    /// The shares of the seedlings of one pair of parents, in the same order.
    ///
    /// # Errors
    /// When the line is too long for exact shares.
    pub fn shares_of_pair(
        &self,
        lineage: &Lineage,
        pair: &Pair,
    ) -> Result<Vec<(Part, Fraction)>, TooDeep> {
        let side = |parent: Option<PlantRow>| match parent {
            Some(plant) => self.shares.composition(&lineage.pedigree, plant),
            None => Ok(Composition::pure(Part::Unknown)),
        };
        let offspring = Composition::offspring(&side(pair.seed)?, &side(pair.pollen)?)?;
        Ok(self.ordered(&self.shares, offspring))
    }

    /// The shares of the seedlings of an origin, in the same order.
    ///
    /// # Errors
    /// When the line is too long for exact shares.
    pub fn shares_of_origin(&self, origin: OriginRow) -> Result<Vec<(Part, Fraction)>, TooDeep> {
        Ok(self.ordered(&self.shares, self.shares.composition_of_origin(origin)?))
    }

    /// Shares in the order of an answer: the largest first, then by name; `unknown` last.
    pub(crate) fn ordered(&self, of: &Shares, composition: Composition) -> Vec<(Part, Fraction)> {
        let mut shares = composition.shares();
        shares.sort_by(|(a, x), (b, y)| {
            let unknown = |part: &Part| *part == Part::Unknown;
            (unknown(a).cmp(&unknown(b)))
                .then(nearest(y).total_cmp(&nearest(x)))
                .then_with(|| self.name_in(of, *a).cmp(&self.name_in(of, *b)))
        });
        shares
    }
}

/// What a plant without parents on record is called, and what of that is a hybrid's name alone. Seed that came under such a
/// name may be of any generation, so each of its parents is what the name says.
fn called(registry: &Registry, names: &Names, plant: PlantRow) -> (Formula, NamesAlone) {
    let unseen = registry.unseen(plant);
    let labelled = unseen.filter(|unseen| unseen.known_by == KnownBy::Label);
    let label = labelled.and_then(|of| Some((of, names.seed_label(of.cross)?)));
    let formula = || names.formula(TopOf::Plant(plant), false);
    match label {
        Some((_, label)) if label.alone.whole => (label.formula.clone(), label.alone),
        Some((of, label)) => (formula(), label.alone.of_parent(of.bore_the_seed)),
        None => {
            let founder = names.founder(plant);
            (
                formula(),
                founder.map(|of| of.names_alone).unwrap_or_default(),
            )
        }
    }
}

/// The generation that a label states of a hybrid of two species.
fn generation(formula: &Formula, species: &mut Taxa) -> Option<LabelGeneration> {
    line_of_two(formula).map(|line| match line {
        LineOfTwo::Filial(number) => LabelGeneration::Filial(number),
        LineOfTwo::Backcross { to, times } => LabelGeneration::Backcross {
            to: species.number(&to),
            times,
        },
    })
}

fn founder_descent(formula: &Formula, species: &mut Taxa) -> FounderDescent {
    let sides = match formula.part(formula.top()) {
        FormulaPart::Leaf(Leaf::Species { .. } | Leaf::Unnamed { .. }) => None,
        FormulaPart::Leaf(_) => return FounderDescent::Unknown,
        // Of a cross that is claimed as a whole the doubt goes with both sides.
        FormulaPart::Cross(_) if formula.marks(formula.top()).certainty != Certainty::Stated => {
            Some([formula.clone(), formula.clone()])
        }
        FormulaPart::Cross(cross) => {
            Some([cross.seed, cross.pollen].map(|side| excerpt(formula, side)))
        }
        FormulaPart::OneOf(_) | FormulaPart::Mixed(_) => Some([formula.clone(), formula.clone()]),
    };
    let mut composition = |formula: &Formula| composition(formula, species);
    match sides {
        None => match composition(formula).and_then(|whole| whole.sole_part()) {
            Some(Part::Species(of)) => FounderDescent::Species(of),
            _ => FounderDescent::Unknown,
        },
        Some([seed, pollen]) => match (composition(&seed), composition(&pollen)) {
            (Some(seed), Some(pollen)) => FounderDescent::Sides(Box::new([seed, pollen])),
            _ => FounderDescent::Unknown,
        },
    }
}

fn excerpt(formula: &Formula, part: crate::naming::PartId) -> Formula {
    let mut builder = FormulaBuilder::new();
    builder.copy_of(formula);
    builder.excerpt(part)
}

/// A label's shares as a composition.
fn composition(formula: &Formula, species: &mut Taxa) -> Option<Composition> {
    let shares = label_shares(formula).ok()?;
    let most = shares.values().map(|share| share.denom()).max()?;
    let counts: Vec<(Part, u64)> = shares
        .iter()
        .map(|(of, share)| {
            let part = species.part(of);
            u64::try_from(share.numer() * (most / share.denom()))
                .ok()
                .map(|count| (part, count))
        })
        .collect::<Option<_>>()?;
    Composition::from_counts(&counts)
}

/// The founders, and the names they bring in, numbered in that order.
#[derive(Default)]
struct Taxa {
    names: Vec<String>,
    provisional: BTreeSet<u32>,
    founders: Founders,
}

impl Taxa {
    /// What a share on a label is of.
    fn part(&mut self, of: &ShareOf) -> Part {
        match of {
            ShareOf::Species(name) => Part::Species(self.number(name)),
            ShareOf::Provisional(_) | ShareOf::Claimed(_) => {
                Part::Species(self.provisional(&of.to_string()))
            }
            ShareOf::OneOf(several) => {
                let several = several.iter().map(|of| self.part(of)).collect();
                self.founders.one_of(several)
            }
            ShareOf::Unknown => Part::Unknown,
        }
    }

    /// The number of a name, given now if it has none; registries name a few dozen at most.
    fn number(&mut self, name: &str) -> u32 {
        let known = self.names.iter().position(|known| known == name);
        let at = known.unwrap_or_else(|| {
            self.names.push(name.to_owned());
            self.names.len() - 1
        });
        at as u32
    }

    /// The same of a name that is no sure species.
    fn provisional(&mut self, name: &str) -> u32 {
        let number = self.number(name);
        self.provisional.insert(number);
        number
    }
}
