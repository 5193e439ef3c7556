//! Cultivar epithets: accepted, mended or refused, with every rule of the cultivated plant code (ICNCP) that applies.
//!
//! The text is taken apart as typed (`typed`), then asked about its letters, its words and its standing; each answer names its
//! rule. Whether a name was published or registered cannot be known here.

mod context;
mod judge;
mod letters;
mod lists;
mod rule;
mod standing;
mod typed;
mod words;

pub use context::{Context, Raised};
pub use judge::{Judgement, Verdict, judge};
pub use rule::{Action, Remark, Rule};
