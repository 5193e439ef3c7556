//! What falls on which days: words at the left, and beside them a dot for a day or a bar for a range of days, under the
//! months or years. Kinds of row differ by their words.

use super::frame::{DOT, Stand, begin, end, nothing, say, under};
use super::look::Look;
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::scene::{
    Face, INK, Mark, PAPER, Path, RULE, Setting, Step, Stroke, Word, fit, line_width, set, width,
    wrap,
};
use crate::report::chart::{CalendarChart, CalendarEnd, CalendarGroup, CalendarRow};

/// The part of the room for the calendar.
const CALENDAR: f64 = 0.44;
/// From one line to the next, in sizes of its letters.
const LINE: f64 = 1.25;

/// The days along.
struct Days {
    scale: Scale,
    days: (i32, i32),
}

impl Days {
    fn at(&self, day: i32) -> f64 {
        let day = day.clamp(self.days.0, self.days.1);
        self.scale.at(f64::from(day))
    }
}

/// The chart of a calendar.
pub fn calendar(chart: &CalendarChart, look: Look) -> Sheet {
    let (mut sheet, top) = begin(&chart.title, look);
    let top = under(&mut sheet, &chart.under, top);
    if chart.groups.is_empty() {
        let bottom = nothing(&mut sheet, top);
        return end(sheet, &chart.notes, bottom);
    }
    let (from, until) = chart.days;
    let paper = (
        look.right() - look.room() * CALENDAR,
        look.right() - look.small * 0.5,
    );
    let days = Days {
        scale: Scale::fitting([from, until].into_iter().map(f64::from), paper),
        days: chart.days,
    };
    let head = sheet.marks.len();
    let marked = months(&mut sheet, chart, &days, top);
    let mut y = top + look.small * 1.7;
    sheet.repeat_from(top, y, head);
    for group in &chart.groups {
        y = paint_group(&mut sheet, (chart, group), (&days, &marked), y);
    }
    sheet.repeat_to(y);
    end(sheet, &chart.notes, y + look.small)
}

/// Names of months above the calendar: all, or every so many as have room; returns where they are marked.
fn months(sheet: &mut Sheet, chart: &CalendarChart, days: &Days, top: f64) -> Vec<f64> {
    let look = sheet.look;
    let placed: Vec<(f64, f64, &str)> = chart
        .ticks
        .iter()
        .map(|(day, name)| {
            let wide = width(name, Face::Roman, look.small);
            (days.at(*day), wide, name.as_str())
        })
        .filter(|(x, wide, _)| x + wide <= look.right())
        .collect();
    let soft = Setting::soft(look.small);
    let mut marked = Vec::new();
    for (x, _, name) in with_room(&placed, look.small * 0.5) {
        say(sheet, name, (x, top + look.small), Stand::After, soft);
        marked.push(x);
    }
    marked
}

/// As many names as have room, every so many of them; among months those of Januaries, which say the year, always are.
fn with_room<'n>(placed: &[(f64, f64, &'n str)], air: f64) -> Vec<(f64, f64, &'n str)> {
    let is_year = |name: &str| name.len() == 4 && name.bytes().all(|byte| byte.is_ascii_digit());
    let first_year = placed.iter().position(|(.., name)| is_year(name));
    let every = |step: usize| -> Vec<(f64, f64, &'n str)> {
        let from = first_year.unwrap_or(0) % step;
        placed.iter().skip(from).step_by(step).copied().collect()
    };
    let years = |names: &[(f64, f64, &str)]| names.iter().filter(|of| is_year(of.2)).count();
    let all = years(placed);
    let are_months = all < placed.len();
    let fits = |names: &Vec<(f64, f64, &str)>| {
        let mut two = names.windows(2);
        two.all(|two| two[0].0 + two[0].1 + air <= two[1].0)
    };
    let mut steps = (1..=placed.len()).map(every).filter(fits);
    let first = steps.clone().next();
    let with_years = steps.find(|names| are_months && years(names) == all);
    with_years.or(first).unwrap_or_default()
}

/// A group of rows; returns where it ends.
fn paint_group(
    sheet: &mut Sheet,
    (chart, group): (&CalendarChart, &CalendarGroup),
    (days, marked): (&Days, &[f64]),
    top: f64,
) -> f64 {
    let look = sheet.look;
    sheet.may_end(top - 0.5);
    sheet.stroke(
        Path::line((look.margin, top), (look.right(), top)),
        Stroke::solid(RULE, 0.6),
    );
    let base = top + look.label * 1.3;
    let mut words = vec![Word {
        text: group.heading.clone(),
        face: Face::Bold,
    }];
    if !group.beside.is_empty() {
        words.push(Word::roman(format!("  {}", group.beside)));
    }
    let room = days.scale.paper().0 - look.margin - look.small;
    let line = fit(&words, look.label, room);
    let ink = Setting::ink(look.label);
    set(sheet, &line, (look.margin, base), ink);
    let mut y = base + look.label * 0.45;
    let mut from = top;
    for row in &group.rows {
        let first = sheet.marks.len();
        let bottom = paint_row(sheet, (row, chart.has_boxes), days, y);
        // Behind what the row holds.
        let lines = marked.iter().map(|x| rule(*x, (from, bottom), 0.4));
        let (start, stop) = days.scale.paper();
        let today = match chart.today {
            CalendarEnd::First => start,
            CalendarEnd::Last => stop,
        };
        let today = rule(today, (from, bottom), 0.9);
        let lines: Vec<Mark> = lines.chain([today]).collect();
        sheet.marks.splice(first..first, lines);
        (y, from) = (bottom, bottom);
        sheet.may_end(y);
    }
    y
}

