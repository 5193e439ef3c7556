//! A card as plain values, in the order in which a buyer reads it.

use crate::analysis::evidence::EvidenceRow;
use crate::report::fact::Fact;
use crate::wording::Name;
use serde::Serialize;

/// All that a card says.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Card {
    /// Code of the plant or the piece.
    pub id: String,
    /// The name in full with what its order is based on, Latin in italics.
    pub name: Name,
    /// A cultivar epithet or nickname of this very plant.
    pub also: Option<String>,
    /// The latest photo of this plant.
    pub photo: Option<CardPhoto>,
    /// How it was made, when it was sown, its size, pot and sex; only what is recorded.
    pub facts: Vec<Fact>,
    /// Of these the size and the sex, by which a plant is described.
    #[serde(skip)]
    pub described: Vec<Fact>,
    /// Traits as they were read last.
    pub traits: Vec<TraitSeen>,
    /// Whether the traits were read on the plant as a whole, while the card is of one of several pieces.
    pub traits_of_the_whole: bool,
    /// How surely its descent is known.
    pub evidence: EvidenceRow,
    /// The weakest link of it in a few words; empty where all of it is at least on a tag.
    pub weakest: String,
    /// The fingerprint of its lineage, in groups of four digits.
    pub fingerprint: String,
    /// Parents and grandparents, each followed by its own.
    pub ancestors: Vec<Ancestor>,
    /// Climate, pests and treatment; only what is recorded.
    pub kept: Vec<Fact>,
    /// Doubts about names, and whom to ask before the plant travels.
    pub cautions: Vec<String>,
    /// Who grew it and how to reach them, from `registry.ron`.
    pub grower: Vec<String>,
    /// What a buyer would ask and the record cannot answer.
    pub missing: Vec<&'static str>,
    /// The day the card was made.
    pub made: String,
}

/// A photo of the plant itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CardPhoto {
    /// When it was taken, in words.
    pub on: String,
    /// The light it was taken in.
    pub light: Option<String>,
    /// Its file, relative to the registry's folder.
    #[serde(skip)]
    pub file: String,
}

impl CardPhoto {
    /// What stands under it.
    pub fn caption(&self) -> String {
        format!("this plant, {}", self.taken())
    }

    /// When it was taken and in which light.
    pub fn taken(&self) -> String {
        match &self.light {
            Some(light) => format!("{}, light: {light}", self.on),
            None => self.on.clone(),
        }
    }
}

/// One trait as read last.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TraitSeen {
    /// Its name.
    pub name: String,
    /// What was read, with its unit.
    pub value: String,
    /// When, which pitcher and by which method.
    pub when: String,
    /// What siblings read at the same age showed, with how many they were; `null` where none was.
    pub siblings: Option<String>,
}

/// A parent or a parent's parent.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Ancestor {
    /// 1 for a parent, 2 for a grandparent.
    pub generation: usize,
    /// `♀` or `♂` by its part in the cross; `null` where the direction is not known.
    pub side: Option<&'static str>,
    /// The clone, or what is known instead.
    pub clone: String,
    /// Its name.
    pub name: Name,
    /// Whether it is one of several, not known, or only probable.
    pub doubtful: bool,
}

impl Ancestor {
    /// The name without its italics.
    pub fn plain_name(&self) -> String {
        self.name.iter().map(|run| run.text.as_str()).collect()
    }
}
