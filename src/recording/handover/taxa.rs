//! Names that labels of a lineage bear and that are not in the grower's own list of species.

use crate::record::NamedHybrid;
use crate::recording::draft::Draft;
use crate::recording::slip::Slip;
use crate::registry::Registry;
use crate::text::Outline;

/// The lists of `species.ron`, each with the field that says what a row is about.
const LISTS: [(&str, &str); 4] = [
    ("species", "epithet"),
    ("named_hybrids", "epithet"),
    ("synonyms", "name"),
    ("codes", "code"),
];

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

/// Refuses a lineage whose labels bear a word that means something else here: read by the own list, the plants would be
/// others than those their grower told of.
///
/// # Errors
/// If there is such a word.
pub(super) fn same_words(theirs: &Registry, ours: &Registry) -> Result<(), Slip> {
    let (there, here) = (&theirs.taxa, &ours.taxa);
    let mut unlike = Vec::new();
    for code in &there.codes {
        let own = here.codes.iter().find(|own| own.code == code.code);
        let own = own.filter(|own| own.means != code.means);
        unlike.extend(own.map(|own| (code.code, code.means.to_owned(), own.means.to_owned())));
    }
    for synonym in &there.synonyms {
        let own = here.synonyms.iter().find(|own| own.name == synonym.name);
        let own = own.filter(|own| own.now != synonym.now);
        unlike.extend(own.map(|own| (synonym.name, synonym.now.to_owned(), own.now.to_owned())));
    }
    for hybrid in &there.named_hybrids {
        let parents = |of: &NamedHybrid| {
            let mut parents = of.parents.clone();
            parents.sort_unstable();
            parents.join(" × ")
        };
        let own = here
            .named_hybrids
            .iter()
            .find(|own| own.epithet == hybrid.epithet);
        let own = own.map(parents).filter(|own| *own != parents(hybrid));
        unlike.extend(own.map(|own| (hybrid.epithet, parents(hybrid), own)));
    }
    let Some((word, there, here)) = unlike.first() else {
        return Ok(());
    };
    Err(Slip::Contradicts {
        asked: format!("`{word}` on a label of the lineage means {there}"),
        recorded: format!("in your species.ron it means {here}"),
        help: "nothing was written. Read by your list the plants would be others; ask for labels that write the name out, or change the row in your species.ron if it is wrong".to_owned(),
    })
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
