//! The seasons ahead as an answer.

use crate::analysis::kinship::Outcome;
use crate::analysis::plan::flower_ages::FlowerAges;
use crate::lineage::PlantRow;
use serde::Serialize;

/// Seasons to come.
#[derive(Debug, Default, Serialize)]
pub struct Later {
    /// Lines with seedlings that have not shown their sex.
    pub lines: Vec<LineAhead>,
    /// Lines of that kind beyond those told.
    pub lines_untold: usize,
    /// Pollinations that promise most, the best first, each seedling named once.
    pub holds: Vec<Hold>,
}

/// A line: the seedlings of one cross.
#[derive(Debug, Serialize)]
pub struct LineAhead {
    /// The cross.
    pub line: String,
    /// Seedlings held that have not shown their sex.
    pub held: Vec<String>,
    /// Others held that may be of another cross, which are not among them.
    pub may_be_elsewhere: usize,
    /// Whether both sexes have flowered and stand here already.
    pub both_here: bool,
    /// Whether those held are marked as kept; otherwise they are all that stand here unsexed.
    pub marked: bool,
    /// Seedlings of the line seen female, those gone included.
    pub females: usize,
    /// Seen male.
    pub males: usize,
    /// Wilson's 95 % interval for the share of females seen; `null` while none was sexed.
    pub seen_share: Option<[f64; 2]>,
    /// Chance that a plant not sexed is female.
    pub female: f64,
    /// Age at the first flower, years from sowing, shortest and longest.
    pub first_flower: [f64; 2],
    /// Whose ages those are.
    pub first_flower_of: FlowerAges,
    /// Chance that both sexes stand here in flower by the end of a year.
    pub by_year: Vec<YearAhead>,
    /// The same, once all that are held have flowered.
    pub once_all: f64,
    /// The same, if sexes come one to one whatever the line has shown.
    pub once_all_one_to_one: f64,
}

/// A year with a chance.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct YearAhead {
    /// Calendar year.
    pub year: i32,
    /// Chance by its end; `null` where a sowing is not dated, or a plant is older than any first flower known.
    pub chance: Option<f64>,
}

/// A pollination of a season to come.
#[derive(Clone, Debug, Serialize)]
pub struct Hold {
    /// Plants that have not shown their sex, each of which promises the same; two that wait for each other.
    pub hold: Vec<String>,
    /// The plant of known sex it waits for; `null` where both wait for each other.
    pub with: Option<String>,
    /// The first year by whose end it has more likely flowered than not (or both have); `null` where that cannot be told.
    pub year: Option<i32>,
    /// Chance that one has flowered by then and the sexes fit; without a year, that the sexes fit.
    pub chance: f64,
    /// Worth of a pod.
    pub worth: f64,
    /// Chance times worth.
    pub expected: f64,
    /// Expected inbreeding, at least.
    pub inbreeding: f64,
    /// What it may be, ascending, where parents further back are one of several; empty when that makes no difference.
    pub inbreeding_may_be: Vec<Outcome>,
    /// Whether what it may be was worked out; the ways may be too many.
    pub ways_known: bool,
    /// The plants of `hold`.
    #[serde(skip)]
    pub(crate) held: Vec<PlantRow>,
    /// The plant of `with`.
    #[serde(skip)]
    pub(crate) partner: Option<PlantRow>,
}
