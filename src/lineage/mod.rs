//! Who came from whom, and how alike that makes them: the parent table, the graph, and identity by descent.

mod agenda;
pub mod ancestors;
pub mod founding;
pub mod identity;
mod line;
mod live_table;
pub mod nodes;
pub mod pedigree;
mod solving;
mod walk_up;

pub use agenda::Agenda;
pub use ancestors::Extract;
pub use founding::{FounderStock, Founding, Mixture};
pub use identity::{IbdSolution, PedigreeTooComplex, PodIdentity};
pub use line::{Family, Kin, Lineage, Link};
pub use nodes::{GeneticNode, GeneticNodes};
pub use pedigree::{Donor, Origin, OriginRow, Pair, Pedigree, PlantRow};
