//! The parts of a formula and the row they lie in.

use std::collections::BTreeSet;

use super::leaf::{Certainty, Leaf, Marks};

/// The place of a part in its formula; only good for the formula it came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PartId(pub(super) u32);

impl PartId {
    /// The place as an index.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// One part of a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// An end: species, name, label or unknown.
    Leaf(Leaf),
    /// A cross of two parts.
    Cross(Cross),
    /// One of these, it is not known which.
    OneOf(Vec<PartId>),
    /// Pollen of all of these was used together; each seed has one of them as father.
    Mixed(Vec<PartId>),
}

impl Part {
    /// The parts this part is made of, seed parent first.
    pub fn made_of(&self) -> Vec<PartId> {
        match self {
            Self::Leaf(_) => Vec::new(),
            Self::Cross(cross) => vec![cross.seed, cross.pollen],
            Self::OneOf(parts) | Self::Mixed(parts) => parts.clone(),
        }
    }
}

/// A cross.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cross {
    /// The seed parent; the first named where the direction is unknown.
    pub seed: PartId,
    /// The pollen parent.
    pub pollen: PartId,
    /// Whether it is known which parent bore the seed.
    pub direction: Direction,
    /// How the two parents are related, where the record says so.
    pub relation: Relation,
}

impl Cross {
    /// Whether both parents stand in a text. Those of a sib cross are written once, unless their codes or epithets tell them
    /// apart or their own parents have changed sides.
    pub fn is_written_out(&self) -> bool {
        self.relation == Relation::Plain || self.seed != self.pollen
    }
}

/// Whether it is known which parent bore the seed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// Recorded, or shown by ♀ and ♂.
    Known,
    /// The custom of the trade, seed parent first, was assumed.
    Assumed,
    /// Not known.
    Unknown,
}

/// How the parents of a cross are related, where the record says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Relation {
    /// Nothing is said.
    Plain,
    /// Two plants of one cross, or of one species from one batch.
    Sib,
    /// Two plants of one and the same cross, so that the offspring are rightly F2 (F3 when repeated).
    Filial,
    /// One plant on both sides was reported. *Nepenthes* is dioecious, so this stays a report.
    SelfReported,
}

/// Who was crossed with whom.
#[derive(Clone, Debug)]
pub struct Formula {
    pub(super) parts: Vec<Part>,
    pub(super) marks: Vec<Marks>,
    pub(super) top: PartId,
}

impl Formula {
    /// The whole.
    pub fn top(&self) -> PartId {
        self.top
    }

    /// One part.
    pub fn part(&self, id: PartId) -> &Part {
        &self.parts[id.index()]
    }

    /// What is marked on a part.
    pub fn marks(&self, id: PartId) -> &Marks {
        &self.marks[id.index()]
    }

    /// All parts in order: every part after the parts it is made of, the whole last.
    pub fn parts(&self) -> impl Iterator<Item = (PartId, &Part)> {
        self.parts
            .iter()
            .enumerate()
            .map(|(place, part)| (PartId(place as u32), part))
    }

    /// Whether the label itself doubts any part.
    pub fn is_doubtful(&self) -> bool {
        let mut marks = self.marks.iter();
        marks.any(|marks| marks.certainty == Certainty::Doubtful)
    }

    /// How many parts there are.
    pub fn len(&self) -> usize {
        self.parts.len()
    }

    /// Never true: a formula has at least one part.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty()
    }

    /// How many crosses lie one above the other.
    pub fn generations(&self) -> usize {
        let mut height = vec![0_usize; self.parts.len()];
        for (id, part) in self.parts() {
            let below = part
                .made_of()
                .iter()
                .map(|made| height[made.index()])
                .max()
                .unwrap_or(0);
            height[id.index()] = below + usize::from(matches!(part, Part::Cross(_)));
        }
        height[self.top.index()]
    }

    /// Whether two formulas say the same, direction, marks and all, however their parts are laid out.
    pub fn same_as(&self, other: &Self) -> bool {
        let mine = |id: PartId| (self.part(id), self.marks(id));
        let theirs = |id: PartId| (other.part(id), other.marks(id));
        same(mine, theirs, (self.top, other.top))
    }
}

/// Whether two parts say the same, each with all it is made of.
pub(super) fn same<'f>(
    mine: impl Fn(PartId) -> (&'f Part, &'f Marks),
    theirs: impl Fn(PartId) -> (&'f Part, &'f Marks),
    tops: (PartId, PartId),
) -> bool {
    let mut seen = BTreeSet::new();
    let mut open = vec![tops];
    while let Some((one, other)) = open.pop() {
        if !seen.insert((one, other)) {
            continue;
        }
        let ((part, marks), (other, other_marks)) = (mine(one), theirs(other));
        if marks != other_marks || !alike(part, other) {
            return false;
        }
        open.extend(part.made_of().into_iter().zip(other.made_of()));
    }
    true
}

/// Whether two parts agree in all but the parts they are made of.
fn alike(one: &Part, other: &Part) -> bool {
    match (one, other) {
        (Part::Leaf(one), Part::Leaf(other)) => one == other,
        (Part::Cross(one), Part::Cross(other)) => {
            (one.direction, one.relation) == (other.direction, other.relation)
        }
        (Part::OneOf(one), Part::OneOf(other)) | (Part::Mixed(one), Part::Mixed(other)) => {
            one.len() == other.len()
        }
        _ => false,
    }
}
