//! Names that labels of a lineage bear and that are not in the grower's own list of species.

use super::labels::Labels;
use super::names_used::LISTS;
use crate::naming::recorded::vocabulary;
use crate::recording::draft::Draft;
use crate::recording::slip::Slip;
use crate::registry::Registry;
use crate::text::Outline;

/// Adds the rows that are not there yet, as the other grower wrote them; a row that is there stays as it is.
///
/// # Errors
/// If the page cannot be read or changed.
pub(super) fn take_in_names(theirs: &Registry, draft: &mut Draft) -> Result<(), Slip> {
    let page = |registry: &Registry| {
        let file = registry.sources.find("species.ron");
        file.map(|file| registry.sources.text(file).to_owned())
    };
    let Some(told) = page(theirs) else {
        return Ok(());
    };
    let own = page(draft.registry).unwrap_or_default();
    for (list, key) in LISTS {
        let known: Vec<String> = rows(&own, list, key)
            .into_iter()
            .map(|(key, _)| key)
            .collect();
        let new = rows(&told, list, key).into_iter();
        let new: Vec<String> = new
            .filter(|(key, _)| !known.contains(key))
            .map(|(_, row)| row)
            .collect();
        draft.species()?.append(list, &new)?;
    }
    Ok(())
}

/// Doubts about species on labels of another registry that the rows here do not say: those rows stay as they are, and no answer
/// here would repeat the doubt.
pub fn doubts_not_here(ours: &Registry, theirs: &Registry, by: &str) -> Vec<String> {
    let (here, there) = (vocabulary(ours), vocabulary(theirs));
    let listed = |epithet: &str| ours.taxa.species.iter().any(|row| row.epithet == epithet);
    let species = theirs.taxa.species.iter().map(|row| row.epithet);
    let species = species.filter(|epithet| listed(epithet));
    let doubts = species.filter_map(|epithet| {
        let doubt = there.doubt(epithet)?;
        (here.doubt(epithet).as_ref() != Some(&doubt)).then_some((epithet, doubt))
    });
    let doubts: Vec<(&str, String)> = doubts.collect();
    if doubts.is_empty() {
        return Vec::new();
    }
    let labels = Labels::of(theirs, theirs.plants(), theirs.cross_rows());
    let used = doubts
        .into_iter()
        .filter(|(epithet, _)| labels.has(epithet));
    let words = used.map(|(_, doubt)| {
        format!(
            "The registry {by} records a doubt that your species.ron does not have: {doubt}. Write it as `doubt` into the row of the species, and every answer about its plants repeats it"
        )
    });
    words.collect()
}

/// The rows of a list with what each is about.
fn rows(page: &str, list: &str, key: &str) -> Vec<(String, String)> {
    let outline = Outline::of(page);
    let list = outline.root().and_then(|root| outline.follow(root, list));
    let Some(list) = list else {
        return Vec::new();
    };
    let row = |row| {
        let about = outline.field(row, key)?;
        Some((
            outline.slice(about).to_owned(),
            outline.slice(row).to_owned(),
        ))
    };
    outline.children(list).filter_map(row).collect()
}
