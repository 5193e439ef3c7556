//! One thing that is recorded, or missing, about the parents of a cross. Different doubts stay different.

use super::controls::Controls;
use super::envelopes::Contents;
use super::strength::Strength;
use crate::record::Confidence;
use crate::registry::{CrossRow, PlantRow, PollenRow, ZoneRow};
use crate::text::Span;

/// A parent by its side.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Side {
    /// Bore the seed.
    Seed,
    /// Gave the pollen.
    Pollen,
}

/// Which parents a statement is of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Named {
    /// Both.
    Both,
    /// One of them.
    One(Side),
    /// A list of possible pairs.
    Pairs,
}

/// A statement or a doubt.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Doubt {
    /// How the page says that the parents it names are known.
    FreeText(Confidence, Named),
    /// Only a label says what the parents were.
    Label,
    /// A parent is not known.
    NotKnown(Side),
    /// Neither is.
    NeitherKnown,
    /// Open pollination, with so many plants named that were shedding near it; that is no restriction.
    Open(usize),
    /// The parent is one of so many, the same for all plants of the pod.
    OneOf(Side, usize),
    /// Pollen of so many was mixed on purpose.
    Mixed(usize),
    /// The parents are one of so many pairs, the same for all plants of the pod.
    OneOfPairs(usize),
    /// The parent is one seedling of this cross, its number lost.
    SomeSeedling(Side, CrossRow),
    /// The parent is this plant by its tag, which had been mixed up with so many siblings, itself among them.
    MixedUpBefore(Side, PlantRow, usize),
    /// The page is another grower's record.
    Told,
    /// Whose pollen was in the envelope is another grower's word.
    FatherTold,
    /// The envelope that was used is less sure of the father than the page is.
    Envelope(PollenRow, Contents),
    /// What control flowers of the spike showed.
    Controls(Controls),
    /// A zone of another cross has the thread of this one on the same plant in the same days: its pollen may be on the same
    /// flowers.
    SameThread(ZoneRow),
    /// The plant is of one of so many crosses, since a tray or a pot was muddled.
    OneOfCrosses(usize),
    /// A field that would say less of the parents stands there and could not be read.
    Unread(Span),
}

impl Doubt {
    /// How much is known in spite of it.
    pub fn strength(self) -> Strength {
        match self {
            Doubt::FreeText(confidence, _) => confidence.into(),
            Doubt::Label => Strength::Claimed,
            Doubt::Told | Doubt::FatherTold => Strength::Told,
            Doubt::NotKnown(_) | Doubt::NeitherKnown | Doubt::Open(_) | Doubt::Unread(_) => {
                Strength::Unknown
            }
            Doubt::OneOf(..)
            | Doubt::OneOfPairs(_)
            | Doubt::SomeSeedling(..)
            | Doubt::MixedUpBefore(..)
            | Doubt::OneOfCrosses(_) => Strength::OneOfSeveral,
            Doubt::Mixed(_) => Strength::Mixture,
            Doubt::Envelope(_, contents) => contents.strength(),
            _ if self.leaves_father_probable() => Strength::Probable,
            Doubt::Controls(_) | Doubt::SameThread(_) => Strength::Witnessed,
        }
    }

    /// Whether another plant than the recorded one may be the parent on this side, though no list of parents says so.
    pub fn leaves_open(self, side: Side) -> bool {
        match self {
            Doubt::FreeText(Confidence::OneOfSeveral, Named::One(of))
            | Doubt::MixedUpBefore(of, ..) => of == side,
            Doubt::FreeText(Confidence::OneOfSeveral, _) | Doubt::Unread(_) => true,
            Doubt::Envelope(..) => side == Side::Pollen,
            doubt => doubt.leaves_father_probable() && side == Side::Pollen,
        }
    }

    /// Whether it makes it less sure than a tag that the parent of that side is the one named. Which of several crosses a
    /// plant is of is no doubt of the parents of each.
    pub fn weakens(self, side: Side) -> bool {
        let is_of_side = match self {
            Doubt::FreeText(_, Named::One(of))
            | Doubt::NotKnown(of)
            | Doubt::OneOf(of, _)
            | Doubt::SomeSeedling(of, _)
            | Doubt::MixedUpBefore(of, ..) => of == side,
            Doubt::FreeText(_, Named::Both | Named::Pairs)
            | Doubt::Label
            | Doubt::NeitherKnown
            | Doubt::OneOfPairs(_)
            | Doubt::Unread(_) => true,
            Doubt::Open(_)
            | Doubt::Mixed(_)
            | Doubt::Envelope(..)
            | Doubt::Controls(_)
            | Doubt::SameThread(_) => side == Side::Pollen,
            // Whose word it is, the sentence beside the answer says.
            Doubt::OneOfCrosses(_) | Doubt::Told | Doubt::FatherTold => false,
        };
        is_of_side && self.strength() > Strength::OnTag
    }

    /// Whether other pollen than that of the recorded father may have set some of the seed.
    pub fn leaves_father_probable(self) -> bool {
        match self {
            Doubt::Controls(controls) => controls.set > 0,
            doubt => matches!(doubt, Doubt::SameThread(_)),
        }
    }
}
