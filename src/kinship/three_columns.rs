//! A pedigree from any plain table of three columns: plant, seed parent, pollen parent.
//!
//! Rows come in any order; an empty field or `?` is an unknown parent; a plant named only as a parent is a founder.
//! Reading the file, its separators and its header are the caller's; this takes fields with their line numbers. All
//! faults of a table are reported at once, and a loop is named as a whole.

use std::collections::HashMap;
use std::fmt;

use crate::lineage::{Origin, Pedigree, PlantRow};
use crate::registry::founders_first;

/// One row of a table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TableRow<'t> {
    /// Line in the file, from 1.
    pub line: u64,
    /// The plant.
    pub id: &'t str,
    /// Its seed parent, empty or `?` if unknown.
    pub seed: &'t str,
    /// Its pollen parent, empty or `?` if unknown.
    pub pollen: &'t str,
}

/// A pedigree with the ids of its plants.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct NamedPedigree {
    /// Parents first; plants of one pair of parents share an origin.
    pub pedigree: Pedigree,
    /// Id by row.
    pub ids: Vec<String>,
    /// The plants as the table has them, then those named only as parents.
    pub as_written: Vec<PlantRow>,
    rows: HashMap<String, PlantRow>,
}

impl NamedPedigree {
    /// The row of an id.
    pub fn row(&self, id: &str) -> Option<PlantRow> {
        self.rows.get(id).copied()
    }
}

/// What is wrong with a table.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum TableFault {
    /// A row without an id.
    NoId {
        /// Its line.
        line: u64,
    },
    /// An id with two rows.
    Repeated {
        /// The id.
        id: String,
        /// Line of the second row.
        line: u64,
        /// Line of the first.
        first: u64,
    },
    /// A plant named as its own parent.
    OwnParent {
        /// The id.
        id: String,
        /// Its line.
        line: u64,
    },
    /// Plants that descend from each other in a ring.
    Loop {
        /// Each the offspring of the next, the last of the first, with their lines.
        ring: Vec<(String, u64)>,
    },
}

impl fmt::Display for TableFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoId { line } => write!(
                out,
                "line {line}: found no id, needed one; give the plant an id"
            ),
            Self::Repeated { id, line, first } => {
                write!(
                    out,
                    "line {line}: {id} already stands in line {first}; keep one row, or give this plant another id"
                )
            }
            Self::OwnParent { id, line } => {
                write!(
                    out,
                    "line {line}: {id} is named as its own parent; correct that parent"
                )
            }
            Self::Loop { ring } => {
                write!(
                    out,
                    "line {}: {} is its own ancestor: ",
                    ring[0].1, ring[0].0
                )?;
                for (id, line) in ring {
                    write!(out, "{id} (line {line}) is from ")?;
                }
                write!(out, "{}; correct one of these parents", ring[0].0)
            }
        }
    }
}

impl std::error::Error for TableFault {}

/// Builds the pedigree of a table.
///
/// # Errors
/// All faults found, by line; loops only when ids are in order.
pub fn pedigree_of_table<'t>(
    rows: impl IntoIterator<Item = TableRow<'t>>,
) -> Result<NamedPedigree, Vec<TableFault>> {
    let table = Table::of(rows)?;
    let mut loops = Vec::new();
    let order = founders_first(&table.links(), |in_loop| loops.push(table.ring(in_loop)));
    if !loops.is_empty() {
        return Err(loops);
    }
    Ok(table.number(&order))
}

/// The table with ids replaced by indices: first the rows, then those named only as parents.
struct Table<'t> {
    ids: Vec<&'t str>,
    lines: Vec<Option<u64>>,
    parents: Vec<[Option<usize>; 2]>,
}

impl<'t> Table<'t> {
    fn of(rows: impl IntoIterator<Item = TableRow<'t>>) -> Result<Self, Vec<TableFault>> {
        let mut table = Self {
            ids: Vec::new(),
            lines: Vec::new(),
            parents: Vec::new(),
        };
        let (mut index, mut named, mut faults) = (HashMap::new(), Vec::new(), Vec::new());
        for row in rows {
            let Some(id) = known(row.id) else {
                faults.push(TableFault::NoId { line: row.line });
                continue;
            };
            if let Some(&first) = index.get(id) {
                let first: usize = first;
                let first = table.lines[first].expect("a row has a line");
                faults.push(TableFault::Repeated {
                    id: id.to_owned(),
                    line: row.line,
                    first,
                });
                continue;
            }
            index.insert(id, table.ids.len());
            table.ids.push(id);
            table.lines.push(Some(row.line));
            named.push([known(row.seed), known(row.pollen)]);
            if named[named.len() - 1].contains(&Some(id)) {
                faults.push(TableFault::OwnParent {
                    id: id.to_owned(),
                    line: row.line,
                });
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        for pair in named {
            let pair = pair.map(|parent| {
                parent.map(|id| *index.entry(id).or_insert_with(|| table.add_founder(id)))
            });
            table.parents.push(pair);
        }
        table.parents.resize(table.ids.len(), [None, None]);
        Ok(table)
    }

    fn add_founder(&mut self, id: &'t str) -> usize {
        self.ids.push(id);
        self.lines.push(None);
        self.ids.len() - 1
    }

    /// The parents of each id that has any, by index.
    fn links(&self) -> Vec<Vec<u32>> {
        let known =
            |pair: &[Option<usize>; 2]| pair.iter().flatten().map(|&at| at as u32).collect();
        self.parents.iter().map(known).collect()
    }

    /// A loop as a fault, told from the row that stands first.
    fn ring(&self, in_loop: &[u32]) -> TableFault {
        let first = (0..in_loop.len()).min_by_key(|&at| in_loop[at]);
        let mut ring = in_loop.to_vec();
        ring.rotate_left(first.unwrap_or(0));
        let told = |at: u32| {
            let at = at as usize;
            (self.ids[at].to_owned(), self.lines[at].unwrap_or(0))
        };
        TableFault::Loop {
            ring: ring.into_iter().map(told).collect(),
        }
    }

    fn number(&self, order: &[u32]) -> NamedPedigree {
        let mut pedigree = Pedigree::with_capacity(order.len());
        let mut row_of = vec![PlantRow(0); order.len()];
        let mut origins = HashMap::new();
        for at in order.iter().map(|&at| at as usize) {
            let pair = self.parents[at].map(|parent| parent.map(|index| row_of[index]));
            row_of[at] = match pair {
                [None, None] => pedigree.add_founder(),
                [seed, pollen] => {
                    let origin = *origins
                        .entry(pair)
                        .or_insert_with(|| pedigree.add_origin(Origin::certain(seed, pollen)));
                    pedigree.add_offspring(origin)
                }
            };
        }
        let ids: Vec<String> = order
            .iter()
            .map(|&at| self.ids[at as usize].to_owned())
            .collect();
        let rows = ids.iter().cloned().zip(pedigree.plants()).collect();
        NamedPedigree {
            pedigree,
            ids,
            as_written: row_of,
            rows,
        }
    }
}

/// An id without surrounding blanks; nothing if it is empty or `?`.
fn known(field: &str) -> Option<&str> {
    Some(field.trim()).filter(|id| !id.is_empty() && *id != "?")
}
