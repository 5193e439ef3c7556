//! A sheet as text for a terminal, all of it: plain tables without frames, numbers to the right, long lines folded.

use super::folding::{fold, pad};
use super::text_table::table_lines;
use crate::report::{Section, Sheet};
use crate::text::one_line;
use unicode_width::UnicodeWidthStr;

/// A fact with less room than this beside its label stands below it.
const NARROWEST_FACT: usize = 16;

/// Draws a sheet within `width` columns; only a word longer than that, or text that stands as it is, may be wider.
pub fn sheet(sheet: &Sheet, width: usize) -> String {
    let mut out = String::new();
    fold(&sheet.answer, "", width, &mut out);
    for section in &sheet.sections {
        out.push('\n');
        draw_section(section, width, &mut out);
    }
    if !sheet.cautions.is_empty() {
        out.push('\n');
    }
    for caution in &sheet.cautions {
        fold(&format!("! {}", caution.text), "  ", width, &mut out);
    }
    out.push_str(&next_step(sheet, width));
    out
}

/// The next step below an empty line; nothing where there is none.
pub(super) fn next_step(sheet: &Sheet, width: usize) -> String {
    let mut out = String::new();
    if let Some(next) = &sheet.next {
        out.push('\n');
        fold(&format!("Next: {next}"), "      ", width, &mut out);
    }
    out
}

pub(super) fn draw_section(section: &Section, width: usize, out: &mut String) {
    match section {
        Section::Table(table) => {
            heading(table.title.as_deref(), width, out);
            out.push_str(&table_lines(table, width));
        }
        Section::Facts(title, facts) => {
            heading(title.as_deref(), width, out);
            let label_width = facts
                .iter()
                .map(|(label, _)| one_line(label).width())
                .max()
                .unwrap_or(0);
            let is_beside = label_width + 4 + NARROWEST_FACT <= width;
            for (label, value) in facts {
                if is_beside {
                    let label = pad(&one_line(label), label_width, false);
                    let indent = " ".repeat(label_width + 4);
                    fold(&format!("  {label}  {value}"), &indent, width, out);
                } else {
                    fold(&format!("  {label}"), "  ", width, out);
                    fold(&format!("    {value}"), "    ", width, out);
                }
            }
        }
        Section::Lines(title, lines) => {
            heading(title.as_deref(), width, out);
            for line in lines {
                fold(&format!("  {line}"), "    ", width, out);
            }
        }
    }
}

fn heading(title: Option<&str>, width: usize, out: &mut String) {
    if let Some(title) = title {
        fold(title, "  ", width, out);
    }
}
