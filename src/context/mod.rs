//! A registry made ready for questions: what is worked out of it once, whoever asks.
//!
//! Lineage, names, evidence, shares of species and assumptions about founders are each worked out when first asked for
//! and kept, so that no answer builds them for itself and no question pays for what it does not need. What an answer
//! makes of them is left to `analysis`.

mod descent;
mod founding;
mod made_ready;

pub use descent::Descent;
pub use made_ready::Context;
