//! One page per cross: parents, pollinations, pods, seed lots, sowings, patches, seedlings, sittings.

use super::{
    Confidence, Cultivar, Fate, Flowering, Identification, Kept, Potting, Ramet, Rows, Said,
    Seedlings,
};
use serde::Deserialize;

/// `crosses/CODE.ron`.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct CrossPage<'t> {
    /// Code of the cross.
    pub code: &'t str,
    /// Who with whom, in that direction.
    #[serde(borrow)]
    pub parents: Parents<'t>,
    /// How the parentage is known.
    #[serde(default)]
    pub confidence: Confidence,
    /// The label that came with it, letter by letter.
    #[serde(borrow, default)]
    pub received: Option<Said<'t>>,
    /// Who it came from; private.
    #[serde(borrow, default)]
    pub from: Option<Said<'t>>,
    /// What the cross is for.
    #[serde(borrow, default)]
    pub goal: Option<Said<'t>>,
    /// Flowers treated.
    #[serde(borrow, default)]
    pub pollinations: Vec<Pollination<'t>>,
    /// What the pollinations set.
    #[serde(borrow, default)]
    pub pods: Vec<Pod<'t>>,
    /// Seed harvested.
    #[serde(borrow, default)]
    pub seed_lots: Vec<SeedLot<'t>>,
    /// Seed sown.
    #[serde(borrow, default)]
    pub sowings: Vec<Sowing<'t>>,
    /// Seedlings that are still only a count.
    #[serde(borrow, default)]
    pub patches: Vec<Patch<'t>>,
    /// Plants with a number.
    #[serde(borrow, default)]
    pub seedlings: Seedlings<'t>,
    /// Readings.
    #[serde(borrow, default)]
    pub sittings: Vec<Sitting<'t>>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// The parents of a cross, as far as they are known.
