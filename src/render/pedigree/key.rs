//! What stands under the picture: the species by their squares, how to read lines and squares, and cautions.

use super::letters::drawn;
use super::lines::DOUBT;
use super::parts::{Signs, Square, Tile, squares_words};
use super::place::MARGIN;
use super::text::{Sizes, paragraph};
use super::words::words;
use crate::render::scene::{INK, Path, RULE, SOFT, Scene, Setting, Stroke, Word, line_width, set};
use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};

/// Sets it below `top`; returns where it ends.
pub fn paint(scene: &mut Scene, drawing: &PedigreeDrawing, top: f64, sizes: &Sizes) -> f64 {
    let rule = Path::line((MARGIN, top), (scene.width - MARGIN, top));
    scene.stroke(rule, Stroke::solid(RULE, 0.7));
    let mut y = of_species(scene, drawing, top + sizes.small * 0.6, sizes);
    y = of_lines(scene, drawing, y, sizes);
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
        let setting = Setting {
            size: small,
            colour: INK,
        };
        set(scene, &name, place, setting);
        x += wide;
    }
    if used.is_empty() { top } else { y + line }
}

/// How to read lines and squares, each where there are some.
fn of_lines(scene: &mut Scene, drawing: &PedigreeDrawing, top: f64, sizes: &Sizes) -> f64 {
    let mut said = Vec::new();
    if !drawing.crosses.is_empty() {
        said.push("♀ seed parent, ♂ pollen parent, × cross");
    }
    said.extend(squares_words(drawing));
    let mut y = top;
    if !said.is_empty() {
        let text = [Word::roman(said.join("; "))];
        y = paragraph(scene, &text, y, (sizes.small, SOFT));
    }
    if drawing.crosses.iter().any(has_doubt) {
        let base = y + sizes.small * 1.25;
        let middle = base - sizes.small * 0.3;
        let line = Path::line((MARGIN, middle), (MARGIN + 20.0, middle));
        scene.stroke(line, Stroke::dashed(INK, 1.0, &DOUBT));
        let setting = Setting {
            size: sizes.small,
            colour: SOFT,
        };
        let text = [Word::roman("broken line: in doubt")];
        set(scene, &text, (MARGIN + 25.0, base), setting);
        y = base + sizes.small * 0.35;
    }
    y
}

fn has_doubt(cross: &DrawnCross) -> bool {
    let open = |parent: &DrawnParent| !matches!(parent, DrawnParent::Known(_));
    cross.seed_doubtful || cross.pollen_doubtful || open(&cross.seed) || open(&cross.pollen)
}
