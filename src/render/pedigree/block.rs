//! One plant: its code and name standing on the ribbon of its species shares.
//!
//! A block is measured before anything is placed, and painted once its place is known. The ribbon is part of the line of
//! descent: what comes from the parents enters at its left end and leaves at its right.

use super::manner::Manner;
use super::ribbon::{Ribbon, is_share};
use super::words::words;
use crate::render::scene::{
    Colour, INK, Path, SOFT, Scene, Setting, Stroke, Word, fit, line_width, set, wrap,
};
use crate::report::pedigree::{DrawnKind, DrawnPlant, Fate, PedigreeDrawing, Sex};
use crate::wording::NameRun;

/// A plant's text, broken into lines, and the room it takes around the middle of its ribbon.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// Code, sex and fate.
    pub head: Vec<Vec<Word>>,
    /// The name.
    pub lines: Vec<Vec<Word>>,
    /// Least width in points.
    pub width: f64,
    /// Room above the middle of the ribbon.
    pub up: f64,
    /// Room below it.
    pub down: f64,
    /// Size of the letters of the name.
    pub size: f64,
    /// Height of the ribbon.
    pub ribbon: f64,
}

/// Most lines a name is broken into.
const LINES: usize = 4;
/// Air between the frame of the plant on offer and what it holds.
pub const FRAME: f64 = 7.0;

impl Block {
    /// Measures a plant.
    pub fn of(plant: &DrawnPlant, note: &str, manner: &Manner) -> Block {
        let size = if plant.focus {
            manner.focus
        } else {
            manner.name
        };
        let thick = if plant.focus {
            manner.ribbon * 1.5
        } else {
            manner.ribbon
        };
        let room = if plant.focus {
            manner.room * 1.4
        } else {
            manner.room
        };
        let small = manner.compact && !plant.focus;
        let by_code = is_nameless(plant) && !small;
        let mut heading = heading(plant, if by_code { "" } else { &plant.code }, note);
        let mut lines = match by_code {
            true => wrap(&words(&vec![roman(&plant.code)], plant.focus), size, room),
            false => name_lines(plant, size, room),
        };
        lines.truncate(LINES);
        if small {
            lines = one_line(std::mem::take(&mut heading), lines, size, room);
        }
        let mut head = wrap(&heading, manner.small, room);
        head.truncate(LINES);
        let line_widths = |lines: &[Vec<Word>], size: f64| {
            lines
                .iter()
                .map(|line| line_width(line, size))
                .fold(0.0, f64::max)
        };
        let widest = line_widths(&lines, size).max(line_widths(&head, manner.small));
        let frame = if plant.focus { FRAME } else { 0.0 };
        let above = head.len() as f64 * manner.small * 1.2;
        let below = if labelled(plant, manner) {
            manner.small * 1.3
        } else {
            0.0
        };
        Block {
            width: widest.max(if manner.compact { 40.0 } else { 64.0 }),
            up: thick / 2.0 + 2.5 + lines.len() as f64 * size * 1.16 + above + frame,
            down: thick / 2.0 + below + frame + 1.0,
            head,
            lines,
            size,
            ribbon: thick,
        }
    }

    /// Paints the block with the middle of its ribbon at `place`, `room` points wide.
    pub fn paint(
        &self,
        scene: &mut Scene,
        plant: &DrawnPlant,
        place: (f64, f64),
        (room, manner): (f64, &Manner),
    ) {
        let (x, y) = place;
        if plant.focus {
            let corner = (x - FRAME, y - self.up);
            let size = (room + 2.0 * FRAME, self.up + self.down);
            scene.framed(
                Path::rounded(corner, size, 4.0),
                Colour(0xff, 0xff, 0xff),
                Stroke::solid(INK, 1.5),
            );
        }
        let mut base = y - self.ribbon / 2.0 - 2.5 - self.size * 0.24;
        let ink = if plant.fate == Fate::Dead { SOFT } else { INK };
        for line in self.lines.iter().rev() {
            set(
                scene,
                line,
                (x, base),
                Setting {
                    size: self.size,
                    colour: ink,
                },
            );
            base -= self.size * 1.16;
        }
        let mut top = base + self.size * 0.16;
        for line in self.head.iter().rev() {
            set(
                scene,
                line,
                (x, top),
                Setting {
                    size: manner.small,
                    colour: SOFT,
                },
            );
            top -= manner.small * 1.2;
        }
        self.ribbon_at(x, y, room, manner)
            .paint(scene, &plant.shares);
    }

