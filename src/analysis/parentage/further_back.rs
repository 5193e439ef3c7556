//! The shares in each case where parents further back are one of several pairs, while the unit's own are certain.
//!
//! One pair for a whole pod is one choice, whichever of its seedlings are ancestors; a pair for each seed is a choice for
//! each ancestor. Where neither the pairs nor anything behind them makes a difference to shares, nothing is chosen.

use super::error::ParentageError;
use super::possible::{Choice, Possibility};
use super::share::Share;
use crate::analysis::kinship::drawn_of;
use crate::ancestry::{Composition, Part, TooDeep};
use crate::context::Context;
use crate::lineage::{Donor, Pair, PlantRow};
use crate::registry::OriginRow;
use std::collections::BTreeMap;

/// Cases beyond which none are listed.
const MOST: usize = 16;

/// All cases of an origin with one pair of parents; none where nothing further back makes a difference, or too much does.
///
/// # Errors
/// When the line is too long for exact shares.
pub(super) fn cases(
    context: &Context,
    origin: OriginRow,
) -> Result<Vec<Possibility>, ParentageError> {
    let pedigree = &context.lineage().pedigree;
    let [own] = pedigree[origin].pairs[..] else {
        return Ok(Vec::new());
    };
    let behind = pedigree.with_ancestors(&pedigree[origin].parents());
    let open = open(context, &behind);
    let count = (open.iter()).try_fold(1usize, |so_far, choices| so_far.checked_mul(choices.len()));
    if open.is_empty() || count.is_none_or(|count| count > MOST) {
        return Ok(Vec::new());
    }
    let listed = combined(&open).into_iter();
    let listed = listed.map(|chosen| case(context, (&behind, origin, own), chosen));
    Ok(listed.collect::<Result<_, TooDeep>>()?)
}

/// What is open further back: for each ancestor, or all of one pod together, the pairs it may be of.
fn open(context: &Context, behind: &[PlantRow]) -> Vec<Vec<Choice>> {
    let pedigree = &context.lineage().pedigree;
    let reserves = &context.descent().reserves;
    let mut together: BTreeMap<(OriginRow, Option<PlantRow>), Vec<PlantRow>> = BTreeMap::new();
    for &plant in behind {
        let Some(row) = pedigree.origin_row(plant) else {
            continue;
        };
        let (origin, reserve) = (&pedigree[row], reserves.of_origin(row));
        if origin.pairs.len() > 1 && (reserve.mean || reserve.least) {
            let each_for_itself = origin.donor == Donor::EachSeed;
            let key = (row, each_for_itself.then_some(plant));
            together.entry(key).or_default().push(plant);
        }
    }
    let choices = together.into_iter();
    choices
        .map(|((row, _), of)| choices_of(context, row, &of))
        .collect()
}

fn choices_of(context: &Context, row: OriginRow, of: &[PlantRow]) -> Vec<Choice> {
    let origin = &context.lineage().pedigree[row];
    let stated = origin.weights().is_some();
    let pairs = origin.pairs.iter().zip(origin.chances());
    let choice = |(&pair, chance): (&Pair, f64)| Choice {
        of: of.to_vec(),
        pair,
        parents: drawn_of(context, row, &pair),
        chance: stated.then_some(chance),
    };
    pairs.map(choice).collect()
}

/// Every way to choose once of each, the first choices first.
fn combined(open: &[Vec<Choice>]) -> Vec<Vec<Choice>> {
    let mut all = vec![Vec::new()];
    for choices in open {
        let with = |so_far: &Vec<Choice>| {
            let longer = choices
                .iter()
                .map(|choice| [&so_far[..], std::slice::from_ref(choice)].concat());
            longer.collect::<Vec<_>>()
        };
        all = all.iter().flat_map(with).collect();
    }
    all
}

/// The shares when all is chosen.
fn case(
    context: &Context,
    (behind, origin, own): (&[PlantRow], OriginRow, Pair),
    chosen: Vec<Choice>,
) -> Result<Possibility, TooDeep> {
    let (pedigree, descent) = (&context.lineage().pedigree, context.descent());
    let mut known: BTreeMap<PlantRow, Composition> = BTreeMap::new();
    for &plant in behind {
        let choice = chosen.iter().find(|choice| choice.of.contains(&plant));
        let pair = match (choice, pedigree.origin(plant).map(|of| &of.pairs[..])) {
            (Some(choice), _) => Some(choice.pair),
            // Of pairs that make no difference any will do.
            (None, Some([first, ..])) => Some(*first),
            _ => None,
        };
        let shares = match pair {
            Some(pair) => offspring(&known, pair)?,
            None => descent.shares.composition(pedigree, plant)?,
        };
        known.insert(plant, shares);
    }
    let shares = descent.ordered(&descent.shares, offspring(&known, own)?);
    let chances = chosen.iter().map(|choice| choice.chance);
    Ok(Possibility {
        parents: drawn_of(context, origin, &own),
        chance: chances.product(),
        further_back: chosen,
        shares: (shares.into_iter())
            .map(|share| Share::new(share, None))
            .collect(),
    })
}

fn offspring(known: &BTreeMap<PlantRow, Composition>, pair: Pair) -> Result<Composition, TooDeep> {
    let side = |parent: Option<PlantRow>| match parent.and_then(|plant| known.get(&plant)) {
        Some(shares) => shares.clone(),
        None => Composition::pure(Part::Unknown),
    };
    Composition::offspring(&side(pair.seed), &side(pair.pollen))
}
