//! Which known names a misspelt word may mean.
//!
//! Words are compared without regard to case and diacritics. The distance is that of Damerau and Levenshtein (the least
//! number of letters put in, left out, replaced, or swapped with their neighbour), and how much of it is forgiven
//! grows with the word. A word that begins a name may mean it however much is left out. The words are the caller's:
//! ids, species, fields.

use strsim::damerau_levenshtein;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// How many names are offered at most.
const OFFERED: usize = 3;
/// Letters a word must have for names to be offered because they begin with it.
const BEGINNING: usize = 3;
/// Letters beyond which a word is not compared: no id is so long, and the time grows with the square.
const LONGEST: usize = 200;

/// Known names, made ready for comparison once, so that many words may be looked up among many names.
#[derive(Clone, Debug, Default)]
pub struct Names<'n> {
    names: Vec<Name<'n>>,
}

#[derive(Clone, Debug)]
struct Name<'n> {
    written: &'n str,
    folded: String,
    letters: Letters,
}

/// How good an answer a name is: less is better. The name itself breaks ties, so the order is always the same.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Rank<'n> {
    distance: usize,
    /// Letters at the start not shared with the word.
    unlike_start: usize,
    name: &'n str,
}

impl<'n> Names<'n> {
    /// Names to choose from; a name that comes twice is offered once.
    pub fn new(names: impl IntoIterator<Item = &'n str>) -> Self {
        let ready = |written| {
            let folded = fold(written);
            let letters = Letters::of(&folded);
            Name {
                written,
                folded,
                letters,
            }
        };
        Self {
            names: names.into_iter().map(ready).collect(),
        }
    }

    /// At most three names the word may mean, the likeliest first; none if nothing is near.
    pub fn nearest(&self, word: &str) -> Vec<&'n str> {
        let folded = fold(word);
        let (letters, length) = (Letters::of(&folded), folded.chars().count());
        if length > LONGEST {
            return Vec::new();
        }
        let near = |name: &Name<'n>| rank(&folded, length, &letters, name);
        let mut best: Vec<Rank> = Vec::with_capacity(OFFERED + 1);
        for rank in self.names.iter().filter_map(near) {
            let at = best.partition_point(|better| *better < rank);
            if at < OFFERED && best.get(at) != Some(&rank) {
                best.insert(at, rank);
                best.truncate(OFFERED);
            }
        }
        best.into_iter().map(|rank| rank.name).collect()
    }
}

/// At most three of the names the word may mean, the likeliest first. For many words use [`Names`].
pub fn nearest<'n>(word: &str, names: impl IntoIterator<Item = &'n str>) -> Vec<&'n str> {
    Names::new(names).nearest(word)
}

/// How good an answer a name is; `None` if it is none.
fn rank<'n>(word: &str, length: usize, letters: &Letters, name: &Name<'n>) -> Option<Rank<'n>> {
    let limit = forgiven(length);
    let begins = length >= BEGINNING && name.folded.starts_with(word);
    if !begins && letters.least_distance(&name.letters) > limit {
        return None;
    }
    let distance = if begins {
        1
    } else {
        damerau_levenshtein(word, &name.folded)
    };
    let alike = word
        .chars()
        .zip(name.folded.chars())
        .take_while(|(a, b)| a == b)
        .count();
    let rank = Rank {
        distance,
        unlike_start: length - alike,
        name: name.written,
    };
    (distance <= limit.max(usize::from(begins))).then_some(rank)
}

/// How many letters may differ in a word of this length.
fn forgiven(length: usize) -> usize {
    match length {
        0 | 1 => 0,
        2..=4 => 1,
        5..=8 => 2,
        _ => 3,
    }
}

/// A word in lower case without diacritics.
fn fold(word: &str) -> String {
    let plain = word.nfd().filter(|c| !is_combining_mark(*c));
    plain.flat_map(char::to_lowercase).collect()
}

/// How often each letter occurs, by its last five bits: a bound on the distance that is cheap to find.
#[derive(Clone, Debug)]
struct Letters([u8; 32]);

impl Letters {
    fn of(word: &str) -> Self {
        let mut counts = [0u8; 32];
        for letter in word.chars() {
            let count = &mut counts[letter as usize % 32];
            *count = count.saturating_add(1);
        }
        Self(counts)
    }

    /// The distance of two words is never less: each step mends at most one letter too many and one too few.
    fn least_distance(&self, other: &Letters) -> usize {
        let over = |a: &[u8; 32], b: &[u8; 32]| -> usize {
            a.iter()
                .zip(b)
                .map(|(a, b)| usize::from(a.saturating_sub(*b)))
                .sum()
        };
        over(&self.0, &other.0).max(over(&other.0, &self.0))
    }
}
