//! Building a formula part by part, parents before what was made from them.

use super::leaf::{Leaf, Marks, Tag};
use super::part::{Cross, Direction, Formula, Part, PartId, Relation, same};

/// A formula in the making.
#[derive(Clone, Debug, Default)]
pub struct FormulaBuilder {
    parts: Vec<Part>,
    marks: Vec<Marks>,
}

impl FormulaBuilder {
    /// Nothing yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds an end.
    pub fn leaf(&mut self, leaf: Leaf) -> PartId {
        self.add(Part::Leaf(leaf))
    }

    /// Adds a species without qualification.
    pub fn species(&mut self, epithet: &str) -> PartId {
        self.leaf(Leaf::species(epithet))
    }

    /// Adds a cross of two parts whose relation is not stated.
    pub fn cross(&mut self, seed: PartId, pollen: PartId, direction: Direction) -> PartId {
        self.add(Part::Cross(Cross {
            seed,
            pollen,
            direction,
            relation: Relation::Plain,
        }))
    }

    /// Adds a cross within one part: sibs, a further generation, or a reported self.
    pub fn within(&mut self, parent: PartId, relation: Relation) -> PartId {
        self.add(Part::Cross(Cross {
            seed: parent,
            pollen: parent,
            direction: Direction::Known,
            relation,
        }))
    }

    /// Adds a cross of two plants with the same two parents, which do not read alike and so are both written.
    pub fn sibs(&mut self, seed: PartId, pollen: PartId, direction: Direction) -> PartId {
        self.add(Part::Cross(Cross {
            seed,
            pollen,
            direction,
            relation: Relation::Filial,
        }))
    }

    /// Adds "one of these". One part alone is that part.
    pub fn one_of(&mut self, parts: Vec<PartId>) -> PartId {
        if parts.len() == 1 {
            parts[0]
        } else {
            self.add(Part::OneOf(parts))
        }
    }

    /// Adds pollen of several plants used together. One part alone is that part.
    pub fn mixed(&mut self, parts: Vec<PartId>) -> PartId {
        if parts.len() == 1 {
            parts[0]
        } else {
            self.add(Part::Mixed(parts))
        }
    }

    /// Whether two parts say the same, marks and all.
    pub fn same(&self, one: PartId, other: PartId) -> bool {
        let of = |id: PartId| (self.part(id), self.marks_of(id));
        one == other || same(of, of, (one, other))
    }

    /// What is marked on a part.
    pub fn marks_of(&self, id: PartId) -> &Marks {
        &self.marks[id.index()]
    }

    /// What is marked on a part, to be added to.
    pub fn marks(&mut self, id: PartId) -> &mut Marks {
        &mut self.marks[id.index()]
    }

    /// A part added before.
    pub fn part(&self, id: PartId) -> &Part {
        &self.parts[id.index()]
    }

    pub(in crate::naming) fn cross_mut(&mut self, id: PartId) -> Option<&mut Cross> {
        match &mut self.parts[id.index()] {
            Part::Cross(cross) => Some(cross),
            _ => None,
        }
    }

    pub(in crate::naming) fn leaf_mut(&mut self, id: PartId) -> Option<&mut Leaf> {
        match &mut self.parts[id.index()] {
            Part::Leaf(leaf) => Some(leaf),
            _ => None,
        }
    }

    pub(in crate::naming) fn crosses_mut(&mut self) -> impl Iterator<Item = &mut Cross> {
        self.parts.iter_mut().filter_map(|part| match part {
            Part::Cross(cross) => Some(cross),
            _ => None,
        })
    }

    /// The crosses among the last so many parts.
    pub(in crate::naming) fn last_crosses_mut(
        &mut self,
        parts: usize,
    ) -> impl Iterator<Item = &mut Cross> {
        let from = self.parts.len() - parts;
        self.parts[from..].iter_mut().filter_map(|part| match part {
            Part::Cross(cross) => Some(cross),
            _ => None,
        })
    }

    /// Copies another formula in and gives the place of its whole.
    pub fn copy_of(&mut self, other: &Formula) -> PartId {
        let first = self.parts.len() as u32;
        for (id, part) in other.parts() {
            let mut part = part.clone();
            renumber(&mut part, |made| PartId(made.0 + first));
            self.parts.push(part);
            self.marks.push(other.marks(id).clone());
        }
        PartId(other.top().0 + first)
    }

    /// Copies another formula in without its labels and clone marks, which belong to that one plant; cultivar epithets
    /// and names as received stay, since they name a parent.
    pub fn copy_bare(&mut self, other: &Formula) -> PartId {
        let first = self.parts.len();
        let top = self.copy_of(other);
        for marks in &mut self.marks[first..] {
            marks
                .tags
                .retain(|tag| matches!(tag, Tag::Cultivar(_) | Tag::Received(_)));
        }
        top
    }

    /// A copy of one part as a formula of its own.
    pub fn excerpt(&self, top: PartId) -> Formula {
        self.clone().finish(top)
    }

    /// The finished formula: only the parts the whole is made of are kept.
    pub fn finish(self, top: PartId) -> Formula {
        let mut wanted = vec![false; self.parts.len()];
        wanted[top.index()] = true;
        for place in (0..=top.index()).rev() {
            if wanted[place] {
                for made in self.parts[place].made_of() {
                    wanted[made.index()] = true;
                }
            }
        }
        let mut new_place = vec![PartId(0); self.parts.len()];
        let (mut parts, mut marks) = (Vec::new(), Vec::new());
        for (place, (mut part, mark)) in self.parts.into_iter().zip(self.marks).enumerate() {
            if wanted[place] {
                renumber(&mut part, |made| new_place[made.index()]);
                new_place[place] = PartId(parts.len() as u32);
                parts.push(part);
                marks.push(mark);
            }
        }
        Formula {
            parts,
            marks,
            top: new_place[top.index()],
        }
    }

    fn add(&mut self, part: Part) -> PartId {
        let id = PartId(self.parts.len() as u32);
        self.parts.push(part);
        self.marks.push(Marks::default());
        id
    }
}

fn renumber(part: &mut Part, place: impl Fn(PartId) -> PartId) {
    match part {
        Part::Leaf(_) => {}
        Part::Cross(cross) => {
            cross.seed = place(cross.seed);
            cross.pollen = place(cross.pollen);
        }
        Part::OneOf(parts) | Part::Mixed(parts) => {
            parts.iter_mut().for_each(|part| *part = place(*part))
        }
    }
}
