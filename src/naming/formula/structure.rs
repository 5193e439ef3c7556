//! What a formula looks like apart from direction: which parts are of one taxon, which come first in the alphabet, which
//! are built alike, which are backcrosses.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

use super::leaf::Leaf;
use super::part::{Cross, Formula, Part, PartId, Relation};

/// Answers about every part of one formula, worked out in one walk along its row.
pub struct Structure {
    taxa: Vec<String>,
    only: Vec<Option<u32>>,
    first: Vec<u32>,
    last: Vec<u32>,
    bracketed: Vec<bool>,
    likeness: Vec<u32>,
    /// The same, kept apart by how surely each part is known.
    marked: Vec<u32>,
}

impl Structure {
    /// Walks the formula once; time n log n in its parts.
    pub fn of(formula: &Formula) -> Self {
        let mut taxa: Vec<String> = names(formula).into_iter().collect();
        taxa.sort_by_key(|name| alphabetical(name));
        let number: BTreeMap<&str, u32> = taxa.iter().map(String::as_str).zip(0..).collect();
        let size = formula.len();
        let (mut only, mut first, mut last) = (vec![None; size], vec![0; size], vec![0; size]);
        let mut bracketed = vec![false; size];
        for (id, part) in formula.parts() {
            let place = id.index();
            if let Part::Leaf(leaf) = part {
                let taxon = number[leaf.name().as_str()];
                only[place] = leaf.sure_species().map(|_| taxon);
                (first[place], last[place]) = (taxon, taxon);
                continue;
            }
            let made: Vec<usize> = part.made_of().iter().map(|made| made.index()).collect();
            first[place] = made.iter().map(|&made| first[made]).min().unwrap_or(0);
            last[place] = made.iter().map(|&made| last[made]).max().unwrap_or(0);
            only[place] = made
                .first()
                .and_then(|&one| only[one].filter(|_| made.iter().all(|&m| only[m] == only[one])));
            bracketed[place] = only[place].is_none();
        }
        let certainty = |id| formula.marks(id).certainty as u32;
        let marked = likeness(formula, &number, certainty);
        let likeness = likeness(formula, &number, |_| 0);
        Self {
            taxa,
            only,
            first,
            last,
            bracketed,
            likeness,
            marked,
        }
    }

    /// The one taxon all of a part belongs to, as named within its genus.
    pub fn only_taxon(&self, id: PartId) -> Option<&str> {
        self.only[id.index()].map(|taxon| self.taxa[taxon as usize].as_str())
    }

    /// Whether two parts say the same when direction is disregarded.
    pub fn alike(&self, one: PartId, other: PartId) -> bool {
        self.likeness[one.index()] == self.likeness[other.index()]
    }

    /// Whether two parts that are alike are also known as surely, in all they are made of.
    pub fn as_sure(&self, one: PartId, other: PartId) -> bool {
        self.marked[one.index()] == self.marked[other.index()]
    }

    /// The order of two sides of a cross in a botanical formula.
    ///
    /// The side whose names end earlier in the alphabet stands first, so that a bracket comes before a single name only
    /// when all its names do. Then a single name before a bracket, then by the first name, then by build, then by how
    /// surely they are known.
    pub fn botanical_order(&self, one: PartId, other: PartId) -> Ordering {
        let key = |id: PartId| {
            let place = id.index();
            (
                self.last[place],
                self.bracketed[place],
                self.first[place],
                self.likeness[place],
                self.marked[place],
            )
        };
        key(one).cmp(&key(other))
    }
}

/// The leaves of a formula in order.
pub fn leaves(formula: &Formula) -> impl Iterator<Item = &Leaf> {
    formula.parts().filter_map(|(_, part)| match part {
        Part::Leaf(leaf) => Some(leaf),
        _ => None,
    })
}

/// What a name is sorted by: signs and quotes do not count (Art. H.3.3), an unknown parent comes last.
fn alphabetical(name: &str) -> (bool, String) {
    let plain = name
        .trim_start_matches(['×', '\'', '"'])
        .trim_start_matches("aff. ")
        .trim_start_matches("cf. ");
    (name == "?", plain.to_lowercase())
}

fn names(formula: &Formula) -> BTreeSet<String> {
    leaves(formula).map(Leaf::name).collect()
}

