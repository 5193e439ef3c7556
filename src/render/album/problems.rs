//! What is at fault in the registry, the worst first.

use super::words::{Here, say};
use crate::report::{CheckReport, FindingRow, Report};
use maud::{Markup, html};

const KINDS: [(&str, &str); 3] = [
    ("fault", "Faults: what they touch is left out"),
    ("warning", "Warnings: probably mistakes"),
    ("note", "Notes: worth knowing"),
];

pub(super) fn problems(here: Here, of: &CheckReport) -> Markup {
    html! {
        h1 { "Problems" }
        p.answer { (say(&of.sheet().answer)) }
        @for (kind, heading) in KINDS {
            @let found: Vec<&FindingRow> = of.findings.iter().filter(|row| row.severity == kind).collect();
            @if !found.is_empty() {
                section aria-labelledby=(kind) {
                    h2 id=(kind) { (heading) }
                    ul.findings { @for row in found { (finding(here, row)) } }
                }
            }
        }
    }
}

fn finding(here: Here, row: &FindingRow) -> Markup {
    let place = row.file.as_ref().map(|file| match (row.line, row.column) {
        (Some(line), Some(column)) => format!("{file}, line {line}, column {column}"),
        _ => file.clone(),
    });
    html! {
        li {
            p { strong { (here.remark(&row.title)) } }
            @if let Some(place) = place { p.soft { (say(&place)) } }
            @if !row.found.is_empty() { p { "Found: " (here.remark(&row.found)) } }
            @if !row.needed.is_empty() { p { "Needed: " (here.remark(&row.needed)) } }
            @for help in &row.help { p { (here.remark(help)) } }
        }
    }
}
