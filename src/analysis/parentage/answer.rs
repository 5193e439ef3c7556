//! The shares, the kind of cross, the generation and the heterozygosity of one unit.

use super::caution::Caution;
use super::error::ParentageError;
use super::possible::{Possibility, nothing_in_common, possibilities};
use super::share::Share;
use crate::ancestry::{
    Chromosomes, CrossKind, CrossKinds, Generation, Generations, Heterozygosities, Heterozygosity,
    Part, share_deviation,
};
use crate::context::Context;
use crate::evidence::{Strength, Unit};
use crate::lineage::{Donor, Lineage, Pair, PlantRow};
use crate::naming::recorded::TopOf;
use crate::numeric::Fraction;
use crate::registry::OriginRow;

/// What one plant, or the seedlings of a cross or a part of it, are expected to descend from.
#[derive(Clone, Debug, PartialEq)]
pub struct Parentage {
    /// What was asked for.
    pub unit: Unit,
    /// What kind of cross it is.
    pub kind: CrossKind,
    /// Whether the plant is a hybrid by its name alone, so that its parents hold only if the name is right.
    pub by_name_alone: bool,
    /// Shares, largest first, the unknown one last; they sum to 1.
    pub shares: Vec<Share>,
    /// What the shares are.
    pub shares_are: SharesAre,
    /// The shares under each possible pair of parents; empty when there is only one.
    pub possibilities: Vec<Possibility>,
    /// Whether several pairs are possible, without stated chances, and no part has a share under all of them.
    pub nothing_in_common: bool,
    /// Crosses along the longest, the shortest and the average line to a founder.
    pub generation: Generation,
    /// Chance that the two copies of a gene come from different species, least and greatest.
    pub heterozygosity: Heterozygosity,
    /// The chromosomes the give-or-take assumes; `None` when it cannot be told, or is nothing.
    pub assumed: Option<Chromosomes>,
    /// Cautions.
    pub cautions: Vec<Caution>,
}

/// What shares are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SharesAre {
    /// Those of the one pair of parents.
    Certain,
    /// Those of the parents a hybrid's name gives.
    ByName,
    /// A mean over several possible pairs by their stated chances.
    Expected,
    /// What all possible pairs have in common; the rest is one part or another.
    AtLeast,
}

/// Where the figures of a unit are found: with the origin of seedlings, or with a founder.
#[derive(Clone, Copy)]
enum Figures {
    Origin(OriginRow),
    Founder(PlantRow),
}

/// Works out the shares of a plant or of a cross's seedlings.
///
/// # Errors
/// When the line is too long for exact figures, the pedigree too entangled, or the unit has no seedlings.
pub fn parentage(context: &Context, unit: Unit) -> Result<Parentage, ParentageError> {
    let origin = unit.origin(context.registry);
    let parts = parts(context, unit)?;
    let heterozygosities =
        Heterozygosities::of(&context.lineage().pedigree, &context.descent().founders)?;
    let figures = match (origin, unit.top()) {
        (Some(origin), _) => Figures::Origin(origin),
        (None, TopOf::Plant(plant)) => Figures::Founder(plant),
        (None, TopOf::Cross(_) | TopOf::Pot(..)) => return Err(ParentageError::NoSeedlings),
    };
    let possibilities = match origin {
        Some(origin) => possibilities(context, origin)?,
        None => Vec::new(),
    };
    let chromosomes = chromosomes(context);
    let shares = shares(context, (origin, parts), chromosomes);
    let strays = |share: &Share| share.give_or_take.is_some_and(|deviation| deviation > 0.0);
    let heterozygosity = heterozygosity(context, &heterozygosities, figures);
    let by_name_alone = by_name_alone(context, unit);
    let shares_are = shares_are(&possibilities, by_name_alone);
    Ok(Parentage {
        unit,
        kind: kind(context, figures),
        by_name_alone,
        cautions: cautions(context, unit, (&shares, &possibilities, &heterozygosity)),
        assumed: shares.iter().any(strays).then_some(chromosomes),
        shares,
        shares_are,
        nothing_in_common: shares_are == SharesAre::AtLeast && nothing_in_common(&possibilities),
        possibilities,
        generation: generation(context, figures),
        heterozygosity,
    })
}

fn parts(context: &Context, unit: Unit) -> Result<Vec<(Part, Fraction)>, ParentageError> {
    let descent = context.descent();
    Ok(match (unit.top(), unit.origin(context.registry)) {
        (_, Some(origin)) => descent.shares_of_origin(origin)?,
        (TopOf::Plant(plant), None) => descent.shares_of(context.lineage(), plant)?,
        (TopOf::Cross(_) | TopOf::Pot(..), None) => Vec::new(),
    })
}

