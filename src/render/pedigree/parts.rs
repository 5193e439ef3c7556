//! The expected parts of a plant's descent, in eighths: a row of eight squares, as many as great-grandparents, each with
//! the letters of its species.
//!
//! Sixteenths take two rows. What cannot be counted in sixteenths is written as fractions. A plant of one species has one
//! square, which shows the letters that stand for it elsewhere.

use super::fraction::written;
use super::letters::without_genus;
use super::ribbon::is_share;
use super::words::words;
use crate::render::scene::{
    Colour, Face, INK, PAPER, Path, SOFT, Scene, Setting, SpeciesLook, Stroke, TextRun, Word,
    line_width, set, width, wrap,
};
use crate::report::pedigree::{DrawnKind, DrawnPlant, PedigreeDrawing};
use crate::report::shares_words::short;

/// What stands in a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Square {
    /// The species of that row.
    Species(usize),
    /// One of several species.
    Either,
    /// Not known.
    Unknown,
}

/// The descent of a plant as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Parts {
    /// Nothing: none is known, or the name says it all.
    None,
    /// All of it is of one species.
    One(Square),
    /// Eight or sixteen equal parts.
    Squares(Vec<Square>),
    /// Fractions in words, each line broken.
    Figures(Vec<Vec<Word>>),
}

/// Looks and letters of the species of one picture.
pub struct Signs<'d> {
    /// The picture.
    pub drawing: &'d PedigreeDrawing,
    /// Letters by row of the species.
    pub letters: Vec<String>,
    /// Looks by row of the species.
    pub looks: Vec<SpeciesLook>,
}

/// Sizes of a row of squares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tile {
    /// Side of a square.
    pub side: f64,
    /// Size of its letters, and of fractions in words.
    pub letters: f64,
}

/// Holds a fraction and its species together.
const TIE: char = '\u{a0}';
/// Between two squares, in parts of their side.
const AIR: f64 = 0.1;
/// Squares in a row.
const ROW: usize = 8;

impl Tile {
    fn step(self) -> f64 {
        self.side * (1.0 + AIR)
    }
}

impl<'d> Signs<'d> {
    /// The signs of a drawing.
    pub fn of(drawing: &'d PedigreeDrawing) -> Signs<'d> {
        let looks = drawing.species.iter();
        Signs {
            drawing,
            letters: super::letters::letters_of(drawing),
            looks: looks
                .map(|name| super::letters::look_of(Some(name)))
                .collect(),
        }
    }

    /// The letters of a square and what fills it, if anything.
    pub fn sign(&self, of: Square) -> (&str, Option<Colour>) {
        match of {
            Square::Species(row) if row < self.looks.len() => {
                (self.letters[row].as_str(), Some(self.looks[row].colour))
            }
            Square::Either => ("or", None),
            Square::Species(_) | Square::Unknown => ("?", None),
        }
    }

    /// One square with the letters of what it stands for.
    pub fn square(&self, scene: &mut Scene, corner: (f64, f64), of: Square, tile: Tile) {
        let (x, y) = corner;
        let frame = Path::rect(x, y, tile.side, tile.side);
        let (text, fill) = self.sign(of);
        let colour = fill.map_or(INK, |fill| fill.letters_on());
        match fill {
            Some(fill) => scene.framed(frame, fill, Stroke::solid(INK, 0.5)),
            None => scene.framed(frame, PAPER, Stroke::dashed(SOFT, 0.8, &[0.1, 2.0])),
        }
        let face = Face::Roman;
        let wide = width(text, face, tile.letters);
        scene.text(TextRun {
            place: (
                x + (tile.side - wide) / 2.0,
                y + tile.side / 2.0 + tile.letters * 0.25,
            ),
            size: tile.letters,
            face,
            colour,
            text: text.to_owned(),
        });
    }
}

impl Parts {
    /// The parts of a plant, figures broken to `room` points. With `figures` nothing is drawn in squares.
    pub fn of(
        plant: &DrawnPlant,
        signs: &Signs,
        (tile, room): (Tile, f64),
        figures: bool,
    ) -> Parts {
        let parts = counted(plant);
        match parts[..] {
            [] => return Parts::None,
            [(square, whole)] if (whole - 1.0).abs() < 1e-9 => {
                let named = plant.kind == DrawnKind::Founder && figures;
                return match (square, named) {
                    (Square::Species(_), false) => Parts::One(square),
                    (_, true) => Parts::None,
                    _ => Parts::Squares(vec![square; ROW]),
                };
            }
            _ => {}
        }
        let squares = [ROW, 2 * ROW]
            .into_iter()
            .find_map(|of| squares(&parts, of));
        match squares.filter(|_| !figures) {
            Some(squares) => Parts::Squares(squares),
            None => Parts::Figures(wrap(&in_words(plant, signs), tile.letters, room)),
        }
    }

