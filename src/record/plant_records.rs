//! What founders and seedlings have in common: ramets, flowerings, identifications, pots, what became of them.

use super::{Few, FreeText};
use serde::{Deserialize, Serialize};

/// How something about parentage or identity is known; descendants inherit it.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
#[serde(rename_all = "snake_case")]
pub enum Confidence {
    /// Done or seen by the grower.
    Witnessed,
    /// Read from a tag.
    Tag,
    /// Somebody's word.
    Claim,
    /// One of several possibilities.
    OneOfSeveral,
    /// Nobody knows.
    #[default]
    Unknown,
}

/// One rooted piece of a plant: the same genes and the same sex.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Ramet<'t> {
    /// Letter after the plant's code.
    pub code: &'t str,
    /// The ramet it was taken from.
    pub from: Option<&'t str>,
    /// How it was made.
    pub made: Option<Made>,
    /// When it was cut.
    pub cut: Option<&'t str>,
    /// When it had rooted.
    pub rooted: Option<&'t str>,
    /// Where it stands.
    pub place: Option<FreeText<'t>>,
    /// Its pots, if it was taken off the plant; those of the plant itself are the plant's.
    #[serde(default)]
    pub pots: Few<Potting<'t>>,
    /// What became of it.
    pub fate: Option<Fate<'t>>,
    /// How it left before, and when it came back.
    #[serde(default)]
    pub came_back: Few<Return<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// Ways to make a ramet.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug)]
#[serde(rename_all = "snake_case")]
pub enum Made {
    /// The plant as it came or as it was raised.
    Original,
    /// A rooted cutting.
    Cutting,
    /// A division.
    Division,
    /// A basal shoot.
    Basal,
    /// A laboratory copy of this plant.
    LabCopy,
}

/// What became of a plant, ramet or community pot. Dated, never deleted.
#[derive(Deserialize, Serialize, Clone, Debug)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Fate<'t> {
    /// Found dead.
    Died {
        /// When, or "by" when.
        on: &'t str,
        /// Why, if known.
        cause: Option<FreeText<'t>>,
    },
    /// Discarded by choice.
    Culled {
        /// When.
        on: &'t str,
        /// The rule or reason.
        reason: Option<FreeText<'t>>,
    },
    /// Sold.
    Sold {
        /// When.
        on: &'t str,
        /// The words on the tag it left with.
        label: Option<FreeText<'t>>,
        /// Who has it; private.
        to: Option<Box<FreeText<'t>>>,
        /// What was asked for it; private.
        price: Option<Box<FreeText<'t>>>,
        /// The text that went along.
        said: Option<Box<FreeText<'t>>>,
    },
    /// Given or traded away.
    Given {
        /// When.
        on: &'t str,
        /// The words on the tag it left with.
        label: Option<FreeText<'t>>,
        /// Who has it; private.
        to: Option<Box<FreeText<'t>>>,
        /// What was asked for it; private.
        price: Option<Box<FreeText<'t>>>,
        /// The text that went along.
        said: Option<Box<FreeText<'t>>>,
    },
    /// Lost sight of: tag gone, plant not found.
    Lost {
        /// When it was missed.
        on: &'t str,
        /// How.
        note: Option<FreeText<'t>>,
    },
    /// Another grower's, and never stood here: an ancestor as told by its owner. What became of it there is not on record.
    Elsewhere,
}

/// A plant or piece that left and is here again.
#[derive(Deserialize, Serialize, Clone, Debug)]
#[serde(deny_unknown_fields)]
pub struct Return<'t> {
    /// How it left.
    pub left: Fate<'t>,
    /// When it was back.
    pub on: &'t str,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

impl<'t> Fate<'t> {
    /// When, or "by" when, as typed.
    pub fn on(&self) -> &'t str {
        match self {
            Fate::Died { on, .. }
            | Fate::Culled { on, .. }
            | Fate::Sold { on, .. }
            | Fate::Given { on, .. }
            | Fate::Lost { on, .. } => on,
            Fate::Elsewhere => "unknown",
        }
    }

    /// Who has it, what was asked for it and what went along, of what was sold or given away.
    pub fn handed_on(&self) -> Option<HandedOn<'_>> {
        let (Fate::Sold {
            label,
            to,
            price,
            said,
            ..
        }
        | Fate::Given {
            label,
            to,
            price,
            said,
            ..
        }) = self
        else {
            return None;
        };
        Some(HandedOn {
            is_sold: matches!(self, Fate::Sold { .. }),
            to: to.as_ref().map(|to| &***to),
            price: price.as_ref().map(|price| &***price),
            label: label.as_deref(),
            said: said.as_ref().map(|said| &***said),
        })
    }
}

