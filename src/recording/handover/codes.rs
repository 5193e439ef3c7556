//! Codes of a lineage under which it is taken into another registry.

use std::collections::BTreeMap;

/// New codes of founders and crosses by their old ones; a code that is not among them stays as it is.
#[derive(Clone, Debug, Default)]
pub struct Codes {
    renamed: BTreeMap<String, String>,
}

impl Codes {
    /// Every code stays as it is.
    pub fn unchanged() -> Codes {
        Codes::default()
    }

    /// Whether every code stays.
    pub fn is_empty(&self) -> bool {
        self.renamed.is_empty()
    }

    /// Gives a founder or a cross a code.
    pub fn rename(&mut self, code: &str, new: String) {
        self.renamed.insert(code.to_owned(), new);
    }

    /// The new code of just this, and not of something before it.
    pub fn exactly(&self, code: &str) -> Option<&str> {
        self.renamed.get(code).map(String::as_str)
    }

    /// Whether something has a new code that stands behind this one and a sign: `-` or `.`.
    pub fn are_under(&self, code: &str, sign: char) -> bool {
        let begin = format!("{code}{sign}");
        let mut from = self.renamed.range(begin.clone()..);
        from.next()
            .is_some_and(|(code, _)| code.starts_with(&begin))
    }

    /// The code of a founder, a cross, a plant of a cross, a piece, or a pod of a cross. What stands behind the code of
    /// the founder or the cross, `-5` or `.P1`, stays.
    pub fn of(&self, code: &str) -> String {
        let ends =
            std::iter::once(code.len()).chain(code.rmatch_indices(['-', '.']).map(|(at, _)| at));
        let found = ends
            .filter_map(|end| Some((self.renamed.get(&code[..end])?, end)))
            .next();
        match found {
            Some((new, end)) => format!("{new}{}", &code[end..]),
            None => code.to_owned(),
        }
    }
}
