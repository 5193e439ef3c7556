//! Who is in the pedigree of a plant, pod or cross, and how surely each is a parent of the next.
//!
//! [`family`] chooses the plants, [`answer`] puts the pedigree together from [`member`]s and [`crosses`]. Names and every
//! other word are left to `report`; where anything stands on the paper is the layout's question.

mod answer;
mod asked;
mod crosses;
mod drawn;
mod family;
mod member;
mod work;

pub use crate::record::Sex;
pub use answer::{Pedigree, pedigree};
pub use asked::Asked;
pub use crosses::{CrossCodes, PedigreeCross};
pub use drawn::{DrawnKind, DrawnParent, Fate};
pub use family::PedigreeWishes;
pub use member::{Member, PartShares, Who};
