//! What a plant descends from: exact shares, generations, interspecific heterozygosity, the spread to expect.

mod alikeness;
pub mod composition;
pub mod copies;
mod expected;
pub mod founders;
pub mod generation;
pub mod heterozygosity;
pub mod label;
pub mod part;
mod part_sets;
mod quadrature;
pub mod reserve;
pub mod segregation;
pub mod shares;
pub mod spread;

pub use composition::{Composition, LIMIT_BITS, TooDeep};
pub use copies::{TwoCopies, two_copies};
pub use founders::{FounderDescent, Founders, LabelGeneration};
pub use generation::{Generation, Generations};
pub use heterozygosity::{Heterozygosities, Heterozygosity, heterozygosity_of_each};
pub use label::{CrossKind, CrossKinds};
pub use part::Part;
pub use reserve::{Reserve, Reserves};
pub use segregation::{TraitVariance, variance_from_parent};
pub use shares::Shares;
pub use spread::{Chromosomes, share_deviation};
