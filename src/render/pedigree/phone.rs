//! The pedigree for a phone held upright, 360 points across: one column of boxes, the plant on offer first, its parents
//! set in below it, the seed parent above the pollen parent. A plant that comes again is only named.

use super::block::Block;
use super::draw::{UNKNOWN, begin, titled};
use super::lines::DOUBT;
use super::manner::Manner;
use super::parts::Signs;
use super::place::MARGIN;
use super::text::{Sizes, paragraph};
use super::{heading, key};
use crate::render::outline::{Entry, Said, outline};
use crate::render::scene::{
    Face, INK, PAPER, Path, SOFT, Scene, Setting, Stroke, TextRun, Word, set, width, wrap,
};
use crate::report::pedigree::{DrawnPlant, PedigreeDrawing};
use crate::wording::counted;

/// Width of the picture.
const WIDTH: f64 = 360.0;
/// How far a generation is set in, where there is room.
const STEP: f64 = 24.0;
/// The least width of a box: eight squares fit.
const LEAST: f64 = 200.0;

/// The picture.
pub fn on_phone(drawing: &PedigreeDrawing) -> Scene {
    let (mut scene, signs) = (begin(drawing, WIDTH), Signs::of(drawing));
    let sizes = Sizes::PHONE;
    let top = heading::paint(&mut scene, drawing, &sizes);
    let told = outline(drawing);
    let deepest = told.entries.iter().map(|entry| entry.depth).max();
    let room = WIDTH - 2.0 * MARGIN - LEAST;
    let mut column = Column {
        signs,
        step: STEP.min(room / deepest.unwrap_or(0).max(1) as f64),
        y: top + 8.0,
        stems: Vec::new(),
        scene: &mut scene,
    };
    told.entries.iter().for_each(|entry| column.entry(entry));
    let mut y = column.y;
    if told.hidden > 0 {
        let rest = counted(told.hidden, "more plant", "more plants");
        let text = [Word::roman(format!("… and {rest}, not drawn"))];
        y = paragraph(&mut scene, &text, y, (sizes.small, INK));
    }
    scene.height = key::paint(&mut scene, drawing, (y + 6.0, false), &sizes) + MARGIN;
    scene
}

/// Boxes set so far.
struct Column<'s, 'd> {
    scene: &'s mut Scene,
    signs: Signs<'d>,
    step: f64,
    y: f64,
    /// For each generation where its line to the next begins: below a box, or at the line of the parent drawn last.
    stems: Vec<f64>,
}

impl Column<'_, '_> {
    fn left(&self, depth: usize) -> f64 {
        MARGIN + self.step * depth as f64
    }

    fn entry(&mut self, entry: &Entry) {
        let depth = entry.depth;
        match &entry.said {
            Said::Plant {
                row,
                sign,
                chance,
                again,
                doubtful,
            } => {
                let related = format!("{sign}{chance}");
                let middle = self.plant(*row, (depth, &related, *again));
                self.branch(depth, middle, (sign, *doubtful));
            }
            Said::Unknown(sign) => {
                let middle = self.unknown(depth);
                self.branch(depth, middle, (sign, true));
            }
            Said::Cross(text) => {
                let middle = self.words(depth, text, INK_WORDS);
                self.branch(depth, middle, (WORDS, false));
            }
            Said::Remark(text) => _ = self.words(depth, text, REMARK),
        }
        self.stems.truncate(depth + 1);
        if !matches!(entry.said, Said::Remark(_)) {
            self.stems.resize(depth + 1, self.y);
            self.stems[depth] = self.y;
            self.y += Manner::PHONE.air;
        }
    }