#[derive(Deserialize, Debug)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Parents<'t> {
    /// Both known.
    Known {
        /// Bore the pods.
        #[serde(borrow)]
        seed: &'t str,
        /// Gave the pollen.
        #[serde(borrow)]
        pollen: &'t str,
    },
    /// One father for all, one of these.
    PollenOneOf {
        /// Bore the pods.
        #[serde(borrow)]
        seed: &'t str,
        /// The candidates.
        #[serde(borrow)]
        pollen: Vec<&'t str>,
        /// How likely each is, as whole-number weights.
        #[serde(default)]
        weights: Vec<u32>,
    },
    /// A declared mixture: every seed drew its own father.
    PollenMixed {
        /// Bore the pods.
        #[serde(borrow)]
        seed: &'t str,
        /// The males in the mixture.
        #[serde(borrow)]
        pollen: Vec<&'t str>,
        /// Parts of each in the mixture.
        #[serde(default)]
        weights: Vec<u32>,
    },
    /// Pollen from anywhere.
    Open {
        /// Bore the pods.
        #[serde(borrow)]
        seed: &'t str,
    },
    /// One father, nobody knows who.
    PollenUnknown {
        /// Bore the pods.
        #[serde(borrow)]
        seed: &'t str,
    },
    /// The pods came from one of these.
    SeedOneOf {
        /// The candidates.
        #[serde(borrow)]
        seed: Vec<&'t str>,
        /// Gave the pollen.
        #[serde(borrow)]
        pollen: &'t str,
    },
    /// The seed parent is not known.
    SeedUnknown {
        /// Gave the pollen.
        #[serde(borrow)]
        pollen: &'t str,
    },
    /// One of several pairs.
    OneOfPairs(#[serde(borrow)] Vec<PossiblePair<'t>>),
    /// Both known, direction lost.
    DirectionLost(#[serde(borrow)] (&'t str, &'t str)),
    /// Only a label says what they were: the plants were never seen.
    LabelOnly(#[serde(borrow)] Said<'t>),
    /// Nothing is known.
    Unknown,
}

/// One of several possible pairs.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct PossiblePair<'t> {
    /// Bore the pods.
    pub seed: &'t str,
    /// Gave the pollen.
    pub pollen: &'t str,
    /// How likely, as a whole-number weight.
    #[serde(default)]
    pub weight: u32,
}

/// Flowers of one zone of one spike, dusted with one pollen lot.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Pollination<'t> {
    /// Zone of the spike, bottom first.
    pub zone: &'t str,
    /// Which ramet of the seed parent, or which seed parent when several are possible.
    #[serde(borrow, default)]
    pub plant: Option<&'t str>,
    /// The days it was done.
    #[serde(borrow, default)]
    pub on: Vec<&'t str>,
    /// Code of the pollen lot.
    #[serde(borrow, default)]
    pub pollen: Option<&'t str>,
    /// Flowers treated.
    #[serde(default)]
    pub flowers: Option<u32>,
    /// Pods that set; 0 is an outcome.
    #[serde(default)]
    pub set: Option<u32>,
    /// When the set was counted.
    #[serde(borrow, default)]
    pub counted: Option<&'t str>,
    /// Whether the spike was covered against stray pollen.
    #[serde(default)]
    pub covered: Option<bool>,
    /// Flowers left alone to measure stray pollen.
    #[serde(default)]
    pub control_flowers: Option<u32>,
    /// Pods on those.
    #[serde(default)]
    pub control_set: Option<u32>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// What one pollination set.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Pod<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// The zone that set it.
    #[serde(borrow, default)]
    pub zone: Option<&'t str>,
    /// Capsules in it.
    #[serde(default)]
    pub capsules: Option<u32>,
    /// When it was harvested.
    #[serde(borrow, default)]
    pub harvested: Option<&'t str>,
    /// Seeds in it.
    #[serde(default)]
    pub seeds: Option<u32>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// Seed of one pod, kept together.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct SeedLot<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// Its pod.
    #[serde(borrow, default)]
    pub pod: Option<&'t str>,
    /// Seeds in it.
    #[serde(default)]
    pub seeds: Option<u32>,
    /// Whether the number is a guess.
    #[serde(default)]
    pub estimated: bool,
    /// Seeds with a visible embryo, percent.
    #[serde(default)]
    pub embryo_percent: Option<u8>,
    /// How it is kept.
    #[serde(borrow, default)]
    pub stored: Option<Said<'t>>,
    /// Seeds given away.
    #[serde(default)]
    pub given_away: Option<u32>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// Seed of a lot, sown on a date in one container.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Sowing<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// Its seed lot.
    #[serde(borrow, default)]
    pub lot: Option<&'t str>,
    /// Its pod, when no lot was recorded.
    #[serde(borrow, default)]
    pub pod: Option<&'t str>,
    /// When it was sown.
    #[serde(borrow, default)]
    pub on: Option<&'t str>,
    /// Seeds sown.
    #[serde(default)]
    pub seeds: Option<u32>,
    /// What it was sown in.
    #[serde(borrow, default)]
    pub container: Option<Said<'t>>,
    /// Mix.
    #[serde(borrow, default)]
    pub medium: Option<Said<'t>>,
    /// Where it stands.
    #[serde(borrow, default)]
    pub place: Option<Said<'t>>,
    /// Seedlings up so far, day by day; each number is a running total.
    #[serde(borrow, default)]
    pub germinated: Vec<Tally<'t>>,
    /// Prickings out.
    #[serde(borrow, default)]
    pub pricked_out: Vec<Pricking<'t>>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// A dated count.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Tally<'t> {
    /// When it was counted.
    #[serde(borrow)]
    pub on: &'t str,
    /// How many.
    pub count: u32,
}

/// Seedlings moved out of the sowing pot.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Pricking<'t> {
    /// When.
    #[serde(borrow)]
    pub on: &'t str,
    /// How many were moved.
    pub moved: u32,
    /// How many were left behind.
    #[serde(default)]
    pub left: Option<u32>,
    /// Where to.
    #[serde(borrow, default)]
    pub to: Option<Said<'t>>,
}

