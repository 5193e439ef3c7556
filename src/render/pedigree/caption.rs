//! What stands under the picture: the formula and code of the plant on offer, how to read the lines, the species in
//! their colours, cautions, and whether the picture fits a sheet or a phone.

use super::fraction::written;
use super::place::MARGIN;
use super::ribbon::{is_share, stretch, without_genus};
use super::words::words;
use crate::render::scene::{
    INK, Path, RULE, SOFT, Scene, Setting, Stroke, Word, line_width, set, species_colour, wrap,
};
use crate::report::pedigree::PedigreeDrawing;

const SMALL: f64 = 7.5;
const LARGE: f64 = 13.0;
/// Printable width and height of an A4 sheet with margins of 10 mm, in points.
const A4: (f64, f64) = (538.6, 785.2);
/// Letters of 7 points may shrink to 5 on paper.
const SHRINK_ON_PAPER: f64 = 5.0 / 7.0;
/// Widest picture whose small letters stay readable on a phone held upright (390 px wide, letters at least 4.5 px).
const PHONE: f64 = 607.0;

/// Least width of a picture, so that the caption has room.
pub const LEAST_WIDTH: f64 = 380.0;

/// Sets the caption below `top`; returns where it ends.
pub fn paint(scene: &mut Scene, drawing: &PedigreeDrawing, top: f64) -> f64 {
    let room = scene.width - 2.0 * MARGIN;
    let mut y = top;
    scene.stroke(
        Path::line((MARGIN, y), (MARGIN + room, y)),
        Stroke::solid(RULE, 0.7),
    );
    y += 4.0;
    y = formula(scene, drawing, y, room);
    y = key_of_species(scene, drawing, y, room);
    y = key_of_lines(scene, y);
    let mut notes = drawing.footnotes.clone();
    notes.extend(fits(scene.width, y + MARGIN));
    for text in notes {
        y = paragraph(
            scene,
            &[Word::roman(text)],
            (y, room),
            Setting {
                size: SMALL,
                colour: SOFT,
            },
        );
    }
    y
}

fn paragraph(scene: &mut Scene, text: &[Word], within: (f64, f64), setting: Setting) -> f64 {
    let (mut y, room) = within;
    for line in wrap(text, setting.size, room) {
        y += setting.size * 1.25;
        set(scene, &line, (MARGIN, y), setting);
    }
    y + setting.size * 0.3
}

fn formula(scene: &mut Scene, drawing: &PedigreeDrawing, top: f64, room: f64) -> f64 {
    let caption = &drawing.caption;
    let mut y = top;
    if !caption.formula.is_empty() {
        y = paragraph(
            scene,
            &words(&caption.formula, false),
            (y, room),
            Setting {
                size: LARGE,
                colour: INK,
            },
        );
    }
    let shares = shares_in_words(drawing);
    if !shares.is_empty() {
        let setting = Setting {
            size: 9.0,
            colour: INK,
        };
        y = paragraph(scene, &shares, (y, room), setting);
    }
    let parts: Vec<&str> = [caption.code.as_str(), caption.evidence.as_str()]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    if !parts.is_empty() {
        let line = [Word::roman(parts.join(" · "))];
        y = paragraph(
            scene,
            &line,
            (y, room),
            Setting {
                size: 9.0,
                colour: INK,
            },
        );
    }
    y
}

/// The expected shares of the plant on offer written out, since a narrow ribbon has no room for all of them.
fn shares_in_words(drawing: &PedigreeDrawing) -> Vec<Word> {
    let Some(plant) = drawing.plants.iter().find(|plant| plant.focus) else {
        return Vec::new();
    };
    let mut all: Vec<Vec<Word>> = Vec::new();
    for share in &plant.shares {
        let mut name = drawing
            .species
            .get(share.species)
            .map(|name| words(name, false))
            .unwrap_or_default();
        if let Some(first) = name.first_mut() {
            first.text = without_genus(&first.text).to_owned();
        }
        name.insert(0, Word::roman(format!("{} ", written(share.fraction))));
        all.push(name);
    }
    let either = plant
        .either
        .iter()
        .map(|part| (part.fraction, part.of.as_str()));
    let open = either.chain(Some((plant.unknown_share, "unknown")));
    let open = open.filter(|(fraction, _)| is_share(*fraction));
    all.extend(open.map(|(fraction, of)| vec![Word::roman(format!("{} {of}", written(fraction)))]));
    if all.len() < 2 && plant.either.is_empty() {
        return Vec::new();
    }
    let mut line = vec![Word::roman("Expected: ")];
    for (at, part) in all.into_iter().enumerate() {
        if at > 0 {
            line.push(Word::roman(", "));
        }
        line.extend(part);
    }
    line
}

