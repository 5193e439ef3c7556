//! What became of a plant that is known: another end than the one on record or in a row before is no second end but a
//! difference, which is said.

use super::answer::{ImportRow, Who, Why};
use super::corrected_by;
use super::differs::page_of;
use super::facts::{ELSEWHERE, FateRead, RowFacts};
use super::index::folded;
use super::sorting::Sorting;
use crate::observation::standing::{DAY_NOT_KNOWN, fate_word};
use crate::record::{Fate, Holds};

/// How a plant ended.
struct Ended<'a> {
    word: &'static str,
    to: Option<&'a str>,
    /// When; `?` where the day is not known, and none of a plant that was never here.
    on: Option<&'a str>,
    cause: Option<&'a str>,
}

impl Sorting<'_, '_> {
    /// Leaves a further row of a plant its end where none is known; a cell that says another is given back with the place of
    /// its column and why it is none.
    pub fn new_end(&self, row: &mut ImportRow, who: &Who) -> Option<(usize, (String, Why))> {
        let (there, why) = self.known_end(who)?;
        let own = row.facts.fate.take();
        let status = self.table(row).holding(Holds::Status);
        let (at, words) = match &own {
            Some(fate) => {
                let own = Ended::of_row(fate, &row.facts);
                (!self.says(&own, &there)).then(|| (fate.column, own.words()))?
            }
            None => status
                .filter(|_| row.facts.is_here)
                .map(|of| (of.at, "here".to_owned()))?,
        };
        Some((at, (words, why)))
    }

    /// The end of a plant on record or by the rows before, and that another differs from it.
    fn known_end(&self, who: &Who) -> Option<(Ended<'_>, Why)> {
        match who {
            Who::OnRecord(code) => {
                let plant = self.registry.plant(code)?;
                let there = Ended::on_record(self.registry.fate(plant)?);
                let recorded = Some(there.words());
                let by = corrected_by::page(&page_of(self.registry, plant));
                Some((there, Why::Differs { recorded, by }))
            }
            Who::Row(first) => {
                let mut ends = self
                    .rows_of(*first)
                    .filter_map(|of| Some((of, of.facts.fate.as_ref()?)));
                let (of, fate) = ends.next()?;
                let ended = Ended::of_row(fate, &of.facts);
                let (row, there) = (self.place(of), Some(ended.words()));
                let by = corrected_by::page("its page");
                Some((ended, Why::DiffersFrom { row, there, by }))
            }
            Who::Species(_) => None,
        }
    }

    /// Whether an end says nothing else than another; it may say less.
    fn says(&self, own: &Ended, there: &Ended) -> bool {
        let when = |ended: &Ended| ended.on.map(|on| self.registry.when(on));
        let is_same = |own: Option<&str>, there: Option<&str>| {
            own.is_none_or(|own| there.is_some_and(|there| folded(own) == folded(there)))
        };
        own.word == there.word
            && (own.on == Some("?") || when(own) == when(there))
            && is_same(own.cause, there.cause)
            && is_same(own.to, there.to)
    }
}

impl<'a> Ended<'a> {
    fn of_row(fate: &'a FateRead, facts: &'a RowFacts) -> Ended<'a> {
        let word = match fate.word {
            "given" => "given away",
            ELSEWHERE => fate_word(&Fate::Elsewhere),
            word => word,
        };
        Ended {
            word,
            to: facts.to.as_deref(),
            on: Some(&*fate.on).filter(|_| fate.word != ELSEWHERE),
            cause: fate.cause.as_deref(),
        }
    }

    fn on_record(fate: &'a Fate) -> Ended<'a> {
        let cause = match fate {
            Fate::Died { cause, .. } => cause.as_deref(),
            Fate::Culled { reason, .. } => reason.as_deref(),
            Fate::Lost { note, .. } => note.as_deref(),
            _ => None,
        };
        Ended {
            word: fate_word(fate),
            to: fate.handed_on().and_then(|with| with.to),
            on: (!matches!(fate, Fate::Elsewhere)).then(|| fate.on()),
            cause,
        }
    }

    /// `sold to Anna 2023-07-01`, `died, day not known (rot)`.
    fn words(&self) -> String {
        let on = match self.on {
            Some("?") => DAY_NOT_KNOWN.to_owned(),
            on => on.map(|on| format!(" {on}")).unwrap_or_default(),
        };
        let to = self.to.map(|to| format!(" to {to}"));
        let cause = self.cause.map(|cause| format!(" ({cause})"));
        [Some(self.word.to_owned()), to, Some(on), cause]
            .into_iter()
            .flatten()
            .collect()
    }
}
