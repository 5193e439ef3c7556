//! Expected shares: how much of a plant's descent each species is expected to make, as exact fractions.
//!
//! These are expectations from the pedigree, not measured descent. What is not known keeps a share of its own; where the father
//! is one of several, what all of them have in common is counted and the rest is told as "A or B".

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::formula::{Certainty, Formula, Leaf, Part};
use crate::numeric::{Fraction, Mix, agreement, weighted_mean};

/// Beyond this many halvings a share is not held exactly any more.
const DEEPEST: u32 = 126;

/// What a share is of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ShareOf {
    /// A species, by its epithet.
    Species(String),
    /// A taxon that is not surely a species: `aff. maxima`, `sp. Tidewater`.
    Provisional(String),
    /// What a label only claims, by its name without the doubt.
    Claimed(String),
    /// One of these, it is not known which.
    OneOf(BTreeSet<ShareOf>),
    /// Descent that is not known.
    Unknown,
}

impl fmt::Display for ShareOf {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Species(name) | Self::Provisional(name) => out.write_str(name),
            Self::Claimed(name) => write!(out, "{name} (claimed)"),
            Self::Unknown => out.write_str("unknown"),
            Self::OneOf(names) => {
                let names: Vec<String> = names.iter().map(Self::to_string).collect();
                out.write_str(&names.join(" or "))
            }
        }
    }
}

/// The shares of one plant; they sum to 1.
pub type Shares = BTreeMap<ShareOf, Fraction<u128>>;

/// Shares over one whole, a power of two.
type Whole = Mix<ShareOf, u128>;

/// The expected shares of a formula: half from each parent.
///
/// # Errors
/// Refuses with a reason when a share would have more than 126 halvings, deeper than any breeding has gone.
pub fn shares(formula: &Formula) -> Result<Shares, String> {
    let mut wanted = vec![0_u32; formula.len()];
    for (_, part) in formula.parts() {
        part.made_of()
            .iter()
            .for_each(|made| wanted[made.index()] += 1);
    }
    let mut known: Vec<Option<Whole>> = vec![None; formula.len()];
    for (id, part) in formula.parts() {
        let shares = shares_of_part(part, &known).ok_or_else(|| too_deep(formula))?;
        known[id.index()] = match formula.marks(id).certainty {
            Certainty::Stated => Some(shares),
            Certainty::Claimed => each(shares, claimed),
            Certainty::Doubtful => each(shares, doubted),
        };
        for made in part.made_of() {
            wanted[made.index()] -= 1;
            if wanted[made.index()] == 0 {
                known[made.index()] = None;
            }
        }
    }
    let top = known[formula.top().index()].take();
    Ok(top.iter().flat_map(Mix::shares).collect())
}

fn too_deep(formula: &Formula) -> String {
    format!(
        "shares are exact fractions with at most {DEEPEST} halvings; this formula goes on for {} generations",
        formula.generations()
    )
}

fn shares_of_part(part: &Part, known: &[Option<Whole>]) -> Option<Whole> {
    match part {
        Part::Leaf(leaf) => Some(Mix::pure(share_of(leaf))),
        Part::Cross(cross) => half_and_half(
            known[cross.seed.index()].as_ref()?,
            known[cross.pollen.index()].as_ref()?,
        ),
        Part::OneOf(parts) | Part::Mixed(parts) => {
            let each = parts.iter().map(|part| known[part.index()].as_ref());
            one_of(&each.collect::<Option<Vec<&Whole>>>()?)
        }
    }
}

/// Every share as of something else; shares that are of the same then are added up.
fn each(shares: Whole, changed: impl Fn(ShareOf) -> ShareOf) -> Option<Whole> {
    let changed = shares.parts.into_iter().map(changed);
    Mix::settle(shares.whole, changed.zip(shares.counts).collect())
}

/// One of several, changed each by itself; perhaps they are all the same then.
fn each_of(several: BTreeSet<ShareOf>, changed: impl Fn(ShareOf) -> ShareOf) -> ShareOf {
    let several: BTreeSet<ShareOf> = several.into_iter().map(changed).collect();
    match several.first() {
        Some(only) if several.len() == 1 => only.clone(),
        _ => ShareOf::OneOf(several),
    }
}

/// A share of what is only claimed: provisional, never one of that species.
fn claimed(of: ShareOf) -> ShareOf {
    match of {
        ShareOf::Species(name) => ShareOf::Claimed(name),
        ShareOf::OneOf(several) => each_of(several, claimed),
        other => other,
    }
}

/// What the label itself doubts is no full share of a species.
fn doubted(of: ShareOf) -> ShareOf {
    match of {
        ShareOf::Species(name) => ShareOf::Provisional(format!("{name} (?)")),
        ShareOf::OneOf(several) => each_of(several, doubted),
        other => other,
    }
}

fn share_of(leaf: &Leaf) -> ShareOf {
    match leaf {
        Leaf::Species {
            epithet,
            qualifier: None,
            ..
        } => ShareOf::Species(epithet.clone()),
        Leaf::Species { .. } | Leaf::Unnamed { .. } => ShareOf::Provisional(leaf.name()),
        Leaf::NamedHybrid { .. } | Leaf::Quoted { .. } | Leaf::Label { .. } | Leaf::Unknown(_) => {
            ShareOf::Unknown
        }
    }
}

fn half_and_half(seed: &Whole, pollen: &Whole) -> Option<Whole> {
    if seed == pollen {
        return Some(seed.clone());
    }
    weighted_mean(&[(1, seed.lend()), (1, pollen.lend())]).filter(|mix| mix.whole <= 1 << DEEPEST)
}

/// What several possible parents have in common for sure, and the rest as "one of these".
fn one_of(each: &[&Whole]) -> Option<Whole> {
    let lent: Vec<_> = each.iter().map(|mix| mix.lend()).collect();
    let agreed = agreement(&lent)?;
    let mut open = BTreeSet::new();
    for of in agreed.open {
        match of {
            ShareOf::OneOf(several) => open.extend(several),
            other => {
                open.insert(other);
            }
        }
    }
    let mut counted = agreed.sure;
    counted.push((ShareOf::OneOf(open), agreed.rest));
    Mix::settle(agreed.whole, counted)
}
