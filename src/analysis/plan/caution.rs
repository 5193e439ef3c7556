//! What a reader of a plan must keep in mind.

use crate::analysis::kinship::Outcome;
use crate::analysis::merit::{TraitAssumed, WhyLeftOut};
use crate::analysis::plan::flower_ages::FlowerAges;

/// One thing to know before acting on a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum Caution {
    /// No plan keeps every limit.
    NoPlan,
    /// The work was stopped before all was worked out.
    Stopped {
        /// Whether plans as good or better may be left.
        other_plans: bool,
        /// Limits whose cost was not reached.
        limits: usize,
        /// Weights on kinship not looked at.
        weights: usize,
    },
    /// Only so many pods were planned.
    MostPods(u32),
    /// Under the cap on kinship only so many pairings were looked at.
    MostPromising(usize),
    /// Parents that are one of several may bring the inbreeding above the cap.
    MayExceedTheCap {
        /// Seed parent and pollen parent.
        pair: [String; 2],
        /// The cap.
        cap: f64,
        /// Chance of exceeding it, 0 to 1.
        chance: f64,
        /// What the inbreeding may be.
        may_be: Vec<Outcome>,
    },
    /// A doubt about a name, or about a tag.
    Name {
        /// As naming or observation words it.
        doubt: String,
        /// Whether it is behind a plant of the plan, or one to hold where nothing is pollinated now; not only behind one that
        /// could have been used.
        of_the_plan: bool,
    },
    /// What was pollinated before keeps its places on the spikes, and its pots where these are counted.
    Made {
        /// Codes of the pollinations.
        zones: Vec<String>,
        /// Pots that their seedlings take; `None` where there is no limit on pots.
        pots: Option<u32>,
    },
    /// Plants of the plan whose sex was only guessed.
    SexGuessed(Vec<String>),
    /// Plants of the plan, or to hold, whose sex is not on record although their pollen is.
    PollenOfUnsexed(Vec<String>),
    /// A parent whose descent is less sure than a tag.
    Descent {
        /// Its code.
        plant: String,
        /// The evidence in one sentence.
        evidence: String,
    },
    /// Plants of the plan of whose descent something is unknown, so that their pods may vary more than they count.
    LeastSpread(Vec<String>),
    /// Some flowers and pollen may miss each other.
    MayNotMeet,
    /// What worth is, with what it assumes.
    Worth {
        /// Seedlings of a pod.
        seedlings: u32,
        /// Heritability.
        heritability: f64,
        /// S in units of V.
        species_differ: f64,
    },
    /// Pods below the mean are not planned.
    WorthNothing,
    /// The numbers the season was planned with.
    PlannedWith {
        /// Pods to a spike.
        pods_per_spike: u32,
        /// Pods to one pollen.
        uses_per_pollen: u32,
        /// Whether inbreeding costs nothing.
        inbreeding_is_free: bool,
    },
    /// What the chances of seasons ahead believe of the sexes.
    SexesAhead,
    /// Ages at which first flowers are taken to come.
    FirstFlowers(Vec<([f64; 2], FlowerAges)>),
    /// Some years ahead are not known.
    YearNotKnown,
    /// Lines without a kept seedling are counted whole.
    UnmarkedLines,
    /// Lines not shown.
    LinesNotShown(usize),
    /// Unsexed seedlings of a line that may be of another cross.
    LineMixedUp {
        /// The line.
        line: String,
        /// How many.
        n: usize,
    },
    /// Kinship is a minimum; whether it is an expected value as well.
    KinshipIsAMinimum {
        /// Whether parents are one of several.
        expected: bool,
    },
    /// Nothing is promised.
    NoPromise,
    /// No trait is named.
    NoTraits,
    /// What the merit in a trait assumes.
    Trait(TraitAssumed),
    /// Plants whose merit is taken as the mean.
    MeritOfTheMean(WhyLeftOut),
}
