//! Predicted merit as a person reads it: the best first.

use super::super::sheet::{Cell, Report, Sheet, Table};
use super::super::words::counted;
use super::answer::MeritReport;

impl Report for MeritReport {
    fn sheet(&self) -> Sheet {
        let names: Vec<&str> = self.traits.iter().map(|of| of.name.as_str()).collect();
        let read: usize = self.traits.iter().map(|of| of.readings).sum();
        let best = self
            .rows
            .first()
            .map_or_else(String::new, |row| format!("; best predicted: {}", row.id));
        let mut sheet = Sheet::new(format!(
            "merit in {} of {} from {}{best}",
            names.join(" and "),
            counted(self.rows.len(), "plant", "plants"),
            counted(read, "reading", "readings"),
        ));
        sheet.table(self.table());
        sheet.cautions.extend(self.cautions.iter().cloned());
        sheet
    }
}

impl MeritReport {
    fn table(&self) -> Table {
        let several = self.traits.len() > 1;
        let mut headings = vec!["plant".to_owned()];
        if several {
            headings.extend([">index (genetic SD)".to_owned(), "+>±".to_owned()]);
        }
        for of in &self.traits {
            let unit = match of.unit {
                "percent" => ", %",
                "steps" => ", steps",
                _ => "",
            };
            headings.extend([
                format!(">{}{unit}", of.code),
                match of.unit {
                    "percent" => "+>± 1 error".into(),
                    _ => "+>±".into(),
                },
                "+>reliability".into(),
                "+>n".into(),
                "+known by".into(),
            ]);
        }
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings);
        for row in &self.rows {
            let mut cells: Vec<Cell> = vec![row.id.clone().into()];
            if several {
                cells.extend([Cell::Number(row.index, 2), Cell::Number(row.index_error, 2)]);
            }
            for (of, told) in row.of_traits.iter().zip(&self.traits) {
                let decimals = if told.unit == "percent" { 0 } else { 2 };
                cells.extend([
                    Cell::Number(of.merit, decimals),
                    match told.unit {
                        "percent" => of.limits().into(),
                        _ => Cell::Number(of.error, decimals),
                    },
                    Cell::Number(of.reliability, 2),
                    of.readings.into(),
                    of.known_by.into(),
                ]);
            }
            table.row(cells);
        }
        table
    }
}
