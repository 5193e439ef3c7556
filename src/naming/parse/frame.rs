//! What stands between two brackets: parents, the signs between them, and what is said of the whole.

use crate::naming::formula::{Direction, Leaf, Part, PartId, Qualifier, Sex, Tag};
use crate::naming::notes::{Refusal, RefusalCode};

use super::generation::{Generation, WHICH_PLANT};
use super::parser::Parser;

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
    /// Whether the sex stands behind the parent.
    pub sex_behind: bool,
    /// The hybrid epithet or quoted name it was written as.
    pub name: Option<ParentName>,
    /// An F2 was said of this species and is taken for a sib cross.
    pub taken_for_sibs: bool,
}

impl Parent {
    pub fn new(part: PartId, sex: Option<Sex>) -> Self {
        Self {
            part,
            sex,
            sex_behind: false,
            name: None,
            taken_for_sibs: false,
        }
    }
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
    /// A parent before the last one bears a number or epithet of its own.
    pub individuals: bool,
    /// The next parent is doubted, or called a hybrid, before it is named.
    pub next_doubted: bool,
    pub next_hybrid: Option<Called>,
    /// Where the word hybrid ends this cross.
    pub hybrid_behind: Option<usize>,
    pub generations: Vec<(Generation, usize)>,
    pub names: Vec<(String, usize)>,
    /// What is said of the whole: doubts, that it is a hybrid, numbers and epithets behind it.
    pub whole: Whole,
}

/// How a plant is called a hybrid before it is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Called {
    /// `hybrid lowii × maxima`
    Hybrid,
    /// `hybrid of ventrata`: what follows is a parent.
    HybridOf,
}

/// What is said of the whole of a frame.
#[derive(Clone, Debug, Default)]
pub struct Whole {
    /// It is doubted.
    pub doubted: bool,
    /// It is called a hybrid before anything is named.
    pub hybrid: Option<Called>,
    /// Its crosses are natural hybrids.
    pub natural: bool,
    /// Numbers, epithets and labels of the plant itself.
    pub tags: Vec<Tag>,
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
            individuals: false,
            next_doubted: false,
            next_hybrid: None,
            hybrid_behind: None,
            generations: Vec::new(),
            names: Vec::new(),
            whole: Whole::default(),
        }
    }

    /// Whether this frame crosses parents and nothing else.
    pub fn is_cross(&self) -> bool {
        self.role == Role::Group && !self.joins.is_empty() && self.joined_at.is_none()
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
        let individuals = self.last_is_individual();
        let frame = self.frame();
        frame.individuals |= individuals;
        let sex = frame.sex.take();
        frame.genus = false;
        frame.name_sign = None;
        frame.qualifier = None;
        let named = name.is_some();
        frame.parents.push(Parent {
            name,
            ..Parent::new(part, sex)
        });
        let (doubted, hybrid) = (
            std::mem::take(&mut frame.next_doubted),
            std::mem::take(&mut frame.next_hybrid),
        );
        match hybrid {
            Some(Called::HybridOf) if named => self.give_partner(),
            Some(_) => self.hybrid_of_unknown(),
            None => {}
        }
        if doubted {
            self.doubt_part();
        }
    }

    fn last_is_individual(&mut self) -> bool {
        let Some(last) = self.current() else {
            return false;
        };
        let quoted = matches!(self.builder.part(last), Part::Leaf(Leaf::Quoted { .. }));
        quoted || self.builder.marks(last).is_individual()
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
        let mut frame = std::mem::replace(self.frame(), Frame::new(Role::Group, 1));
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
        let sides = self.sides(&frame).len();
        self.nesting_is_said(sides, frame.column)?;
        self.hybrid_is_of_one(&mut frame)?;
        self.sex_is_of_one(&mut frame)?;
        let sides = self.sides(&frame);
        let mut part = self.cross_all(&frame, sides)?;
        if (frame.direction_unknown || frame.whole.natural)
            && let Some(cross) = self.builder.cross_mut(part)
        {
            cross.direction = Direction::Unknown;
        }
        for (name, column) in &frame.names {
            part = self.check_name(part, name, *column)?;
        }
        if let Some(column) = frame.open_pollinated {
            part = self.generation_of(part, Generation::OpenPollinated, column)?;
        }
        for (generation, column) in &frame.generations {
            part = self.generation_of(part, *generation, *column)?;
        }
        if let (Some(Called::HybridOf), [only]) = (frame.whole.hybrid, &frame.parents[..])
            && only.name.is_some()
        {
            frame.whole.hybrid = None;
            part = self.partnered(part);
        }
        Ok(self.say_of_whole(part, frame.whole))
    }

    pub(super) fn parent_missing<T>(&mut self) -> Result<T, Refusal> {
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
