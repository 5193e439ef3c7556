//! What was read of the parents, in words: the certain ones one by one, those that may be one as alternatives.

use crate::analysis::siblings::{ParentValue, TraitSummary};
use crate::wording::joined;

impl TraitSummary {
    /// `♀ X1-1 10.2 cm, ♂ M1 30.0 cm or X1-2 12.5 cm`; at most so many of those that may be a parent, and how many others may.
    pub(super) fn parents_words(
        &self,
        named: usize,
        word: impl Fn(&ParentValue) -> String,
    ) -> String {
        let certain = self.parents.iter().filter(|of| of.certain);
        let certain = certain.map(|of| format!("{}{}", sign(of.bore_the_seed), word(of)));
        let sides = [Some(true), Some(false), None];
        let possible = sides.into_iter().filter_map(|side| {
            let is_it = |of: &&ParentValue| !of.certain && of.bore_the_seed == side;
            let all: Vec<String> = self.parents.iter().filter(is_it).map(&word).collect();
            if all.is_empty() {
                return None;
            }
            // Of those alike one stands for all.
            let mut words: Vec<String> = Vec::new();
            for one in &all {
                if words.len() < named && !words.contains(one) {
                    words.push(one.clone());
                }
            }
            let unnamed = all.iter().filter(|one| !words.contains(one)).count();
            let of_side = self
                .other_parents
                .iter()
                .filter(|of| of.bore_the_seed == side);
            let others = of_side.map(|of| of.n).sum::<usize>() + unnamed;
            words.extend(match others {
                0 => None,
                1 => Some("another".to_owned()),
                n => Some(format!("one of {n} others")),
            });
            Some(format!("{}{}", sign(side), joined(words, " or ")))
        });
        joined(certain.chain(possible), ", ")
    }
}

/// `♀ ` before the seed parent, `♂ ` before the pollen parent; nothing where it is not known which it was.
pub(super) fn sign(bore_the_seed: Option<bool>) -> &'static str {
    match bore_the_seed {
        Some(true) => "♀ ",
        Some(false) => "♂ ",
        None => "",
    }
}
