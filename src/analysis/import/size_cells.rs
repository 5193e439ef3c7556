//! Cells of readings and of pots, with the unit of their sizes.

use super::answer::{ColumnTaken, Why};
use super::cells::RowReader;
use super::dates::is_blank;
use super::facts::TraitCell;
use super::inexact::is_in_thousands;
use super::unit_cells::unit_of_row;
use crate::observation::asked_columns::unit_word;
use crate::observation::cell::{Misread, value};
use crate::record::{Choose, Length, LengthUnit, Reads, RowClass};
use crate::text::GridRow;

impl RowReader<'_, '_> {
    /// The units of columns of sizes that another column has; one that is not understood is a doubt about that column.
    pub(super) fn units(&mut self, row: &GridRow) {
        let table = self.of.table;
        for column in &table.columns {
            match unit_of_row(column, row) {
                Ok(None) => {}
                Ok(unit) => drop(self.units.insert(column.at, unit)),
                Err(cell) => {
                    let of_units = table.column(|of| Some(of.at) == column.unit_in);
                    self.other(of_units.unwrap_or(column), cell, Why::UnitUnread);
                    self.units.insert(column.at, None);
                }
            }
        }
    }

    pub(super) fn reading(&mut self, column: &ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        let Some(of) = column.of_trait else {
            return self.other(column, cell, Why::NoTrait);
        };
        let declared = &self.of.registry[of];
        if column.has_commas && is_in_thousands(cell) {
            return self.other(column, cell, Why::PointOrThousand);
        }
        let is_length = matches!(declared.reads, Reads::Length(_));
        let bare = is_length && Length::read(cell).is_ok_and(|length| length.unit.is_none());
        let written = match self.unit_of(column).filter(|_| bare) {
            Some(Some(unit)) => format!("{cell} {}", unit_word(unit)),
            Some(None) => return,
            None => cell.to_owned(),
        };
        let cell = match value(declared, &written, None) {
            Ok(_) => written,
            Err(Misread::UnitUnknown) => self.without_unit(column, cell),
            Err(_) => return self.no_number(column, cell, Why::NoReading),
        };
        let on = self.days.get(&column.at).cloned();
        let mut readings = self.facts.readings.iter();
        if let Some(there) = readings.find(|read| read.of == of && read.on == on) {
            if there.cell != cell {
                self.other(column, &cell, Why::SecondReading);
            }
            return;
        }
        self.facts.readings.push(TraitCell {
            of,
            cell,
            on,
            column: column.at,
        });
    }

    pub(super) fn pot(&mut self, column: &ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        self.facts.pot = match Length::read(cell) {
            Ok(length) if length.unit.is_some() => Some(cell.to_owned()),
            Ok(_) => match self.unit_of(column) {
                Some(unit) => unit.map(|unit| format!("{cell} {}", unit_word(unit))),
                None => Some(self.without_unit(column, cell)),
            },
            Err(_) => {
                self.no_number(column, cell, Why::NoReading);
                None
            }
        };
    }

    /// The unit of bare numbers in a column: none where nothing says it, and none inside where what says it is no unit.
    fn unit_of(&self, column: &ColumnTaken) -> Option<Option<LengthUnit>> {
        let of_row = self.units.get(&column.at).copied();
        column.unit.map(Some).or(of_row)
    }

    /// A size without a unit: with the one chosen, else as it stands.
    fn without_unit(&mut self, column: &ColumnTaken, cell: &str) -> String {
        match self.doubt(RowClass::SizeWithoutUnit, column, cell, Why::NoUnit) {
            Choose::Cm => format!("{cell} cm"),
            Choose::Mm => format!("{cell} mm"),
            Choose::In => format!("{cell} in"),
            _ => cell.to_owned(),
        }
    }
}
