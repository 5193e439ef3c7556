//! Expected shares: how much of a plant's descent each species is expected to make, as exact fractions.
//!
//! These are expectations from the pedigree, not measured descent. What is not known keeps a share of its own; where the father
//! is one of several, what all of them have in common is counted and the rest is told as "A or B".

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::formula::{Certainty, Formula, Leaf, Part, PartId};

/// A fraction from 0 to 1 with a power of two below the line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Share {
    above: u128,
    halvings: u32,
}

/// Beyond this many halvings a share is not held exactly any more.
const DEEPEST: u32 = 126;

impl Share {
    /// The whole.
    pub const ONE: Self = Self {
        above: 1,
        halvings: 0,
    };
    /// Nothing.
    pub const ZERO: Self = Self {
        above: 0,
        halvings: 0,
    };

    /// The number above the line, in lowest terms.
    pub fn numerator(self) -> u128 {
        self.above
    }

    /// The number below the line, a power of two.
    pub fn denominator(self) -> u128 {
        1 << self.halvings
    }

    /// The nearest floating point number.
    pub fn as_f64(self) -> f64 {
        self.above as f64 / self.denominator() as f64
    }

    /// Half of it; `None` when that cannot be held exactly.
    pub fn halved(self) -> Option<Self> {
        (self.above == 0 || self.halvings < DEEPEST).then(|| lowest(self.above, self.halvings + 1))
    }

    /// The sum of two shares of one plant, hence at most 1.
    pub(super) fn plus(self, other: Self) -> Self {
        let halvings = self.halvings.max(other.halvings);
        lowest(self.raised(halvings) + other.raised(halvings), halvings)
    }

    fn minus(self, other: Self) -> Self {
        let halvings = self.halvings.max(other.halvings);
        lowest(self.raised(halvings) - other.raised(halvings), halvings)
    }

    fn raised(self, halvings: u32) -> u128 {
        self.above << (halvings - self.halvings)
    }
}

fn lowest(above: u128, halvings: u32) -> Share {
    if above == 0 {
        return Share::ZERO;
    }
    let twos = above.trailing_zeros().min(halvings);
    Share {
        above: above >> twos,
        halvings: halvings - twos,
    }
}

impl PartialOrd for Share {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Share {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let halvings = self.halvings.max(other.halvings);
        self.raised(halvings).cmp(&other.raised(halvings))
    }
}

impl fmt::Display for Share {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.halvings {
            0 => write!(out, "{}", self.above),
            _ => write!(out, "{}/{}", self.above, self.denominator()),
        }
    }
}

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
pub type Shares = BTreeMap<ShareOf, Share>;

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
    let mut known: Vec<Shares> = vec![Shares::new(); formula.len()];
    for (id, part) in formula.parts() {
        let shares = shares_of_part(part, &known).ok_or_else(|| too_deep(formula, id))?;
        known[id.index()] = match formula.marks(id).certainty {
            Certainty::Stated => shares,
            Certainty::Claimed => each(shares, claimed),
            Certainty::Doubtful => each(shares, doubted),
        };
        for made in part.made_of() {
            wanted[made.index()] -= 1;
            if wanted[made.index()] == 0 {
                known[made.index()] = Shares::new();
            }
        }
    }
    Ok(std::mem::take(&mut known[formula.top().index()]))
}

fn too_deep(formula: &Formula, _at: PartId) -> String {
    format!(
        "shares are exact fractions with at most {DEEPEST} halvings; this formula goes on for {} generations",
        formula.generations()
    )
}

fn shares_of_part(part: &Part, known: &[Shares]) -> Option<Shares> {
    match part {
        Part::Leaf(leaf) => Some(Shares::from([(share_of(leaf), Share::ONE)])),
        Part::Cross(cross) => {
            half_and_half(&known[cross.seed.index()], &known[cross.pollen.index()])
        }
        Part::OneOf(parts) | Part::Mixed(parts) => {
            let each: Vec<&Shares> = parts.iter().map(|part| &known[part.index()]).collect();
            Some(one_of(&each))
        }
    }
}

/// Every share as of something else; shares that are of the same then are added up.
fn each(shares: Shares, changed: impl Fn(ShareOf) -> ShareOf) -> Shares {
    let mut sum = Shares::new();
    for (of, share) in shares {
        sum.entry(changed(of))
            .and_modify(|so_far: &mut Share| *so_far = so_far.plus(share))
            .or_insert(share);
    }
    sum
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

fn half_and_half(seed: &Shares, pollen: &Shares) -> Option<Shares> {
    if seed == pollen {
        return Some(seed.clone());
    }
    let mut sum = Shares::new();
    for (of, share) in seed.iter().chain(pollen) {
        let half = share.halved()?;
        sum.entry(of.clone())
            .and_modify(|so_far| *so_far = so_far.plus(half))
            .or_insert(half);
    }
    Some(sum)
}

/// What several possible parents have in common for sure, and the rest as "one of these".
fn one_of(each: &[&Shares]) -> Shares {
    let mut sure = Shares::new();
    let mut open = BTreeSet::new();
    let all: BTreeSet<&ShareOf> = each.iter().flat_map(|shares| shares.keys()).collect();
    for of in all {
        let here = |shares: &&Shares| shares.get(of).copied().unwrap_or(Share::ZERO);
        let least = each.iter().map(here).min().unwrap_or(Share::ZERO);
        if least > Share::ZERO {
            sure.insert(of.clone(), least);
        }
        if each.iter().map(here).any(|share| share > least) {
            match of {
                ShareOf::OneOf(several) => open.extend(several.iter().cloned()),
                other => {
                    open.insert(other.clone());
                }
            }
        }
    }
    let rest = sure
        .values()
        .fold(Share::ONE, |rest, share| rest.minus(*share));
    if rest > Share::ZERO {
        let of = ShareOf::OneOf(open);
        sure.entry(of)
            .and_modify(|so_far| *so_far = so_far.plus(rest))
            .or_insert(rest);
    }
    sure
}
