//! `registry.ron`: the genus, the hemisphere, the units and what this grower reads on a plant.

use super::{FreeText, Intervals, PlantPlace, PotStep, ShelfSpace, Treatment};
use serde::{Deserialize, Serialize};

/// The whole file.
#[derive(Deserialize, Serialize, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct RegistryPage<'t> {
    /// The one genus of the registry.
    pub genus: &'t str,
    /// Which half of the world: decides what "spring 2021" means.
    pub hemisphere: Hemisphere,
    /// The unit in which lengths are shown; it never fills in a missing unit.
    #[serde(default)]
    pub show_lengths_in: ShownUnit,
    /// Pairs of chromosomes, for the spread of shares within a pod.
    pub chromosome_pairs: Option<u32>,
    /// Map length of one pair, Morgans; an assumption, printed with every figure that uses it.
    pub map_length_morgans: Option<f64>,
    /// The form of the files: 1 when left out, 2 once podbook has recorded in it.
    pub format: Option<u32>,
    /// Short name of the registry, set before its codes where two registries meet.
    pub registry: Option<&'t str>,
    /// Whose registry it is; private.
    pub grower: Option<FreeText<'t>>,
    /// How to reach the grower; private.
    pub contact: Option<FreeText<'t>>,
    /// What is read on plants.
    #[serde(default)]
    pub traits: Vec<Trait<'t>>,
    /// Where plants stand.
    #[serde(default)]
    pub places: Vec<PlantPlace<'t>>,
    /// Treatments of whole places.
    #[serde(default)]
    pub treatments: Vec<Treatment<'t>>,
    /// How long things take here, for what is due.
    #[serde(default)]
    pub intervals: Intervals,
    /// The pots seedlings move into, by age; for the room they will need.
    #[serde(default)]
    pub pot_steps: Vec<PotStep>,
    /// The shelves there are.
    #[serde(default)]
    pub shelves: Vec<ShelfSpace<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

impl RegistryPage<'_> {
    /// The newest form of the files that this program reads and writes.
    pub const NEWEST: u32 = 2;

    /// What holds in a folder without the file.
    pub fn missing() -> Self {
        RegistryPage {
            genus: "Nepenthes",
            ..RegistryPage::default()
        }
    }

    /// Pairs of chromosomes: 40 (2n = 80, Heubl & Wistuba 1997, from memory) unless the registry says otherwise.
    pub fn pairs(&self) -> u32 {
        self.chromosome_pairs.unwrap_or(40)
    }

    /// Map length of one pair in Morgans: an assumption.
    pub fn morgans(&self) -> f64 {
        self.map_length_morgans.unwrap_or(1.0)
    }

    /// The form of the files, 1 or 2; a newer one has a finding.
    pub fn form(&self) -> u32 {
        self.format.unwrap_or(1)
    }
}

/// Which half of the world the plants flower in.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug, Default)]
#[serde(rename_all = "snake_case")]
pub enum Hemisphere {
    /// Spring is March to May.
    #[default]
    North,
    /// Spring is September to November.
    South,
}

/// Unit for showing lengths.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug, Default)]
#[serde(rename_all = "snake_case")]
pub enum ShownUnit {
    /// Centimetres.
    #[default]
    Cm,
    /// Inches.
    In,
}

/// A declared thing to read.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Trait<'t> {
    /// Short code used as a column heading.
    pub code: &'t str,
    /// Full name.
    pub name: FreeText<'t>,
    /// What a reading is.
    pub reads: Reads<'t>,
    /// How it is read, in words to print on a card.
    pub definition: Option<FreeText<'t>>,
    /// Not read before this age from sowing, months.
    pub from_months: Option<f64>,
    /// Not read on a plant under this leaf span, cm.
    pub from_span_cm: Option<f64>,
    /// Doubtful on a plant under this leaf span, cm.
    pub doubtful_under_span_cm: Option<f64>,
    /// Two plants no farther apart than this are tied, in the trait's unit or steps.
    pub tied_within: Option<f64>,
    /// Whether pitchers are read, so that juvenile and adult ones are kept apart.
    #[serde(default)]
    pub of_pitcher: bool,
    /// Least and greatest believable value, in the trait's unit.
    pub between: Option<(f64, f64)>,
}

/// What a reading of a trait is.
#[derive(Deserialize, Serialize, Debug)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Reads<'t> {
    /// A length, in this unit when shown.
    Length(MeasuredIn),
    /// A whole number.
    Count,
    /// A ratio or other plain number without unit.
    Number,
    /// Steps from 1 upward, each with its written anchor.
    Scale(#[serde(borrow)] Vec<FreeText<'t>>),
    /// One of several kinds without order.
    Kinds(#[serde(borrow)] Vec<&'t str>),
}

impl Reads<'_> {
    /// Whether a mean of readings is a value of the trait: not of steps and kinds.
    pub fn has_mean(&self) -> bool {
        !matches!(self, Reads::Scale(_) | Reads::Kinds(_))
    }
}

/// Whether a number can be a reading: 0, or a size from 1e-9 to 1e9. Beyond that squares and quotients of readings, and
/// so all figures made of them, would leave the floats.
pub fn within_reason(number: f64) -> bool {
    number == 0.0 || (1e-9..=1e9).contains(&number.abs())
}

/// Units of length.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug)]
#[serde(rename_all = "snake_case")]
pub enum MeasuredIn {
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Inches.
    In,
}
