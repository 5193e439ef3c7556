//! What stands at the ends of a formula: a species, a name, a label, or nothing known; and what is marked on a parent.

use std::fmt;

/// One end of a formula.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Leaf {
    /// A species, perhaps qualified, perhaps named below the species.
    Species {
        /// Lower-case epithet.
        epithet: String,
        /// `aff.` or `cf.`.
        qualifier: Option<Qualifier>,
        /// Subspecies, variety or form.
        infraspecific: Option<Infraspecific>,
    },
    /// A species without a name: `sp.`, with the label that tells it from others.
    Unnamed {
        /// What the trade calls it.
        label: Option<String>,
    },
    /// A named hybrid that is not expanded: its parents are disputed or unknown.
    NamedHybrid {
        /// Lower-case epithet without the sign.
        epithet: String,
    },
    /// A name in single quotes, established or not, whose parents are not recorded.
    Quoted {
        /// The epithet without quotes.
        epithet: String,
    },
    /// A label as received, in double quotes: not a cultivar, its parents not recorded.
    Label {
        /// The label without its quotes.
        text: String,
    },
    /// A parent that is not known.
    Unknown(Unknown),
}

impl Leaf {
    /// A species without qualification.
    pub fn species(epithet: &str) -> Self {
        Self::Species {
            epithet: epithet.to_owned(),
            qualifier: None,
            infraspecific: None,
        }
    }

    /// The epithet, when the leaf is a species named without `aff.` or `cf.`.
    pub fn sure_species(&self) -> Option<&str> {
        match self {
            Self::Species {
                epithet,
                qualifier: None,
                ..
            } => Some(epithet),
            _ => None,
        }
    }

    /// The name without its genus, as it is sorted and compared: `mirabilis var. globosa`, `×dominii`, `'Abc'`,
    /// `"red giant"`, `?`.
    pub fn name(&self) -> String {
        match self {
            Self::Species {
                epithet,
                qualifier,
                infraspecific,
            } => {
                let mut name = qualifier
                    .map(|q| format!("{} ", q.short()))
                    .unwrap_or_default();
                name.push_str(epithet);
                if let Some(below) = infraspecific {
                    name.push_str(&format!(" {below}"));
                }
                name
            }
            Self::Unnamed { label: Some(label) } => format!("sp. {label}"),
            Self::Unnamed { label: None } => "sp.".to_owned(),
            Self::NamedHybrid { epithet } => format!("×{epithet}"),
            Self::Quoted { epithet } => format!("'{epithet}'"),
            Self::Label { text } => format!("\"{text}\""),
            Self::Unknown(_) => "?".to_owned(),
        }
    }
}

/// How far a species name is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Qualifier {
    /// `aff.`: near this species, but different.
    Affinis,
    /// `cf.`: looks like this species, not checked.
    Confer,
}

impl Qualifier {
    /// The abbreviation.
    pub fn short(self) -> &'static str {
        match self {
            Self::Affinis => "aff.",
            Self::Confer => "cf.",
        }
    }
}

/// A rank below the species.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// Subspecies.
    Subspecies,
    /// Variety.
    Variety,
    /// Form; `f.` on a label is this rank, never "female".
    Forma,
}

impl Rank {
    /// The abbreviation.
    pub fn short(self) -> &'static str {
        match self {
            Self::Subspecies => "subsp.",
            Self::Variety => "var.",
            Self::Forma => "f.",
        }
    }
}

/// A name below the species.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Infraspecific {
    /// Its rank.
    pub rank: Rank,
    /// Its lower-case epithet.
    pub epithet: String,
}

impl fmt::Display for Infraspecific {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{} {}", self.rank.short(), self.epithet)
    }
}

/// How little is known of a parent.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unknown {
    /// Nothing is recorded.
    NotRecorded,
    /// Whatever pollen came.
    OpenPollinated,
    /// Several pollen parents, not named.
    MixedPollen,
}

/// What a label or a record adds to a parent.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tag {
    /// A look or trade label; written in double quotes.
    Label(String),
    /// A place or form; written in brackets.
    Place(String),
    /// A word of the trade that stands bare: `HL`, `SG`, `s.l.`.
    Word(String),
    /// An individual: `A` for clone A, `#3` for number 3.
    Clone(String),
    /// A cultivar epithet; written in single quotes.
    Cultivar(String),
    /// The plant's code in a registry; written in square brackets.
    Plant(String),
    /// The name it came with, letter by letter, where an accepted opinion has changed it: `(received as "…")`.
    Received(String),
}

/// The words that leave a cross without a seed parent.
pub(in crate::naming) const NATURAL_HYBRID: &str = "natural hybrid";

/// How surely a parent is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Certainty {
    /// Nothing speaks against it: witnessed or on the tag.
    #[default]
    Stated,
    /// Someone claims it; the text says so.
    Claimed,
    /// The label itself doubts it: `?`, "possibly", "lookalike". No share of it counts as a named species.
    Doubtful,
}

/// What is marked on one part of a formula.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Marks {
    /// Labels, places, clones, codes in the order given.
    pub tags: Vec<Tag>,
    /// How surely this parent is known.
    pub certainty: Certainty,
}

impl Marks {
    /// Whether nothing is marked.
    pub fn is_empty(&self) -> bool {
        self.tags.is_empty() && self.certainty == Certainty::Stated
    }

    /// Whether a number, code or epithet marks one plant out.
    pub(in crate::naming) fn is_individual(&self) -> bool {
        let individual =
            |tag: &Tag| matches!(tag, Tag::Clone(_) | Tag::Cultivar(_) | Tag::Plant(_));
        self.tags.iter().any(individual)
    }

    /// Whether it is called a natural hybrid.
    pub(in crate::naming) fn is_natural_hybrid(&self) -> bool {
        let natural = |tag: &Tag| matches!(tag, Tag::Word(word) if word == NATURAL_HYBRID);
        self.tags.iter().any(natural)
    }

    /// The cultivar epithet among the tags.
    pub fn cultivar(&self) -> Option<&str> {
        self.tags.iter().find_map(|tag| match tag {
            Tag::Cultivar(epithet) => Some(epithet.as_str()),
            _ => None,
        })
    }
}
