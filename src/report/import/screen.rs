//! The report on tables as a person reads it: rows by class, columns, then every doubt.

use super::answer::{ImportReport, TableRow};
use crate::report::caution::Weight;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::wording::counted;

impl ImportReport {
    fn answer(&self) -> String {
        let out = self.rows - self.headings - self.coming;
        let doubt = match self.in_doubt {
            0 => String::new(),
            some => format!(" ({some} with something in doubt)"),
        };
        let rows = counted(self.rows - self.headings, "row", "rows");
        match &self.recorded {
            Some(recorded) => recorded.clone(),
            None if self.coming == 0 => format!("{rows}: nothing to bring in"),
            None => format!(
                "{rows}: {} would come in{doubt}, {out} would not. Nothing was recorded",
                self.coming
            ),
        }
    }

    fn class_table(&self) -> Table {
        let mut table = Table::new(&[
            "class",
            ">rows",
            ">also in",
            "what is done",
            "other choices",
        ]);
        for of in &self.classes {
            table.row(vec![
                format!("{} ({})", of.class_words, of.class).into(),
                of.rows.into(),
                (of.also > 0).then_some(of.also).into(),
                of.done.into(),
                of.choices.join(", ").into(),
            ]);
        }
        let headings = self.headings;
        let none = || Cell::Missing;
        table.row(vec![
            "headings and titles".into(),
            headings.into(),
            none(),
            "not read as rows".into(),
            none(),
        ]);
        table.row(vec![
            "all rows of the files".into(),
            self.rows.into(),
            none(),
            none(),
            none(),
        ]);
        table
    }

    fn doubt_table(&self) -> Option<Table> {
        let mut table = Table::new(&[
            "table",
            ">row",
            "class",
            "column",
            "cell",
            "what is not clear",
            "what is done",
        ])
        .titled("Rows that are not clear");
        for of in &self.doubts {
            table.row(vec![
                of.table.clone().into(),
                of.row.into(),
                of.class.into(),
                of.column.clone().into(),
                of.found.clone().into(),
                of.why.clone().into(),
                of.done.into(),
            ]);
        }
        (!table.rows.is_empty()).then_some(table)
    }
}

impl TableRow {
    fn table(&self) -> Table {
        let at = match self.headed {
            Some(row) => format!("headings in row {row}"),
            None => "no headings found".to_owned(),
        };
        let mut table =
            Table::new(&["column", "taken for", "by", ">cells", "such as"]).titled(format!(
                "{}: {}, {at}",
                self.table,
                counted(self.rows, "row", "rows")
            ));
        for of in &self.columns {
            table.row(vec![
                of.heading.clone().into(),
                of.taken_for.clone().into(),
                of.by.into(),
                of.filled.into(),
                of.examples.join(" | ").into(),
            ]);
        }
        table
    }
}

impl Report for ImportReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        sheet.table(self.class_table());
        for table in &self.tables {
            sheet.table(table.table());
        }
        if let Some(table) = self.doubt_table() {
            sheet.table(table);
        }
        for caution in &self.cautions {
            sheet.caution(Weight::Answer, caution.clone());
        }
        sheet.next.clone_from(&self.next);
        sheet
    }
}
