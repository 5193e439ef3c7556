//! A label as tokens becomes a formula.
//!
//! One loop over the tokens with a stack of open brackets, so that depth costs memory and never the call stack. Each file
//! answers for one thing a grower may write: a parent (`operand`, `word`), what is marked on it (`mark`, `bracket`), a
//! generation word (`generation`), the word hybrid (`hybrid`), a name in no list (`listed`), authors (`authors`), what is
//! said of the whole (`whole`), crosses and chains (`frame`, `whole_frame`, `cross`), signs (`sign`), remarks in brackets (`remark`), Purdy strokes (`purdy`).

mod authors;
mod backcross;
mod bracket;
mod cross;
mod frame;
mod generation;
mod hybrid;
mod label;
mod listed;
mod mark;
mod operand;
mod parser;
mod purdy;
mod remark;
mod sign;
mod unknown;
mod whole;
mod whole_frame;
mod word;

pub(super) use parser::{How, Nesting, Parsed, parse};
