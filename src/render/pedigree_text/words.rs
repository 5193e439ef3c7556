//! One plant, the caption and the notes in words.

use super::fold::{TIE, broken, flat, plain};
use crate::render::pedigree::{is_share, without_genus, written};
use crate::report::pedigree::{DrawnKind, DrawnPlant, PedigreeDrawing, Sex};
use crate::report::shares_words::short;

/// A plant in one line: sign, code with its chance, name, sex, fate and shares; only its code when it comes `again`.
pub fn line(
    drawing: &PedigreeDrawing,
    row: usize,
    (sign, chance): (&str, &str),
    again: bool,
) -> String {
    let plant = &drawing.plants[row];
    let code = format!("{}{chance}", plain(&plant.code));
    let mut parts = vec![if sign.is_empty() {
        code
    } else {
        format!("{sign} {code}")
    }];
    if again {
        parts.push("see above".to_string());
    } else {
        let lines: Vec<String> = plant.label.iter().map(flat).collect();
        parts.push(lines.join(", ").trim().to_string());
        parts.push(standing(plant));
        parts.push(shares(drawing, plant));
    }
    parts.retain(|part| !part.is_empty());
    parts.join(" · ")
}

fn standing(plant: &DrawnPlant) -> String {
    let sex = plant.sex.map_or("", Sex::word);
    let said: Vec<&str> = [sex, plant.fate.word()]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    said.join(", ")
}

/// "½ ventricosa, ½ unknown"; nothing for a species.
fn shares(drawing: &PedigreeDrawing, plant: &DrawnPlant) -> String {
    if plant.kind == DrawnKind::Founder {
        return String::new();
    }
    let name = |species: usize| -> String {
        let name = drawing.species.get(species).map(flat).unwrap_or_default();
        without_genus(&name).to_string()
    };
    let known = plant
        .shares
        .iter()
        .map(|share| format!("{}{TIE}{}", tied(share.fraction), name(share.species)));
    let unknown = (is_share(plant.unknown_share))
        .then(|| format!("{}{TIE}unknown", tied(plant.unknown_share)));
    let either = plant
        .either
        .iter()
        .map(|part| format!("{}{TIE}{}", tied(part.fraction), plain(&part.of)));
    // A whole that may be of anything says nothing of the plant.
    if plant.shares.is_empty() && plant.either.iter().any(|part| part.fraction >= 1.0) {
        return "parentage not certain".to_owned();
    }
    let all: Vec<String> = known.chain(either).chain(unknown).collect();
    format!("{}{}", short(plant.shares_are), all.join(", "))
}

/// What stands first: the formula, the code and what they rest on.
pub fn caption(drawing: &PedigreeDrawing, width: usize) -> String {
    let formula: String = drawing
        .caption
        .formula
        .iter()
        .map(|run| run.text.as_str())
        .collect();
    let rest = [
        drawing.caption.code.as_str(),
        drawing.caption.evidence.as_str(),
    ];
    let second: Vec<&str> = rest.into_iter().filter(|part| !part.is_empty()).collect();
    let mut out = String::new();
    for text in [plain(&formula), plain(&second.join(", "))] {
        if !text.is_empty() {
            out.push_str(&broken(&text, width));
        }
    }
    if !out.is_empty() {
        out.push('\n');
    }
    out
}

/// What stands last.
pub fn notes(drawing: &PedigreeDrawing, width: usize) -> String {
    let notes: String = drawing
        .footnotes
        .iter()
        .map(|note| broken(&plain(note), width))
        .collect();
    if notes.is_empty() {
        notes
    } else {
        format!("\n{notes}")
    }
}

/// A share whose sign is never parted from its number.
fn tied(fraction: f64) -> String {
    written(fraction).replace(' ', &TIE.to_string())
}
