//! The rows of tables that bring a fault, and which of them to leave out: each is tried, so that what is offered helps.

use super::shell_words::quoted;
use crate::analysis::import::{InputTable, import, rows_in};
use crate::diagnostic::Severity;
use crate::record::{Choose, Day, ImportChoices, RowChoice};
use crate::recording::checked::{Consequences, consequences};
use crate::recording::draft::Draft;
use crate::recording::import::bring_in;
use crate::registry::Registry;
use crate::text::{Span, visible};
use std::collections::BTreeSet;

/// Rows named behind the faults they would bring, and tried.
const FAULTY_ROWS: usize = 10;

/// What was to be brought in.
pub(super) struct Refused<'a, 't> {
    pub registry: &'a Registry<'t>,
    pub tables: &'a [InputTable],
    pub choices: &'a ImportChoices,
    pub today: Day,
}

/// A row: its table and its number.
type Row = (String, usize);

impl Refused<'_, '_> {
    /// The rows that bring faults, with what leaves them out; empty where no fault is in the record of a row.
    pub fn behind_faults(&self, brought: &Consequences) -> String {
        let rows = rows_behind(brought);
        if rows.is_empty() {
            return String::new();
        }
        let named = rows.iter().take(FAULTY_ROWS);
        let named = named.map(|(table, row)| format!("{}, row {row}", visible(table)));
        let more = match rows.len().saturating_sub(FAULTY_ROWS) {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        let named: Vec<String> = named.collect();
        format!(
            "\n\nthe rows this comes from: {}{more}\n{}",
            named.join("; "),
            self.way_out(&rows)
        )
    }

    fn way_out(&self, rows: &BTreeSet<Row>) -> String {
        let tried: Vec<&Row> = rows.iter().take(FAULTY_ROWS).collect();
        let one = tried.iter().find(|row| self.helps(&[**row]));
        let several = || Some(tried.clone()).filter(|all| self.helps(all));
        let helps = one.map(|row| vec![*row]).or_else(several);
        let Some(helps) = helps else {
            return "mend the table".to_owned();
        };
        let choice = |(table, row): &&Row| {
            let choice = quoted(&format!("{table}:{row}=leave_out"));
            format!("--choose {choice}")
        };
        let choices: Vec<String> = helps.iter().map(choice).collect();
        let words = match helps.len() {
            1 => "leave a row out",
            _ => "leave these rows out",
        };
        format!("mend the table, or {words}: {}", choices.join(" "))
    }

    /// Whether the tables bring no fault without some rows.
    fn helps(&self, rows: &[&Row]) -> bool {
        let mut choices = self.choices.clone();
        let left_out = |(table, row): &&Row| RowChoice {
            table: table.clone(),
            row: *row,
            choose: Choose::LeaveOut,
        };
        choices.rows.extend(rows.iter().map(left_out));
        let sorted = import(self.registry, self.tables, &choices, self.today);
        let mut draft = Draft::new(self.registry, self.today);
        let Ok(recorded) = bring_in(&sorted, &mut draft) else {
            return false;
        };
        let pages = draft.changes();
        !consequences(self.registry, &pages, &recorded.about, self.today).are_faulty()
    }
}

/// The rows in the places of the faults, and in those that bear on them.
fn rows_behind(brought: &Consequences) -> BTreeSet<Row> {
    let faults = brought.findings.iter();
    let faults = faults.filter(|of| of.severity == Severity::Fault);
    let places = faults.flat_map(|of| {
        let related = of.related.iter().map(|(span, _)| *span);
        of.place.into_iter().chain(related)
    });
    places.flat_map(|span| rows_at(brought, span)).collect()
}

/// The rows whose cells stand in a line of a page. A cross is written over several lines, and its own note stands at the
/// end of its page.
fn rows_at(brought: &Consequences, span: Span) -> Vec<Row> {
    let page = brought.sources.text(span.file);
    let at = brought.sources.locate(span).line as usize;
    let line = page.lines().nth(at.saturating_sub(1)).unwrap_or_default();
    let of_line = rows_in(line);
    let notes = page.lines().filter(|line| line.starts_with("    note: "));
    match of_line.is_empty() {
        true => notes.flat_map(rows_in).collect(),
        false => of_line,
    }
}
