//! Where both sides of a merge say something else, in words and in steps from the page, and whose word stays.

use super::lists::{Manner, manner};
use crate::recording::says::value::Value;

/// Which side's word stays.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Side {
    /// This registry's.
    Ours,
    /// The other's.
    Theirs,
}

/// Which side's word stays for which conflicts: all, or those whose words begin so. The longest beginning decides.
#[derive(Clone, Default, Debug)]
pub struct Decisions(pub Vec<(String, Side)>);

impl Decisions {
    /// The decision on a conflict.
    pub fn on(&self, about: &str) -> Option<Side> {
        let decided = self.0.iter().filter(|of| fits(&of.0, about));
        decided.max_by_key(|of| of.0.len()).map(|of| of.1)
    }

    /// The first decision that is about none of the conflicts.
    pub fn idle<'c>(&self, conflicts: impl Iterator<Item = &'c str> + Clone) -> Option<&str> {
        let mut begins = self.0.iter().map(|of| of.0.as_str());
        begins.find(|begin| {
            let any = conflicts.clone().any(|about| fits(begin, about));
            !begin.is_empty() && !any
        })
    }
}

/// Whether the words of a conflict begin so, and no code goes on behind; those on a reading also by its plant.
fn fits(begin: &str, about: &str) -> bool {
    let begins = |about: &str| {
        let rest = about.strip_prefix(begin);
        let goes_on = |rest: &str| rest.starts_with(|c: char| c.is_alphanumeric());
        rest.is_some_and(|rest| begin.is_empty() || !goes_on(rest))
    };
    begins(about) || of_reading(about).is_some_and(|about| begins(&about))
}

/// The words of a conflict on a reading as one of its plant: `X24-01-7, span cm`.
fn of_reading(about: &str) -> Option<String> {
    let (sitting, reading) = about.rsplit_once(", plant ")?;
    let (page, _) = sitting.split_once(", sittings ")?;
    Some(match page.ends_with(".ron") {
        true => reading.to_owned(),
        false => format!("{page}-{reading}"),
    })
}

/// A field that both sides changed, each to something else.
#[derive(Clone, PartialEq, Debug)]
pub struct Conflict {
    /// What it is about: `X24-01-7, pots 2024-05-01, pot`.
    pub about: String,
    /// Fields and keys of lists by which it is found on its page.
    pub steps: Vec<Step>,
    /// What it says here; none where it is taken out.
    pub here: Option<Value>,
    /// What it says there.
    pub there: Option<Value>,
    /// Whose word stays, if that is decided.
    pub kept: Option<Side>,
}

/// One step from a page to a value.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Step {
    /// Into a field.
    Field(String),
    /// Into the entry of a list with this key and number.
    Entry(String, usize),
}

/// What is merged: a value as it was, here and there.
#[derive(Clone, Copy)]
pub struct Three<'v> {
    /// As both sides had it; none where it is new, or not known.
    pub base: Option<&'v Value>,
    /// Here.
    pub ours: Option<&'v Value>,
    /// There.
    pub theirs: Option<&'v Value>,
}

/// Where a value stands: for words and for finding it.
#[derive(Clone, Default)]
pub struct Place {
    /// In words.
    pub about: String,
    /// In steps.
    pub steps: Vec<Step>,
}

/// The place of a field of what stands at a place.
pub fn field_of(place: &Place, name: &str) -> Place {
    let mut field = Step::Field(name.to_owned());
    let mut steps = place.steps.clone();
    steps.push(std::mem::replace(&mut field, Step::Field(String::new())));
    // Lists are named with their entries.
    let about = match manner(name) {
        Manner::Whole => format!("{}, {name}", place.about),
        _ => place.about.clone(),
    };
    Place { about, steps }
}

/// The place of an entry of a list, which plants and parts of a cross are named by their codes.
pub fn entry_of(place: &Place, (list, manner): (&str, Manner), key: &(String, usize)) -> Place {
    let mut steps = place.steps.clone();
    steps.push(Step::Entry(key.0.clone(), key.1));
    let (about, code) = (&place.about, &key.0);
    let about = match (list, manner) {
        ("clones" | "lots", _) => code.clone(),
        ("seedlings" | "ramets", _) => format!("{about}-{code}"),
        (_, Manner::Things(_)) => format!("{about}.{code}"),
        _ => format!("{about}, {list} {code}"),
    };
    let about = match key.1 {
        1 => about,
        number => format!("{about} ({number})"),
    };
    Place { about, steps }
}
