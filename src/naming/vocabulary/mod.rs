//! The words a label is read with: species, named hybrids, synonyms, declared codes, cultivar epithets in use.
//!
//! Plain rows in, lookups out; where the rows come from (a registry's species file, the starter list) is not decided here.

mod lookup;
mod rows;
mod starter;

pub use lookup::{Vocabulary, plain_quotes};
pub use rows::{CodeRow, CultivarRow, NamedHybridRow, SpeciesRow, SynonymRow, VocabularyRows};
pub use starter::{starter, starter_rows, starter_synonyms};
