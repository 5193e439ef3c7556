//! A draft of the form for a cultivar's registration: what a registration authority asks for, as far as it is on record.
//!
//! What is asked for follows the International Code of Nomenclature for Cultivated Plants (ninth edition, 2016) and the
//! minimum particulars of a register that goes with it; the vegetative chain and the reason of the name are customary in
//! published entries (common practice, no source). The draft decides nothing and sends nothing.

mod answer;
mod items;
mod sheet;

pub use answer::{Item, RegistrationReport};
pub use items::registration;
