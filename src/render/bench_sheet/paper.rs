//! Paper sizes (ISO 216) and the pen: lines and letters placed in millimetres.

pub(super) use crate::render::scene::POINTS;
use crate::render::scene::{
    Colour, Face, Path, Scene, Setting, Stroke, TextRun, Word, fit, set, width,
};

/// Ink.
pub(super) const BLACK: Colour = Colour(0, 0, 0);
const WHITE: Colour = Colour(255, 255, 255);

/// Letters of codes where there is room, points.
pub(super) const CODE: f64 = 10.0;
/// Air beside the words of a column, millimetres.
pub(super) const AIR: f64 = 1.6;

/// How wide a code is in letters of so many points, millimetres.
pub(super) fn code_width(code: &str, size: f64) -> f64 {
    width(code, Face::Bold, size) / POINTS
}

/// A size of paper, upright.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Paper {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 148 × 210 mm.
    A5,
}

impl Paper {
    /// Width and height in millimetres.
    pub fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::A5 => (148.0, 210.0),
        }
    }

    /// Rows of 8 mm that leave room for the head.
    pub fn rows(self) -> usize {
        match self {
            Paper::A4 => 25,
            Paper::A5 => 12,
        }
    }

    /// White border, millimetres: no printer prints to the edge, and A5 has little to spare.
    pub(super) fn border(self) -> f64 {
        match self {
            Paper::A4 => 12.0,
            Paper::A5 => 9.0,
        }
    }
}

/// A scene drawn in millimetres, from a line downward.
pub(super) struct Pen<'s> {
    pub(super) scene: &'s mut Scene,
    /// Where the page begins in the scene, mm from above.
    pub(super) top: f64,
}

impl Pen<'_> {
    /// White paper of a size.
    pub(super) fn paper(&mut self, (width, height): (f64, f64)) {
        let paper = Path::rect(0.0, self.top * POINTS, width * POINTS, height * POINTS);
        self.scene.fill(paper, WHITE);
    }

    /// A line; its width in points.
    pub(super) fn line(&mut self, from: (f64, f64), to: (f64, f64), width: f64) {
        let (from, to) = (self.place(from), self.place(to));
        self.scene
            .stroke(Path::line(from, to), Stroke::solid(BLACK, width));
    }

    /// A box by its corner and size.
    pub(super) fn square(&mut self, corner: (f64, f64), (width, height): (f64, f64)) {
        let (x, y) = self.place(corner);
        let path = Path::rect(x, y, width * POINTS, height * POINTS);
        self.scene.stroke(path, Stroke::solid(BLACK, 0.5));
    }

    /// Words in one line that get no wider than `room`; the size of letters in points. Gives where they end.
    pub(super) fn words(
        &mut self,
        text: &str,
        at: (f64, f64),
        (size, face): (f64, Face),
        room: f64,
    ) -> f64 {
        let word = Word {
            text: text.to_owned(),
            face,
        };
        let line = fit(&[word], size, room * POINTS);
        let setting = Setting {
            size,
            colour: BLACK,
        };
        let place = self.place(at);
        set(self.scene, &line, place, setting) / POINTS
    }

    /// A code in full: smaller letters where it is long, since one cut short could be that of another plant.
    pub(super) fn code(&mut self, code: &str, at: (f64, f64), room: f64) {
        let size = CODE * (room / code_width(code, CODE)).min(1.0);
        self.words(code, at, (size, Face::Bold), 2.0 * room);
    }

    /// Words around a middle.
    pub(super) fn centred(&mut self, text: &str, (x, y): (f64, f64), (size, face): (f64, Face)) {
        let half = width(text, face, size) / 2.0;
        let (x, y) = self.place((x, y));
        self.scene.text(TextRun {
            place: (x - half, y),
            size,
            face,
            colour: BLACK,
            text: text.to_owned(),
        });
    }

    fn place(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (x * POINTS, (self.top + y) * POINTS)
    }
}
