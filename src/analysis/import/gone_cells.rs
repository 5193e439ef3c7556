//! What became of a plant, by the cells of its row: how it went, when, and to whom.

use super::answer::{ColumnTaken, Why};
use super::cell_words::{
    BEHIND, fate_and_rest, is_here, is_name, is_not_alive, is_not_gone, is_not_known, is_of_part,
    without_price,
};
use super::cells::{RowReader, first};
use super::dates::{DateRead, date, is_blank, is_question};
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
        let each = words.split(';').map(str::trim);
        let fates: Option<Vec<_>> = each.map(fate_and_rest).collect();
        let fates = fates.or_else(|| Some(vec![fate_and_rest(words)?]));
        let Some(fates) = fates else {
            return self.other(column, cell, Why::NoStatus);
        };
        for (word, behind) in fates {
            let rest = without_price(behind.trim_start_matches(BEHIND));
            let (rest, cause) = self.without_cause(word, &rest);
            let rest = match ["sold", "given"].contains(&word) && self.begins_with_a_name(&rest) {
                true => format!("to {rest}"),
                false => rest,
            };
            let (on, whom) = self.when_and_whom(&rest);
            // `dead ?` asks whether it is, but for a sheet written by podbook, where `sold ?` says that the day is not known.
            let is_open = is_question(on) && !self.of.table.is_own_sheet;
            if is_open || is_of_part(word, behind) && !self.is_date(on) {
                self.other(column, cell, Why::NoStatus);
                continue;
            }
            first(&mut self.facts.to, whom.map(str::to_owned));
            let on = self.day_of_end(column, on);
            let cause = cause.or_else(|| why.map(str::to_owned));
            self.end(column, cell, Some((word, on, cause)));
        }
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
            words => self.date(column, words),
        };
        on.unwrap_or_else(|| "?".to_owned())
    }

    /// Whether words are one name, or a name and a day: `Anna`, `Anna May 2021`. More words stay a question.
    fn begins_with_a_name(&self, rest: &str) -> bool {
        let (name, behind) = rest.split_once(' ').unwrap_or((rest, ""));
        let day = behind.trim_start_matches("on ").trim_start_matches("in ");
        is_name(name) && !self.is_date(rest) && (day.is_empty() || self.is_date(day))
    }

    /// Words without what stands in brackets, if that is why a plant died or was culled; a date in them is none.
    fn without_cause(&self, word: &str, rest: &str) -> (String, Option<String>) {
        let whole = || (rest.to_owned(), None);
        let Some((before, inner)) = rest.split_once('(') else {
            return whole();
        };
        let Some((inner, behind)) = inner.split_once(')') else {
            return whole();
        };
        if self.is_date(inner) {
            return (format!("{before}{inner}{behind}"), None);
        }
        match ["died", "culled"].contains(&word) && !is_blank(inner) {
            true => {
                let words = format!("{before}{behind}");
                (words.trim().to_owned(), Some(inner.trim().to_owned()))
            }
            false => whole(),
        }
    }

    fn is_date(&self, words: &str) -> bool {
        let read = date(words, self.of.registry.settings.hemisphere, self.of.today);
        !matches!(
            read,
            DateRead::Blank | DateRead::Counted(_) | DateRead::Unread
        )
    }

    /// The day and the person of `to Bo May 2021`, `2023 to a visitor`, `on 3 May 2021`: words at the end that are a date are
    /// the day, since people have no such names.
    fn when_and_whom<'c>(&self, rest: &'c str) -> (&'c str, Option<&'c str>) {
        let on = |words: &'c str| {
            words
                .trim()
                .trim_start_matches("on ")
                .trim_start_matches("in ")
        };
        let person =
            |words: &'c str| Some(words.trim_matches([' ', ','])).filter(|of| !of.is_empty());
        let Some(to) = rest
            .starts_with("to ")
            .then_some(0)
            .or_else(|| rest.find(" to "))
        else {
            return (on(rest), None);
        };
        let whom = rest[to..].trim_start().trim_start_matches("to ");
        if to > 0 {
            return (on(&rest[..to]), person(whom));
        }
        // A date before a comma, and one in figures, is one also where more words stand behind it.
        let day = |at: usize| {
            let rest = on(&whom[at..]);
            let word = rest.split(' ').next();
            let in_figures = |word: &&str| word.matches(['/', '.', '-']).count() == 2;
            let all = [
                Some(rest),
                rest.split([',', ';']).next(),
                word.filter(in_figures),
            ];
            let mut dates = all
                .into_iter()
                .flatten()
                .filter(|words| self.is_date(words));
            Some((at, dates.next()?))
        };
        let begins = whom.match_indices([' ', ',']).map(|(at, _)| at + 1);
        match begins.into_iter().find_map(day) {
            Some((at, day)) => (day, person(&whom[..at])),
            None => ("", person(whom)),
        }
    }

    /// A column that names who has it: the day and the price beside the name are none of it.
    pub fn receiver(&mut self, column: &'a ColumnTaken, cell: &str) {
        let words = format!("to {}", without_price(cell));
        let (on, whom) = self.when_and_whom(&words);
        let whom = whom.filter(|whom| !is_blank(whom));
        first(&mut self.facts.to, whom.map(str::to_owned));
        if !on.is_empty() && self.gone.is_none() {
            let on = self.date(column, on);
            let cell = cell.to_owned();
            self.gone = on.map(|on| Gone { column, cell, on });
        }
    }

    /// A column headed `died` or `sold`: a day, a word that it did, or a plain word that it did not. Words that leave open
    /// whether it did are asked about.
    pub fn left(&mut self, column: &'a ColumnTaken, word: &'static str, cell: &str) {
        let lower = cell.to_lowercase();
        let mut pieces = lower.split([',', ';', '(', ')']);
        let mut pieces = pieces.by_ref().filter(|piece| !piece.trim().is_empty());
        let begins_not = pieces.next().is_some_and(is_not_gone);
        if begins_not && pieces.all(is_not_gone) {
            return;
        }
        if begins_not || is_not_known(cell) || is_question(cell) {
            return self.other(column, cell, Why::NoStatus);
        }
        if is_blank(cell) {
            return;
        }
        let said = ["yes", "y", "x", "true", "1", "✓", word];
        let words = without_price(cell);
        let (on, whom) = self.when_and_whom(&words);
        first(&mut self.facts.to, whom.map(str::to_owned));
        let is_said = said.contains(&lower.as_str());
        let on = self.day_of_end(column, if is_said { "" } else { on });
        self.end(column, cell, Some((word, on, None)));
    }

    /// A day on which the plant went, in a column that does not say how, is that of the end which the other cells say.
    pub fn on_day(&mut self) {
        let Some(Gone { column, cell, on }) = self.gone.take() else {
            return;
        };
        let mut fates = self.ends.iter().filter_map(|end| end.fate.as_ref());
        let said = fates.next().map(|fate| fate.word);
        let word = said.or_else(|| self.word_of_receiver().filter(|_| self.facts.to.is_some()));
        if let Some(word) = word {
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

    /// Somebody it was sold or given to says that it went, though no day is said.
    pub fn went(&mut self) {
        let column = self.of.table.holding(Holds::To);
        if let (Some(_), None, Some(column)) = (&self.facts.to, &self.facts.fate, column) {
            let fate = |word| FateRead {
                word,
                on: "?".to_owned(),
                cause: None,
                column: column.at,
            };
            self.facts.fate = self.word_of_receiver().map(fate);
        }
    }

    /// What became of a plant by the heading of the column that names who has it.
    fn word_of_receiver(&self) -> Option<&'static str> {
        let heading = self.of.table.holding(Holds::To)?;
        match heading.heading.to_lowercase() {
            words if words.contains("sold") || words.contains("buyer") => Some("sold"),
            words if words.contains("given") => Some("given"),
            _ => None,
        }
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
