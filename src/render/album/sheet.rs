//! Parts of an answer that every page has: facts, tables, lines, cautions.

use super::words::{Here, say};
use crate::report::{Cell, ColumnHead, RankedCaution, Section, Sheet, Table};
use maud::{Markup, html};

impl Here<'_> {
    /// Facts, a label and its value each.
    pub fn facts<'f>(self, facts: impl Iterator<Item = (&'f str, &'f str)>) -> Markup {
        let facts: Vec<_> = facts.collect();
        html! {
            @if !facts.is_empty() {
                dl.facts {
                    @for (label, value) in facts {
                        div { dt { (say(label)) } dd { (self.linked(value)) } }
                    }
                }
            }
        }
    }

    /// A table; its first column heads the rows.
    pub fn table(self, table: &Table, name: &str) -> Markup {
        let name = table.title.as_deref().unwrap_or(name);
        html! {
            div.wide role="region" tabindex="0" aria-label=(say(&format!("{name}, table"))) {
                table.rows {
                    @if table.title.is_some() { caption { (say(name)) } }
                    thead { tr { @for column in &table.columns { (head(column)) } } }
                    tbody {
                        @for row in &table.rows {
                            tr {
                                @for (at, (cell, column)) in row.iter().zip(&table.columns).enumerate() {
                                    @if at == 0 { th scope="row" { (self.cell(cell)) } }
                                    @else { td.n[column.right].d[is_day(cell)] data-l=[heading(column)] { span { (self.cell(cell)) } } }
                                }
                            }
                        }
                    }
                }
            }
        }
    }

    fn cell(self, cell: &Cell) -> Markup {
        match cell {
            Cell::Text(text) => self.linked(text),
            Cell::Number(number, decimals) => say(&format!("{number:.*}", usize::from(*decimals))),
            Cell::Count(count) => say(&count.to_string()),
            Cell::Missing => html! { span.none { "–" } },
        }
    }

    /// Lines that a reader should know.
    pub fn cautions(self, cautions: &[RankedCaution]) -> Markup {
        html! {
            @if !cautions.is_empty() {
                section.cautions aria-labelledby="note" {
                    h2 id="note" { "Please note" }
                    ul { @for caution in cautions { li { (self.remark(&caution.text)) } } }
                }
            }
        }
    }

    /// A whole answer below a heading.
    pub fn sheet(self, heading: &str, sheet: &Sheet) -> Markup {
        html! {
            p.answer { (self.remark(&sheet.answer)) }
            @for section in &sheet.sections {
                @match section {
                    Section::Table(table) => (self.table(table, heading)),
                    Section::Facts(title, facts) => {
                        @if let Some(title) = title { h3 { (say(title)) } }
                        (self.facts(facts.iter().map(|(label, value)| (label.as_str(), value.as_str()))))
                    },
                    Section::Lines(title, lines) => {
                        @if let Some(title) = title { h3 { (say(title)) } }
                        ul { @for line in lines { li { (self.remark(line)) } } }
                    },
                }
            }
            @if !sheet.cautions.is_empty() {
                ul.cautions { @for caution in &sheet.cautions { li { (self.remark(&caution.text)) } } }
            }
        }
    }
}

/// Whether a cell holds one day, which is not parted at its hyphens.
fn is_day(cell: &Cell) -> bool {
    let plain = |text: &String| {
        text.bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'-')
    };
    matches!(cell, Cell::Text(text) if text.len() == 10 && plain(text))
}

/// What a phone shows before a value, since there is no room for columns.
fn heading(column: &ColumnHead) -> Option<Markup> {
    (!column.heading.is_empty()).then(|| say(&column.heading))
}

/// A heading of a column; one without words heads nothing.
fn head(column: &ColumnHead) -> Markup {
    html! {
        @if column.heading.is_empty() { td {} }
        @else { th.n[column.right] scope="col" { (say(&column.heading)) } }
    }
}
