//! One screen of a sheet: the answer, as much of what carries it as fits, the weightiest cautions, the next step.
//!
//! What does not fit is counted, never dropped without a word; `--full` shows it, JSON and CSV always hold it.

use super::folding::fold;
use super::text::{draw_section, next_step, sheet as whole};
use crate::report::{RankedCaution, Section, Sheet, Table};
use crate::wording::counted;

/// Lines of a screen.
pub const LINES: usize = 24;

/// Cautions on a screen.
const CAUTIONS: usize = 3;

/// Lines the cautions after the first may fill.
const CAUTION_LINES: usize = 8;

/// Rows of the part that carries the answer which cautions after the first may not push off.
const ANSWER_ROWS: usize = 2;

/// Draws what of a sheet fits on a screen `width` columns wide.
pub fn screen(sheet: &Sheet, width: usize) -> String {
    if let Some(all) = small(sheet, width) {
        return all;
    }
    let mut out = String::new();
    fold(&sheet.answer, "", width, &mut out);
    let next = next_step(sheet, width);
    // Two lines are kept for what is not shown.
    let around = out.lines().count() + next.lines().count() + 2;
    let (shown, cautions) = beside_cautions(sheet, width, LINES.saturating_sub(around));
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
    let least: usize = sheet.sections.iter().map(rows_of).sum();
    if sheet.brief.is_some()
        || least > LINES
        || (sheet.cautions.len() > CAUTIONS && !sheet.is_said_once)
    {
        return None;
    }
    Some(whole(sheet, width)).filter(|all| all.lines().count() <= LINES)
}

/// The sections and the cautions that `room` lines hold. Cautions after the first give way to the first rows of the first
/// table or list of facts, which carries the answer.
fn beside_cautions(sheet: &Sheet, width: usize, room: usize) -> (Shown, String) {
    let sections = sheet.brief.as_ref().unwrap_or(&sheet.sections);
    let beside = |of: &[&RankedCaution]| {
        let cautions = cautions(sheet, of, width);
        let left = room.saturating_sub(cautions.lines().count());
        (Shown::of(sections, width, left), cautions)
    };
    if sheet.is_said_once {
        return beside(&sheet.cautions.iter().collect::<Vec<_>>());
    }
    let on_the_screen = of_what_is_shown(sheet, sections, width, room);
    let mut most = CAUTIONS.min(on_the_screen.len());
    loop {
        let drawn = beside(&on_the_screen[..most]);
        if most <= 1 || drawn.0.holds_the_answer(sections) {
            return drawn;
        }
        most -= 1;
    }
}

/// The cautions without those about a table that no screen with other cautions has room for.
fn of_what_is_shown<'s>(
    sheet: &'s Sheet,
    sections: &[Section],
    width: usize,
    room: usize,
) -> Vec<&'s RankedCaution> {
    let all = sheet.cautions.iter();
    let of_all: Vec<&RankedCaution> = all.filter(|of| of.table.is_none()).collect();
    let most = &of_all[..of_all.len().min(CAUTIONS)];
    let taken = cautions(sheet, most, width).lines().count();
    let shown = Shown::of(sections, width, room.saturating_sub(taken));
    let has = |heading: &str| {
        let mut drawn = sections
            .iter()
            .zip(&shown.rows)
            .filter(|(_, rows)| **rows > 0);
        drawn.any(|(of, _)| matches!(of, Section::Table(table) if table.title.as_deref() == Some(heading)))
    };
    let all = sheet.cautions.iter();
    all.filter(|of| of.table.is_none_or(has)).collect()
}