/// Species in their colours, each name beside its swatch.
fn key_of_species(scene: &mut Scene, drawing: &PedigreeDrawing, top: f64, room: f64) -> f64 {
    let mut used: Vec<usize> = drawing
        .plants
        .iter()
        .flat_map(|plant| plant.shares.iter().map(|share| share.species))
        .collect();
    used.sort_unstable();
    used.dedup();
    let (mut x, mut y) = (MARGIN, top + SMALL * 1.5);
    for species in used.iter().copied() {
        let Some(name) = drawing.species.get(species) else {
            continue;
        };
        let name = words(name, false);
        let wide = 15.0 + line_width(&name, SMALL) + 10.0;
        if x + wide > MARGIN + room && x > MARGIN {
            (x, y) = (MARGIN, y + SMALL * 1.5);
        }
        stretch(scene, (x, y - 5.0), (12.0, 5.0), species);
        scene.stroke(Path::rect(x, y - 5.0, 12.0, 5.0), Stroke::solid(INK, 0.5));
        let colour = species_colour(species).0.readable();
        set(
            scene,
            &name,
            (x + 15.0, y),
            Setting {
                size: SMALL,
                colour,
            },
        );
        x += wide;
    }
    if used.is_empty() {
        top
    } else {
        y + SMALL * 0.3
    }
}

/// How to read the lines.
fn key_of_lines(scene: &mut Scene, top: f64) -> f64 {
    let y = top + SMALL * 1.5;
    let setting = Setting {
        size: SMALL,
        colour: SOFT,
    };
    let solid = Stroke::solid(INK, 1.05);
    let dashed = Stroke::dashed(INK, 1.05, &[4.2, 3.2]);
    let mut x = MARGIN;
    for (pen, text) in [(solid, " ♀ seed parent"), (dashed, " ♂ pollen parent")] {
        let middle = y - SMALL * 0.3;
        scene.stroke(Path::line((x, middle), (x + 18.0, middle)), pen);
        x = set(scene, &[Word::roman(text)], (x + 19.0, y), setting) + 10.0;
    }
    x = set(
        scene,
        &[Word::roman("× cross, its offspring to the right")],
        (x, y),
        setting,
    ) + 10.0;
    let ribbons = [Word::roman("ribbon: expected share of each species")];
    if x + line_width(&ribbons, SMALL) < scene.width - MARGIN {
        set(scene, &ribbons, (x, y), setting);
        return y + SMALL * 0.3;
    }
    set(scene, &ribbons, (MARGIN, y + SMALL * 1.3), setting);
    y + SMALL * 1.6
}

/// Says so when the picture does not fit an A4 sheet or a phone.
fn fits(width: f64, height: f64) -> Vec<String> {
    let onto = |sheet: (f64, f64)| (sheet.0 / width).min(sheet.1 / height);
    let mut notes = Vec::new();
    if onto(A4).max(onto((A4.1, A4.0))) < SHRINK_ON_PAPER {
        let larger = onto((A4.0 * 1.414, A4.1 * 1.414)).max(onto((A4.1 * 1.414, A4.0 * 1.414)));
        let fits_a3 = larger >= SHRINK_ON_PAPER;
        let advice = if fits_a3 {
            "print it on A3"
        } else {
            "draw fewer generations"
        };
        notes.push(format!("Too large to read on one A4 sheet: {advice}."));
    }
    if width > PHONE {
        notes.push("Wider than a phone held upright: turn it sideways or enlarge it.".to_string());
    }
    notes
}
