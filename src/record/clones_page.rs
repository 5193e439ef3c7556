//! `clones.ron` and `pollen.ron`: founders as received, and the pollen in hand.

use super::{
    Confidence, Cultivar, Fate, Few, Flowering, Foreign, FreeText, Identification, Kept, NameAs,
    Photo, Potting, Ramet, Return, Sitting, ToldBy, Treatment,
};
use serde::{Deserialize, Serialize};

/// `clones.ron`.
#[derive(Deserialize, Serialize, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct ClonesPage<'t> {
    /// The founders.
    #[serde(borrow, default)]
    pub clones: Vec<FounderClone<'t>>,
    /// Readings of founders.
    #[serde(default)]
    pub sittings: Vec<Sitting<'t>>,
}

/// A plant that came from elsewhere: one genotype.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct FounderClone<'t> {
    /// This grower's own code; a supplier's code is never the key.
    pub code: &'t str,
    /// The name as received, letter by letter.
    pub received: FreeText<'t>,
    /// Who it came from; private.
    pub from: Option<FreeText<'t>>,
    /// When it came.
    pub on: Option<&'t str>,
    /// What it came as.
    pub form: Option<ReceivedAs>,
    /// The supplier's code or clone number.
    pub supplier_code: Option<FreeText<'t>>,
    /// Founders of one batch of seed are counted as full siblings.
    pub batch: Option<&'t str>,
    /// How the received name is known.
    #[serde(default)]
    pub confidence: Confidence,
    /// Dated opinions; the last accepted one is the name that is shown.
    #[serde(default)]
    pub identified: Vec<Identification<'t>>,
    /// Which name is shown.
    #[serde(default)]
    pub name_as: NameAs,
    /// A claim about where the line came from in the wild.
    pub locality: Option<FreeText<'t>>,
    /// Papers that came with it, in words.
    pub papers: Option<FreeText<'t>>,
    /// Night temperatures that work here, in words.
    pub nights: Option<FreeText<'t>>,
    /// A nickname; never a cultivar epithet.
    pub nickname: Option<FreeText<'t>>,
    /// A cultivar epithet this very clone carries.
    pub cultivar: Option<Cultivar<'t>>,
    /// Its rooted pieces; none recorded means one plant.
    #[serde(default)]
    pub ramets: Vec<Ramet<'t>>,
    /// Its spikes.
    #[serde(default)]
    pub flowerings: Vec<Flowering<'t>>,
    /// Its pots.
    #[serde(default)]
    pub pots: Vec<Potting<'t>>,
    /// Treatments of this plant alone.
    #[serde(default)]
    pub treatments: Vec<Treatment<'t>>,
    /// Pictures of it.
    #[serde(default)]
    pub photos: Vec<Photo<'t>>,
    /// The same plant in another registry.
    pub foreign: Option<Foreign<'t>>,
    /// Whose record this is, if it is not the grower's own.
    pub told_by: Option<ToldBy<'t>>,
    /// A decision to keep.
    pub kept: Option<Kept<'t>>,
    /// What became of the whole clone.
    pub fate: Option<Fate<'t>>,
    /// How it left before, and when it came back.
    #[serde(default)]
    pub came_back: Few<Return<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// What a founder came as.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug)]
#[serde(rename_all = "snake_case")]
pub enum ReceivedAs {
    /// Seed, raised here.
    Seed,
    /// A seedling.
    Seedling,
    /// A rooted or unrooted cutting.
    Cutting,
    /// A division.
    Division,
    /// A plant from a laboratory.
    LabPlant,
    /// A grown plant.
    Plant,
}

/// `pollen.ron`.
#[derive(Deserialize, Serialize, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct PollenPage<'t> {
    /// Envelopes.
    #[serde(borrow, default)]
    pub lots: Vec<PollenLot<'t>>,
}

/// One envelope of pollen.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct PollenLot<'t> {
    /// Code on the envelope.
    pub code: &'t str,
    /// Whose pollen.
    pub from: PollenSource<'t>,
    /// When it was collected.
    pub collected: Option<&'t str>,
    /// How it was dried.
    pub dried: Option<FreeText<'t>>,
    /// Where it is kept.
    pub stored: Option<PollenPlace>,
    /// Each time it was thawed.
    #[serde(default)]
    pub thawed: Vec<&'t str>,
    /// How much is left, in words.
    pub left: Option<FreeText<'t>>,
    /// When it was used up or thrown out.
    pub finished: Option<&'t str>,
    /// Whose record this is, if another grower told of it; such an envelope is not in hand here.
    pub told_by: Option<ToldBy<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// Whose pollen an envelope holds.
#[derive(Deserialize, Serialize, Debug)]
#[serde(rename_all = "snake_case")]
pub enum PollenSource<'t> {
    /// One plant or ramet.
    Plant(#[serde(borrow)] &'t str),
    /// One of several plants, not known which.
    OneOf(#[serde(borrow)] Vec<&'t str>),
    /// Several plants together.
    Mixed(#[serde(borrow)] Vec<&'t str>),
    /// Nobody knows.
    Unknown,
}

impl<'t> PollenSource<'t> {
    /// The plants named, each as typed.
    pub fn codes(&self) -> &[&'t str] {
        match self {
            PollenSource::Plant(code) => std::slice::from_ref(code),
            PollenSource::OneOf(codes) | PollenSource::Mixed(codes) => codes,
            PollenSource::Unknown => &[],
        }
    }
}

/// Where pollen is kept.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[serde(rename_all = "snake_case")]
pub enum PollenPlace {
    /// Used from the flower.
    Fresh,
    /// Room temperature, dry.
    Room,
    /// Fridge.
    Fridge,
    /// Freezer.
    Freezer,
}