fn rule(x: f64, (top, bottom): (f64, f64), width: f64) -> Mark {
    Mark::Shape {
        path: Path::line((x, top), (x, bottom)),
        fill: None,
        stroke: Some(Stroke::solid(RULE, width)),
    }
}

/// A row of words with its days; returns where it ends.
fn paint_row(
    sheet: &mut Sheet,
    (row, has_box): (&CalendarRow, bool),
    days: &Days,
    top: f64,
) -> f64 {
    let look = sheet.look;
    let side = look.label * 0.85;
    if has_box {
        let square = Path::rect(look.margin, top + look.label * 0.3, side, side);
        sheet.stroke(square, Stroke::solid(INK, 0.7));
    }
    let left = look.margin + side + look.small * 0.6;
    let (start, stop) = days.scale.paper();
    let room = start - left - look.small;
    let mut y = top;
    let ink = Setting::ink(look.label);
    for line in wrap(&[Word::roman(row.what.as_str())], look.label, room) {
        y += look.label * LINE;
        set(sheet, &line, (left, y - look.label * 0.15), ink);
    }
    let soft = Setting::soft(look.small);
    for detail in &row.details {
        for line in wrap(&[Word::roman(detail.as_str())], look.small, room) {
            y += look.small * LINE;
            set(sheet, &line, (left, y), soft);
        }
    }
    let middle = top + look.label * 0.75;
    match (row.window, row.instead.is_empty()) {
        (Some(window), true) => bar(sheet, window, days, middle),
        _ => instead(sheet, row, (start, stop), middle),
    }
    y + look.small * 0.6
}

/// Words in the place of a bar; what is past stands behind an arrow.
fn instead(sheet: &mut Sheet, row: &CalendarRow, (start, stop): (f64, f64), middle: f64) {
    let look = sheet.look;
    let x = match row.window {
        Some(_) => arrow(sheet, (start, middle), -1.0) + look.small * 0.4,
        None => start + look.small * 0.4,
    };
    let text = fit(&[Word::roman(row.instead.as_str())], look.small, stop - x);
    let wide = line_width(&text, look.small);
    let paper = Path::rect(
        x - 2.0,
        middle - look.small * 0.6,
        wide + 4.0,
        look.small * 1.2,
    );
    sheet.fill(paper, PAPER);
    let soft = Setting::soft(look.small);
    set(sheet, &text, (x, middle + look.small * 0.33), soft);
}

/// A dot for a day, a bar for a range of days; an arrow where it reaches beyond those shown.
fn bar(sheet: &mut Sheet, (first, last): (i32, i32), days: &Days, y: f64) {
    let look = sheet.look;
    let half = look.label * 0.32;
    let green = DOT.readable();
    let (from, to) = (days.at(first), days.at(last));
    let is_shown = first >= days.days.0 && last <= days.days.1;
    if first == last && is_shown {
        sheet.fill(Path::circle((from, y), half), green);
        return;
    }
    // What is narrower than a dot is still seen to have two ends.
    let least = look.small * 0.5;
    let (edge, end) = days.scale.paper();
    let middle = ((from + to) / 2.0).clamp(edge + least / 2.0, end - least / 2.0);
    let (from, to) = match to - from < least {
        true => (middle - least / 2.0, middle + least / 2.0),
        false => (from, to),
    };
    let path = Path::rect(from, y - half, to - from, 2.0 * half);
    sheet.framed(path, DOT.faded(0.45), Stroke::solid(green, 0.8));
    if first < days.days.0 {
        arrow(sheet, (from, y), -1.0);
    }
    if last > days.days.1 {
        arrow(sheet, (to, y), 1.0);
    }
}

/// A small arrow with its foot at a place, pointing to the left (−1) or to the right (1); returns its right end.
fn arrow(sheet: &mut Sheet, (x, y): (f64, f64), turn: f64) -> f64 {
    let size = sheet.look.label * 0.42;
    let path = Path(vec![
        Step::Move(x, y - size),
        Step::Line(x + turn * size, y),
        Step::Line(x, y + size),
        Step::Close,
    ]);
    sheet.fill(path, DOT.readable());
    x + f64::max(0.0, turn * size)
}
