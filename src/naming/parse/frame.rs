//! What stands between two brackets: parents, the signs between them, and what is said of the whole.

use std::collections::BTreeSet;

use crate::naming::formula::{Direction, Part, PartId, Qualifier, Sex};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};

use super::generation::{Generation, WHICH_PLANT};
use super::parser::{Nesting, Parser};

/// What a pair of brackets is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// It groups.
    Group,
    /// It lists the pollen parents of a mixture.
    Mixed,
    /// It gives the parents of the name before it.
    Parentage,
    /// It names two plants of the species before it.
    Clones,
}

/// How a parent is joined to the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Join {
    Cross,
    Or,
    With,
}

/// A parent read.
#[derive(Clone, Debug)]
pub struct Parent {
    pub part: PartId,
    pub sex: Option<Sex>,
    /// The hybrid epithet or quoted name it was written as.
    pub name: Option<ParentName>,
}

/// The name a parent was written as.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ParentName {
    Hybrid(String),
    Quoted(String),
    Label(String),
}

/// What has been read since a bracket opened.
#[derive(Clone, Debug)]
pub struct Frame {
    pub role: Role,
    pub column: usize,
    pub parents: Vec<Parent>,
    pub joins: Vec<Join>,
    /// Where the first two plants are joined by other than a sign.
    pub joined_at: Option<usize>,
    pub genus: bool,
    pub name_sign: Option<usize>,
    pub qualifier: Option<Qualifier>,
    pub sex: Option<Sex>,
    pub direction_unknown: bool,
    /// Where open pollination was said before the plant it is of.
    pub open_pollinated: Option<usize>,
    pub generations: Vec<(Generation, usize)>,
    pub names: Vec<(String, usize)>,
}

impl Frame {
    pub fn new(role: Role, column: usize) -> Self {
        Self {
            role,
            column,
            parents: Vec::new(),
            joins: Vec::new(),
            joined_at: None,
            genus: false,
            name_sign: None,
            qualifier: None,
            sex: None,
            direction_unknown: false,
            open_pollinated: None,
            generations: Vec::new(),
            names: Vec::new(),
        }
    }

    /// Whether a parent must come next.
    pub fn wants_parent(&self) -> bool {
        self.parents.len() == self.joins.len()
    }

    /// Nothing has been read yet, not even a genus or a sign.
    pub fn is_untouched(&self) -> bool {
        self.parents.is_empty()
            && !self.genus
            && self.name_sign.is_none()
            && self.qualifier.is_none()
            && self.sex.is_none()
    }
}

