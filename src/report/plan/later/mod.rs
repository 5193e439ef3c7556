//! Seasons to come: which seedlings that have not flowered are worth holding, for which year, and how likely that works.
//!
//! Sexes are weighed by what a line has shown and a stated belief in one to one; first flowers by the ages at which this
//! grower's own seedlings flowered, else by common practice. Whether a pod sets is not forecast.

mod tables;
