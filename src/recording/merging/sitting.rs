//! Readings that two sides took or corrected in one sitting: cell by cell, whatever the order of rows and columns.

use super::conflict::{Place, Step, Three};
use super::lists::{Manner, keys};

use crate::recording::says::value::{Record, Value};
use std::collections::{BTreeMap, BTreeSet};

/// A sitting as plants, each with its cells by column.
struct Readings {
    columns: Vec<String>,
    rows: Vec<(String, usize)>,
    cells: BTreeMap<((String, usize), String), Value>,
}

impl Readings {
    fn of(sitting: Option<&Record>) -> Readings {
        let values = |name| sitting.map_or(&[][..], |of| of.list(name));
        let columns: Vec<String> = values("columns").iter().map(Value::line).collect();
        let rows = keys(Manner::Rows, values("rows"));
        let mut cells = BTreeMap::new();
        for (key, row) in rows.iter().zip(values("rows")) {
            for (column, cell) in columns.iter().zip(row.list().iter().skip(1)) {
                if cell.words() != Some("") {
                    cells.insert((key.clone(), column.clone()), cell.clone());
                }
            }
        }
        Readings {
            columns,
            rows,
            cells,
        }
    }
}

/// Sets the columns and rows of a merged sitting, each cell merged for itself.
pub fn merged_readings(
    merged_cell: &mut dyn FnMut(&Place, Three) -> Option<Value>,
    place: &Place,
    (base, ours, theirs): (Option<&Record>, &Record, &Record),
    merged: &mut Record,
) {
    let [was, here, there] = [base, Some(ours), Some(theirs)].map(Readings::of);
    let columns = joined(&was.columns, &here.columns, &there.columns);
    let rows = joined(&was.rows, &here.rows, &there.rows);
    let mut written = Vec::new();
    for row in rows {
        let mut cells = vec![Value::text(&row.0)];
        for column in &columns {
            let cell = (row.clone(), column.clone());
            let of = Three {
                base: was.cells.get(&cell),
                ours: here.cells.get(&cell),
                theirs: there.cells.get(&cell),
            };
            let place = cell_of(place, &row, column);
            let value = merged_cell(&place, of);
            cells.push(value.unwrap_or_else(|| Value::text("")));
        }
        written.push(Value::List(cells));
    }
    let columns: Vec<Value> = columns.into_iter().map(Value::Plain).collect();
    merged.set("columns", Some(Value::List(columns)));
    merged.set_list("rows", written);
}

/// Those here, then those new there, without those that one side took out.
fn joined<T: Ord + Clone>(was: &[T], here: &[T], there: &[T]) -> Vec<T> {
    let [was, own, other] = [was, here, there].map(|of| of.iter().collect::<BTreeSet<&T>>());
    let stays = |of: &&T| !was.contains(of) || own.contains(of) && other.contains(of);
    let new = there.iter().filter(|of| !own.contains(of));
    here.iter().chain(new).filter(stays).cloned().collect()
}

fn cell_of(place: &Place, row: &(String, usize), column: &str) -> Place {
    let mut steps = place.steps.clone();
    steps.push(Step::Field("rows".to_owned()));
    steps.push(Step::Entry(row.0.clone(), row.1));
    Place {
        about: format!(
            "{}, plant {}, {}",
            place.about,
            row.0,
            column.trim_matches('"')
        ),
        steps,
    }
}
