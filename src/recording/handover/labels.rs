//! The words of labels, to be asked which names, codes and spellings stand on them.

use crate::naming::plain_quotes;
use crate::record::Parents;
use crate::registry::{CrossRow, PlantRow, Registry};
use std::collections::BTreeSet;

/// Labels in small letters, and their words.
#[derive(Default)]
pub(super) struct Labels {
    whole: BTreeSet<String>,
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
        let label = plain(label);
        let words = label.split(|c| !is_of_a_word(c));
        // A letter x before a name may stand for the sign.
        let words = words.flat_map(|word| [Some(word), word.strip_prefix('x')]);
        self.words.extend(words.flatten().map(str::to_owned));
        self.whole.insert(label)
    }

    pub fn extend<'l>(&mut self, labels: impl IntoIterator<Item = &'l str>) {
        for label in labels {
            self.add(label);
        }
    }

    /// Whether a name, a code or a spelling stands on a label: as a word, or where it has a blank or a sign in it, in any place.
    pub fn has(&self, name: &str) -> bool {
        let name = plain(name);
        match name.chars().all(is_of_a_word) {
            true => self.words.contains(&name),
            false => self.whole.iter().any(|label| label.contains(&name)),
        }
    }

    /// The words.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.words.iter().map(String::as_str)
    }
}

fn is_of_a_word(c: char) -> bool {
    c.is_alphanumeric() || c == '-'
}

/// As words are compared: in small letters, with one blank between them and quotes of one kind.
fn plain(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    plain_quotes(&words.join(" ")).to_lowercase()
}