    /// A box; returns the height of its middle.
    fn plant(&mut self, row: usize, (depth, sign, again): (usize, &str, bool)) -> f64 {
        let left = self.left(depth);
        let wide = WIDTH - MARGIN - left;
        let manner = Manner {
            room: wide - 2.0 * Manner::PHONE.pad,
            focus_room: wide - 2.0 * Manner::PHONE.pad,
            ..Manner::PHONE
        };
        let plant = &self.signs.drawing.plants[row];
        let related = sign.trim_start_matches(['♀', '♂', '?']).trim();
        let note = match again {
            true => [related, "see above"].join(" "),
            false => related.to_owned(),
        };
        let named = DrawnPlant {
            shares: Vec::new(),
            either: Vec::new(),
            unknown_share: 0.0,
            ..plant.clone()
        };
        let shown = if again { &named } else { plant };
        let block = Block::of(shown, note.trim(), &self.signs, &manner);
        let middle = self.y + block.half;
        self.scene.open(titled(plant));
        let place = (left, middle);
        block.paint(self.scene, (shown, &self.signs), place, (wide, &manner));
        self.scene.close();
        self.y += 2.0 * block.half;
        middle
    }

    fn unknown(&mut self, depth: usize) -> f64 {
        let (left, manner) = (self.left(depth), Manner::PHONE);
        let half = manner.name * 0.6 + manner.pad;
        let frame = Path::rounded((left, self.y), (WIDTH - MARGIN - left, 2.0 * half), 3.0);
        self.scene
            .framed(frame, PAPER, Stroke::dashed(SOFT, 0.9, &UNKNOWN));
        let middle = self.y + half;
        let setting = Setting::soft(manner.name);
        let place = (left + manner.pad, middle + manner.name * 0.3);
        set(self.scene, &[Word::roman("? not known")], place, setting);
        self.y += 2.0 * half;
        middle
    }

    /// Words without a box; returns the middle of their first line.
    fn words(&mut self, depth: usize, text: &str, (size, face): (f64, Face)) -> f64 {
        let left = self.left(depth);
        let word = Word {
            text: text.to_owned(),
            face,
        };
        let middle = self.y + size * 0.6;
        for line in wrap(&[word], size, WIDTH - MARGIN - left) {
            self.y += size * 1.2;
            let colour = if face == Face::Italic { SOFT } else { INK };
            set(
                self.scene,
                &line,
                (left, self.y - size * 0.25),
                Setting { size, colour },
            );
        }
        self.y += size * 0.35;
        middle
    }

    /// The line from the box above to this one, with the sign of the parent on it.
    fn branch(&mut self, depth: usize, middle: f64, (sign, doubtful): (&str, bool)) {
        // Words have no frame for the line to end at.
        let is_words = sign == WORDS;
        let Some(above) = depth.checked_sub(1) else {
            return;
        };
        let Some(&from) = self.stems.get(above) else {
            return;
        };
        let stem = self.left(above) + self.step * 0.4;
        let stroke = match doubtful {
            true => Stroke::dashed(INK, 1.05, &DOUBT),
            false => Stroke::solid(INK, 1.05),
        };
        let left = self.left(depth) - if is_words { 3.0 } else { 0.0 };
        let line = [(stem, from), (stem, middle), (left, middle)];
        self.scene.stroke(Path::polyline(&line), stroke);
        let has_bead = sign.starts_with(['♀', '♂', '?']);
        self.stems[above] = middle + if has_bead { BEAD } else { 0.0 };
        self.bead(sign, (stem, middle));
    }

    fn bead(&mut self, sign: &str, (x, y): (f64, f64)) {
        let Some(sign) = sign.chars().next().filter(|c| ['♀', '♂', '?'].contains(c)) else {
            return;
        };
        let (text, size) = (sign.to_string(), 12.5);
        self.scene.fill(Path::circle((x, y), BEAD), PAPER);
        let wide = width(&text, Face::Roman, size);
        self.scene.text(TextRun {
            place: (x - wide / 2.0, y + size * 0.31),
            size,
            face: Face::Roman,
            colour: INK,
            text,
        });
    }
}

/// In place of the sign of a parent.
const WORDS: &str = "words";
/// Half the height of a sign.
const BEAD: f64 = 8.0;
/// Sizes and faces of words without a box.
const REMARK: (f64, Face) = (11.5, Face::Italic);
const INK_WORDS: (f64, Face) = (12.5, Face::Roman);
