//! Why there is no answer on siblings, and what a reader must know; how it is said stands in `report`.

use crate::analysis::carries::carries;
use crate::analysis::names_taken::NamesTaken;
use crate::analysis::siblings::ratio::RatioError;
use crate::observation::circumstances::Circumstance;
use crate::observation::series::LeftOut;

/// A name that no declared trait has.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct UnknownTrait {
    /// As typed.
    pub name: String,
    /// Codes of the declared ones; empty when none is declared.
    pub declared: Vec<String>,
}

/// Why there is no answer.
#[derive(Clone, PartialEq, Debug)]
pub enum SiblingsError {
    /// A code that cannot be used, as `observation` words it.
    Scope(String),
    /// A trait that is not declared.
    Trait(UnknownTrait),
    /// A ratio that does not fit its trait.
    Ratio(RatioError),
}

carries!(SiblingsError: UnknownTrait => Trait, RatioError => Ratio);

/// What a reader must know.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Caution {
    /// Pods differ, and this besides the pod was not alike, or is not known to have been.
    PodsUnlike(Vec<Circumstance>),
    /// Seedlings that may come from another sowing, pod or cross, so that they do not count: how many.
    Muddled(usize),
    /// A trait of which every reading was left out.
    NothingLeft {
        /// Its name.
        name: String,
        /// What was left out.
        left_out: LeftOut,
    },
    /// A name in doubt, as `naming` words it.
    Doubt(String),
    /// Names of founders behind the cross that may be wrong.
    Names(NamesTaken),
}
