//! Words on labels that mean one thing in another registry and something else in this one.

use crate::record::Parents;
use crate::recording::slip::Slip;
use crate::registry::Registry;
use std::collections::{BTreeMap, BTreeSet};

/// What each word of `species.ron` is read as: short codes, other spellings, and hybrids whose parents are known.
fn senses<'r>(registry: &'r Registry) -> BTreeMap<&'r str, String> {
    let taxa = &registry.taxa;
    let codes = taxa
        .codes
        .iter()
        .map(|row| (row.code, row.means.to_owned()));
    let spellings = taxa.synonyms.iter();
    let spellings = spellings.map(|row| (row.name, row.now.to_owned()));
    let hybrids = taxa
        .named_hybrids
        .iter()
        .filter(|row| !row.parents.is_empty());
    let hybrids = hybrids.map(|row| {
        let mut parents = row.parents.clone();
        parents.sort_unstable();
        (row.epithet, parents.join(" × "))
    });
    codes.chain(spellings).chain(hybrids).collect()
}

/// The labels of a registry, in small letters.
fn labels(registry: &Registry) -> Vec<String> {
    let plants = registry.plants();
    let founders = plants.filter_map(|plant| registry.founder(plant));
    let mut labels: Vec<String> = Vec::new();
    for founder in founders {
        labels.push(founder.received.to_lowercase());
        labels.extend(founder.identified.iter().map(|of| of.name.to_lowercase()));
    }
    for page in registry.crosses.iter().map(|cross| &cross.page) {
        labels.extend(page.received.as_deref().map(str::to_lowercase));
        if let Parents::LabelOnly(label) = &page.parents {
            labels.push(label.to_lowercase());
        }
    }
    labels
}

/// Refuses labels that would be read here as something else than there. A label is taken in as it is written, and whoever
/// recorded it meant what it means there.
///
/// # Errors
/// If a word of a label there means something else here.
pub fn labels_agree(ours: &Registry, theirs: &Registry, by: &str) -> Result<(), Slip> {
    let own = senses(ours);
    let differ = senses(theirs).into_iter();
    let differ = differ.filter_map(|(word, there)| {
        let here = own.get(word).filter(|here| **here != there)?;
        Some((word, there, here))
    });
    let differ: Vec<_> = differ.collect();
    if differ.is_empty() {
        return Ok(());
    }
    let labels = labels(theirs);
    let between = |c: char| !(c.is_alphanumeric() || c == '-');
    let words: BTreeSet<&str> = labels.iter().flat_map(|of| of.split(between)).collect();
    let is_used = |word: &str| {
        let word = word.to_lowercase();
        words.contains(word.as_str())
            || words.contains(format!("x{word}").as_str())
            || (word.contains(' ') && labels.iter().any(|of| of.contains(&word)))
    };
    match differ.into_iter().find(|(word, ..)| is_used(word)) {
        None => Ok(()),
        Some((word, there, here)) => Err(Slip::contradicts(
            format!("`{word}` on labels of the registry {by} means {there}"),
            format!("in your species.ron it means {here}, and the labels would be read so"),
            format!(
                "write names out on your labels that have `{word}` and take its row out of your species.ron; or ask for the other registry without it"
            ),
        )),
    }
}
