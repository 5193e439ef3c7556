//! From a file's text to its typed page.
//!
//! A sound file is parsed once, by `ron`, with every text borrowed. A file at fault is taken apart by `salvage`, which
//! finds each faulty record and keeps the good ones.

use super::plain::plainly;
use super::salvage::{Page, salvage};
use crate::diagnostic::Finding;
use crate::text::{FileId, Sources};
use ron::Options;
use ron::extensions::Extensions;
use serde::Deserialize;

/// The dialect of every file: `Some(x)` may be written `x`.
pub(super) fn dialect() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Parses one text as one record, the plain way.
pub(super) fn typed<'t, T: Deserialize<'t>>(text: &'t str) -> Result<T, ron::error::SpannedError> {
    dialect().from_str(text)
}

/// Reads a page; `None` when nothing of it could be kept. Findings tell every fault with its place.
pub fn read_page<'t, P: Page<'t>>(sources: &'t Sources, file: FileId) -> (Option<P>, Vec<Finding>) {
    let text = sources.text(file);
    if let Ok(page) = plainly::<P>(text) {
        return (Some(page), Vec::new());
    }
    match typed::<P>(text) {
        Ok(page) => (Some(page), Vec::new()),
        Err(error) => salvage(sources, file, &error),
    }
}

/// Whether the plain typed parse accepts a page; the yardstick of the benchmarks.
pub fn parses_plainly<'t, P: Page<'t>>(text: &'t str) -> bool {
    typed::<P>(text).is_ok()
}
