//! Who descends from whom, ready to be drawn: plants, crosses, and every word that stands in the picture.
//!
//! Plants and crosses are named by their row in the two lists. Nothing here says where anything stands on the paper;
//! that is the layout's question.

use crate::analysis::evidence::EvidenceRow;
use crate::analysis::parentage::SharesAre;
use crate::analysis::pedigree::PartShares;
pub use crate::analysis::pedigree::{DrawnKind, DrawnParent, Fate, Sex};
use crate::ancestry::Part;
use crate::context::Descent;
use crate::wording::Name;
use serde::Serialize;

/// A whole pedigree to draw.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PedigreeDrawing {
    /// The picture's subject in one line of plain text.
    pub title: String,
    /// All plants drawn.
    pub plants: Vec<DrawnPlant>,
    /// All crosses drawn.
    pub crosses: Vec<DrawnCross>,
    /// The species that shares count, in order of first appearance in the registry.
    pub species: Vec<Name>,
    /// Whether it shows what came from the plant, not what the plant comes from.
    pub down: bool,
    /// What stands over the picture.
    pub caption: Caption,
    /// Cautions and notes, one sentence each.
    pub footnotes: Vec<String>,
}

/// The most plants a picture holds; beyond that nobody can read it.
const MOST_PLANTS: usize = 2000;

impl PedigreeDrawing {
    /// Why it cannot be drawn as a picture, if it cannot; as text it is written in any size.
    pub fn beyond_a_picture(&self) -> Option<String> {
        let alone = |plant: &&DrawnPlant| plant.kind != DrawnKind::Siblings;
        let plants = self.plants.iter().filter(alone).count();
        (plants > MOST_PLANTS).then(|| {
            format!(
                "the picture would hold {plants} plants, and {MOST_PLANTS} are the most that can be read\n\
                 ask for fewer with --generations, or for --format dot, json or text, which have no limit"
            )
        })
    }
}

/// What stands over the picture.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Caption {
    /// What is shown, in plain words: the plant on offer and its parents by name; of a cross its formula.
    pub heading: Name,
    /// The formula of the plant on offer.
    pub formula: Name,
    /// Its code in the registry.
    pub code: String,
    /// How surely all this is known, such as "parents witnessed; founders by their tags".
    pub evidence: String,
}

/// One plant of the picture.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct DrawnPlant {
    /// Its code in the registry.
    pub code: String,
    /// Whether it is named only by its species or on a label, so that `code` says this instead.
    #[serde(skip)]
    pub is_named_only: bool,
    /// What it is called first, then its formula where that is another; long lines are broken by the layout.
    pub label: Vec<Name>,
    /// Its generation; founders stand in 0.
    pub column: usize,
    /// What it is.
    pub kind: DrawnKind,
    /// What became of it.
    pub fate: Fate,
    /// The sex seen on its flowers.
    pub sex: Option<Sex>,
    /// Expected part of its descent from each species.
    #[serde(rename = "parentage")]
    pub shares: Vec<DrawnShare>,
    /// Expected parts of its descent that are of one of several species, it is not known which.
    pub either: Vec<DrawnEither>,
    /// Expected part of its descent that is not known, 0 to 1.
    pub unknown_share: f64,
    /// What those parts are, as `parentage_is` of `podbook parentage` says it.
    #[serde(rename = "parentage_is")]
    pub shares_are: SharesAre,
    /// Whether it is the plant the picture is about.
    pub focus: bool,
    /// How surely its descent is known; `null` unless the evidence of each plant was asked for.
    pub evidence: Option<EvidenceRow>,
}

/// Part of a plant's descent from one species.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct DrawnShare {
    /// Row of the species in [`PedigreeDrawing::species`].
    pub species: usize,
    /// 0 to 1.
    pub fraction: f64,
}

impl DrawnPlant {
    /// Whether several parents are possible that have no species in common.
    pub fn has_no_common_share(&self) -> bool {
        self.shares.is_empty() && self.either.iter().any(|part| part.fraction == 1.0)
    }
}

impl DrawnShare {
    /// Those of one species each.
    pub(super) fn all(parts: &PartShares) -> Vec<DrawnShare> {
        let share = |&(species, fraction): &(u32, f64)| DrawnShare {
            species: species as usize,
            fraction,
        };
        parts.known.iter().map(share).collect()
    }
}

/// Part of a plant's descent from one of several species.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct DrawnEither {
    /// The species in words, such as "hamata or talangensis".
    pub of: String,
    /// 0 to 1.
    pub fraction: f64,
}

impl DrawnEither {
    /// Those of one of several.
    pub(super) fn all(parts: &PartShares, descent: &Descent) -> Vec<DrawnEither> {
        let either = |&(part, fraction): &(Part, f64)| DrawnEither {
            of: descent.part_name(part),
            fraction,
        };
        parts.either.iter().map(either).collect()
    }
}

/// One cross of the picture.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct DrawnCross {
    /// Its code in the registry.
    pub code: String,
    /// The seed parent.
    pub seed: DrawnParent,
    /// The pollen parent.
    pub pollen: DrawnParent,
    /// The chance of each plant that may be a parent of it, 0 to 1, where it was stated; else empty.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub chances: Vec<(usize, f64)>,
    /// Whether it is known which of the two bore the seed.
    pub direction_known: bool,
    /// Whether stray pollen was seen beside it, so that the pollen parent is only probable.
    pub father_probable: bool,
    /// Whether it is less sure than a tag that the seed parent is the one drawn.
    pub seed_doubtful: bool,
    /// The same of the pollen parent.
    pub pollen_doubtful: bool,
    /// Rows of the plants raised from it that are drawn.
    pub children: Vec<usize>,
    /// How many more siblings there are that are not drawn.
    pub more_siblings: u64,
}
