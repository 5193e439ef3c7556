//! Names: labels read, formulas written, epithets judged.
//!
//! A label is read with a [`Vocabulary`] into a [`Formula`], the record of who was crossed with whom; a formula is
//! written in breeder order, in botanical order or as a Purdy pedigree, and gives exact expected shares. A Latin hybrid
//! name is only ever suggested, never put in the formula's place. Formulas of a registry's own plants come from [`recorded`];
//! nothing else here knows of registries.

mod codes;
mod epithet;
mod formula;
mod notes;
mod parse;
mod read;
pub mod recorded;
mod shares;
mod sift;
mod suggest;
mod token;
mod vocabulary;
mod write;

pub use epithet::{Action, Context, Judgement, Raised, Remark, Rule, Verdict, judge};
pub use formula::{
    Certainty, Cross, Direction, Formula, FormulaBuilder, Infraspecific, Leaf, LineOfTwo, Marks,
    Part, PartId, Qualifier, Rank, Relation, Sex, Tag, Unknown, line_of_two,
};
pub use notes::{Note, NoteCode, Refusal, RefusalCode};
pub use read::{Chains, ReadOptions, Reading, as_written, describe, read};
pub use shares::{ShareOf, Shares, shares};
pub use sift::LabelFacts;
pub use suggest::{NoName, Suggestion, suggest};
pub use vocabulary::{
    CodeRow, CultivarRow, NamedHybridRow, SpeciesRow, SynonymRow, Vocabulary, VocabularyRows,
    plain_quotes, starter, starter_rows,
};
pub use write::{
    Fitted, Rung, Style, TooLong, Writing, ascii, botanical, breeder, fit, formula_only, ladder,
    purdy, runs,
};
