//! One screen of a sheet: the answer, as much of what carries it as fits, the weightiest cautions, the next step.
//!
//! What does not fit is counted, never dropped without a word; `--full` shows it, JSON and CSV always hold it.

use super::folding::fold;
use super::text::{draw_section, next_step, sheet as whole};
use crate::report::{Section, Sheet, Table};
use crate::wording::counted;

/// Lines of a screen.
pub const LINES: usize = 24;

/// Cautions on a screen.
const CAUTIONS: usize = 3;

/// Lines the cautions after the first may fill.
const CAUTION_LINES: usize = 8;

/// Draws what of a sheet fits on a screen `width` columns wide.
pub fn screen(sheet: &Sheet, width: usize) -> String {
    if let Some(all) = small(sheet, width) {
        return all;
    }
    let mut out = String::new();
    fold(&sheet.answer, "", width, &mut out);
    let cautions = cautions(sheet, width);
    let next = next_step(sheet, width);
    let taken = [&out, &cautions, &next].map(|text| text.lines().count());
    // Two lines are kept for what is not shown.
    let room = LINES.saturating_sub(taken.iter().sum::<usize>() + 2);
    let sections = sheet.brief.as_ref().unwrap_or(&sheet.sections);
    let shown = Shown::of(sections, width, room);
    out.push_str(&shown.text);
    let more = shown.more(sheet);
    if !more.is_empty() {
        out.push('\n');
        fold(&more, "", width, &mut out);
    }
    out.push_str(&cautions);
    out.push_str(&next);
    out
}

/// The whole sheet where it is short enough to be its own screen.
fn small(sheet: &Sheet, width: usize) -> Option<String> {
    let rows = |section: &Section| match section {
        Section::Table(table) => table.rows.len() + table.more,
        Section::Facts(_, facts) => facts.len(),
        Section::Lines(_, lines) => lines.len(),
    };
    let least: usize = sheet.sections.iter().map(rows).sum();
    if sheet.brief.is_some()
        || least > LINES
        || (sheet.cautions.len() > CAUTIONS && !sheet.is_said_once)
    {
        return None;
    }
    Some(whole(sheet, width)).filter(|all| all.lines().count() <= LINES)
}

/// The weightiest cautions below an empty line, and how many more there are.
fn cautions(sheet: &Sheet, width: usize) -> String {
    let mut out = String::new();
    let mut shown = 0;
    let (most, lines_at_most) = match sheet.is_said_once {
        true => (usize::MAX, usize::MAX),
        false => (CAUTIONS, CAUTION_LINES),
    };
    for caution in sheet.cautions.iter().take(most) {
        let mut lines = String::new();
        fold(&format!("! {}", caution.text), "  ", width, &mut lines);
        let taken = out.lines().count() + lines.lines().count();
        if shown > 0 && taken > lines_at_most {
            break;
        }
        out.push_str(&lines);
        shown += 1;
    }
    let more = sheet.cautions.len() - shown;
    if more > 0 {
        let more = counted(more, "more caution", "more cautions");
        fold(&format!("  {more}: --full"), "  ", width, &mut out);
    }
    match out.is_empty() {
        true => out,
        false => format!("\n{out}"),
    }
}

/// The sections that fit.
#[derive(Default)]
struct Shown {
    text: String,
    rows_left: usize,
    sections_left: usize,
}

impl Shown {
    fn of(sections: &[Section], width: usize, room: usize) -> Shown {
        let mut shown = Shown::default();
        for (at, section) in sections.iter().enumerate() {
            let room = room.saturating_sub(shown.text.lines().count() + 1);
            let (text, left) = fitted(section, width, room);
            if text.is_empty() {
                shown.sections_left += 1;
                continue;
            }
            shown.text.push('\n');
            shown.text.push_str(&text);
            shown.rows_left = left;
            if left > 0 {
                shown.sections_left += sections.len() - at - 1;
                break;
            }
        }
        shown
    }

    /// What is not shown, in words.
    fn more(&self, sheet: &Sheet) -> String {
        let rows = match self.rows_left {
            0 => String::new(),
            rows => counted(rows, "more row", "more rows"),
        };
        let more = match (&sheet.brief, self.sections_left) {
            (None, 0) => String::new(),
            (None, sections) => counted(sections, "more part", "more parts"),
            (Some(_), _) => "more detail".to_owned(),
        };
        match (rows.is_empty(), more.is_empty()) {
            (true, true) => String::new(),
            (false, true) => format!("{rows}: --full"),
            (true, false) => format!("{more}: --full"),
            (false, false) => format!("{rows}, {more}: --full"),
        }
    }
}

/// As much of a section as `room` lines hold, and how many rows are left out; nothing when not even one row fits.
fn fitted(section: &Section, width: usize, room: usize) -> (String, usize) {
    let (rows, more) = match section {
        Section::Table(table) => (table.rows.len(), table.more),
        Section::Facts(_, facts) => (facts.len(), 0),
        Section::Lines(_, lines) => (lines.len(), 0),
    };
    let mut kept = rows.min(room);
    while kept > 0 {
        let mut text = String::new();
        draw_section(&first_rows(section, kept), width, &mut text);
        let over = text.lines().count().saturating_sub(room);
        if over == 0 {
            return (text, rows - kept + more);
        }
        // Every row takes a line or more, so fewer rows than lines are too many.
        kept -= over.div_ceil(4).min(kept);
    }
    (String::new(), rows + more)
}

fn first_rows(section: &Section, kept: usize) -> Section {
    match section {
        Section::Table(table) => Section::Table(Table {
            title: table.title.clone(),
            columns: table.columns.clone(),
            rows: table.rows[..kept].to_vec(),
            more: 0,
        }),
        Section::Facts(title, facts) => Section::Facts(title.clone(), facts[..kept].to_vec()),
        Section::Lines(title, lines) => Section::Lines(title.clone(), lines[..kept].to_vec()),
    }
}
