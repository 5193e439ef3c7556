//! Cells of dates, each in the order its column is read in.

use super::answer::{ColumnTaken, ReadOn, Why};
use super::cell_words::{fate_and_rest, is_not_gone, is_not_yet};
use super::cells::{RowReader, first};
use super::dates::{DateRead, date_in, is_blank};
use super::short_dates::Days;
use crate::record::{Choose, Day, Holds, RowClass};
use crate::text::GridRow;

impl<'a> RowReader<'a, '_> {
    /// The days of columns of readings that have their own.
    pub(super) fn days(&mut self, row: &GridRow) {
        let columns = self.of.table.columns.iter();
        for column in columns.filter(|of| !of.cell(row).is_empty()) {
            let day = match &column.read_on {
                None => None,
                Some(ReadOn::Day(day)) => self.date(column, day),
                Some(ReadOn::Column(at)) => {
                    let cell = row.cells.get(*at);
                    cell.and_then(|cell| self.date(column, cell.trim()))
                }
            };
            self.days.extend(day.map(|day| (column.at, day)));
        }
    }

    pub(super) fn day(&mut self, column: &'a ColumnTaken, cell: &str) {
        let on = self.date(column, cell);
        // Seed that was given away was not sown.
        let says_not = is_not_gone(cell) || is_not_yet(cell) || fate_and_rest(cell).is_some();
        let unread = self.doubts.last().map(|of| &of.why);
        let unread = matches!(unread, Some(Why::NoDate | Why::NoYear(..))) && on.is_none();
        if column.holds == Holds::Sown && !is_blank(cell) {
            self.sown_unread |= unread && !says_not;
            self.not_sown |= says_not;
        }
        if let Some(field) = self.facts.day(column.holds) {
            first(field, on);
        }
    }

    pub(super) fn date(&mut self, column: &ColumnTaken, cell: &str) -> Option<String> {
        self.date_else(column, cell, Why::NoDate)
    }

    /// The same with what a cell is that is no date.
    pub(super) fn date_else(
        &mut self,
        column: &ColumnTaken,
        cell: &str,
        unread: Why,
    ) -> Option<String> {
        let years_first = column.orders.is_some_and(|of| of.years_first);
        let hemisphere = self.of.registry.settings.hemisphere;
        let why = match date_in(cell, hemisphere, self.of.today, years_first) {
            DateRead::Blank => return None,
            DateRead::Known(text) => return Some(text),
            DateRead::SeveralDays(days) => return Some(self.one_of_days(column, cell, days)),
            DateRead::Counted(day) => {
                self.other(column, cell, Why::CountedDays(day.clone()));
                return Some(day);
            }
            DateRead::NoYear(day, month) => Why::NoYear(day, month),
            DateRead::ToCome => Why::DayToCome,
            DateRead::Unread => unread,
        };
        self.other(column, cell, why);
        None
    }

    /// A date that can be several days: the one chosen, else the range of all. A choice that the cell cannot be read by
    /// leaves it the range.
    fn one_of_days(&mut self, column: &ColumnTaken, cell: &str, days: Days) -> String {
        let why = Why::SeveralDays(days.words());
        let chosen = match self.doubt(RowClass::DateTwoWays, column, cell, why) {
            Choose::DayFirst => days.day_first,
            Choose::MonthFirst => days.month_first,
            Choose::YearFirst => days.year_first,
            Choose::LeaveOut => return range(&days.each()),
            _ => None,
        };
        if let (None, Some(doubt)) = (chosen, self.doubts.last_mut()) {
            doubt.chosen = Choose::Take;
        }
        chosen.map_or_else(|| range(&days.each()), |day| day.to_string())
    }
}

/// The range from the first of some days to the last.
fn range(days: &[Day]) -> String {
    let ends = days.first().zip(days.last());
    ends.map_or_else(String::new, |(one, other)| format!("{one} to {other}"))
}
