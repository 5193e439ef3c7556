//! The report on tables as a person reads it: rows by class, columns, then every doubt.

use super::answer::{ImportReport, TableRow};
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
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
        let classes = self.classes.iter().map(|of| {
            let class = format!("{} ({})", of.class_words, of.class);
            (class, of.rows, of.also, Some(of.done), Some(&of.choices))
        });
        let headings = "headings and titles".to_owned();
        let headings = (headings, self.headings, 0, Some("not read as rows"), None);
        let all = ("all rows of the files".to_owned(), self.rows, 0, None, None);
        let rows: Vec<_> = classes.chain([headings, all]).collect();
        Table::of(&rows)
            .text("class", |row| &row.0)
            .figure("rows", |row| row.1)
            .figure("also in", |row| (row.2 > 0).then_some(row.2))
            .text("what is done", |row| row.3)
            .text("other choices", |row| Some(row.4?.join(", ")))
            .into()
    }

    fn doubt_table(&self) -> Table {
        Table::of(&self.doubts)
            .titled("Rows that are not clear")
            .text("table", |of| &of.table)
            .figure("row", |of| of.row)
            .text("class", |of| of.class)
            .text("column", |of| &of.column)
            .text("cell", |of| &of.found)
            .text("what is not clear", |of| &of.why)
            .text("what is done", |of| of.done)
            .into()
    }
}

impl TableRow {
    fn table(&self) -> Table {
        let at = match self.headed {
            Some(row) => format!("headings in row {row}"),
            None => "no headings found".to_owned(),
        };
        let rows = counted(self.rows, "row", "rows");
        Table::of(&self.columns)
            .titled(format!("{}: {rows}, {at}", self.table))
            .text("column", |of| &of.heading)
            .text("taken for", |of| &of.taken_for)
            .text("by", |of| of.by)
            .figure("cells", |of| of.filled)
            .text("such as", |of| of.examples.join(" | "))
            .into()
    }
}

impl Report for ImportReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        sheet.table(self.class_table());
        for table in &self.tables {
            sheet.table(table.table());
        }
        sheet.table_if_any(self.doubt_table());
        for caution in &self.cautions {
            sheet.caution(Weight::Answer, caution.clone());
        }
        sheet.next.clone_from(&self.next);
        sheet
    }
}
