//! Probabilities of identity by descent: kinship, inbreeding, diversity.

mod complete;
pub mod diversity;
pub mod founders;
pub mod inverse;
mod marginals;
pub mod paths;
pub mod possible;
pub mod product;
pub mod relations;
pub mod sole_lines;
pub mod table;
pub mod three_columns;
pub mod unknowns;

pub use diversity::Diversity;
pub use founders::{
    MarginalAncestor, Representation, effective_ancestors, marginal_ancestors, representation,
};
pub use inverse::{Contribution, InverseParts, Singular};
pub use paths::{Meeting, Path, Paths};
pub use possible::{Draw, Possible, Taken, Way, possible_inbreeding, possible_kinship};
pub use relations::Kinship;
pub use sole_lines::sole_lines;
pub use table::KinshipTable;
pub use three_columns::{NamedPedigree, TableFault, TableRow, pedigree_of_table};
pub use unknowns::{Unknowns, unknowns};
