//! A file at fault, taken apart: every faulty field and record found in one run, the good ones kept.
//!
//! The outline of the text says where each value stands, whatever is wrong with its brackets and commas. Each record is
//! then written out alone, compactly and well-formed, and tried with the typed parse that sound files go through; a
//! fault is reported at its place in the file, cut out, and the record tried again. What is left is written back onto a
//! blank copy of the file, every byte at its old offset, and that copy is parsed as the page. Cost grows with the
//! file's length: a list of records is tried record by record, each without the lists inside it.

mod blanked_copy;
mod case;
mod codes;
mod compact;
mod decimal_comma;
mod foreign;
mod kinds;
mod left_out;
mod marks;
mod misread;
mod nameless;
mod numbers;
mod parents_repair;
mod salvaging;
mod told;
mod trial;
mod unread_fields;
mod words;

pub use kinds::Page;
pub(super) use left_out::note_left_out;
pub(super) use salvaging::salvage;
