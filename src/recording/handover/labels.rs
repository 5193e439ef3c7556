//! The words of labels, to be asked which names, codes and spellings stand on them.

use crate::naming::plain_quotes;
use crate::record::Parents;
use crate::registry::{CrossRow, PlantRow, Registry};
use std::collections::{BTreeMap, BTreeSet};

/// Labels in small letters, each with how it is written, and their words.
#[derive(Default)]
pub(super) struct Labels {
    whole: BTreeMap<String, String>,
    words: BTreeSet<String>,
}

impl Labels {
    /// The labels of plants and of pages of crosses.
    pub fn of(
        registry: &Registry,
        plants: impl Iterator<Item = PlantRow>,
        crosses: impl Iterator<Item = CrossRow>,
    ) -> Labels {
        let mut labels = Labels::default();
        for plant in plants {
            let received = registry.founder(plant).map(|founder| &*founder.received);
            let opinions = registry.identified(plant).iter();
            let opinions = opinions.map(|opinion| &*opinion.name);
            labels.extend(received.into_iter().chain(opinions));
        }
        for cross in crosses {
            let page = &registry[cross].page;
            labels.extend(page.received.as_deref());
            if let Parents::LabelOnly(label) = &page.parents {
                labels.add(label);
            }
        }
        labels
    }

    /// Adds a label; whether it is a new one.
    pub fn add(&mut self, label: &str) -> bool {
        let plain = plain(label);
        self.words.extend(words(&plain).map(str::to_owned));
        self.whole.insert(plain, label.to_owned()).is_none()
    }

    pub fn extend<'l>(&mut self, labels: impl IntoIterator<Item = &'l str>) {
        for label in labels {
            self.add(label);
        }
    }

    /// Whether a name, a code or a spelling stands on a label: as a word, or where it has a blank or a sign in it, in any place.
    pub fn has(&self, name: &str) -> bool {
        let name = plain(name);
        match is_word(&name) {
            true => self.words.contains(&name),
            false => self.whole.keys().any(|label| label.contains(&name)),
        }
    }

    /// The labels it stands on, as they are written.
    pub fn with(&self, name: &str) -> impl Iterator<Item = &str> {
        let name = plain(name);
        let bears = move |label: &str| match is_word(&name) {
            true => words(label).any(|word| word == name),
            false => label.contains(&name),
        };
        let with = self.whole.iter().filter(move |(label, _)| bears(label));
        with.map(|(_, written)| written.as_str())
    }

    /// The words.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.words.iter().map(String::as_str)
    }
}

/// The words of a label, also without a letter x before them, which may stand for the sign.
fn words(label: &str) -> impl Iterator<Item = &str> {
    let words = label.split(|c| !is_of_a_word(c));
    words
        .flat_map(|word| [Some(word), word.strip_prefix('x')])
        .flatten()
}

fn is_word(name: &str) -> bool {
    name.chars().all(is_of_a_word)
}

fn is_of_a_word(c: char) -> bool {
    c.is_alphanumeric() || c == '-'
}

/// As words are compared: in small letters, with one blank between them and quotes of one kind.
fn plain(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    plain_quotes(&words.join(" ")).to_lowercase()
}
