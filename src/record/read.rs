//! From a file's text to its typed page.
//!
//! A sound file is parsed once, with every text borrowed: by `plain` when it is of the plainest form, else by `ron`. A
//! file at fault is taken apart by `salvage`, which finds each faulty record and keeps the good ones.

use super::disputed::{disputed, undisputed};
use super::escapes::spelt_out;
use super::plain::plainly;
use super::salvage::{Page, note_left_out, salvage};
use super::typed::typed;
use super::{ClonesPage, CrossPage, PollenPage, RegistryPage, SpeciesPage};
use crate::diagnostic::Finding;
use crate::text::{FileId, Sources};

/// Reads a page; `None` when nothing of it could be kept. Findings tell every fault with its place.
pub fn read_page<'t, P: Page<'t>>(sources: &'t Sources, file: FileId) -> (Option<P>, Vec<Finding>) {
    let text = sources.text(file);
    if let Ok(page) = plainly::<P>(text) {
        return (Some(page), Vec::new());
    }
    let (page, findings) = read_slowly(sources, file);
    if !findings.is_empty() {
        note_left_out::<P>(sources.get(file), page.is_none());
    }
    (page, findings)
}

fn read_slowly<'t, P: Page<'t>>(sources: &'t Sources, file: FileId) -> (Option<P>, Vec<Finding>) {
    let source = sources.get(file);
    let disputed = disputed(source, file);
    if !disputed.is_empty() {
        let text = source.spelt_out(|text| {
            let kept = undisputed(text)?;
            Some(spelt_out(&kept).unwrap_or(kept))
        });
        let page =
            typed::<P>(text).or_else(|error| salvage(sources, (file, text), &error).0.ok_or(()));
        // What else is at fault may come of the marks, and shows once they are gone.
        return (page.ok(), disputed);
    }
    let text = source.spelt_out(spelt_out);
    match typed::<P>(text) {
        Ok(page) => (Some(page), Vec::new()),
        Err(error) => salvage(sources, (file, text), &error),
    }
}

/// What is wrong with a page of a registry, by its path; what is left out of it is noted at its source.
pub fn page_faults(sources: &Sources, file: FileId) -> Vec<Finding> {
    match sources.get(file).path.as_str() {
        "registry.ron" => read_page::<RegistryPage>(sources, file).1,
        "species.ron" => read_page::<SpeciesPage>(sources, file).1,
        "clones.ron" => read_page::<ClonesPage>(sources, file).1,
        "pollen.ron" => read_page::<PollenPage>(sources, file).1,
        _ => read_page::<CrossPage>(sources, file).1,
    }
}

/// A page as it is read without `ron`; `None` when it is faulty or not of the plainest form. What is read so must be
/// what `ron` reads: the tests hold the two together.
pub fn read_without_ron<'t, P: Page<'t>>(text: &'t str) -> Option<P> {
    plainly(text).ok()
}
