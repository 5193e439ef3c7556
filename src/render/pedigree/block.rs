//! One plant: its code and name standing on the ribbon of its species shares.
//!
//! A block is measured before anything is placed, and painted once its place is known. The ribbon is part of the line of
//! descent: what comes from the parents enters at its left end and leaves at its right.

use super::fraction::written;
use super::manner::Manner;
use crate::render::scene::{
    Colour, Face, INK, PAPER, Path, SOFT, Scene, Setting, Stroke, Word, fit, line_width, set,
    species_colour, width, wrap,
};
use crate::report::pedigree::{DrawnKind, DrawnPlant, Fate, Name, PedigreeDrawing, Sex};

/// A plant's text, broken into lines, and the room it takes around the middle of its ribbon.
#[derive(Clone, Debug, PartialEq)]
pub struct Block {
    /// Code, sex and fate.
    pub head: Vec<Word>,
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
/// Most characters of a name that are looked at.
const LETTERS: usize = 400;
/// Air between the frame of the plant on offer and what it holds.
pub const FRAME: f64 = 7.0;

impl Block {
    /// Measures a plant.
    pub fn of(plant: &DrawnPlant, manner: &Manner) -> Block {
        let size = if plant.focus {
            manner.focus
        } else {
            manner.name
        };
        let ribbon = if plant.focus {
            manner.ribbon * 1.5
        } else {
            manner.ribbon
        };
        let room = if plant.focus {
            manner.room * 1.4
        } else {
            manner.room
        };
        let (mut head, mut lines) = (heading(plant), name_lines(plant, size, room));
        if manner.compact && !plant.focus {
            lines = one_line(std::mem::take(&mut head), lines, size, room);
        }
        let head = fit(&head, manner.small, room);
        let widest = lines
            .iter()
            .map(|line| line_width(line, size))
            .fold(line_width(&head, manner.small), f64::max);
        let frame = if plant.focus { FRAME } else { 0.0 };
        let above = if head.is_empty() {
            0.0
        } else {
            manner.small * 1.25
        };
        let below = if labelled(plant, manner) {
            manner.small * 1.3
        } else {
            0.0
        };
        Block {
            width: widest.max(if manner.compact { 40.0 } else { 64.0 }),
            up: ribbon / 2.0 + 2.5 + lines.len() as f64 * size * 1.16 + above + frame,
            down: ribbon / 2.0 + below + frame + 1.0,
            head,
            lines,
            size,
            ribbon,
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
        let top = base + self.size * 0.16;
        set(
            scene,
            &self.head,
            (x, top),
            Setting {
                size: manner.small,
                colour: SOFT,
            },
        );
        ribbon(
            scene,
            plant,
            (x, y - self.ribbon / 2.0),
            (room, self.ribbon),
        );
    }
}

/// Whether the shares of a plant are written under its ribbon.
fn labelled(plant: &DrawnPlant, manner: &Manner) -> bool {
    let plain = plant.kind == DrawnKind::Founder && plant.shares.len() == 1;
    (!manner.compact || plant.focus)
        && !plain
        && !(plant.shares.is_empty() && plant.unknown_share == 0.0)
}

fn heading(plant: &DrawnPlant) -> Vec<Word> {
    let mut parts = Vec::new();
    if !plant.code.is_empty() {
        parts.push(plant.code.clone());
    }
    let kind = match plant.kind {
        DrawnKind::Patch => "patch",
        DrawnKind::OneOf => "one of",
        DrawnKind::Unknown => "unknown",
        DrawnKind::Founder | DrawnKind::Clone | DrawnKind::Seedling => "",
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
        Fate::LetGo => "let go",
    };
    parts.extend(
        [kind, sex, fate]
            .iter()
            .filter(|part| !part.is_empty())
            .map(|part| part.to_string()),
    );
    match parts.is_empty() {
        true => Vec::new(),
        false => vec![Word::roman(parts.join(" · "))],
    }
}

/// A name in the faces of the picture; control characters become blanks, and a name without end is cut.
pub fn words(name: &Name, bold: bool) -> Vec<Word> {
    let mut left = LETTERS;
    let mut words = Vec::new();
    for run in name {
        let text: String = run
            .text
            .chars()
            .take(left)
            .map(|c| if c.is_control() { ' ' } else { c })
            .collect();
        left -= text.chars().count();
        let face = match (run.italic, bold) {
            (false, false) => Face::Roman,
            (true, false) => Face::Italic,
            (false, true) => Face::Bold,
            (true, true) => Face::BoldItalic,
        };
        words.push(Word { text, face });
    }
    if left == 0 {
        words.push(Word::roman("…"));
    }
    words
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

/// The ribbon: one stretch for each species, an empty one with dots for what is unknown, a thin frame around all.
fn ribbon(scene: &mut Scene, plant: &DrawnPlant, corner: (f64, f64), size: (f64, f64)) {
    let ((mut x, y), (room, height)) = (corner, size);
    scene.fill(Path::rect(x, y, room, height), PAPER);
    for share in &plant.shares {
        let long = room * share.fraction.clamp(0.0, 1.0);
        stretch(scene, (x, y), (long, height), share.species);
        x += long;
    }
    let middle = y + height / 2.0;
    let known: f64 = plant.shares.iter().map(|share| share.fraction).sum();
    if known < 0.999_999 {
        let dots = Stroke::dashed(SOFT, 1.0, &[0.1, 3.0]);
        scene.stroke(
            Path::line((x + 2.0, middle), (corner.0 + room - 1.0, middle)),
            dots,
        );
    }
    scene.stroke(
        Path::rect(corner.0, y, room, height),
        Stroke::solid(INK, 0.6),
    );
}

/// One stretch in the colour of its species; species after the ninth repeat a colour under slanted strokes.
pub fn stretch(scene: &mut Scene, corner: (f64, f64), size: (f64, f64), species: usize) {
    let (colour, round) = species_colour(species);
    scene.fill(Path::rect(corner.0, corner.1, size.0, size.1), colour);
    if round == 0 {
        return;
    }
    let step = 5.0 / round as f64;
    let mut x = corner.0 + step / 2.0;
    while x + 1.5 < corner.0 + size.0 {
        let stroke = Stroke::solid(PAPER, 1.0);
        scene.stroke(
            Path::line((x, corner.1 + size.1), (x + 1.5, corner.1)),
            stroke,
        );
        x += step.max(1.5);
    }
}

/// Writes the shares under the ribbon, each below its stretch, as much as fits there.
pub fn share_labels(
    scene: &mut Scene,
    drawing: &PedigreeDrawing,
    plant: &DrawnPlant,
    spot: ShareSpot,
) {
    if !labelled(plant, spot.manner) {
        return;
    }
    let size = spot.manner.small;
    let base = spot.place.1 + spot.ribbon / 2.0 + size * 0.95;
    let mut x = spot.place.0;
    for share in &plant.shares {
        let long = spot.room * share.fraction.clamp(0.0, 1.0);
        let colour = species_colour(share.species).0.readable();
        let name = drawing
            .species
            .get(share.species)
            .map(|name| words(name, false))
            .unwrap_or_default();
        set(
            scene,
            &share_text(written(share.fraction), name, size, long),
            (x, base),
            Setting { size, colour },
        );
        x += long;
    }
    if plant.unknown_share > 0.0 {
        let long = spot.room * plant.unknown_share.clamp(0.0, 1.0);
        let unknown = vec![Word::roman("unknown")];
        let text = share_text(written(plant.unknown_share), unknown, size, long);
        set(scene, &text, (x, base), Setting { size, colour: SOFT });
    }
}

/// Where share labels go.
pub struct ShareSpot<'a> {
    /// Left end and middle of the ribbon.
    pub place: (f64, f64),
    /// Its width.
    pub room: f64,
    /// Its height.
    pub ribbon: f64,
    /// Sizes.
    pub manner: &'a Manner,
}

/// The fullest of "½ ventricosa", "½ ven.", "½" and nothing that fits.
fn share_text(share: String, name: Vec<Word>, size: f64, room: f64) -> Vec<Word> {
    let mut full = vec![Word::roman(format!("{share} "))];
    full.extend(name.clone());
    if line_width(&full, size) <= room - 2.0 {
        return full;
    }
    let letters: String = name
        .iter()
        .flat_map(|word| word.text.chars())
        .take(3)
        .collect();
    let face = name.first().map_or(Face::Roman, |word| word.face);
    let short = vec![
        Word::roman(format!("{share} ")),
        Word {
            text: format!("{letters}."),
            face,
        },
    ];
    if line_width(&short, size) <= room - 2.0 {
        return short;
    }
    match width(&share, Face::Roman, size) <= room - 2.0 {
        true => vec![Word::roman(share)],
        false => Vec::new(),
    }
}