    /// Width and height.
    pub fn size(&self, tile: Tile) -> (f64, f64) {
        match self {
            Parts::None => (0.0, 0.0),
            Parts::One(_) => (tile.side, tile.side),
            Parts::Squares(all) => {
                let rows = all.len().div_ceil(ROW) as f64;
                let across = ROW.min(all.len()) as f64;
                let long = |count: f64| count * tile.step() - tile.side * AIR;
                (long(across), long(rows))
            }
            Parts::Figures(lines) => {
                let widest = lines.iter().map(|line| line_width(line, tile.letters));
                let height = lines.len() as f64 * tile.letters * 1.25;
                (widest.fold(0.0, f64::max), height)
            }
        }
    }

    /// Paints them from their upper left corner.
    pub fn paint(&self, scene: &mut Scene, signs: &Signs, corner: (f64, f64), tile: Tile) {
        match self {
            Parts::None => {}
            Parts::One(square) => signs.square(scene, corner, *square, tile),
            Parts::Squares(all) => {
                for (at, &square) in all.iter().enumerate() {
                    let x = corner.0 + (at % ROW) as f64 * tile.step();
                    let y = corner.1 + (at / ROW) as f64 * tile.step();
                    signs.square(scene, (x, y), square, tile);
                }
            }
            Parts::Figures(lines) => {
                let mut y = corner.1 + tile.letters * 0.9;
                let setting = Setting::ink(tile.letters);
                for line in lines {
                    set(scene, line, (corner.0, y), setting);
                    y += tile.letters * 1.25;
                }
            }
        }
    }
}

/// Every part with what it is of, in the order they are told.
fn counted(plant: &DrawnPlant) -> Vec<(Square, f64)> {
    let known = plant.shares.iter();
    let known = known.map(|share| (Square::Species(share.species), share.fraction));
    let either = plant.either.iter();
    let either = either.map(|part| (Square::Either, part.fraction));
    let parts = known
        .chain(either)
        .chain([(Square::Unknown, plant.unknown_share)]);
    parts.filter(|(_, part)| is_share(*part)).collect()
}

/// So many squares, where every part is a whole number of them.
fn squares(parts: &[(Square, f64)], of: usize) -> Option<Vec<Square>> {
    let mut squares = Vec::new();
    for &(square, part) in parts {
        let count = part * of as f64;
        let whole = libm::round(count);
        if (count - whole).abs() > 1e-6 {
            return None;
        }
        squares.extend(std::iter::repeat_n(square, (whole as usize).min(of)));
    }
    (squares.len() == of).then_some(squares)
}

/// What one square stands for in a picture, by how many the plants of several parts have.
pub fn squares_words(drawing: &PedigreeDrawing) -> Option<&'static str> {
    let plants = drawing.plants.iter().map(counted);
    let mixed: Vec<_> = plants.filter(|parts| parts.len() > 1).collect();
    let are_eight = |parts: &Vec<_>| squares(parts, ROW).is_some();
    let are_sixteen = |parts: &Vec<_>| !are_eight(parts) && squares(parts, 2 * ROW).is_some();
    match (mixed.iter().any(are_eight), mixed.iter().any(are_sixteen)) {
        (_, false) if mixed.is_empty() => None,
        (_, false) => Some("each of eight squares: an expected eighth of the descent"),
        (false, true) => Some("each of sixteen squares: an expected sixteenth of the descent"),
        (true, true) => Some(
            "each of eight squares: an expected eighth of the descent; each of sixteen: a sixteenth",
        ),
    }
}

/// What the squares without a species say, each where it is drawn.
pub fn signs_words(drawing: &PedigreeDrawing) -> impl Iterator<Item = &'static str> {
    let plants = drawing.plants.iter().map(counted);
    let in_squares = plants.filter(|parts| {
        [ROW, 2 * ROW]
            .iter()
            .any(|of| squares(parts, *of).is_some())
    });
    let drawn: Vec<Square> = in_squares.flatten().map(|(square, _)| square).collect();
    let words = [
        (Square::Either, "or: one of several species"),
        (Square::Unknown, "?: not known"),
    ];
    let is_drawn = move |(square, _): &(Square, _)| drawn.contains(square);
    words.into_iter().filter(is_drawn).map(|(_, words)| words)
}

/// "⅝ spathulata, ⅛ truncata, ¼ unknown".
pub fn in_words(plant: &DrawnPlant, signs: &Signs) -> Vec<Word> {
    let mut line: Vec<Word> = Vec::new();
    let mut say = |fraction: f64, mut name: Vec<Word>| {
        let between = match line.is_empty() {
            true => short(plant.shares_are),
            false => ", ",
        };
        line.push(Word::roman(format!("{between}{}{TIE}", written(fraction))));
        if let Some(first) = name.first_mut() {
            first.text = without_genus(&first.text).to_owned();
        }
        line.extend(name);
    };
    for share in &plant.shares {
        let name = signs.drawing.species.get(share.species);
        let name = name.map(|name| words(name, false));
        say(share.fraction, name.unwrap_or_default());
    }
    let either = plant.either.iter();
    let either = either.map(|part| (part.fraction, part.of.as_str()));
    let open = either.chain([(plant.unknown_share, "unknown")]);
    for (fraction, of) in open.filter(|(fraction, _)| is_share(*fraction)) {
        say(fraction, vec![Word::roman(of)]);
    }
    line
}
