//! How siblings differ: one strip of dots for each trait, their parents marked on the same axis; bars for kinds.

use super::frame::{across, begin, end, nothing, small, under};
use super::heading::heading;
use super::kinds::kinds;
use super::look::Look;
use super::parents;
use super::ratio::ratio;
use super::row::{place, read, values};
use super::scale::Scale;
use super::sheet::Sheet;
use crate::render::pedigree::words;
use crate::render::scene::{Face, Setting, Word, line_width, set, width, wrap};
use crate::report::chart::{SiblingsChart, TraitStrip};
use crate::wording::upright;

/// The chart of siblings.
pub fn siblings(chart: &SiblingsChart, look: Look) -> Sheet {
    let (mut sheet, mut y) = titled_by(chart, look);
    if chart.strips.is_empty() {
        y = nothing(&mut sheet, y);
    }
    for strip in &chart.strips {
        sheet.may_end(y);
        y = paint_strip(&mut sheet, strip, y);
    }
    let mut notes = read(chart.strips.iter().flat_map(|strip| &strip.rows));
    notes.extend_from_slice(&chart.notes);
    end(sheet, &notes, y)
}

/// The verdict as the heading, then what is shown; that is the heading where there is no verdict.
fn titled_by(chart: &SiblingsChart, look: Look) -> (Sheet, f64) {
    if chart.verdict.is_empty() {
        return begin(&chart.title, look);
    }
    let (mut sheet, mut y) = begin(&upright(chart.verdict.as_str()), look);
    y -= 6.0;
    for line in wrap(&words(&chart.title, false), look.label, look.room()) {
        y += look.label * 1.25;
        let setting = Setting::ink(look.label);
        set(&mut sheet, &line, (look.margin, y), setting);
    }
    let y = under(&mut sheet, &chart.under, y + 8.0);
    (sheet, y)
}

/// One trait, and its ratio where one was stated; returns where it ends.
fn paint_strip(sheet: &mut Sheet, strip: &TraitStrip, top: f64) -> f64 {
    let y = paint(sheet, strip, top);
    match &strip.ratio {
        Some(of) => ratio(sheet, of, y - 6.0) + 6.0,
        None => y,
    }
}

/// One trait; returns where it ends.
fn paint(sheet: &mut Sheet, strip: &TraitStrip, top: f64) -> f64 {
    let look = sheet.look;
    let y = titled(sheet, &strip.heading, top);
    if !strip.kinds.is_empty() {
        return kinds(sheet, &strip.kinds, y) + 10.0;
    }
    let parents = strip.parents.iter().map(|parent| parent.value);
    let all: Vec<f64> = strip.rows.iter().flat_map(values).chain(parents).collect();
    let ticks = ticks(&all);
    let scale = match strip.steps {
        // Every step of a scale is shown: a step that no plant has is an answer too.
        Some(steps) => Scale::steps(steps, (look.margin, look.right())),
        None => Scale::linear(
            all.into_iter(),
            (look.margin + 8.0, look.right() - 8.0),
            ticks,
        ),
    };
    let parents = parents::shown(&strip.parents, &scale);
    let lines: Vec<f64> = parents.iter().map(|(_, x)| *x).collect();
    let field = y + 7.0 + parents.len() as f64 * parents::STEP * look.small;
    let mut y = field - 2.0;
    let (mut lanes, mut texts) = (Vec::new(), Vec::new());
    for row in &strip.rows {
        let (placed, named) = (place(row, &scale, look), heading(row, &lines, look));
        let base = y + look.label * 1.1;
        y += named.tall + placed.above + 3.0;
        texts.extend(named.boxes(base));
        texts.extend(placed.boxes(y));
        lanes.push((placed, named, base, y));
        y += lanes[lanes.len() - 1].0.below + 3.0;
    }
    let page = look.height.map(|height| height - 2.0 * look.margin);
    // A trait that no page holds goes on between two of its rows.
    let is_long = page.is_some_and(|room| y - top > room);
    let last = lanes.last().map_or(0.0, |(.., middle)| *middle);
    across(sheet, &scale, (field, y), "");
    parents::paint(sheet, &parents, (field, y), &texts);
    for (placed, named, base, middle) in lanes {
        named.paint(sheet, base);
        placed.paint(sheet, &scale, middle);
        // The numbers of the axis stay with the last row.
        if is_long && middle < last {
            sheet.may_end(middle + placed.below + 2.0);
        }
    }
    anchors(sheet, &strip.anchors, &scale, y + look.small * 1.25) + 10.0
}

/// The steps of a scale in words, each below its number; in a line where they are too long for that. Returns where they
/// end.
fn anchors(sheet: &mut Sheet, anchors: &[String], scale: &Scale, top: f64) -> f64 {
    let look = sheet.look;
    let Some(pitch) = scale.pitch.filter(|_| !anchors.is_empty()) else {
        return top;
    };
    let room = pitch - 6.0;
    let mut words = anchors.iter().flat_map(|anchor| anchor.split_whitespace());
    if !words.all(|word| width(word, Face::Roman, look.small) <= room) {
        let all = anchors.iter().enumerate();
        let all: Vec<String> = all
            .map(|(at, words)| format!("{} {words}", at + 1))
            .collect();
        return small(sheet, &[all.join(" · ")], top);
    }
    let mut bottom = top;
    for (anchor, (tick, _)) in anchors.iter().zip(scale.labels()) {
        for (rank, line) in wrap(&[Word::roman(anchor.as_str())], look.small, room)
            .iter()
            .enumerate()
        {
            let left = scale.at(tick) - line_width(line, look.small) / 2.0;
            let y = top + look.small * 1.2 * (rank + 1) as f64;
            let setting = Setting::soft(look.small);
            set(sheet, line, (left, y), setting);
            bottom = f64::max(bottom, y);
        }
    }
    bottom
}

/// The trait's heading, on as many lines as it needs; returns the last baseline.
fn titled(sheet: &mut Sheet, heading: &str, top: f64) -> f64 {
    let look = sheet.look;
    let size = look.label + 0.5;
    let mut y = top + look.label - size * 1.25;
    for line in wrap(&[Word::roman(heading)], size, look.room()) {
        y += size * 1.25;
        set(sheet, &line, (look.margin, y), Setting::ink(size));
    }
    y
}

/// About how many ticks: steps and counts have none between whole numbers.
fn ticks(values: &[f64]) -> usize {
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let whole = values.iter().all(|value| value.fract() == 0.0);
    if whole && most - least < 7.0 {
        (most - least).max(1.0) as usize
    } else {
        7
    }
}
