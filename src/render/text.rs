//! A sheet as text for a terminal: plain tables without frames, numbers to the right, long lines folded.

use crate::report::{Cell, ColumnHead, Section, Sheet, Table};
use unicode_width::UnicodeWidthStr;

/// Draws a sheet within `width` columns; tables that are wider keep their columns and are not cut.
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
        fold(&format!("! {caution}"), "  ", width, &mut out);
    }
    out
}

fn draw_section(section: &Section, width: usize, out: &mut String) {
    match section {
        Section::Table(table) => draw_table(table, width, out),
        Section::Facts(title, facts) => {
            heading(title.as_deref(), out);
            let label_width = facts
                .iter()
                .map(|(label, _)| label.width())
                .max()
                .unwrap_or(0);
            for (label, value) in facts {
                let label = pad(label, label_width, false);
                let indent = " ".repeat(label_width + 4);
                fold(&format!("  {label}  {value}"), &indent, width, out);
            }
        }
        Section::Lines(title, lines) => {
            heading(title.as_deref(), out);
            for line in lines {
                fold(&format!("  {line}"), "    ", width, out);
            }
        }
        Section::Verbatim(text) => {
            out.push_str(text);
            if !text.ends_with('\n') {
                out.push('\n');
            }
        }
    }
}

fn heading(title: Option<&str>, out: &mut String) {
    if let Some(title) = title {
        out.push_str(title);
        out.push('\n');
    }
}

fn draw_table(table: &Table, width: usize, out: &mut String) {
    heading(table.title.as_deref(), out);
    let cells: Vec<Vec<String>> = table
        .rows
        .iter()
        .map(|row| row.iter().map(cell_text).collect())
        .collect();
    let mut widths: Vec<usize> = table.columns.iter().map(|c| c.heading.width()).collect();
    for row in &cells {
        for (at, cell) in row.iter().enumerate() {
            widths[at] = widths[at].max(cell.width());
        }
    }
    let headings: Vec<String> = table.columns.iter().map(|c| c.heading.clone()).collect();
    let mut line = |cells: &[String]| table_line(cells, &table.columns, &widths, width, out);
    if headings.iter().any(|heading| !heading.is_empty()) {
        line(&headings);
    }
    cells.iter().for_each(|row| line(row));
}

/// One line of a table; a last column of words that does not fit is folded under itself.
fn table_line(
    cells: &[String],
    columns: &[ColumnHead],
    widths: &[usize],
    width: usize,
    out: &mut String,
) {
    let mut line = String::from(" ");
    let last = cells.len().saturating_sub(1);
    for (at, cell) in cells.iter().enumerate() {
        line.push(' ');
        if at == last && !columns[at].right {
            let indent = line.width();
            line.push_str(cell);
            let room = width.max(indent + 24);
            return fold(line.trim_end(), &" ".repeat(indent), room, out);
        }
        line.push_str(&pad(cell, widths[at], columns[at].right));
        line.push(' ');
    }
    out.push_str(line.trim_end());
    out.push('\n');
}

/// A cell's text: numbers with their decimals, a minus sign, `–` for what is not known.
pub fn cell_text(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => one_line(text),
        Cell::Number(number, decimals) => number_text(*number, *decimals),
        Cell::Count(count) => count.to_string(),
        Cell::Missing => "–".to_owned(),
    }
}

/// A number with fixed decimals; never "-0".
pub fn number_text(number: f64, decimals: u8) -> String {
    let text = format!("{number:.*}", usize::from(decimals));
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|byte| matches!(byte, b'0' | b'.')) => digits.to_owned(),
        Some(digits) => format!("−{digits}"),
        None => text,
    }
}

/// Control characters would break a table or a terminal: they are shown as `�`, line breaks as a blank.
pub fn one_line(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\n' | '\t' | '\r' => ' ',
            c if c.is_control() => '\u{fffd}',
            c => c,
        })
        .collect()
}

fn pad(text: &str, width: usize, right: bool) -> String {
    let blanks = " ".repeat(width.saturating_sub(text.width()));
    if right {
        blanks + text
    } else {
        text.to_owned() + &blanks
    }
}

/// Folds a line at blanks; further lines start with `indent`. Existing leading blanks are kept.
fn fold(text: &str, indent: &str, width: usize, out: &mut String) {
    let text = one_line(text);
    let lead: String = text.chars().take_while(|c| *c == ' ').collect();
    let mut line = lead.clone();
    let mut is_empty = true;
    for word in text[lead.len()..].split(' ') {
        let would_be = line.width() + usize::from(!is_empty) + word.width();
        if !is_empty && would_be > width {
            out.push_str(line.trim_end());
            out.push('\n');
            line = indent.to_owned();
            is_empty = true;
        }
        if !is_empty {
            line.push(' ');
        }
        line.push_str(word);
        is_empty = false;
    }
    out.push_str(line.trim_end());
    out.push('\n');
}
