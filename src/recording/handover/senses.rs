//! Words on labels that mean one thing in another registry and something else in this one.

use super::labels::Labels;
use crate::naming::recorded::{vocabulary, vocabulary_of_both};
use crate::naming::{Formula, ReadOptions, Vocabulary, read};
use crate::recording::slip::Slip;
use crate::registry::Registry;
use std::collections::BTreeMap;

/// What a word of `species.ron` stands for.
struct Sense<'r> {
    word: &'r str,
    means: String,
    /// How the parents of a hybrid or a cultivar were combined, where that is on record.
    formula: Option<&'r str>,
    /// Whether labels are read so: a hybrid may have parents that its labels are not read as.
    is_read: bool,
}

impl Sense<'_> {
    /// Whether both stand for other things, whatever the label.
    fn contradicts(&self, other: &Sense) -> bool {
        self.means != other.means
    }

    /// Whether a label may be read here as what it is not read as there.
    fn may_say_more(&self, there: Option<&Sense>) -> bool {
        let is_same = |there: &Sense| there.is_read && there.formula == self.formula;
        self.is_read && !there.is_some_and(is_same)
    }

    fn words(&self) -> &str {
        self.formula.unwrap_or(&self.means)
    }
}

/// The senses of short codes, other spellings, hybrids and epithets whose parents are known, by their words in small letters.
fn senses<'r>(registry: &'r Registry) -> BTreeMap<String, Sense<'r>> {
    let taxa = &registry.taxa;
    let sense = |(word, means): (&'r str, &str)| Sense {
        word,
        means: means.to_owned(),
        formula: None,
        is_read: true,
    };
    let codes = taxa.codes.iter().map(|row| (row.code, row.means));
    let spellings = taxa.synonyms.iter().map(|row| (row.name, row.now));
    let hybrids = taxa.named_hybrids.iter();
    let hybrids = hybrids.filter(|row| !row.parents.is_empty()).map(|row| {
        let mut parents = row.parents.clone();
        parents.sort_unstable();
        Sense {
            word: row.epithet,
            means: parents.join(" × "),
            formula: row.formula.as_deref(),
            is_read: row.expand,
        }
    });
    let epithets = taxa.epithets.iter();
    let epithets = epithets.filter_map(|row| {
        let formula = Some(row.formula.as_deref()?);
        // Two formulas differ where they are read so, not where they are written in other words.
        let sense = sense((&*row.epithet, ""));
        Some(Sense { formula, ..sense })
    });
    let all = codes.chain(spellings).map(sense);
    let all = all.chain(hybrids).chain(epithets);
    all.map(|sense| (sense.word.to_lowercase(), sense))
        .collect()
}

/// Refuses labels that would be read here as something else than there. A label is taken in as it is written, and whoever
/// recorded it meant what it means there. That goes for a word that has no meaning there, too: a label must not gain parents
/// on its way.
///
/// # Errors
/// If a word of a label there means something else here.
pub fn labels_agree(ours: &Registry, theirs: &Registry, by: &str) -> Result<(), Slip> {
    let (own, told) = (senses(ours), senses(theirs));
    let both = own.iter().map(|(word, here)| (here, told.get(word)));
    let differ = both.filter(|(here, there)| {
        there.is_some_and(|there| here.contradicts(there)) || here.may_say_more(*there)
    });
    let differ: Vec<(&Sense, Option<&Sense>)> = differ.collect();
    if differ.is_empty() {
        return Ok(());
    }
    let labels = Labels::of(theirs, theirs.plants(), theirs.cross_rows());
    let mut used = differ
        .into_iter()
        .filter(|(here, _)| labels.has(here.word))
        .peekable();
    if used.peek().is_none() {
        return Ok(());
    }
    let words = (vocabulary(theirs), vocabulary_of_both(ours, theirs));
    let reads_otherwise = |here: &Sense| {
        labels
            .with(here.word)
            .any(|label| !is_read_alike(label, &words))
    };
    let found = used.find(|(here, there)| {
        there.is_some_and(|there| here.contradicts(there)) || reads_otherwise(here)
    });
    match found {
        None => Ok(()),
        Some((here, there)) => Err(refused(by, here, there)),
    }
}

/// Whether a label says the same with the words there and with those here.
fn is_read_alike(label: &str, (there, here): &(Vocabulary, Vocabulary)) -> bool {
    match (formula(label, there), formula(label, here)) {
        (Some(there), Some(here)) => there.same_as(&here),
        (there, here) => there.is_none() && here.is_none(),
    }
}

fn formula(label: &str, words: &Vocabulary) -> Option<Formula> {
    let reading = read(label, words, ReadOptions::default());
    reading.formula.filter(|_| reading.refused.is_none())
}

fn refused(by: &str, here: &Sense, there: Option<&Sense>) -> Slip {
    let (word, means) = (here.word, here.words());
    let there = there.filter(|there| there.is_read || here.contradicts(there));
    let (wanted, found) = match there {
        Some(there) => (format!("means {}", there.words()), format!("means {means}")),
        None => (format!("is not read as {means} there"), "is".to_owned()),
    };
    Slip::contradicts(
        format!("`{word}` on labels of the registry {by} {wanted}"),
        format!("in your species.ron it {found}, and the labels would be read so"),
        format!(
            "write names out on your labels that have `{word}` and take its row out of your species.ron; or ask for the other registry without it"
        ),
    )
}
