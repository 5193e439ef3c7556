//! What stands under the picture: the species by their squares, how to read lines and squares, and cautions.

use super::grid::times_raised;
use super::letters::drawn;
use super::lines::DOUBT;
use super::parts::{Signs, Square, Tile, signs_words, squares_words};
use super::place::MARGIN;
use super::text::{Sizes, paragraph};
use super::words::words;
use crate::render::scene::{INK, Path, RULE, SOFT, Scene, Setting, Stroke, Word, line_width, set};
use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};

/// Sets it below `top`, with a word on brackets where the picture has them; returns where it ends.
pub fn paint(
    scene: &mut Scene,
    drawing: &PedigreeDrawing,
    (top, brackets): (f64, bool),
    sizes: &Sizes,
) -> f64 {
    let rule = Path::line((MARGIN, top), (scene.width - MARGIN, top));
    scene.stroke(rule, Stroke::solid(RULE, 0.7));
    let mut y = of_species(scene, drawing, top + sizes.small * 0.6, sizes);
    y = of_lines(scene, drawing, (y, brackets), sizes);
    for text in &drawing.footnotes {
        y = paragraph(scene, &[Word::roman(text.as_str())], y, (sizes.small, SOFT));
    }
    y
}

/// Each species beside its square.
fn of_species(scene: &mut Scene, drawing: &PedigreeDrawing, top: f64, sizes: &Sizes) -> f64 {
    let (signs, small) = (Signs::of(drawing), sizes.small);
    let letters = sizes.letters;
    let tile = Tile {
        side: letters * 1.85,
        letters,
    };
    let line = tile.side * 1.25;
    let (mut x, mut y) = (MARGIN, top);
    let used = drawn(drawing);
    for &row in &used {
        let name = words(&drawing.species[row], false);
        let wide = tile.side + small * 0.5 + line_width(&name, small) + small * 1.5;
        if x + wide > scene.width - MARGIN && x > MARGIN {
            (x, y) = (MARGIN, y + line);
        }
        signs.square(scene, (x, y), Square::Species(row), tile);
        let place = (
            x + tile.side + small * 0.5,
            y + tile.side / 2.0 + small * 0.3,
        );
        let setting = Setting::ink(small);
        set(scene, &name, place, setting);
        x += wide;
    }
    if used.is_empty() { top } else { y + line }
}

/// How to read lines and squares, each where there are some.
fn of_lines(
    scene: &mut Scene,
    drawing: &PedigreeDrawing,
    (top, brackets): (f64, bool),
    sizes: &Sizes,
) -> f64 {
    let mut said = lines_words(drawing);
    said.extend(brackets_words(drawing).filter(|_| brackets));
    said.extend(squares_words(drawing));
    said.extend(signs_words(drawing));
    let mut y = top;
    if !said.is_empty() {
        let text = [Word::roman(said.join("; "))];
        y = paragraph(scene, &text, y, (sizes.small, SOFT));
    }
    if has_doubt(drawing) {
        let base = y + sizes.small * 1.25;
        let middle = base - sizes.small * 0.3;
        let line = Path::line((MARGIN, middle), (MARGIN + 20.0, middle));
        scene.stroke(line, Stroke::dashed(INK, 1.0, &DOUBT));
        let setting = Setting::soft(sizes.small);
        let text = [Word::roman("broken line: in doubt")];
        set(scene, &text, (MARGIN + 25.0, base), setting);
        y = base + sizes.small * 0.35;
    }
    y
}

/// What the signs on lines say, each where it is drawn.
pub fn lines_words(drawing: &PedigreeDrawing) -> Vec<&'static str> {
    let mut crosses = drawing.crosses.iter();
    let is_known = crosses.any(|cross| cross.direction_known);
    let is_lost = drawing.crosses.iter().any(|cross| !cross.direction_known);
    let signs = match (is_known, is_lost) {
        (false, false) => return Vec::new(),
        (true, false) => "♀ seed parent, ♂ pollen parent, × cross",
        (false, true) => "? on a line: seed or pollen parent, not known which; × cross",
        (true, true) => {
            "♀ seed parent, ♂ pollen parent, ? on a line: not known which of them; × cross"
        }
    };
    vec![signs]
}

/// What the brackets at cross marks say; nothing where there are none.
fn brackets_words(drawing: &PedigreeDrawing) -> Option<&'static str> {
    let several = drawing.crosses.iter().filter(|cross| cross.direction_known);
    let several = || {
        let parents = several
            .clone()
            .flat_map(|cross| [&cross.seed, &cross.pollen]);
        parents.filter(|parent| parent.rows().len() > 1)
    };
    let is_mixed = |parent: &DrawnParent| matches!(parent, DrawnParent::Mixed(_));
    match (several().any(|of| !is_mixed(of)), several().any(is_mixed)) {
        (false, false) => None,
        (true, false) => Some("bracket at ×: one of these"),
        (false, true) => Some("bracket at ×: their pollen was mixed"),
        (true, true) => Some("bracket at ×: one of these, or their pollen mixed"),
    }
}

/// Whether any line is broken.
pub fn has_doubt(drawing: &PedigreeDrawing) -> bool {
    let open = |parent: &DrawnParent| !matches!(parent, DrawnParent::Known(_));
    let is_weak = |cross: &DrawnCross| {
        cross.seed_doubtful || cross.pollen_doubtful || open(&cross.seed) || open(&cross.pollen)
    };
    let of_several = times_raised(drawing).into_iter().any(|times| times > 1);
    of_several || drawing.crosses.iter().any(is_weak)
}
