//! Codes of a lineage under which it is taken into another registry.

use crate::record::ToldBy;
use crate::recording::codes::is_free;
use crate::recording::slip::Slip;
use crate::registry::Registry;
use crate::registry::ids::is_code;
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

/// Whose record something is, and its code there: that of the first who told of it, else of the registry `by`.
pub fn teller<'a>(told_by: Option<&'a ToldBy>, code: &'a str, by: &'a str) -> (&'a str, &'a str) {
    told_by.map_or((by, code), |told| (told.registry, told.code))
}

/// The code here of what is known here or not: where its own is taken, that with the name of the registry `by` before it.
/// `codes` are its own and those that begin with it.
///
/// # Errors
/// If that is taken too, or is no code.
pub fn given(
    ours: &Registry,
    codes: &[String],
    known: Option<&str>,
    by: &str,
) -> Result<String, Slip> {
    if let Some(known) = known {
        return Ok(known.to_owned());
    }
    let are_free = |before: &str| {
        let mut codes = codes.iter();
        codes.try_for_each(|code| is_free(ours, &format!("{before}{code}")))
    };
    if are_free("").is_ok() {
        return Ok(codes[0].clone());
    }
    let new = format!("{by}-{}", codes[0]);
    match is_code(&new) {
        true => are_free(&format!("{by}-")).map(|()| new),
        false => Err(Slip::bad_code("plant", &new)),
    }
}
