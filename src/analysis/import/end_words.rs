//! The words behind what became of a plant: a day, a person, a cause, or something that leaves open whether it went.

use super::cell_words::{BEHIND, is_handed_on, is_name, without_price};
use super::cells::RowReader;
use super::dates::{DateRead, date, is_blank, is_no_day, is_question};
use super::open_ends::{is_doubt, is_of_part, is_open_receiver, leaves_open, says_so};

/// Words about an end.
pub(super) struct Said<'c> {
    /// What became of the plant.
    pub word: &'static str,
    /// What stands behind that.
    pub behind: &'c str,
    /// Why, where podbook's own sheet says it.
    pub why: Option<&'c str>,
    /// Whether the cell has the word itself, and not the heading above it alone.
    pub is_worded: bool,
}

/// What such words say.
pub(super) struct EndRead {
    /// The words of the day; empty where there are none.
    pub on: String,
    /// The person.
    pub whom: Option<String>,
    /// The cause.
    pub cause: Option<String>,
}

impl RowReader<'_, '_> {
    /// The words of a day, of a person and of a cause behind an end; `None` where it is open whether it was one. Words that
    /// podbook wrote leave nothing open: in its sheet `sold ?` says that the day is not known.
    pub fn read_end(&self, said: &Said) -> Option<EndRead> {
        let rest = without_price(said.behind.trim_start_matches(BEHIND));
        let (rest, cause) = self.without_cause(said.word, &rest);
        let rest = match is_handed_on(said.word) && self.begins_with_a_name(&rest) {
            true => format!("to {rest}"),
            false => rest,
        };
        let (on, whom) = self.when_and_whom(&rest);
        let is_open = is_question(on)
            || is_of_part(said.word, said.behind) && !self.is_date(on)
            || leaves_open(said.word, said.behind)
            || cause.as_deref().is_some_and(is_doubt)
            || is_handed_on(said.word) && whom.is_some_and(is_open_receiver)
            || !said.is_worded && !self.says_end(said.word, on);
        if is_open && !self.of.table.is_own_sheet {
            return None;
        }
        let cause = cause.or_else(|| said.why.map(str::to_owned));
        Some(EndRead {
            on: on.to_owned(),
            whom: whom.map(str::to_owned),
            cause,
        })
    }

    /// Whether words where a day is expected say no more than when and why, so that the heading above them holds; what is still
    /// to come is a plan.
    fn says_end(&self, word: &str, on: &str) -> bool {
        let hemisphere = self.of.registry.settings.hemisphere;
        match date(on, hemisphere, self.of.today) {
            DateRead::ToCome => false,
            _ if on.is_empty() || self.is_date(on) => true,
            _ if is_no_day(on, hemisphere) => false,
            _ => says_so(word, on) || self.is_date(on.trim_end_matches('?')),
        }
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
        // A range of days has a `to` of its own.
        if self.is_date(on(rest)) {
            return (on(rest), None);
        }
        let is_behind_day = |at: &usize| self.is_date(on(&rest[..*at]));
        let behind = || rest.rmatch_indices(" to ").map(|(at, _)| at);
        let to = (rest.starts_with("to ").then_some(0))
            .or_else(|| behind().find(is_behind_day))
            .or_else(|| behind().last());
        let Some(to) = to else {
            return (on(rest), None);
        };
        let whom = rest[to..].trim_start().trim_start_matches("to ");
        let mut begins = whom.match_indices(' ').map(|(at, _)| &whom[..at]);
        if self.is_date(whom) {
            return (whom, None);
        }
        // No person is called like a day: what is meant stays a question.
        if begins.any(|begin| self.is_date(begin)) {
            return (rest, None);
        }
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
}
