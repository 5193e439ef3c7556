//! Predicted merit: what each plant is worth as a parent, read or unread, from all relatives and repeated readings.
//!
//! The mixed model (Henderson 1975; textbook: Mrode, from memory) is y = columns + u + p + e: columns are whatever the
//! caller states (mean, age, sitting, pod, shares of species; each fixed or with a stated variance), u the plant's own
//! merit with relationship matrix A, p what is permanent about it but not inherited, e the reading's error. Plants
//! without offspring are absorbed exactly, one by one, so that the equations hold only parents and columns: a pod of four
//! hundred costs four hundred small sums, not four hundred unknowns. Which readings are comparable is the caller's.

mod ages;
mod assembly;
mod contrast;
mod elimination;
mod equations;
mod factor;
mod joined;
mod predict;
mod products;
mod reml;
mod solution;
mod sums;

pub use ages::{AgeCurve, one_age};
pub use contrast::{Centre, OfPlant};
pub use equations::{Design, Reading, Relatives, Unsolvable, Variances};
pub use factor::{Factor, KnownInverse};
pub use predict::{PredictionError, Solved};
pub use products::Products;
pub use reml::{Estimate, Fractions, estimate};
