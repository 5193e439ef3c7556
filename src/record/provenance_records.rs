//! From a flower to a seedling: pollinations, pods, seed lots, sowings, community pots.

use super::{Fate, FreeText, Muddle, Treatment};
use serde::{Deserialize, Serialize};

/// Flowers of one zone of one spike, dusted with one pollen lot.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Pollination<'t> {
    /// Zone of the spike, bottom first.
    pub zone: &'t str,
    /// Which ramet of the seed parent, or which seed parent when several are possible.
    pub plant: Option<&'t str>,
    /// Code of the spike, as its flowering has it; zones of one spike share what its controls show.
    pub spike: Option<&'t str>,
    /// The days it was done.
    #[serde(default)]
    pub on: Vec<&'t str>,
    /// Code of the pollen lot.
    pub pollen: Option<&'t str>,
    /// The registry that told whose pollen it was, where the envelope was not handed over.
    pub pollen_told_by: Option<&'t str>,
    /// Flowers treated.
    pub flowers: Option<u32>,
    /// Pods that set; 0 is an outcome.
    pub set: Option<u32>,
    /// When the set was counted.
    pub counted: Option<&'t str>,
    /// Whether the spike was covered against stray pollen.
    pub covered: Option<bool>,
    /// Flowers left alone to measure stray pollen.
    pub control_flowers: Option<u32>,
    /// Pods on those.
    pub control_set: Option<u32>,
    /// Flowers left alone on the same spike that are counted on other pages, where those were not handed over.
    pub spike_control_flowers: Option<u32>,
    /// Pods on those.
    pub spike_control_set: Option<u32>,
    /// Whether a pollination of those pages named no spike, so that plant and days alone joined them to this one.
    pub spike_control_by_days: Option<bool>,
    /// Whether those were covered, and this pollination is not on record as covered.
    pub spike_control_covered: Option<bool>,
    /// A zone of another cross that may be the same flowers, such as `X23-02.red`, where its page was not handed over.
    pub same_flowers: Option<&'t str>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// What one pollination set.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Pod<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// The zone that set it.
    pub zone: Option<&'t str>,
    /// Capsules in it.
    pub capsules: Option<u32>,
    /// When it was harvested.
    pub harvested: Option<&'t str>,
    /// Seeds in it.
    pub seeds: Option<u32>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// What stands under `left` of a lot of which nothing is left.
pub const NONE_LEFT: [&str; 3] = ["none", "nothing", "0"];

/// Seed of one pod, kept together.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct SeedLot<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// Its pod.
    pub pod: Option<&'t str>,
    /// Seeds in it.
    pub seeds: Option<u32>,
    /// Whether the number is a guess.
    #[serde(default)]
    pub estimated: bool,
    /// Seeds with a visible embryo, percent.
    pub embryo_percent: Option<u8>,
    /// Date it came, where it was bought or swapped.
    pub came: Option<&'t str>,
    /// How it is kept.
    pub stored: Option<FreeText<'t>>,
    /// Seeds given away of which no more is on record than their number.
    pub given_away: Option<u32>,
    /// Seeds that left while others stayed: how many, and to whom.
    #[serde(default)]
    pub gone: Vec<PartGone<'t>>,
    /// How much is left, in words, where it was not counted.
    pub left: Option<FreeText<'t>>,
    /// What became of all that was left.
    pub fate: Option<Fate<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

impl SeedLot<'_> {
    /// Whether nothing is left of it by its record.
    pub fn is_used_up(&self) -> bool {
        let left = self.left.as_deref();
        self.fate.is_some() || left.is_some_and(|left| NONE_LEFT.contains(&left.trim()))
    }

    /// Seeds that left and were not sown, as counted.
    pub fn handed_on(&self) -> u64 {
        let parts = self.gone.iter().map(|part| u64::from(part.count));
        parts.sum::<u64>() + u64::from(self.given_away.unwrap_or(0))
    }
}

/// Seed of a lot, sown on a date in one container.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Sowing<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// Its seed lot.
    pub lot: Option<&'t str>,
    /// Its pod, when no lot was recorded.
    pub pod: Option<&'t str>,
    /// When it was sown.
    pub on: Option<&'t str>,
    /// Seeds sown.
    pub seeds: Option<u32>,
    /// What it was sown in.
    pub container: Option<FreeText<'t>>,
    /// Mix.
    pub medium: Option<FreeText<'t>>,
    /// Where it stands.
    pub place: Option<FreeText<'t>>,
    /// Treatments of places that it left, which it had perhaps.
    #[serde(default)]
    pub treatments: Vec<Treatment<'t>>,
    /// Seedlings up so far, day by day; each number is a running total.
    #[serde(default)]
    pub germinated: Vec<Tally<'t>>,
    /// Prickings out.
    #[serde(default)]
    pub pricked_out: Vec<Pricking<'t>>,
    /// What became of all that was left in it.
    pub fate: Option<Fate<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// A dated count.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Tally<'t> {
    /// When it was counted.
    pub on: &'t str,
    /// How many.
    pub count: u32,
}

/// Seedlings moved out of the sowing pot.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Pricking<'t> {
    /// When.
    pub on: &'t str,
    /// How many were moved.
    pub moved: u32,
    /// How many were left behind.
    pub left: Option<u32>,
    /// Where to.
    pub to: Option<FreeText<'t>>,
}

/// Seedlings that are only a count.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct CommunityPot<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// The sowing it comes from.
    pub sowing: Option<&'t str>,
    /// The pods it may come from, when a tray was muddled.
    #[serde(default)]
    pub one_of: Vec<&'t str>,
    /// Mix-ups with other pots.
    #[serde(default)]
    pub muddled: Vec<Muddle<'t>>,
    /// Alive, day by day.
    #[serde(default)]
    pub alive: Vec<Tally<'t>>,
    /// Seedlings that died or left while the others stayed.
    #[serde(default)]
    pub gone: Vec<PartGone<'t>>,
    /// Pot or tray.
    pub pot: Option<FreeText<'t>>,
    /// Where it stands.
    pub place: Option<FreeText<'t>>,
    /// Treatments of places that it left, which it had perhaps.
    #[serde(default)]
    pub treatments: Vec<Treatment<'t>>,
    /// What became of it.
    pub fate: Option<Fate<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

impl<'t> CommunityPot<'t> {
    /// The mix-up it was filled by: of a pot that comes from no sowing, and names the pods it may be of, the first. The others of
    /// that mix-up gave it some of their seedlings. What stayed in those is in no doubt.
    pub fn filled_by(&self) -> Option<&Muddle<'t>> {
        let is_of_others = self.sowing.is_none() && !self.one_of.is_empty();
        self.muddled.first().filter(|_| is_of_others)
    }
}

/// Some of the seedlings of a pot, or seeds of a lot, that came to an end or left without a number, while the others stayed.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct PartGone<'t> {
    /// How many.
    pub count: u32,
    /// What became of them.
    #[serde(borrow)]
    pub fate: Fate<'t>,
}
