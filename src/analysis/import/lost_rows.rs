//! Rows without a code that look like one which was brought in before and is in the tables no more: edited since, with a column
//! more, or under another name of its file. Such a row may be no second plant or cross, so it is asked about.

use super::dates::is_blank;
use super::source::parts;
use std::cmp::Reverse;

/// A row that was brought in and is there no more.
pub(super) struct LostRow<'s> {
    table: &'s str,
    number: &'s str,
    /// Its cells without their headings.
    values: Vec<&'s str>,
    /// The code of its record.
    code: &'s str,
}

/// All of them.
pub(super) struct LostRows<'s>(pub Vec<LostRow<'s>>);

impl<'s> LostRow<'s> {
    /// The row whose words a record with this code holds.
    pub fn of(source: &'s str, code: &'s str) -> Option<LostRow<'s>> {
        let (table, number, cells) = parts(source)?;
        Some(LostRow {
            table,
            number,
            values: values(cells),
            code,
        })
    }

    /// How many of its cells are among those of a row.
    fn shared(&self, own: &LostRow) -> usize {
        let shared = self
            .values
            .iter()
            .filter(|value| own.values.contains(value));
        shared.count()
    }
}

impl<'s> LostRows<'s> {
    /// The code of the record that a row may be of: all its cells are those of the lost row, or in one table half of them,
    /// or it has its number.
    pub fn looks_like(&self, source: &str) -> Option<&'s str> {
        let own = LostRow::of(source, "")?;
        let is_equal = |of: &&LostRow| of.values == own.values;
        let of_table = || self.0.iter().filter(|of| of.table == own.table);
        let is_alike =
            |of: &&LostRow| of.shared(&own) > 0 && 2 * of.shared(&own) >= of.values.len();
        let alike = || of_table().filter(is_alike);
        let most_alike = || alike().min_by_key(|of| Reverse(of.shared(&own)));
        let in_place = || of_table().find(|of| of.number == own.number);
        let found = self.0.iter().find(is_equal);
        Some(found.or_else(most_alike).or_else(in_place)?.code)
    }
}

/// The cells that say something, in one order whatever that of the columns.
fn values(cells: &str) -> Vec<&str> {
    let named = cells.split("; ").filter_map(|cell| cell.split_once(": "));
    let mut values: Vec<&str> = named.map(|(_, value)| value).collect();
    values.retain(|value| !is_blank(value));
    values.sort_unstable();
    values
}
