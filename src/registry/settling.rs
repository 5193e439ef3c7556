//! Sittings settled in the registry: their plants by row, their headings as columns, what fits neither as findings.

use super::headings::{column_named, headings_meant};
use super::left_out::LeftOut;
use super::lookup::Lookup;
use super::readings::{Cell, CellsOf, Column, ReadingTable, SittingHead, cells_of};
use super::row_types::{CrossRow, PlantRow, SittingRow};
use super::sitting::{FOREIGN, LocalSitting, MOST_COLUMNS};
use super::whole::Registry;
use crate::diagnostic::{Code, Finding, Findings};
use crate::text::{FileId, Names, Span};

/// In place of a plant that is not on record.
const NOBODY: u32 = u32::MAX;

/// How many unknown plants of a sitting are compared with those of the page.
const SUGGESTIONS: usize = 200;

/// Gives the readings of all sittings their plants.
pub(super) fn take_readings<'t>(
    registry: &mut Registry<'t>,
    clone_sittings: Vec<LocalSitting<'t>>,
    findings: &mut Findings,
) {
    let mut sittings: Vec<(FileId, Option<CrossRow>, LocalSitting)> = Vec::new();
    if let Some(file) = registry.clones_file {
        sittings.extend(clone_sittings.into_iter().map(|s| (file, None, s)));
    }
    for (row, cross) in registry.cross_rows().zip(&mut registry.crosses) {
        let (file, taken) = (cross.file, std::mem::take(&mut cross.sittings));
        sittings.extend(taken.into_iter().map(|s| (file, Some(row), s)));
    }
    let heads = sittings
        .into_iter()
        .map(|(file, cross, local)| {
            let lookup = Lookup {
                sources: registry.sources,
                file,
            };
            let settling = Settling {
                registry,
                lookup,
                cross,
            };
            settling.head(local, findings)
        })
        .collect();
    registry.readings = ReadingTable::new(heads, registry.plant_count());
}

/// A sitting being settled.
struct Settling<'a, 't> {
    registry: &'a Registry<'t>,
    lookup: Lookup<'t>,
    cross: Option<CrossRow>,
}

