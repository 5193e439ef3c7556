//! The one typeface, embedded: which glyphs a text takes, how wide it is, and the outline of each glyph.
//!
//! Libertinus Serif in four faces lies in `src/render/font/` under its open licence. A character it lacks is drawn as
//! the face's own empty box, so unknown text is seen as unknown and never stops a picture.

use std::sync::OnceLock;

use harfrust::font::glyph::outline::{DrawMemory, DrawOptions, PathSink};
use harfrust::{Buffer, Direction, Font, GlyphId, ShapeOptions, ShaperFont, shape};

use super::{Path, Step};
use crate::text::one_line;

/// One of the four faces of the typeface.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Upright.
    #[default]
    Roman,
    /// Italic, for Latin names.
    Italic,
    /// Upright bold.
    Bold,
    /// Italic bold.
    BoldItalic,
}

/// A glyph of a shaped text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glyph {
    /// The glyph's number in its face.
    pub id: u16,
    /// Where it starts, in points from the start of the text.
    pub x: f64,
    /// How far it is raised above the baseline, in points.
    pub raise: f64,
}

/// Units of a face's design grid to one em.
const UNITS: f64 = 1000.0;

static FILES: [&[u8]; 4] = [
    include_bytes!("../font/LibertinusSerif-Regular.otf"),
    include_bytes!("../font/LibertinusSerif-Italic.otf"),
    include_bytes!("../font/LibertinusSerif-Bold.otf"),
    include_bytes!("../font/LibertinusSerif-BoldItalic.otf"),
];

fn font(face: Face) -> &'static Font {
    static FONTS: [OnceLock<Font>; 4] = [const { OnceLock::new() }; 4];
    let open = || Font::new(FILES[face as usize], 0).expect("the embedded font is well formed");
    FONTS[face as usize].get_or_init(open)
}

/// The glyphs of `text`, with what cannot be seen shown as signs, set at `size` points, and the width of the whole in points.
pub fn glyphs(text: &str, face: Face, size: f64) -> (Vec<Glyph>, f64) {
    let (shaped, scale) = (shaped(&one_line(text), face), size / UNITS);
    let mut pen = 0.0;
    let mut glyphs = Vec::with_capacity(shaped.len());
    for (info, place) in shaped.glyph_infos().iter().zip(shaped.glyph_positions()) {
        let x = pen + f64::from(place.x_offset) * scale;
        glyphs.push(Glyph {
            id: info.glyph_id as u16,
            x,
            raise: f64::from(place.y_offset) * scale,
        });
        pen += f64::from(place.x_advance) * scale;
    }
    (glyphs, pen)
}

/// As [`glyphs`], each with the letters it says: several for a ligature; the first glyph of letters drawn by several
/// says all of them.
pub fn spelt(text: &str, face: Face, size: f64) -> (Vec<(Glyph, String)>, f64) {
    let line = one_line(text);
    let shaped = shaped(&line, face);
    let starts: Vec<usize> = shaped
        .glyph_infos()
        .iter()
        .map(|info| info.cluster as usize)
        .collect();
    let says = |at: usize| {
        let start = starts[at];
        let is_first = at == 0 || starts[at - 1] != start;
        let end = starts[at..].iter().copied().find(|next| *next > start);
        let letters = line.get(start..end.unwrap_or(line.len()));
        letters.filter(|_| is_first).unwrap_or("").to_owned()
    };
    let (glyphs, width) = glyphs(text, face, size);
    let spelt = glyphs.into_iter().enumerate();
    (spelt.map(|(at, glyph)| (glyph, says(at))).collect(), width)
}

/// The letters of a text that a face has no drawing of.
pub fn not_drawn(text: &str, face: Face) -> Vec<char> {
    // Every face has the letters of Latin names, and most texts have no others.
    if text.chars().all(|letter| letter < '\u{180}') {
        return Vec::new();
    }
    let (spelt, _) = spelt(text, face, UNITS);
    let boxes = spelt.iter().filter(|(glyph, _)| glyph.id == 0);
    boxes.flat_map(|(_, letters)| letters.chars()).collect()
}

/// How far a glyph alone moves the pen, in thousandths of the size.
pub fn advance(id: u16, face: Face) -> f64 {
    let advance = ShaperFont::new(font(face)).glyph_h_advance(GlyphId::from(id));
    f64::from(advance) * 1000.0 / UNITS
}

/// The file of a face, as it is embedded.
pub fn file_of(face: Face) -> &'static [u8] {
    FILES[face as usize]
}

fn shaped(line: &str, face: Face) -> Buffer {
    let mut shaped = Buffer::new();
    shaped.push_str(line);
    shaped.guess_segment_properties();
    shaped.set_direction(Direction::LeftToRight);
    shape(
        &ShaperFont::new(font(face)),
        &mut shaped,
        ShapeOptions::new(),
    )
    .expect("the text has a direction");
    shaped
}

/// The width of `text` set at `size` points.
pub fn width(text: &str, face: Face, size: f64) -> f64 {
    glyphs(text, face, size).1
}

/// The outline of one glyph on a grid of 1000 units to the em, y downward; empty for blanks.
pub fn outline(id: u16, face: Face) -> Path {
    let mut pen = Outline::default();
    let glyph = font(face).outline_glyphs().get(GlyphId::from(id));
    if let Some(glyph) = glyph {
        // A glyph that cannot be drawn leaves a gap of its own width; the text beside it stays.
        let _ = glyph.draw(&DrawOptions::new(), DrawMemory::Scratch, &mut pen);
    }
    pen.path
}

/// Collects the outline of a glyph; quadratic curves are raised to cubic ones.
#[derive(Default)]
pub struct Outline {
    path: Path,
    at: (f64, f64),
}

impl Outline {
    fn go(&mut self, x: f32, y: f32) -> (f64, f64) {
        self.at = (f64::from(x), -f64::from(y));
        self.at
    }
}

impl PathSink for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.go(x, y);
        self.path.0.push(Step::Move(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        let (x, y) = self.go(x, y);
        self.path.0.push(Step::Line(x, y));
    }

    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        let (from, control) = (self.at, (f64::from(cx), -f64::from(cy)));
        let to = self.go(x, y);
        let toward = |end: (f64, f64)| {
            (
                end.0 + (control.0 - end.0) * 2.0 / 3.0,
                end.1 + (control.1 - end.1) * 2.0 / 3.0,
            )
        };
        let (first, second) = (toward(from), toward(to));
        self.path.0.push(Step::Curve([
            first.0, first.1, second.0, second.1, to.0, to.1,
        ]));
    }

    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        let (x, y) = self.go(x, y);
        let curve = [
            f64::from(ax),
            -f64::from(ay),
            f64::from(bx),
            -f64::from(by),
            x,
            y,
        ];
        self.path.0.push(Step::Curve(curve));
    }

    fn close(&mut self) {
        self.path.0.push(Step::Close);
    }
}
