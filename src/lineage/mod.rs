//! Who came from whom, and how alike that makes them: the parent table, the graph, and identity by descent.

mod agenda;
pub mod ancestors;
pub mod founding;
pub mod identity;
mod line;
mod live_table;
pub mod pedigree;
mod solving;
pub mod stems;
mod walk_up;

pub use agenda::Agenda;
pub use ancestors::Extract;
pub use founding::{FounderStock, Founding};
pub use identity::{Identity, PodIdentity, TooEntangled};
pub use line::{Family, Kin, Lineage, Link};
pub use pedigree::{Donor, Origin, Pair, Pedigree, PlantRow};
pub use stems::{Stem, Stems};
