//! One plant: a box with its name, its code, and the parts of its descent.
//!
//! A block is measured before anything is placed, and painted once its place is known. Lines of descent arrive at the
//! middle of its left side and leave from the middle of its right side.

use super::manner::Manner;
use super::parts::{Parts, Signs};
use super::words::words;
use crate::render::scene::{
    Colour, INK, Path, RULE, SOFT, Scene, Setting, Stroke, Word, line_width, set, wrap,
};
use crate::report::pedigree::{DrawnKind, DrawnPlant, Sex};
use crate::wording::{Name, NameRun};

/// A plant's text, broken into lines, and the room it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// Lines, each with the size of its letters.
    lines: Vec<(Vec<Word>, f64)>,
    parts: Parts,
    /// Least width of the box in points.
    pub width: f64,
    /// Half its height.
    pub half: f64,
}

/// The least width of a box.
const LEAST: f64 = 40.0;
/// From one baseline to the next, in sizes of the letters.
const LINE: f64 = 1.18;
/// Between a square and what stands beside it or over it.
const BESIDE: f64 = 4.0;
const WHITE: Colour = Colour(0xff, 0xff, 0xff);

impl Block {
    /// Measures a plant; `note` says what is not certain of its parents.
    pub fn of(plant: &DrawnPlant, note: &str, signs: &Signs, manner: &Manner) -> Block {
        let (size, room) = match plant.focus {
            true => (manner.focus, manner.focus_room),
            false => (manner.name, manner.room),
        };
        let parts = Parts::of(plant, signs, (manner.tile, room), manner.compact);
        let (wide, high) = parts.size(manner.tile);
        let beside = matches!(parts, Parts::One(_));
        let text_room = if beside { room - wide - BESIDE } else { room };
        let lines = lines(plant, note, (size, manner.small), text_room);
        let widest = lines.iter().map(|(line, size)| line_width(line, *size));
        let widest = widest.fold(0.0, f64::max);
        let tall: f64 = lines.iter().map(|(_, size)| size * LINE).sum();
        let (width, height) = match parts {
            Parts::None => (widest, tall),
            Parts::One(_) => (wide + BESIDE + widest, f64::max(tall, high)),
            _ => (f64::max(wide, widest), tall + BESIDE + high),
        };
        Block {
            lines,
            parts,
            width: f64::max(width + 2.0 * manner.pad, LEAST),
            half: height / 2.0 + manner.pad,
        }
    }

    /// Paints the box with the middle of its left side at `place`, `room` points wide.
    pub fn paint(
        &self,
        scene: &mut Scene,
        (plant, signs): (&DrawnPlant, &Signs),
        place: (f64, f64),
        (room, manner): (f64, &Manner),
    ) {
        let top = place.1 - self.half;
        let frame = Path::rounded((place.0, top), (room, 2.0 * self.half), 3.0);
        let stroke = match plant.focus {
            true => Stroke::solid(INK, 1.8),
            false => Stroke::solid(RULE, 0.9),
        };
        scene.framed(frame, WHITE, stroke);
        let (left, mut y) = (place.0 + manner.pad, top + manner.pad);
        let mut x = left;
        if matches!(self.parts, Parts::One(_)) {
            let side = manner.tile.side;
            let corner = (left, place.1 - side / 2.0);
            self.parts.paint(scene, signs, corner, manner.tile);
            x += side + BESIDE;
            let tall: f64 = self.lines.iter().map(|(_, size)| size * LINE).sum();
            y = place.1 - tall / 2.0;
        }
        for (rank, (line, size)) in self.lines.iter().enumerate() {
            let named = rank == 0 || *size > manner.small;
            let colour = if named && !plant.fate.is_over() {
                INK
            } else {
                SOFT
            };
            let setting = Setting {
                size: *size,
                colour,
            };
            set(scene, line, (x, y + size * 0.9), setting);
            y += size * LINE;
        }
        if !matches!(self.parts, Parts::One(_)) {
            self.parts
                .paint(scene, signs, (left, y + BESIDE), manner.tile);
        }
    }
}

/// Name, formula where it has another name, and what else is said, the code first; each line with the size of its letters.
pub fn lines(
    plant: &DrawnPlant,
    note: &str,
    (size, small): (f64, f64),
    room: f64,
) -> Vec<(Vec<Word>, f64)> {
    let said = |name: &&Name| name.iter().any(|run| !run.text.trim().is_empty());
    let named: Vec<&Name> = plant.label.iter().filter(said).collect();
    let mut lines = Vec::new();
    let mut add = |text: &[Word], size: f64| {
        lines.extend(wrap(text, size, room).into_iter().map(|line| (line, size)));
    };
    let heading = match named[..] {
        [] => {
            add(&words(&roman(&plant.code), plant.focus), size);
            heading(plant, "", note)
        }
        [first, ref more @ ..] => {
            add(&words(first, plant.focus), size);
            for &name in more {
                add(&words(name, false), f64::max(size * 0.84, small));
            }
            heading(plant, &plant.code, note)
        }
    };
    add(&heading, small);
    lines
}

fn roman(text: &str) -> Name {
    vec![NameRun {
        text: text.to_string(),
        italic: false,
    }]
}

/// Code, kind, sex, fate, and what is not certain about the parents.
fn heading(plant: &DrawnPlant, code: &str, note: &str) -> Vec<Word> {
    let kind = match plant.kind {
        DrawnKind::OneOf => "one of",
        DrawnKind::Unknown => "unknown",
        DrawnKind::Founder | DrawnKind::Clone | DrawnKind::Seedling | DrawnKind::Siblings => "",
    };
    let sex = plant.sex.map_or("", Sex::mark);
    let said: Vec<&str> = [code, kind, sex, plant.fate.word(), note]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    match said.is_empty() {
        true => Vec::new(),
        false => words(&roman(&said.join(" · ")), false),
    }
}
