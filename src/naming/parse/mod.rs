//! A label as tokens becomes a formula.
//!
//! One loop over the tokens with a stack of open brackets, so that depth costs memory and never the call stack. Each file
//! answers for one thing a grower may write: a parent (`operand`, `word`), what is marked on it (`mark`, `bracket`), a
//! generation word (`generation`), crosses and chains (`frame`), Purdy strokes (`purdy`).

mod bracket;
mod frame;
mod generation;
mod label;
mod mark;
mod operand;
mod parser;
mod purdy;
mod unknown;
mod word;

pub(super) use parser::{How, Nesting, Parsed, parse};
