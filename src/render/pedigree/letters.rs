//! Three letters and a colour for each species: letters tell species of one picture apart, the colour never changes.

use crate::render::scene::{SpeciesLook, species_look};
use crate::report::pedigree::PedigreeDrawing;
use crate::wording::Name;

/// "ventricosa" of "N. ventricosa".
pub fn without_genus(name: &str) -> &str {
    let mut letters = name.chars();
    let genus = letters.next().is_some_and(char::is_uppercase) && letters.next() == Some('.');
    match genus {
        true => letters.as_str().trim_start(),
        false => name,
    }
}

/// The look of a species by its name, with or without the genus.
pub fn look_of(name: Option<&Name>) -> SpeciesLook {
    let text = name.map(plain).unwrap_or_default();
    species_look(without_genus(&text))
}

/// Letters for every species of a drawing, by its row: the first three of its epithet; where another has those, the first
/// two and one further on.
pub fn letters_of(drawing: &PedigreeDrawing) -> Vec<String> {
    let used = drawn(drawing);
    let mut taken: Vec<String> = Vec::new();
    let mut letters = vec![String::new(); drawing.species.len()];
    for row in used {
        let name = drawing.species.get(row).map(plain).unwrap_or_default();
        let choice = choices(without_genus(&name))
            .into_iter()
            .find(|choice| !taken.contains(choice))
            .unwrap_or_else(|| (row + 1).to_string());
        taken.push(choice.clone());
        letters[row] = choice;
    }
    letters
}

/// Rows of the species of which any plant of a drawing has a share, by their names.
pub fn drawn(drawing: &PedigreeDrawing) -> Vec<usize> {
    let shares = drawing.plants.iter().flat_map(|plant| &plant.shares);
    let mut used: Vec<usize> = shares
        .map(|share| share.species)
        .filter(|&row| row < drawing.species.len())
        .collect();
    used.sort_by_key(|&row| (plain(&drawing.species[row]), row));
    used.dedup();
    used
}

/// Letters that may stand for an epithet, the best first. Only those of the Latin alphabet, in small, so that three fit a
/// square in any typeface; an epithet without any has none.
fn choices(epithet: &str) -> Vec<String> {
    let bare = epithet.strip_prefix("sp. ").unwrap_or(epithet);
    let letters = bare.chars().filter(char::is_ascii_alphanumeric);
    let all: Vec<char> = letters.map(|c| c.to_ascii_lowercase()).collect();
    let third = |&last: &char| [all[0], all[1], last].iter().collect();
    match all.len() {
        0 => Vec::new(),
        1 | 2 => vec![all.into_iter().collect()],
        _ => all[2..].iter().map(third).collect(),
    }
}

fn plain(name: &Name) -> String {
    name.iter().map(|run| run.text.as_str()).collect()
}
