//! The shares, the kind of cross, the generation and the heterozygosity of one unit.

use super::caution::Caution;
use super::cautions::{Found, cautions};
use super::error::ParentageError;
use super::further_back::cases;
use super::possible::{Possibility, nothing_in_common, possibilities};
use super::share::Share;
use super::shares_are::{SharesAre, reserve};
use crate::ancestry::{
    Chromosomes, CrossKind, CrossKinds, Generation, Generations, Heterozygosities, Heterozygosity,
    LabelGeneration, Part, TooDeep, share_deviation,
};
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::{Pair, PedigreeTooComplex, PlantRow};
use crate::naming::recorded::TopOf;
use crate::numeric::Fraction;
use crate::registry::{KnownBy, OriginRow};

/// What one plant, or the seedlings of a cross or a part of it, are expected to descend from.
#[derive(Clone, Debug, PartialEq)]
pub struct Parentage {
    /// What was asked for.
    pub unit: Unit,
    /// What kind of cross it is.
    pub kind: CrossKind,
    /// Whether a line crossed back several times was crossed to different plants of the species, as far as they are on record.
    pub to_different_plants: bool,
    /// Whether the plant is a hybrid by its name alone, so that its parents hold only if the name is right.
    pub by_name_alone: bool,
    /// Whether its label, or that of its cross, says that the parents are sibs: `F2`, `sib cross`.
    pub of_sibs_by_label: bool,
    /// Shares, largest first, the unknown one last; they sum to 1.
    pub shares: Vec<Share>,
    /// What the shares are.
    pub shares_are: SharesAre,
    /// The shares under each possible pair of parents; where there is only one, under each possible pair of its ancestors',
    /// up to sixteen cases.
    pub possibilities: Vec<Possibility>,
    /// Whether several pairs are possible, without stated chances, and no part has a share under all of them.
    pub nothing_in_common: bool,
    /// Crosses along the longest, the shortest and the average line to a founder.
    pub generation: Generation,
    /// Chance that the two copies of a gene come from different species, least and greatest.
    pub heterozygosity: Heterozygosity,
    /// Whether both are means over several possible pairs of parents, here or further back.
    pub heterozygosity_is_a_mean: bool,
    /// The chromosomes the spread within the pod assumes; `None` when it cannot be told, or is nothing.
    pub assumed: Option<Chromosomes>,
    /// Cautions.
    pub cautions: Vec<Caution>,
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
    let figures = figures(context, unit)?;
    let reserve = reserve(context, unit);
    let shares_are = SharesAre::of(reserve);
    let shares = shares(context, figures, shares_are)?;
    let strays = |share: &Share| {
        share
            .spread_within_pod
            .is_some_and(|deviation| deviation > 0.0)
    };
    let assumed = (shares.iter().any(strays)).then(|| chromosomes(context));
    let possibilities = listed(context, figures)?;
    let heterozygosity = heterozygosity(context, figures)?;
    let (kind, to_different_plants) = kind(context, figures);
    let by_name_alone = by_name_alone(context, figures);
    let found = Found {
        by_name_alone,
        shares: &shares,
        possibilities: &possibilities,
        heterozygosity: &heterozygosity,
        reserve,
    };
    Ok(Parentage {
        unit,
        kind,
        to_different_plants,
        by_name_alone,
        of_sibs_by_label: of_sibs_by_label(context, figures),
        cautions: cautions(context, unit, found),
        assumed,
        shares,
        shares_are,
        nothing_in_common: shares_are == SharesAre::AtLeast && nothing_in_common(&possibilities),
        possibilities,
        generation: generation(context, figures),
        heterozygosity_is_a_mean: reserve.several_pairs,
        heterozygosity,
    })
}

fn figures(context: &Context, unit: Unit) -> Result<Figures, ParentageError> {
    match (unit.origin(context.registry), unit.top()) {
        (Some(origin), _) => Ok(Figures::Origin(origin)),
        (None, TopOf::Plant(plant)) => Ok(Figures::Founder(plant)),
        (None, TopOf::Cross(_) | TopOf::Pot(..)) => Err(ParentageError::NoSeedlings),
    }
}

fn by_name_alone(context: &Context, figures: Figures) -> bool {
    match figures {
        Figures::Origin(origin) => context.names().is_origin_by_name_alone(origin),
        Figures::Founder(plant) => context.names().is_by_name_alone(plant),
    }
}