/// Seedlings that are only a count.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Patch<'t> {
    /// Code within the cross.
    pub code: &'t str,
    /// The sowing it comes from.
    #[serde(borrow, default)]
    pub sowing: Option<&'t str>,
    /// The pods it may come from, when a tray was muddled.
    #[serde(borrow, default)]
    pub one_of: Vec<&'t str>,
    /// Alive, day by day.
    #[serde(borrow, default)]
    pub alive: Vec<Tally<'t>>,
    /// Pot or tray.
    #[serde(borrow, default)]
    pub pot: Option<Said<'t>>,
    /// Where it stands.
    #[serde(borrow, default)]
    pub place: Option<Said<'t>>,
    /// What became of it.
    #[serde(borrow, default)]
    pub fate: Option<Fate<'t>>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// A plant with a number.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Seedling<'t> {
    /// Number within the cross.
    pub number: &'t str,
    /// The sowing it comes from.
    #[serde(borrow, default)]
    pub sowing: Option<&'t str>,
    /// Its pod, when no sowing was recorded.
    #[serde(borrow, default)]
    pub pod: Option<&'t str>,
    /// The patch it was taken from.
    #[serde(borrow, default)]
    pub patch: Option<&'t str>,
    /// The pods it may come from, when a tray was muddled: `P1`, or `X21-03.P1` for a pod of another cross.
    #[serde(borrow, default)]
    pub one_of: Box<[&'t str]>,
    /// When it came up.
    #[serde(borrow, default)]
    pub germinated: Option<&'t str>,
    /// When it got its number.
    #[serde(borrow, default)]
    pub numbered: Option<&'t str>,
    /// Where it stands.
    #[serde(borrow, default)]
    pub place: Option<Said<'t>>,
    /// A nickname; never a cultivar epithet.
    #[serde(borrow, default)]
    pub nickname: Option<Said<'t>>,
    /// A cultivar epithet given to this very plant.
    #[serde(borrow, default)]
    pub cultivar: Option<Box<Cultivar<'t>>>,
    /// Dated opinions that differ from the record.
    #[serde(borrow, default)]
    pub identified: Box<[Identification<'t>]>,
    /// Its rooted pieces; none recorded means one plant.
    #[serde(borrow, default)]
    pub ramets: Box<[Ramet<'t>]>,
    /// Its spikes.
    #[serde(borrow, default)]
    pub flowerings: Box<[Flowering<'t>]>,
    /// Its pots.
    #[serde(borrow, default)]
    pub pots: Box<[Potting<'t>]>,
    /// A decision to keep.
    #[serde(borrow, default)]
    pub kept: Option<Box<Kept<'t>>>,
    /// What became of it.
    #[serde(borrow, default)]
    pub fate: Option<Box<Fate<'t>>>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// Readings taken on one day, in one place, by one method, of many plants.
#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Sitting<'t> {
    /// When.
    #[serde(borrow)]
    pub on: &'t str,
    /// Where the plants stood.
    #[serde(borrow, default)]
    pub place: Option<Said<'t>>,
    /// How it was read.
    #[serde(borrow, default)]
    pub method: Option<Said<'t>>,
    /// Who read; "me" or a role.
    #[serde(borrow, default)]
    pub by: Option<Said<'t>>,
    /// Which pitchers were read.
    #[serde(default)]
    pub pitcher: Option<PitcherType>,
    /// The lamp.
    #[serde(borrow, default)]
    pub light: Option<Said<'t>>,
    /// What the columns after the plant are: a trait's code, with a unit where one is meant ("span cm"), or `pest`,
    /// `pitcher`, `note`.
    #[serde(borrow)]
    pub columns: Vec<&'t str>,
    /// One row per plant: its number, then a cell for each column; `""` is not read.
    #[serde(borrow)]
    pub rows: Rows<'t>,
    /// Remarks.
    #[serde(borrow, default)]
    pub note: Option<Said<'t>>,
}

/// Kinds of pitcher.
#[derive(Deserialize, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
#[serde(rename_all = "snake_case")]
pub enum PitcherType {
    /// Of a young plant.
    Juvenile,
    /// Adult, near the ground.
    Lower,
    /// Between.
    Intermediate,
    /// Adult, climbing.
    Upper,
}
