//! Changes to a RON text that keep every comment and every other byte.
//!
//! An [`Edit`] replaces a range of bytes. Edits are made from an outline ([`Outline::replace`](super::Outline::replace),
//! `set_field`, `insert_field`, `append`, `remove`), follow the manner of the text around them (indentation, line
//! endings, trailing commas), and are made together by [`apply`], which reads the result back before it is given out.
//! What is put in is RON text; making that text from a record, and writing the file, are left to others.

mod apply;
mod comments;
mod insert;
mod layout;
mod remove;

pub use apply::{Edit, EditFault, apply, made};
