//! Rows without a code that look like one which was brought in before and is in the tables no more: edited since, with a column
//! more, or under another name of its file. Such a row may be no second plant or cross, so it is asked about.

use super::dates::is_blank;
use super::source::parts;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// A row that was brought in and is there no more.
pub(super) struct LostRow<'s> {
    table: &'s str,
    number: &'s str,
    /// Its cells without their headings.
    values: Vec<&'s str>,
    /// The code of its record.
    code: &'s str,
}

/// All of them, and where each kind of likeness is found without a look at every row.
pub(super) struct LostRows<'s> {
    rows: Vec<LostRow<'s>>,
    /// The first row with some cells.
    equal: BTreeMap<Vec<&'s str>, usize>,
    /// The first row with a number in a table.
    in_place: BTreeMap<(&'s str, &'s str), usize>,
    /// Rows of a table by their rarest cells, one more than half of them: of a row that shares half of its cells with
    /// another the two share one of these. Of equal rows the first alone.
    by_cell: BTreeMap<(&'s str, &'s str), Vec<usize>>,
}

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
    /// Lost rows in the order of the record.
    pub fn of(rows: Vec<LostRow<'s>>) -> LostRows<'s> {
        let mut often = BTreeMap::<(&str, &str), usize>::new();
        for row in &rows {
            let cells = row.values.iter().map(|value| (row.table, *value));
            cells.for_each(|cell| *often.entry(cell).or_default() += 1);
        }
        let (mut equal, mut in_place) = (BTreeMap::new(), BTreeMap::new());
        let mut by_cell = BTreeMap::<_, Vec<usize>>::new();
        let mut seen = BTreeSet::new();
        for (at, row) in rows.iter().enumerate() {
            equal.entry(row.values.clone()).or_insert(at);
            in_place.entry((row.table, row.number)).or_insert(at);
            if seen.insert((row.table, &row.values)) {
                let mut rarest = row.values.clone();
                rarest.sort_by_key(|value| often[&(row.table, *value)]);
                rarest.truncate(row.values.len() / 2 + 1);
                rarest.dedup();
                for value in rarest {
                    by_cell.entry((row.table, value)).or_default().push(at);
                }
            }
        }
        drop(seen);
        LostRows {
            rows,
            equal,
            in_place,
            by_cell,
        }
    }

    /// The code of the record that a row may be of: all its cells are those of the lost row, or in one table half of them,
    /// or it has its number.
    pub fn looks_like(&self, source: &str) -> Option<&'s str> {
        let own = LostRow::of(source, "")?;
        let most_alike = || {
            let of_cell = |value| self.by_cell.get(&(own.table, value)).into_iter().flatten();
            let alike: BTreeSet<usize> = own
                .values
                .iter()
                .copied()
                .flat_map(of_cell)
                .copied()
                .collect();
            let shared = alike.into_iter().map(|at| (at, self.rows[at].shared(&own)));
            let half = shared.filter(|(at, shared)| 2 * shared >= self.rows[*at].values.len());
            Some(half.min_by_key(|(_, shared)| Reverse(*shared))?.0)
        };
        let equal = self.equal.get(&own.values).copied();
        let in_place = || self.in_place.get(&(own.table, own.number)).copied();
        Some(self.rows[equal.or_else(most_alike).or_else(in_place)?].code)
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