/// Numbers the parts so that two have the same number only if they are built alike, and the numbers do not depend on the
/// order of parents: tree by tree from the ends upward, each height sorted before it is numbered.
fn likeness(
    formula: &Formula,
    number: &BTreeMap<&str, u32>,
    certainty: impl Fn(PartId) -> u32,
) -> Vec<u32> {
    let size = formula.len();
    let mut height = vec![0_usize; size];
    for (id, part) in formula.parts() {
        height[id.index()] = part
            .made_of()
            .iter()
            .map(|made| height[made.index()] + 1)
            .max()
            .unwrap_or(0);
    }
    let mut by_height: Vec<PartId> = formula.parts().map(|(id, _)| id).collect();
    by_height.sort_by_key(|id| height[id.index()]);
    let mut likeness = vec![0_u32; size];
    let mut next = 0;
    for level in by_height.chunk_by(|one, other| height[one.index()] == height[other.index()]) {
        let mut keys: Vec<(Vec<u32>, PartId)> = level
            .iter()
            .map(|&id| {
                let mut key = likeness_key(formula.part(id), number, &likeness);
                key.push(certainty(id));
                (key, id)
            })
            .collect();
        keys.sort();
        for run in keys.chunk_by(|one, other| one.0 == other.0) {
            run.iter().for_each(|(_, id)| likeness[id.index()] = next);
            next += 1;
        }
    }
    likeness
}

fn likeness_key(part: &Part, number: &BTreeMap<&str, u32>, likeness: &[u32]) -> Vec<u32> {
    let kind = match part {
        // Unknown parents share a name, but are written by what is known of their pollen.
        Part::Leaf(leaf) => {
            let unknown = match leaf {
                Leaf::Unknown(unknown) => *unknown as u32,
                _ => 0,
            };
            return vec![0, number[leaf.name().as_str()], unknown];
        }
        Part::Cross(Cross {
            relation: Relation::Plain,
            ..
        }) => 1,
        Part::Cross(_) => 2,
        Part::OneOf(_) => 3,
        Part::Mixed(_) => 4,
    };
    let mut key: Vec<u32> = part
        .made_of()
        .iter()
        .map(|made| likeness[made.index()])
        .collect();
    key.sort_unstable();
    key.insert(0, kind);
    key
}

/// A cross made again and again to one species.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Backcross {
    /// The recurrent species, as named within its genus.
    pub recurrent: String,
    /// How often the hybrid was crossed back: 1 for BC1.
    pub times: usize,
}

/// The backcross a part is, if it is one: hybrid × A, where the hybrid is itself A × other or a backcross to A.
///
/// None where the line holds A further back, as behind an F2: how often it was crossed back is then more than is counted.
pub fn backcross(formula: &Formula, structure: &Structure, part: PartId) -> Option<Backcross> {
    let (recurrent, hybrid) = hybrid_and_species(formula, structure, part)?;
    let mut below = other_side(formula, structure, hybrid, recurrent)?;
    let mut times = 1;
    while let Some(other) = other_side(formula, structure, below, recurrent) {
        times += 1;
        below = other;
    }
    (!is_made_of(formula, below, recurrent)).then(|| Backcross {
        recurrent: recurrent.to_owned(),
        times,
    })
}

fn hybrid_and_species<'s>(
    formula: &Formula,
    structure: &'s Structure,
    part: PartId,
) -> Option<(&'s str, PartId)> {
    let Part::Cross(cross) = formula.part(part) else {
        return None;
    };
    let is_hybrid =
        |id| matches!(formula.part(id), Part::Cross(_)) && structure.only_taxon(id).is_none();
    match (
        structure.only_taxon(cross.seed),
        structure.only_taxon(cross.pollen),
    ) {
        (Some(species), None) if is_hybrid(cross.pollen) => Some((species, cross.pollen)),
        (None, Some(species)) if is_hybrid(cross.seed) => Some((species, cross.seed)),
        _ => None,
    }
}

/// The other side of a plain cross that has the recurrent species as one parent.
fn other_side(
    formula: &Formula,
    structure: &Structure,
    part: PartId,
    recurrent: &str,
) -> Option<PartId> {
    let Part::Cross(cross) = formula.part(part) else {
        return None;
    };
    let is_recurrent = |side| structure.only_taxon(side) == Some(recurrent);
    match cross.relation {
        Relation::Plain if is_recurrent(cross.seed) => Some(cross.pollen),
        Relation::Plain if is_recurrent(cross.pollen) => Some(cross.seed),
        _ => None,
    }
}

/// Whether a plant of this name is in a part, however far back.
fn is_made_of(formula: &Formula, part: PartId, name: &str) -> bool {
    let mut open = vec![part];
    let mut met = vec![false; part.index() + 1];
    while let Some(id) = open.pop() {
        match formula.part(id) {
            Part::Leaf(leaf) if leaf.name() == name => return true,
            part if !std::mem::replace(&mut met[id.index()], true) => {
                open.extend(part.made_of().iter());
            }
            _ => {}
        }
    }
    false
}
