//! What others may read of `species.ron`: all but a grower's own words about the rows. Those that came with the list a new
//! registry starts with are public already. A doubt about a name stays, or the name would look surer.

use super::starter::STARTER;
use crate::record::{ForOthers, FreeText, SpeciesPage, read_page};
use crate::text::Sources;
use std::collections::BTreeMap;

/// The words about a row: its evidence, its source, its note.
type Words<'p, 't> = [&'p mut Option<FreeText<'t>>; 3];

impl ForOthers for SpeciesPage<'_> {
    fn hide(&mut self) {
        let text = STARTER.iter().find(|file| file.path == "species.ron");
        let mut sources = Sources::new();
        let file = sources.add("species.ron", text.map_or("", |file| file.text));
        let mut listed: SpeciesPage = read_page(&sources, file).0.unwrap_or_default();
        let listed: BTreeMap<&str, Words> = rows(&mut listed).collect();
        for (epithet, own) in rows(self) {
            let public = listed.get(epithet);
            for (at, own) in own.into_iter().enumerate() {
                if own.as_deref() != public.and_then(|of| of[at].as_deref()) {
                    *own = None;
                }
            }
        }
        for spelling in &mut self.synonyms {
            spelling.note = None;
        }
    }
}

/// Species and hybrids with the words about them.
fn rows<'p, 't>(page: &'p mut SpeciesPage<'t>) -> impl Iterator<Item = (&'t str, Words<'p, 't>)> {
    let species = page.species.iter_mut();
    let species = species.map(|row| {
        let words = [&mut row.evidence, &mut row.source, &mut row.note];
        (row.epithet, words)
    });
    let hybrids = page.named_hybrids.iter_mut();
    let hybrids = hybrids.map(|row| {
        let words = [&mut row.evidence, &mut row.source, &mut row.note];
        (row.epithet, words)
    });
    species.chain(hybrids)
}