fn chromosomes(context: &Context) -> Chromosomes {
    let settings = &context.registry.settings;
    Chromosomes {
        pairs: settings.chromosome_pairs,
        morgans: settings.map_length_morgans,
    }
}

/// The shares, each with what a real seedling's strays from it, which only a certain pair of parents gives.
fn shares(
    context: &Context,
    (origin, parts): (Option<OriginRow>, Vec<(Part, Fraction)>),
    chromosomes: Chromosomes,
) -> Vec<Share> {
    let (lineage, descent) = (context.lineage(), context.descent());
    let pair = origin.and_then(|origin| certain_pair(lineage, origin));
    let deviation = |part: Part| match (part, pair) {
        (Part::Species(_), Some(pair)) => Some(share_deviation(
            &lineage.pedigree,
            &descent.founders,
            pair,
            part,
            chromosomes,
        )),
        _ => None,
    };
    let parts = parts.into_iter();
    parts
        .map(|(part, share)| Share::new((part, share), deviation(part)))
        .collect()
}

/// Both parents, when they are certain.
fn certain_pair(lineage: &Lineage, origin: OriginRow) -> Option<[PlantRow; 2]> {
    match lineage.pedigree[origin].pairs[..] {
        [
            Pair {
                seed: Some(seed),
                pollen: Some(pollen),
                ..
            },
        ] => Some([seed, pollen]),
        _ => None,
    }
}

fn kind(context: &Context, figures: Figures) -> CrossKind {
    let (pedigree, descent) = (&context.lineage().pedigree, context.descent());
    let kinds = CrossKinds::of(pedigree, &descent.founders, &descent.shares);
    match figures {
        Figures::Origin(origin) => kinds.kind_of_origin(origin),
        Figures::Founder(plant) => kinds.kind(pedigree, &descent.founders, plant),
    }
}

fn generation(context: &Context, figures: Figures) -> Generation {
    let pedigree = &context.lineage().pedigree;
    let generations = Generations::of(pedigree);
    match figures {
        Figures::Origin(origin) => generations.generation_of_origin(origin),
        Figures::Founder(plant) => generations.generation(pedigree, plant),
    }
}

fn heterozygosity(context: &Context, all: &Heterozygosities, figures: Figures) -> Heterozygosity {
    match figures {
        Figures::Origin(origin) => all.heterozygosity_of_origin(origin),
        Figures::Founder(plant) => {
            let pedigree = &context.lineage().pedigree;
            all.heterozygosity(pedigree, &context.descent().founders, plant)
        }
    }
}

fn by_name_alone(context: &Context, unit: Unit) -> bool {
    match unit {
        Unit::Plant(plant) => context
            .names()
            .founder(plant)
            .is_some_and(|founder| founder.hybrid_name_alone),
        _ => false,
    }
}

fn shares_are(possible: &[Possibility], by_name_alone: bool) -> SharesAre {
    match possible {
        [] if by_name_alone => SharesAre::ByName,
        [] => SharesAre::Certain,
        pairs if pairs.iter().all(|of| of.chance.is_some()) => SharesAre::Expected,
        _ => SharesAre::AtLeast,
    }
}

fn cautions(
    context: &Context,
    unit: Unit,
    (shares, possible, heterozygosity): (&[Share], &[Possibility], &Heterozygosity),
) -> Vec<Caution> {
    let unknown = shares.iter().any(|share| share.of == Part::Unknown);
    let is_weak = context.evidence().strength(unit) > Strength::OnTag;
    let origin = unit.origin(context.registry);
    let several = origin.filter(|_| !possible.is_empty());
    let several = several.map(|origin| one_of_pairs(context, unit, origin));
    let all = [
        unknown.then_some(Caution::UnknownPart),
        by_name_alone(context, unit).then_some(Caution::NameAlone),
        is_weak.then_some(Caution::LessThanATag),
        several,
        heterozygosity
            .assumes_equal_chances
            .then_some(Caution::EqualChances),
    ];
    all.into_iter().flatten().collect()
}

/// Whose parents one of several pairs is.
fn one_of_pairs(context: &Context, unit: Unit, origin: OriginRow) -> Caution {
    match (unit, &context.lineage().pedigree[origin].donor) {
        (_, Donor::WholePod) => Caution::OnePairOfAPod,
        (Unit::Plant(_), Donor::EachSeed) => Caution::OnePairOfThePlant,
        (_, Donor::EachSeed) => Caution::OnePairOfEachSeed,
    }
}

impl Parentage {
    /// The part of the descent that no one species has for certain, 0 to 1.
    pub fn of_no_one_species(&self) -> f64 {
        let species = self.shares.iter();
        let species = species.filter(|share| matches!(share.of, Part::Species(_)));
        let known: f64 = species.map(Share::fraction).sum();
        (1.0 - known).max(0.0)
    }
}
