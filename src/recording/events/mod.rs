//! One file an event of the bench: what was asked for becomes changes of pages.

pub mod add;
pub mod add_seed;
pub mod back;
pub mod collect;
pub mod correct;
pub mod count;
pub mod cutting;
pub mod flower;
mod found;
pub mod gone;
pub mod harvest;
mod in_between;
pub mod keep;
pub mod measure;
pub mod muddle;
pub mod number;
pub mod opinion;
pub mod photos;
pub mod place;
pub mod pollinate;
pub mod pot;
pub mod prick;
pub mod seen;
pub mod sitting_page;
pub mod sow;
pub mod took;
pub mod treat;