fn of_sibs_by_label(context: &Context, figures: Figures) -> bool {
    match figures {
        Figures::Origin(origin) => {
            let cross = context.names().cross_of_origin(origin);
            cross.is_some_and(|cross| context.names().is_of_sibs_by_label(cross))
        }
        Figures::Founder(plant) => {
            let generation = context.descent().founders.generation(plant);
            matches!(generation, Some(LabelGeneration::Filial(_)))
        }
    }
}

/// The possible pairs of the unit's own parents, else of its ancestors'.
fn listed(context: &Context, figures: Figures) -> Result<Vec<Possibility>, ParentageError> {
    let Figures::Origin(origin) = figures else {
        return Ok(Vec::new());
    };
    let own = possibilities(context, origin)?;
    match own.is_empty() {
        true => cases(context, origin),
        false => Ok(own),
    }
}

fn parts(context: &Context, figures: Figures) -> Result<Vec<(Part, Fraction)>, TooDeep> {
    let descent = context.descent();
    match figures {
        Figures::Origin(origin) => descent.shares_of_origin(origin),
        Figures::Founder(plant) => descent.shares_of(context.lineage(), plant),
    }
}

fn chromosomes(context: &Context) -> Chromosomes {
    let settings = &context.registry.settings;
    Chromosomes {
        pairs: settings.pairs(),
        morgans: settings.morgans(),
    }
}

/// The shares, each with what a real seedling's strays from it, which only a certain pair of certain parents gives, and
/// only of a sure species. What a label says of the parents is not certain, of seed as of a plant.
fn shares(
    context: &Context,
    figures: Figures,
    shares_are: SharesAre,
) -> Result<Vec<Share>, TooDeep> {
    let (lineage, descent) = (context.lineage(), context.descent());
    let pair = match (figures, shares_are) {
        (Figures::Origin(origin), SharesAre::AsRecorded) => certain_pair(context, origin),
        _ => None,
    };
    let deviation = |part: Part| match (part, pair) {
        (_, Some(pair)) if descent.founders.is_sure(part) => Some(share_deviation(
            &lineage.pedigree,
            &descent.founders,
            pair,
            part,
            chromosomes(context),
        )),
        _ => None,
    };
    let parts = parts(context, figures)?.into_iter();
    let shares = parts.map(|(part, share)| Share::new((part, share), deviation(part)));
    Ok(shares.collect())
}

/// Both parents, when they are certain.
fn certain_pair(context: &Context, origin: OriginRow) -> Option<[PlantRow; 2]> {
    let unseen = |plant: PlantRow| context.registry.unseen(plant);
    let by_label = |plant| unseen(plant).is_some_and(|of| of.known_by == KnownBy::Label);
    match context.lineage().pedigree[origin].pairs[..] {
        [
            Pair {
                seed: Some(seed),
                pollen: Some(pollen),
                ..
            },
        ] if !by_label(seed) && !by_label(pollen) => Some([seed, pollen]),
        _ => None,
    }
}

/// The kind of cross, and whether a line was crossed back to different plants: a parent that is known by its species or by a
/// label may be any of them.
fn kind(context: &Context, figures: Figures) -> (CrossKind, bool) {
    let (pedigree, descent) = (&context.lineage().pedigree, context.descent());
    let kinds = CrossKinds::of(pedigree, &descent.founders, &descent.shares);
    match figures {
        Figures::Origin(origin) => {
            let mut plants = kinds.crossed_back_to(origin);
            plants.retain(|&plant| context.registry.unseen(plant).is_none());
            let differ = plants.windows(2).any(|pair| pair[0] != pair[1]);
            (kinds.kind_of_origin(origin), differ)
        }
        Figures::Founder(plant) => (kinds.kind(pedigree, &descent.founders, plant), false),
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

fn heterozygosity(
    context: &Context,
    figures: Figures,
) -> Result<Heterozygosity, PedigreeTooComplex> {
    let (pedigree, founders) = (&context.lineage().pedigree, &context.descent().founders);
    let all = Heterozygosities::of(pedigree, founders)?;
    Ok(match figures {
        Figures::Origin(origin) => all.heterozygosity_of_origin(origin),
        Figures::Founder(plant) => all.heterozygosity(pedigree, founders, plant),
    })
}
