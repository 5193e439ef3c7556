//! What became of a plant, by the cells of its row: how it went, when, and to whom.

use super::answer::{ColumnTaken, Why};
use super::cell_words::{
    behind_yes, fate_and_rest, is_handed_on, is_here, is_not_alive, is_not_gone, is_not_known,
    is_yes,
};
use super::cells::{RowReader, first};
use super::dates::{is_blank, is_question};
use super::end_words::{EndRead, Said};
use super::ends::{End, Gone, contradiction, the_end};
use super::facts::{ELSEWHERE, FateRead};
use crate::observation::standing::fate_word;
use crate::record::{Fate, Holds, RowClass, When};

/// Columns in which the day of an end can stand, the likeliest first.
const END: [Holds; 5] = [
    Holds::Died,
    Holds::Sold,
    Holds::Given,
    Holds::Gone,
    Holds::Status,
];

/// How a plant ended, when, and why.
type EndWords = (&'static str, String, Option<String>);

impl<'a> RowReader<'a, '_> {
    /// What became of a plant: a word, with a day or `to somebody` behind it. What is not understood is said to be so.
    pub fn status(&mut self, column: &'a ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        if is_here(cell) {
            return self.end(column, cell, None);
        }
        if self.of.table.is_own_sheet && cell == fate_word(&Fate::Elsewhere) {
            return self.end(column, cell, Some((ELSEWHERE, "?".to_owned(), None)));
        }
        if is_not_alive(cell) && column.heading.to_lowercase().contains("alive") {
            return self.end(column, cell, Some(("died", "?".to_owned(), None)));
        }
        // What stands in brackets in podbook's own sheet is why, whatever words it is.
        let own = cell.split_once(" (").filter(|_| self.of.table.is_own_sheet);
        let (words, why) = own.map_or((cell, None), |(words, why)| (words, why.strip_suffix(')')));
        let each = words.split([';', ',', '&']).map(str::trim);
        let fates: Option<Vec<_>> = each.map(fate_and_rest).collect();
        let fates = fates.or_else(|| Some(vec![fate_and_rest(words)?]));
        let Some(fates) = fates else {
            return self.other(column, cell, Why::NoStatus);
        };
        for (word, behind) in fates {
            let said = Said {
                word,
                behind,
                why,
                is_worded: true,
            };
            self.end_by(column, cell, &said);
        }
    }

    /// Notes the end that words say; where they leave it open, that is asked about and the plant counts as here.
    fn end_by(&mut self, column: &'a ColumnTaken, cell: &str, said: &Said) {
        let Some(EndRead { on, whom, cause }) = self.read_end(said) else {
            return self.other(column, cell, Why::NoStatus);
        };
        if is_handed_on(said.word) {
            self.has_it(column, cell, whom);
        }
        let on = self.day_of_end(column, &on);
        self.end(column, cell, Some((said.word, on, cause)));
    }

    /// Notes what a cell says of an end; none where the plant is here.
    fn end(&mut self, column: &'a ColumnTaken, cell: &str, fate: Option<EndWords>) {
        let cell = cell.to_owned();
        let fate = fate.map(|(word, on, cause)| FateRead {
            word,
            on,
            cause,
            column: column.at,
        });
        self.ends.push(End { column, cell, fate });
    }

    /// The day of an end in its words; `?` where they say none.
    fn day_of_end(&mut self, column: &ColumnTaken, words: &str) -> String {
        let on = match words {
            "" => None,
            words => self.date_else(column, words, Why::NoDayOfEnd),
        };
        on.unwrap_or_else(|| "?".to_owned())
    }

    /// A column that names who has it: the day and the price beside the name are none of it.
    pub fn receiver(&mut self, column: &'a ColumnTaken, cell: &str) {
        if self.of.table.is_own_sheet {
            let whom = (!is_blank(cell)).then(|| cell.to_owned());
            return first(&mut self.facts.to, whom);
        }
        if fate_and_rest(cell).is_some() {
            return self.status(column, cell);
        }
        if self.is_no_end(column, cell) {
            return;
        }
        let to = match is_yes(cell) {
            true => String::new(),
            false => format!(" to {cell}"),
        };
        let said = Said {
            word: "given",
            behind: &to,
            why: None,
            is_worded: false,
        };
        let Some(EndRead { on, whom, .. }) = self.read_end(&said) else {
            return self.other(column, cell, Why::NoStatus);
        };
        self.has_it(column, cell, whom);
        let on = self.day_of_end(column, &on);
        let cell = cell.to_owned();
        self.receiver = Some(Gone { column, cell, on });
    }

    /// Notes who has it; another person in a cell before contradicts that.
    fn has_it(&mut self, column: &ColumnTaken, cell: &str, whom: Option<String>) {
        let both = self.facts.to.as_deref().zip(whom.as_deref());
        let differ = |(one, other): (&str, &str)| {
            let (one, other) = (one.to_lowercase(), other.to_lowercase());
            !one.contains(&other) && !other.contains(&one)
        };
        let before = self.receiver.as_ref().map(Gone::against);
        let before = before.or_else(|| self.ends.first().map(End::against));
        if let Some(why) = before.filter(|_| both.is_some_and(differ)) {
            self.doubt(RowClass::Contradiction, column, cell, why);
        }
        first(&mut self.facts.to, whom);
    }

    /// Whether a cell says that the plant did not go, or nothing; words that leave it open are asked about.
    fn is_no_end(&mut self, column: &ColumnTaken, cell: &str) -> bool {
        let pieces = cell.split([',', ';', '(', ')']).map(str::trim);
        let mut pieces = pieces.filter(|piece| !piece.is_empty());
        let begins_not = pieces.next().is_some_and(is_not_gone);
        let is_not = begins_not && pieces.all(is_not_gone);
        let is_open = begins_not && !is_not || is_not_known(cell) || is_question(cell);
        if is_open {
            self.other(column, cell, Why::NoStatus);
        }
        is_open || is_not || is_blank(cell)
    }

    /// A column headed `died` or `sold`: a day, a word that it did, or a plain word that it did not. Words that leave open
    /// whether it did are asked about.
    pub fn left(&mut self, column: &'a ColumnTaken, word: &'static str, cell: &str) {
        if fate_and_rest(cell).is_some() {
            return self.status(column, cell);
        }
        if self.is_no_end(column, cell) {
            return;
        }
        let behind = match is_yes(cell) {
            true => Some(""),
            false => behind_yes(cell),
        };
        let said = Said {
            word,
            behind: &behind.map_or_else(|| format!(" {cell}"), str::to_owned),
            why: None,
            is_worded: behind.is_some(),
        };
        self.end_by(column, cell, &said);
    }

    /// A person who has the plant says that it went, as another cell or the heading says how.
    pub fn went(&mut self) {
        let Some(Gone { column, cell, on }) = self.receiver.take() else {
            return;
        };
        let fates = self.ends.iter().filter_map(|end| end.fate.as_ref());
        let said = fates.map(|fate| fate.word).find(|word| is_handed_on(word));
        let word = said.or_else(|| word_of_receiver(column));
        match (word, self.ends.first()) {
            (Some(word), _) => self.end(column, &cell, Some((word, on, None))),
            (None, None) => self.other(column, &cell, Why::NoStatus),
            (None, Some(end)) if end.fate.is_none() => {
                let why = end.against();
                self.doubt(RowClass::Contradiction, column, &cell, why);
            }
            (None, Some(_)) => {}
        }
    }

    /// A day on which the plant went, in a column that does not say how, is that of the end which the other cells say.
    pub fn on_day(&mut self) {
        let Some(Gone { column, cell, on }) = self.gone.take() else {
            return;
        };
        let mut fates = self.ends.iter().filter_map(|end| end.fate.as_ref());
        if let Some(word) = fates.next().map(|fate| fate.word) {
            let fates = self.ends.iter_mut().filter_map(|end| end.fate.as_mut());
            let mut cause = None;
            for fate in fates {
                cause = cause.or_else(|| fate.cause.clone());
                if fate.on == "?" {
                    fate.on.clone_from(&on);
                }
            }
            return self.end(column, &cell, Some((word, on, cause)));
        }
        match self.ends.first() {
            Some(here) => {
                let why = here.against();
                self.doubt(RowClass::Contradiction, column, &cell, why);
            }
            None => self.other(column, &cell, Why::NoStatus),
        }
    }

    /// What became of the plant by all its cells. Where they contradict each other, the earlier end counts if the row comes:
    /// with it the plant was gone.
    pub fn ended(&mut self) {
        let hemisphere = self.of.registry.settings.hemisphere;
        let when = |text: &str| When::read(text, hemisphere).ok();
        let ends = std::mem::take(&mut self.ends);
        if let Some((one, other)) = contradiction(&ends, when) {
            let why = match (one.column.at, &one.cell) == (other.column.at, &other.cell) {
                true => Why::TwoEnds,
                false => other.against(),
            };
            self.doubt(RowClass::Contradiction, one.column, &one.cell, why);
        }
        self.facts.is_here = ends.iter().any(|end| end.fate.is_none());
        self.facts.fate = the_end(ends, when);
    }

    /// A plant does not leave before it comes.
    pub fn in_order(&mut self) {
        let (Some(came), Some(fate)) = (&self.facts.acquired, &mut self.facts.fate) else {
            return;
        };
        let when = |text: &str| When::read(text, self.of.registry.settings.hemisphere).ok();
        let days = when(&fate.on).zip(when(came));
        if days.is_some_and(|(left, came)| left.surely_before(came)) {
            let found = std::mem::replace(&mut fate.on, "?".to_owned());
            let table = self.of.table;
            if let Some(column) = END.iter().find_map(|holds| table.holding(*holds)) {
                self.other(column, &found, Why::LeftBeforeItCame);
            }
        }
    }
}

/// What became of a plant by the heading of the column that names who has it.
fn word_of_receiver(column: &ColumnTaken) -> Option<&'static str> {
    match column.heading.to_lowercase() {
        words if words.contains("sold") || words.contains("buyer") => Some("sold"),
        words if words.contains("given") => Some("given"),
        _ => None,
    }
}
