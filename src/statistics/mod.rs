//! How siblings differ: arithmetic on numbers, not on plants.
//!
//! Every module answers one question about counts or readings that the caller has already picked out of the registry.
//! A figure that cannot be given is an [`StatisticsError`], never NaN and never zero. Nothing here reads a file, a clock or
//! the platform's source of chance; the same numbers give the same answer.

pub mod classes;
pub mod contingency;
pub mod correlation;
mod count_table;
pub mod culling;
pub mod curves;
pub mod describe;
pub mod distribution;
pub mod error;
pub mod fisher;
pub mod germination;
pub mod germination_limits;
pub mod germination_side_by_side;
pub mod growth;
pub mod heritability;
pub mod interval;
pub mod location;
pub mod matrix;
pub mod merit;
pub mod multinomial;
mod nearly;
mod nelder_mead;
pub mod next_reading;
pub mod noncentral;
pub mod outlier;
pub mod pareto;
pub mod proportion;
pub mod random;
pub mod ranks;
pub mod ratios;
pub mod repeatability;
pub mod sample_size;
pub mod scale;
pub mod segregation;
pub mod spread_scale;
pub mod survival;
pub mod trend;
pub mod vague_means;
pub mod variance;

pub use error::StatisticsError;
pub use interval::{Confidence, Interval};
pub use nearly::nearly_all;
pub use scale::Scale;