impl Parser<'_> {
    /// Adds a parent to the open frame; what was waiting for it (sex, genus, sign) is used up.
    pub(super) fn add_parent(&mut self, part: PartId, name: Option<ParentName>) {
        let frame = self.frame();
        let sex = frame.sex.take();
        frame.genus = false;
        frame.name_sign = None;
        frame.qualifier = None;
        frame.parents.push(Parent { part, sex, name });
    }

    /// Joins the next parent to what has been read.
    pub(super) fn join(&mut self, join: Join) {
        let column = self.here().column;
        if join != Join::Cross {
            self.frame().joined_at.get_or_insert(column);
        }
        self.frame().joins.push(join);
        self.at += 1;
    }

    /// Closes the frame of the bracket at hand and makes its content a parent of the frame around it.
    pub(super) fn close_bracket(&mut self) -> Result<(), Refusal> {
        if self.frames.len() == 1 {
            return self.refuse(
                RefusalCode::NotUnderstood,
                "a bracket is closed here that was not opened here",
            );
        }
        let (role, untouched) = (self.frame().role, self.frame().is_untouched());
        if untouched {
            return self.refuse(
                RefusalCode::BracketsEmpty,
                "nothing stands between these brackets; name a parent",
            );
        }
        let column = self.frame().column;
        let part = self.finish_frame()?;
        self.frames.pop();
        self.at += 1;
        match role {
            Role::Group | Role::Mixed => self.add_parent(part, None),
            Role::Parentage | Role::Clones => self.give_parentage(part, column)?,
        }
        Ok(())
    }

    /// The formula of the open frame.
    pub(super) fn finish_frame(&mut self) -> Result<PartId, Refusal> {
        if self.frame().wants_parent() {
            return self.parent_missing();
        }
        let frame = std::mem::replace(self.frame(), Frame::new(Role::Group, 1));
        open_pollination_is_of_one(&frame)?;
        if frame.role == Role::Mixed {
            let parts: Vec<PartId> = frame.parents.iter().map(|parent| parent.part).collect();
            return Ok(self.builder.mixed(parts));
        }
        if self.frames.len() == 1 && frame.joins.first() == Some(&Join::With) {
            let text = "two plants are joined without a sign; write × between parents, or name the seed parent first";
            let column = frame.joined_at.unwrap_or(frame.column);
            return Err(Refusal::new(RefusalCode::SignMissing, column, text));
        }
        let sides = self.sides(&frame);
        let mut part = self.cross_all(&frame, sides)?;
        if frame.direction_unknown
            && let Some(cross) = self.builder.cross_mut(part)
        {
            cross.direction = Direction::Unknown;
        }
        if let Some(column) = frame.open_pollinated {
            part = self.generation_of(part, Generation::OpenPollinated, column)?;
        }
        for (generation, column) in &frame.generations {
            part = self.generation_of(part, *generation, *column)?;
        }
        for (name, column) in &frame.names {
            self.check_name(part, name, *column)?;
        }
        Ok(part)
    }

    fn parent_missing<T>(&mut self) -> Result<T, Refusal> {
        let frame = self.frame();
        if frame.genus || frame.qualifier.is_some() {
            return self.refuse(
                RefusalCode::EpithetMissing,
                "an epithet is missing after the genus or qualifier",
            );
        }
        let side = if frame.parents.is_empty() {
            "before"
        } else {
            "after"
        };
        self.refuse(
            RefusalCode::ParentMissing,
            format!("a parent is missing {side} the sign; write `?` if it is not known"),
        )
    }

    /// The sides between signs of crossing; parents joined by "or" or "and" are one side.
    fn sides(&mut self, frame: &Frame) -> Vec<Parent> {
        let mut sides: Vec<Parent> = Vec::new();
        let mut at = 0;
        while at < frame.parents.len() {
            let mut to = at + 1;
            while to < frame.parents.len() && frame.joins[to - 1] != Join::Cross {
                to += 1;
            }
            sides.push(self.side(&frame.parents[at..to], &frame.joins[at..to - 1]));
            at = to;
        }
        sides
    }

    fn side(&mut self, parents: &[Parent], joins: &[Join]) -> Parent {
        if parents.len() == 1 {
            return parents[0].clone();
        }
        let parts = parents.iter().map(|parent| parent.part).collect();
        let part = if joins.contains(&Join::Or) {
            self.builder.one_of(parts)
        } else {
            self.builder.mixed(parts)
        };
        let sex = parents.iter().find_map(|parent| parent.sex);
        Parent {
            part,
            sex,
            name: None,
        }
    }

    fn cross_all(&mut self, frame: &Frame, mut sides: Vec<Parent>) -> Result<PartId, Refusal> {
        let chain = sides.len() > 2;
        let from_right = chain && self.nesting == Nesting::FromRight;
        if chain && self.nesting == Nesting::Ask {
            return self.ambiguous(sides.len(), frame.column);
        }
        if chain && !from_right {
            let text = "a chain of crosses without brackets was read from left to right, as asked";
            self.notes.say(NoteCode::ReadLeftToRight, text);
        }
        if from_right {
            sides.reverse();
        }
        let mut sides = sides.into_iter();
        let Some(mut so_far) = sides.next() else {
            return self.parent_missing();
        };
        for next in sides {
            let (first, second) = if from_right {
                (next, so_far)
            } else {
                (so_far, next)
            };
            let part = self.cross_of(first, second, frame.column)?;
            so_far = Parent {
                part,
                sex: None,
                name: None,
            };
        }
        Ok(so_far.part)
    }

    fn ambiguous<T>(&self, sides: usize, column: usize) -> Result<T, Refusal> {
        let text = format!(
            "{sides} parents in a row from column {column} can be nested in several ways; put brackets round the earlier cross"
        );
        Err(Refusal::new(RefusalCode::AmbiguousChain, column, text))
    }

    /// A cross of two sides in the order their marks of sex tell.
    fn cross_of(
        &mut self,
        first: Parent,
        second: Parent,
        column: usize,
    ) -> Result<PartId, Refusal> {
        use Sex::{Female, Male};
        let (seed, pollen, direction) = match (first.sex, second.sex) {
            (None, None) => (first.part, second.part, Direction::Assumed),
            (Some(Female), Some(Male)) | (Some(Female), None) | (None, Some(Male)) => {
                (first.part, second.part, Direction::Known)
            }
            (Some(Male), Some(Female)) | (Some(Male), None) | (None, Some(Female)) => {
                self.notes.say(
                    NoteCode::TurnedByMarks,
                    "the first parent is marked as pollen parent; the order was turned",
                );
                (second.part, first.part, Direction::Known)
            }
            (Some(Female), Some(Female)) => {
                return Err(Refusal::new(
                    RefusalCode::TwoSeedParents,
                    column,
                    "both parents are marked ♀; one must be ♂",
                ));
            }
            (Some(Male), Some(Male)) => {
                return Err(Refusal::new(
                    RefusalCode::TwoPollenParents,
                    column,
                    "both parents are marked ♂; one must be ♀",
                ));
            }
        };
        Ok(self.builder.cross(seed, pollen, direction))
    }

    /// The epithets of the species a part is made of; `None` when any end is no sure species or one of several.
    pub(super) fn parent_set(&self, part: PartId) -> Option<BTreeSet<String>> {
        let mut set = BTreeSet::new();
        let mut seen = BTreeSet::new();
        let mut open = vec![part];
        while let Some(id) = open.pop() {
            if !seen.insert(id) {
                continue;
            }
            match self.builder.part(id) {
                Part::OneOf(_) | Part::Mixed(_) => return None,
                Part::Leaf(leaf) => {
                    set.insert(leaf.sure_species()?.to_owned());
                }
                other => open.extend(other.made_of()),
            }
        }
        Some(set)
    }
}

/// `OP ventricosa × lowii` does not say which plant was left to open pollination.
fn open_pollination_is_of_one(frame: &Frame) -> Result<(), Refusal> {
    match frame.open_pollinated {
        Some(column) if frame.parents.len() > 1 || frame.role == Role::Mixed => Err(Refusal::new(
            RefusalCode::NotUnderstood,
            column,
            WHICH_PLANT,
        )),
        _ => Ok(()),
    }
}
