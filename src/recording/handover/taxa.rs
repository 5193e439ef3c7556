//! Names that labels of a lineage bear and that are not in the grower's own list of species.

use super::names_used::LISTS;
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
