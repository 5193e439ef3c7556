//! What changes pages of a registry: a request becomes edits, which are checked and written whole or not at all.

pub mod marks;
