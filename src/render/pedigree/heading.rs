//! What stands over the picture: what it is of in plain words, its formula, what it is expected to descend from, and how
//! surely all that is known.

use super::parts::{Signs, in_words};
use super::place::MARGIN;
use super::text::{Sizes, paragraph};
use super::words::words;
use crate::render::scene::{INK, SOFT, Scene, Word};
use crate::report::pedigree::PedigreeDrawing;
use crate::wording::{Name, NameRun};

/// What is said over a picture.
pub struct Heading {
    /// What it is of.
    pub title: Name,
    /// Its formula, as far as the title does not have it.
    pub formula: Name,
    /// How surely its descent is known; the code in front where the title has none.
    pub evidence: String,
}

/// The heading of a drawing.
pub fn heading_of(drawing: &PedigreeDrawing) -> Heading {
    let caption = &drawing.caption;
    let title = match letters(&caption.heading).is_empty() {
        true => caption.formula.clone(),
        false => caption.heading.clone(),
    };
    let named = letters(&title).contains(&caption.code);
    let code = if named { "" } else { caption.code.as_str() };
    let said = [code, caption.evidence.as_str()].into_iter();
    let said: Vec<&str> = said.filter(|part| !part.is_empty()).collect();
    Heading {
        formula: rest(&title, &caption.formula),
        evidence: said.join(": "),
        title,
    }
}

/// Sets it at the top of the picture; returns where it ends.
pub fn paint(scene: &mut Scene, drawing: &PedigreeDrawing, sizes: &Sizes) -> f64 {
    let said = heading_of(drawing);
    let mut y = MARGIN * 0.4;
    for (text, setting) in [
        (words(&said.title, true), (sizes.title, INK)),
        (words(&said.formula, false), (sizes.body * 1.1, INK)),
        (expected(drawing), (sizes.body, INK)),
        (vec![Word::roman(said.evidence)], (sizes.body, SOFT)),
    ] {
        if text.iter().any(|word| !word.text.is_empty()) {
            y = paragraph(scene, &text, y, setting);
        }
    }
    y
}

/// The runs of a formula after those that open the title; none when the title has all of it.
fn rest(title: &Name, formula: &Name) -> Name {
    let (whole, start) = (letters(formula), letters(title));
    if start.contains(&whole) {
        return Name::new();
    }
    if !whole.starts_with(&start) {
        return formula.clone();
    }
    let mut skip = start.chars().count();
    let mut rest = Name::new();
    for run in formula {
        let text: String = run.text.chars().skip(skip).collect();
        skip = skip.saturating_sub(run.text.chars().count());
        let text = match rest.is_empty() {
            true => text.trim_start().to_owned(),
            false => text,
        };
        if !text.is_empty() {
            rest.push(NameRun {
                text,
                ..run.clone()
            });
        }
    }
    rest
}

fn letters(name: &Name) -> String {
    name.iter().map(|run| run.text.as_str()).collect()
}

/// The expected parts of the plant on offer written out; nothing for one of a single species.
pub fn expected(drawing: &PedigreeDrawing) -> Vec<Word> {
    let Some(plant) = drawing.plants.iter().find(|plant| plant.focus) else {
        return Vec::new();
    };
    let single = plant.shares.len() == 1 && plant.shares[0].fraction == 1.0;
    if single || (plant.shares.is_empty() && plant.either.is_empty()) {
        return Vec::new();
    }
    let mut line = vec![Word::roman("Expected: ")];
    if plant.has_no_common_share() {
        line.push(Word::roman(
            "no share is common to all its possible parents",
        ));
        return line;
    }
    line.extend(in_words(plant, &Signs::of(drawing)));
    line
}