/// These cautions below an empty line as far as there is room for them, and how many more the sheet has.
fn cautions(sheet: &Sheet, of: &[&RankedCaution], width: usize) -> String {
    let mut out = String::new();
    let mut shown = 0;
    let lines_at_most = match sheet.is_said_once {
        true => usize::MAX,
        false => CAUTION_LINES,
    };
    for caution in of {
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
    /// Rows shown of each section, in order.
    rows: Vec<usize>,
    rows_left: usize,
    columns_left: usize,
    sections_left: usize,
}

/// As much of a section as fits, and how much of it is left out.
#[derive(Default)]
struct Fitted {
    text: String,
    rows: usize,
    columns_left: usize,
}

impl Shown {
    fn of(sections: &[Section], width: usize, room: usize) -> Shown {
        let mut shown = Shown::default();
        let answer = answer_at(sections);
        for (at, section) in sections.iter().enumerate() {
            let room = room.saturating_sub(shown.text.lines().count() + 1);
            let fitted = match answer == Some(at) {
                true => with_fewer_columns(section, width, room),
                false => fitted(section, width, room),
            };
            shown.rows.push(fitted.rows);
            if fitted.text.is_empty() {
                shown.sections_left += 1;
                continue;
            }
            shown.text.push('\n');
            shown.text.push_str(&fitted.text);
            shown.columns_left += fitted.columns_left;
            shown.rows_left = rows_of(section) - fitted.rows;
            if shown.rows_left > 0 {
                shown.sections_left += sections.len() - at - 1;
                break;
            }
        }
        shown
    }

    /// Whether the first table or list of facts has its first rows on the screen; true where there is none.
    fn holds_the_answer(&self, sections: &[Section]) -> bool {
        let rows = |at: usize| self.rows.get(at).copied().unwrap_or(0);
        answer_at(sections).is_none_or(|at| rows(at) >= ANSWER_ROWS.min(rows_of(&sections[at])))
    }

    /// What is not shown, in words.
    fn more(&self, sheet: &Sheet) -> String {
        let part = match (&sheet.brief, self.sections_left) {
            (None, 0) => String::new(),
            (None, sections) => counted(sections, "more part", "more parts"),
            (Some(_), _) => "more detail".to_owned(),
        };
        let count = |count, one, many| match count {
            0 => String::new(),
            count => counted(count, one, many),
        };
        let mut more = vec![
            count(self.rows_left, "more row", "more rows"),
            count(self.columns_left, "more column", "more columns"),
            part,
        ];
        more.retain(|words| !words.is_empty());
        match more.is_empty() {
            true => String::new(),
            false => format!("{}: --full", more.join(", ")),
        }
    }
}

/// The section that carries the answer: the first table or list of facts.
fn answer_at(sections: &[Section]) -> Option<usize> {
    let carries = |section: &Section| !matches!(section, Section::Lines(..));
    sections.iter().position(carries)
}

/// As [`fitted`]; where not even the first rows of a table fit, its last columns go until they do.
fn with_fewer_columns(section: &Section, width: usize, room: usize) -> Fitted {
    let whole = fitted(section, width, room);
    let Section::Table(table) = section else {
        return whole;
    };
    let least = ANSWER_ROWS.min(table.rows.len());
    if whole.rows >= least {
        return whole;
    }
    let ends = (2..table.columns.len()).rev();
    let mut narrower = ends
        .filter(|&end| !table.columns[end].stays)
        .map(|end| Fitted {
            columns_left: table.columns.len() - end,
            ..fitted(&Section::Table(first_columns(table, end)), width, room)
        });
    narrower.find(|of| of.rows >= least).unwrap_or(whole)
}

/// As much of a section as `room` lines hold; nothing when not even one row fits.
fn fitted(section: &Section, width: usize, room: usize) -> Fitted {
    let mut best = Fitted::default();
    let all = rows_shown(section);
    // Every row takes a line or more. All of them are tried first, since most sections fit.
    let mut kept = all.min(room);
    let mut too_many = kept + 1;
    while best.rows + 1 < too_many {
        let mut text = String::new();
        draw_section(&first_rows(section, kept), width, &mut text);
        match text.lines().count() <= room {
            true => (best.rows, best.text) = (kept, text),
            false => too_many = kept,
        }
        kept = (best.rows + too_many) / 2;
    }
    best
}

/// Rows of a section that a sheet holds.
fn rows_shown(section: &Section) -> usize {
    match section {
        Section::Table(table) => table.rows.len(),
        Section::Facts(_, facts) => facts.len(),
        Section::Lines(_, lines) => lines.len(),
    }
}

/// Rows of a section, with those that its table only counts.
fn rows_of(section: &Section) -> usize {
    let more = match section {
        Section::Table(table) => table.more,
        _ => 0,
    };
    rows_shown(section) + more
}

/// The first `end` columns of a table.
fn first_columns(table: &Table, end: usize) -> Table {
    let mut table = table.clone();
    table.columns.truncate(end);
    table.rows.iter_mut().for_each(|row| row.truncate(end));
    table
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