    /// The ribbon with its middle at `y`.
    fn ribbon_at(&self, x: f64, y: f64, room: f64, manner: &Manner) -> Ribbon {
        Ribbon {
            corner: (x, y - self.ribbon / 2.0),
            size: (room, self.ribbon),
            letters: manner.small,
        }
    }

    /// Writes the shares under the ribbon, where they say more than the name.
    pub fn label(
        &self,
        scene: &mut Scene,
        at: (&PedigreeDrawing, &DrawnPlant),
        place: (f64, f64),
        with: (f64, &Manner),
    ) {
        let (drawing, plant) = at;
        if labelled(plant, with.1) {
            let ribbon = self.ribbon_at(place.0, place.1, with.0, with.1);
            ribbon.label(scene, &drawing.species, (&plant.shares, &open_parts(plant)));
        }
    }
}

/// What is not of one known species: of one of several, and unknown.
fn open_parts(plant: &DrawnPlant) -> Vec<(f64, &str)> {
    let either = plant
        .either
        .iter()
        .map(|part| (part.fraction, part.of.as_str()));
    let unknown = Some((plant.unknown_share, "unknown"));
    either
        .chain(unknown)
        .filter(|(fraction, _)| is_share(*fraction))
        .collect()
}

/// Whether the shares of a plant are written under its ribbon.
fn labelled(plant: &DrawnPlant, manner: &Manner) -> bool {
    let plain = plant.kind == DrawnKind::Founder && plant.shares.len() == 1;
    let none = plant.shares.is_empty() && open_parts(plant).is_empty();
    (!manner.compact || plant.focus) && !plain && !none
}

/// Whether a plant is known by its code alone; the code then stands in place of the name.
fn is_nameless(plant: &DrawnPlant) -> bool {
    plant
        .label
        .iter()
        .flatten()
        .all(|run| run.text.trim().is_empty())
}

fn roman(text: &str) -> NameRun {
    NameRun {
        text: text.to_string(),
        italic: false,
    }
}

/// Code, kind, sex, fate, and what is not certain about the parents.
fn heading(plant: &DrawnPlant, code: &str, note: &str) -> Vec<Word> {
    let kind = match plant.kind {
        DrawnKind::OneOf => "one of",
        DrawnKind::Unknown => "unknown",
        DrawnKind::Founder | DrawnKind::Clone | DrawnKind::Seedling | DrawnKind::Siblings => "",
    };
    let sex = match plant.sex {
        Some(Sex::Female) => "♀",
        Some(Sex::Male) => "♂",
        None => "",
    };
    let fate = match plant.fate {
        Fate::Here => "",
        Fate::Dead => "died",
        Fate::Sold => "sold",
        Fate::LetGo => "given away",
    };
    let mut line = Vec::new();
    for (text, italic) in [
        (code, false),
        (kind, false),
        (sex, false),
        (fate, false),
        (note, true),
    ] {
        if !text.is_empty() {
            let between = if line.is_empty() { "" } else { " · " };
            line.push(Word::roman(between));
            line.extend(words(
                &vec![NameRun {
                    text: text.to_string(),
                    italic,
                }],
                false,
            ));
        }
    }
    line
}

fn name_lines(plant: &DrawnPlant, size: f64, room: f64) -> Vec<Vec<Word>> {
    let wished = plant
        .label
        .iter()
        .take(LINES)
        .flat_map(|name| wrap(&words(name, plant.focus), size, room));
    let mut lines: Vec<Vec<Word>> = wished.filter(|line| !line.is_empty()).collect();
    if lines.len() > LINES {
        lines.truncate(LINES);
        lines[LINES - 1].push(Word::roman(" …"));
    }
    lines
}

/// Code and name on one line, cut to the room there is.
fn one_line(head: Vec<Word>, lines: Vec<Vec<Word>>, size: f64, room: f64) -> Vec<Vec<Word>> {
    let mut line = head;
    for part in lines {
        if !line.is_empty() {
            line.push(Word::roman("  "));
        }
        line.extend(part);
    }
    match line.is_empty() {
        true => Vec::new(),
        false => vec![fit(&line, size, room)],
    }
}
