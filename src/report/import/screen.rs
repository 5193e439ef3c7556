//! The report on tables as a person reads it: rows by class, columns, then every doubt.

use super::answer::{DoubtRow, ImportReport, TableRow};
use crate::record::RowClass;
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{counted, each_once};

impl ImportReport {
    fn answer(&self) -> String {
        let doubt = match self.in_doubt {
            0 => String::new(),
            some => format!(
                " Of these rows {some} {} something in doubt.",
                if some == 1 { "has" } else { "have" }
            ),
        };
        let rows = counted(self.rows - self.headings, "row", "rows");
        match &self.recorded {
            Some(recorded) => recorded.clone(),
            None if self.coming == 0 => format!("{rows}: nothing to bring in"),
            None => format!(
                "Would bring in {} of {rows}{}.{doubt} Nothing was recorded",
                self.coming,
                self.brings.words()
            ),
        }
    }

    fn class_table(&self) -> Table {
        let classes = self.classes.iter().map(|of| {
            let class = format!("{} ({})", of.class_words, of.class);
            let done = Some(of.done.as_str());
            (class, of.rows, of.also, done, Some(&of.choices))
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

    /// The classes by their words of `import.ron`, so that all of them stand on a screen.
    fn short_class_table(&self) -> Table {
        Table::of(&self.classes)
            .text("class", |of| of.class)
            .figure("rows", |of| of.rows)
            .figure("also in", |of| (of.also > 0).then_some(of.also))
            .text("what it is", |of| of.class_words)
            .text("what is done", |of| &of.done)
            .into()
    }

    /// Rows that are not clear, those of one class with which the same is done together; `differs` first, since these ask
    /// for something to be done.
    fn doubt_tables(&self) -> Vec<Table> {
        let kind = |of: &DoubtRow| (of.class != RowClass::Differs.word(), of.class, of.done);
        let mut kinds = each_once(self.doubts.iter().map(kind));
        kinds.sort_by_key(|kind| kind.0);
        let table = |(_, class, done): (bool, &str, &str)| {
            let rows = self
                .doubts
                .iter()
                .filter(move |of| (of.class, of.done) == (class, done));
            let words = self.classes.iter().find(|of| of.class == class);
            let words = words.map_or(class, |of| of.class_words);
            Table::of(rows)
                .titled(format!("{words} ({class}): {done}"))
                .text("row", |of| format!("{}:{}", of.table, of.row))
                .text("column", |of| &of.column)
                .text("cell", |of| &of.found)
                .text("what is not clear", |of| &of.why)
                .into()
        };
        kinds.into_iter().map(table).collect()
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
        let differs = self
            .classes
            .iter()
            .any(|of| of.class == RowClass::Differs.word());
        sheet.is_said_once = self.change.is_some();
        let mut doubts = self.doubt_tables().into_iter();
        if differs {
            let first: Vec<Table> = doubts.next().into_iter().collect();
            first
                .iter()
                .for_each(|table| sheet.brief_table(table.clone()));
            sheet.tables(first);
        }
        sheet.brief_table(self.short_class_table());
        sheet.table(self.class_table());
        for table in &self.tables {
            sheet.brief_table(table.table());
            sheet.table(table.table());
        }
        sheet.tables(doubts);
        sheet.cautions(Weight::Answer, &self.cautions);
        sheet.next.clone_from(&self.next);
        sheet
    }
}
