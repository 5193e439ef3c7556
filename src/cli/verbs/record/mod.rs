//! Commands that record what happened at the bench, one file each, and those that look back on what was recorded.

pub mod add;
pub mod add_seed;
pub mod changes;
pub mod collect;
pub mod correct;
pub mod count;
pub mod cutting;
pub mod envelope;
pub mod flower;
pub mod gone;
pub mod harvest;
pub mod keep;
pub mod muddle;
pub mod number;
pub mod opinion;
pub mod place;
pub mod pollinate;
pub mod pot;
pub mod prick;
pub mod seen;
pub mod sow;
pub mod took;
pub mod treat;
pub mod undo;
