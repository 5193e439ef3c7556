//! What stands between two brackets: parents, the signs between them, and what is said of the whole.

use crate::naming::formula::{PartId, Qualifier, Sex, Tag};

/// A generation word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Generation {
    Sib,
    SelfReported,
    Filial(u32),
    Backcross(u32),
    /// So often to the species named.
    BackcrossTo(u32, String),
    OpenPollinated,
    MixedPollen,
}

/// What a pair of brackets is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Role {
    /// It groups.
    #[default]
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
#[derive(Clone, Debug, Default)]
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
            ..Self::default()
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
