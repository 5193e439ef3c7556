//! What a screen holds, as `--json` gives it.

use crate::analysis::evidence::EvidenceRow;
use crate::report::caution::RankedCaution;
use crate::report::fact::Fact;
use serde::Serialize;

/// What is known of one thing.
#[derive(Serialize, Default)]
pub struct ShowReport {
    /// Code.
    pub id: String,
    /// `founder`, `seedling`, `cross`, `pod`, `pollen lot` or `species`.
    pub what: &'static str,
    /// Name in breeder order with its basis.
    pub name: String,
    /// How surely its descent is known; `null` for pollen and species.
    pub evidence: Option<EvidenceRow>,
    /// Facts, a label and its value each.
    pub facts: Vec<Fact>,
    /// Stages from pollination to this pot.
    pub history: Vec<Stage>,
    /// Spikes on record.
    pub flowerings: Vec<FloweringLine>,
    /// Rooted pieces.
    pub ramets: Vec<RametLine>,
    /// Readings, oldest first.
    pub readings: Vec<ReadingLine>,
    /// Pods of a cross or of a zone.
    pub pods: Vec<PodLine>,
    /// Crosses it, or one of its seedlings, is a parent of.
    pub offspring: Vec<OffspringLine>,
    /// Cautions.
    pub cautions: Vec<RankedCaution>,
}

/// One stage of the history.
#[derive(Serialize)]
pub struct Stage {
    /// What happened.
    pub stage: &'static str,
    /// When, as a range of days.
    pub when: String,
    /// How long since the stage before, or until today for the last.
    pub took: Option<String>,
}

/// One spike.
#[derive(Serialize)]
pub struct FloweringLine {
    /// First flower open, or the spike first seen.
    pub when: String,
    /// Sex.
    pub sex: String,
    /// How it is known.
    pub seen_by: &'static str,
    /// The remark.
    pub note: Option<String>,
    /// The spike's code.
    pub spike: Option<String>,
    /// When its last flower was over.
    pub over: Option<String>,
    /// Which ramet.
    pub ramet: Option<String>,
}

/// One ramet.
#[derive(Serialize)]
pub struct RametLine {
    /// Code.
    pub id: String,
    /// How and when it was made.
    pub made: String,
    /// `in the collection`, or what became of it.
    pub status: String,
    /// Where it stands.
    pub place: Option<String>,
    /// Its pot and since when, of a piece taken off the plant.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pot: Option<String>,
    /// Who has it, its price and its tag, of a piece that was sold or given away.
    pub handed_on: Option<String>,
}

/// One reading.
#[derive(Serialize)]
pub struct ReadingLine {
    /// When.
    pub when: String,
    /// Age from sowing, months, least and greatest.
    pub months_from_sowing: Option<(f64, f64)>,
    /// What was read.
    pub of: String,
    /// As typed, with the heading's unit.
    pub value: String,
    /// Whether the plant was so small that day that the trait is doubtful on it.
    pub doubtful: bool,
    /// By which method, where the readings of the trait that day differ in it.
    pub method: Option<String>,
    /// Whether it is words of the grower's own, and no reading: they may say anything.
    #[serde(skip)]
    pub(in crate::report) own_words: bool,
}

/// One cross it is a parent of.
#[derive(Serialize)]
pub struct OffspringLine {
    /// Code of the cross.
    pub id: String,
    /// `seed parent`, `pollen parent`, or `one of the possible …`; with `no pod set` of a cross that came to nothing.
    pub as_parent: String,
    /// The cross's formula.
    pub name: String,
    /// Numbered seedlings.
    pub numbered: usize,
}

/// One pod of a cross.
#[derive(Serialize)]
pub struct PodLine {
    /// Code, with the cross.
    pub id: String,
    /// The zone that set it.
    pub zone: Option<String>,
    /// When its zone was pollinated.
    pub pollinated: String,
    /// When it was harvested, as a range of days.
    pub harvested: String,
    /// Seeds in it.
    pub seeds: Option<u32>,
    /// Whether that number is a guess.
    pub seeds_estimated: bool,
    /// Numbered seedlings known to be of it.
    pub numbered: usize,
}
