//! A proposal as an answer: what is to be done with every plant and why, and what the choice is expected to pass on.

use crate::analysis::select::reason::{Caution, Levels, Needed, ReadAt, Reason};
use crate::lineage::PlantRow;
use crate::observation::trait_unit::TraitUnit;
use crate::record::Day;
use serde::Serialize;
use std::sync::Arc;

/// What is asked besides the rules.
#[derive(Clone, Copy, Debug)]
pub struct KeepWish {
    /// The day that counts as today.
    pub today: Day,
    /// Minutes available for further readings.
    pub minutes: Option<f64>,
    /// Minutes one plant's reading takes.
    pub minutes_each: f64,
    /// Heritability assumed of every trait, 0 to 1.
    pub heritability: f64,
}

/// A proposal for several crosses.
#[derive(Clone, Debug, Serialize)]
pub struct SelectReport {
    /// What is weighed, in words.
    pub weighed: Vec<String>,
    /// What is a must.
    pub needed: Vec<Needed>,
    /// Every cross.
    pub crosses: Vec<SelectCross>,
    /// Traits that count, each once.
    pub traits: Vec<SelectTrait>,
    /// Traits shown beside them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub beside: Vec<SelectTrait>,
    /// Every plant here, cross by cross, best first.
    pub plants: Vec<SelectRow>,
    /// Siblings that are no longer here.
    pub gone: Vec<SelectGone>,
    /// What the choice is expected to pass on.
    pub responses: Vec<SelectResponse>,
    /// Heritability assumed for that.
    pub heritability: f64,
    /// Shelves that what is kept takes, and shelves there are.
    pub shelves: Option<(f64, f64)>,
    /// Plants worth reading next.
    pub read_next: Vec<ReadNext>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    /// Whether the decisions were written.
    pub applied: bool,
    /// How many plants were marked now.
    pub marked: usize,
    #[serde(skip)]
    pub(crate) minutes: Option<f64>,
}

/// One cross.
#[derive(Clone, Debug, Serialize)]
pub struct SelectCross {
    /// Code.
    pub id: String,
    /// Plants here today.
    pub here: usize,
    /// How many are to be kept by quota; `null` when none is stated.
    pub quota: Option<usize>,
    /// Proposed to keep.
    pub keep: usize,
    /// Proposed to sell.
    pub sell: usize,
    /// Proposed to let go.
    pub let_go: usize,
    /// To be read first.
    pub read_first: usize,
    /// Those that reach every level, more than there are places for, and that nothing ranks.
    pub undecided: usize,
    /// Those beaten by no sibling of their age.
    pub on_front: usize,
    /// Those among the best by index, as many as the quota, that also stand on the front.
    pub index_on_front: usize,
    /// Plants that reach every level.
    pub pass_levels: usize,
    /// Chance that those kept hold both sexes, 0 to 1.
    pub both_sexes: Option<f64>,
    /// Trait, age and days of what was read.
    pub read_at: Vec<ReadAt>,
}

/// A trait that counts.
#[derive(Clone, Debug, Serialize)]
pub struct SelectTrait {
    /// Code.
    pub code: String,
    /// Name with its unit.
    pub heading: String,
    /// Weight for one standard deviation; 0 where only a level counts.
    pub weight: f64,
    /// Whether less of it is better.
    pub less_is_better: bool,
    /// How it is shown.
    #[serde(skip)]
    pub(crate) unit: Arc<TraitUnit>,
}

/// A sibling that is no longer here.
#[derive(Clone, Debug, Serialize)]
pub struct SelectGone {
    /// Code.
    pub plant: String,
    /// Its number on the page of its cross.
    #[serde(skip)]
    pub(crate) number: String,
    /// Code of the cross, pod or sowing asked for.
    pub cross: String,
    /// What became of it; `null` where every piece of it is gone.
    pub fate: Option<String>,
    /// The same without a reason.
    #[serde(skip)]
    pub(crate) fate_and_day: Option<String>,
    /// For each trait its reading beside its siblings, in the unit shown; `null` where it was not read then.
    pub readings: Vec<Option<f64>>,
    /// The same for each trait shown beside those.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub beside: Vec<Option<f64>>,
}

/// What is proposed for a plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Proposal {
    /// Keep.
    Keep,
    /// Offer.
    Sell,
    /// Discard.
    LetGo,
    /// Cannot be judged before it is read.
    ReadFirst,
    /// Is as good as others by the rules, and not all of them can stay.
    Undecided,
}

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct SelectRow {
    /// Code.
    pub plant: String,
    /// Its number on the page of its cross.
    #[serde(skip)]
    pub(crate) number: String,
    /// Code of its cross.
    pub cross: String,
    /// Weighted sum of traits standardised among siblings of one age; `null` when none was read at it.
    pub index: Option<f64>,
    /// Its 95 % limits.
    pub index_between: Option<(f64, f64)>,
    /// For each trait the reading it is judged by, in the unit shown; `null` where there is none.
    pub readings: Vec<Option<f64>>,
    /// For each trait shown beside those its latest reading at an age it shares; `null` where there is none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub beside: Vec<Option<f64>>,
    /// Place by index within the cross, 1 first.
    pub place: Option<usize>,
    /// How it stands to the levels.
    pub levels: Levels,
    /// Layer of the front, 1 beaten by no sibling; `null` when a trait was not read.
    pub front: Option<usize>,
    /// What is proposed.
    pub proposal: Proposal,
    /// Why.
    pub reason: Reason,
    #[serde(skip)]
    pub(crate) row: PlantRow,
    /// Whether it has no index only because it was read at another age than its siblings.
    #[serde(skip)]
    pub(crate) read_elsewhere: bool,
    #[serde(skip)]
    pub(crate) already_marked: bool,
}

/// What the choice in one cross is expected to pass on of one trait.
#[derive(Clone, Debug, Serialize)]
pub struct SelectResponse {
    /// Code of the cross.
    pub cross: String,
    /// The trait with its unit.
    pub of: String,
    /// Plants read at the age judged.
    pub read: usize,
    /// Those proposed to keep among them.
    pub kept: usize,
    /// How far those kept stand above the mean of their siblings of the same age, in the unit shown.
    pub above_siblings: f64,
    /// Expected in seedlings of two of those kept, above seedlings of unselected siblings.
    pub in_seedlings: f64,
    /// The same at a low and a high heritability.
    pub in_seedlings_between: (f64, f64),
    #[serde(skip)]
    pub(crate) decimals: u8,
}

/// A plant worth reading.
#[derive(Clone, Debug, Serialize)]
pub struct ReadNext {
    /// Code.
    pub plant: String,
    /// Minutes it takes.
    pub minutes: f64,
    /// Expected gain in the summed index of those kept.
    pub gain: f64,
}