impl<'t> Settling<'_, 't> {
    fn head(&self, mut local: LocalSitting<'t>, findings: &mut Findings) -> SittingHead<'t> {
        let headings = local.sitting.columns.iter();
        let columns: Vec<Column> = headings
            .map(|heading| self.column(heading, findings))
            .collect();
        let foreign = self.foreign_plants(&local, findings);
        if let Some(short) = self.too_few_cells(&local) {
            findings.push(short);
        }
        for row in &mut local.rows {
            row.plant = self
                .plant(row.plant, &foreign)
                .map_or(NOBODY, |plant| plant.0);
        }
        let with_column = columns.len().min(MOST_COLUMNS);
        self.leave_out_faulty(&mut local, with_column, findings);
        SittingHead {
            file: self.lookup.file,
            sitting: local.sitting,
            columns,
            rows: local.rows,
            cells: local.cells,
            spelt: local.spelt,
            at: SittingRow::new(0),
            rows_before: 0,
            between: (0, 0),
        }
    }

    /// Leaves out the rows of plants that are not on record, and the cells without a column.
    fn leave_out_faulty(
        &self,
        local: &mut LocalSitting<'t>,
        columns: usize,
        findings: &mut Findings,
    ) {
        let beyond = |cell: &Cell| usize::from(cell.column) >= columns;
        let sound = local.rows.iter().all(|row| row.plant != NOBODY);
        if sound && !local.cells.iter().any(beyond) {
            return;
        }
        let (mut rows, mut cells) = (Vec::new(), Vec::new());
        for (at, row) in local.rows.iter().enumerate() {
            if row.plant == NOBODY {
                continue;
            }
            for cell in &local.cells[cells_of(&local.rows, at)] {
                if beyond(cell) {
                    findings.push(self.too_many_cells(cell, local, columns));
                } else {
                    cells.push(*cell);
                }
            }
            rows.push(CellsOf {
                plant: row.plant,
                end: cells.len() as u32,
            });
        }
        (local.rows, local.cells) = (rows, cells);
    }

    fn plant(&self, local: u32, foreign: &[Option<PlantRow>]) -> Option<PlantRow> {
        match (local & FOREIGN == 0, self.cross) {
            (false, _) => foreign[(local ^ FOREIGN) as usize],
            (true, Some(cross)) => Some(self.registry[cross].seedlings[local as usize]),
            (true, None) => Some(PlantRow(local)),
        }
    }

    /// Plants of other pages, with a finding for each that is not on record; a code spelt with escapes is reported at
    /// the date of the sitting.
    fn foreign_plants(
        &self,
        local: &LocalSitting<'t>,
        findings: &mut Findings,
    ) -> Vec<Option<PlantRow>> {
        let mut names: Option<Names> = None;
        let mut suggestions_left = SUGGESTIONS;
        let mut found = Vec::with_capacity(local.foreign.len());
        for code in &local.foreign {
            let plant = self.registry.plant(code);
            if plant.is_none() {
                let (mut near, mut left_out) = (Vec::new(), None);
                if suggestions_left > 0 {
                    suggestions_left -= 1;
                    let names = names.get_or_insert_with(|| Names::new(self.own_plants()));
                    near = names.nearest(code);
                    left_out = self.left_out(code);
                }
                let unknown = || self.lookup.unknown_near("plant", code, near);
                let mut finding = left_out.unwrap_or_else(unknown);
                finding.place = finding.place.or_else(|| self.on(local));
                findings.push(finding);
            }
            found.push(plant);
        }
        found
    }

    /// The note on a plant whose record, on this page or another, was left out.
    fn left_out(&self, code: &str) -> Option<Finding> {
        self.registry.left_out("plant", code, self.lookup.file)
    }

    /// Where the date of the sitting stands.
    fn on(&self, local: &LocalSitting) -> Option<Span> {
        let Lookup { sources, file } = self.lookup;
        sources.span_of(file, local.sitting.on)
    }

    /// The warning when rows have fewer cells than there are columns, once for a sitting.
    fn too_few_cells(&self, local: &LocalSitting) -> Option<Finding> {
        let (rows, place) = local.short?;
        let first = place.map_or("", |place| self.lookup.sources.kept_slice(place));
        let found = match rows {
            1 => format!("the row of {first}"),
            more => format!("the row of {first}, and {} more", more - 1),
        };
        let columns = local.sitting.columns.join("`, `");
        Some(
            Finding::warning(
                Code("short-row"),
                "a row has fewer cells than there are columns",
            )
            .at(place.or_else(|| self.on(local)))
            .found(found)
            .needed(format!("the plant, then a cell for each of `{columns}`"))
            .help("write \"\" for what was not read; a cell left out in the middle moves all that follow into the wrong column"),
        )
    }

    /// The numbers on the page, or the codes of the founders.
    fn own_plants(&self) -> Vec<&'t str> {
        match self.cross {
            Some(cross) => self.registry[cross]
                .seedlings
                .iter()
                .filter_map(|&row| self.registry.number(row))
                .collect(),
            None => self.registry.founders().iter().map(|f| f.code).collect(),
        }
    }

    fn too_many_cells(&self, cell: &Cell, local: &LocalSitting, columns: usize) -> Finding {
        let (text, span) = if cell.len == Cell::SPELT {
            (&*local.spelt[cell.start as usize], None)
        } else {
            let end = cell.start + u32::from(cell.len);
            let span = Span::new(self.lookup.file, cell.start..end);
            (self.lookup.sources.kept_slice(span), Some(span))
        };
        Finding::fault(
            Code("cell-without-column"),
            "a row has more cells than there are columns",
        )
        .at(span.or_else(|| self.on(local)))
        .found(format!("`{text}`"))
        .needed(match columns {
            1 => "the plant and at most 1 cell".to_owned(),
            _ => format!("the plant and at most {columns} cells"),
        })
        .help("add the column's heading to `columns`, or take the cell out")
    }

    /// What a heading such as `span cm` or `banding` means.
    fn column(&self, heading: &str, findings: &mut Findings) -> Column {
        let traits = &self.registry.settings.traits;
        if let Some(column) = column_named(traits, heading) {
            return column;
        }
        let known = traits.iter().map(|t| t.code);
        let known: Vec<&str> = known.chain(["pest", "pitcher", "note"]).collect();
        let meant = headings_meant(heading, traits, &known);
        let near = meant.iter().map(String::as_str).collect();
        let lost = LeftOut::trait_note(self.lookup.sources, heading);
        findings.push(match lost {
            Some((help, place)) => {
                let unknown = self.lookup.unknown_near("trait", heading, Vec::new());
                unknown
                    .help(help)
                    .related(place, "left out until this is fixed")
            }
            None => self.lookup.unknown_among("trait", heading, near, &known),
        });
        Column::Unknown
    }
}
