//! Words that many plants have, written once.

use crate::analysis::list::PlantLine;
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::TopOf;
use crate::record::When;
use crate::registry::{OriginRow, PodRow};
use crate::wording::days;
use std::collections::{HashMap, HashSet};
use std::rc::Rc;

/// How surely a descent is known, in few words, and its weakest link.
type Surety = (Rc<str>, Rc<str>);

/// What siblings share, written once.
#[derive(Default)]
pub(super) struct Shared {
    formulas: HashMap<OriginRow, Rc<str>>,
    evidence: HashMap<(OriginRow, Option<PodRow>), Surety>,
    days: HashMap<When, Rc<str>>,
    words: HashSet<Rc<str>>,
}

impl Shared {
    /// Words, kept once.
    pub fn word(&mut self, words: &str) -> Rc<str> {
        if let Some(known) = self.words.get(words) {
            return known.clone();
        }
        let words: Rc<str> = words.into();
        self.words.insert(words.clone());
        words
    }

    /// A range of days.
    pub fn days(&mut self, when: When) -> Rc<str> {
        let words = || days(when).into();
        self.days.entry(when).or_insert_with(words).clone()
    }

    /// The formula, genus with every parent.
    pub fn name(&mut self, context: &Context, line: &PlantLine) -> Rc<str> {
        let write = || formula_of(context, TopOf::Plant(line.plant)).into();
        match line.origin {
            None => write(),
            Some(origin) => self.formulas.entry(origin).or_insert_with(write).clone(),
        }
    }

    /// How surely the descent is known.
    pub fn evidence(&mut self, context: &Context, line: &PlantLine) -> Surety {
        let evidence = context.evidence();
        let unit = Unit::Plant(line.plant);
        let how = || {
            let (all, weakest) = (evidence.short(unit), evidence.weakest_short(unit));
            (all.into(), weakest.into())
        };
        match line.as_sure_as {
            None => how(),
            Some(siblings) => self.evidence.entry(siblings).or_insert_with(how).clone(),
        }
    }
}

/// A formula alone, without its basis.
pub(super) fn formula_of(context: &Context, top: TopOf) -> String {
    let formula = context.names().formula_alone(top);
    formula.unwrap_or_else(|long| long.to_string())
}

/// A text, cut short where it has more letters than `most`.
pub(super) fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let cut: String = text.chars().take(most - 1).collect();
    let words = cut
        .rsplit_once(' ')
        .map_or(cut.as_str(), |(words, _)| words);
    format!("{words} …")
}