/// What is on record of a sale or a gift beside its day; private.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct HandedOn<'f> {
    /// Whether it was sold; else it was given away.
    pub is_sold: bool,
    /// Who has it.
    pub to: Option<&'f str>,
    /// What was asked for it.
    pub price: Option<&'f str>,
    /// The words on the tag it left with.
    pub label: Option<&'f str>,
    /// The text that went along.
    pub said: Option<&'f str>,
}

impl HandedOn<'_> {
    /// Whether nothing but the day is on record.
    pub fn is_bare(&self) -> bool {
        [self.to, self.price, self.label, self.said] == [None; 4]
    }

    /// Whether it left from here; `is_told` is whether the plant is on record as told by another grower. Of what that grower let
    /// go the day alone is on record.
    pub fn left_here(&self, is_told: bool) -> bool {
        !is_told || !self.is_bare()
    }

    /// `to a neighbour; price: 12; tag: "N. maxima"`; none where none of these is on record.
    pub fn words(&self) -> Option<String> {
        let to = self.to.map(|to| format!("to {to}"));
        let price = self.price.map(|price| format!("price: {price}"));
        let label = self.label.map(|label| format!("tag: \"{label}\""));
        let words: Vec<String> = [to, price, label].into_iter().flatten().collect();
        (!words.is_empty()).then(|| words.join("; "))
    }
}

/// One spike, as a dated observation. Sex belongs here and nowhere else.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Flowering<'t> {
    /// Code of the spike within the plant, so that a pollination can name it.
    pub code: Option<&'t str>,
    /// When the spike was first seen.
    pub spike: Option<&'t str>,
    /// When the first flower opened.
    pub opened: Option<&'t str>,
    /// When the last flower was over.
    pub over: Option<&'t str>,
    /// The sex seen.
    pub sex: Option<Sex>,
    /// How the sex is known.
    #[serde(default)]
    pub seen_by: SeenBy,
    /// Which ramet flowered.
    pub ramet: Option<&'t str>,
    /// Remarks.
    pub note: Option<Box<FreeText<'t>>>,
}

/// Sex of a spike or of its plant.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
#[serde(rename_all = "snake_case")]
pub enum Sex {
    /// Bears pods.
    Female,
    /// Gives pollen.
    Male,
}

impl Sex {
    /// The word in the files, which is also that of every screen.
    pub fn word(self) -> &'static str {
        match self {
            Sex::Female => "female",
            Sex::Male => "male",
        }
    }

    /// ♀ or ♂.
    pub fn mark(self) -> &'static str {
        match self {
            Sex::Female => "♀",
            Sex::Male => "♂",
        }
    }
}

/// How a sex is known; only open flowers are certain.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug, Default)]
#[serde(rename_all = "snake_case")]
pub enum SeenBy {
    /// Open flowers.
    #[default]
    Flowers,
    /// The shape of buds: a guess.
    Buds,
    /// A test on a leaf.
    LeafTest,
    /// The supplier's word.
    Supplier,
    /// Not recorded how it was seen.
    Unsaid,
}

/// A dated opinion on what a plant is, beside the received name.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Identification<'t> {
    /// When it was said.
    pub on: Option<&'t str>,
    /// The name, as on a label.
    pub name: FreeText<'t>,
    /// By whom; "me" or a role.
    pub by: Option<FreeText<'t>>,
    /// What it is based on, in words: "visual", "compared with a pressed pitcher".
    pub basis: Option<FreeText<'t>>,
    /// How it is known.
    #[serde(default)]
    pub confidence: Confidence,
    /// Whether the grower accepts it: only then does it change the name that is shown.
    #[serde(default)]
    pub accepted: bool,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// Which name of a founder is shown.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug, Default)]
#[serde(rename_all = "snake_case")]
pub enum NameAs {
    /// The last opinion that was accepted, else the name as received.
    #[default]
    Accepted,
    /// The name as received, whatever was accepted.
    Received,
}

/// A move into a pot; it resets growth.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Potting<'t> {
    /// When.
    pub on: &'t str,
    /// Inside width of the pot as typed, such as "7 cm".
    pub pot: FreeText<'t>,
    /// Where it stands.
    pub place: Option<FreeText<'t>>,
}

/// A decision to keep.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Kept<'t> {
    /// When.
    pub on: Option<&'t str>,
    /// Why.
    pub why: Option<FreeText<'t>>,
}

/// A cultivar epithet given to this plant and its ramets.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Cultivar<'t> {
    /// The epithet without quotes.
    #[serde(borrow)]
    pub epithet: FreeText<'t>,
    /// Where it was published with a description; without it the epithet is not established.
    pub published: Option<FreeText<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}
