//! The ribbon under a name: the species a plant descends from, each as long as its share.

use super::block::words;
use super::fraction::written;
use super::manner::Manner;
use crate::render::scene::{
    Face, INK, PAPER, Path, SOFT, Scene, Setting, Stroke, Word, line_width, set, species_colour,
    width,
};
use crate::report::pedigree::{DrawnKind, DrawnPlant, PedigreeDrawing};

/// Whether the shares of a plant are written under its ribbon.
pub fn labelled(plant: &DrawnPlant, manner: &Manner) -> bool {
    let plain = plant.kind == DrawnKind::Founder && plant.shares.len() == 1;
    (!manner.compact || plant.focus)
        && !plain
        && !(plant.shares.is_empty() && plant.unknown_share == 0.0)
}

/// The ribbon: one stretch for each species, an empty one with dots for what is unknown, a thin frame around all.
pub fn paint(scene: &mut Scene, plant: &DrawnPlant, corner: (f64, f64), size: (f64, f64)) {
    let ((mut x, y), (room, height)) = (corner, size);
    scene.fill(Path::rect(x, y, room, height), PAPER);
    for share in &plant.shares {
        let long = room * share.fraction.clamp(0.0, 1.0);
        stretch(scene, (x, y), (long, height), share.species);
        x += long;
    }
    let middle = y + height / 2.0;
    let known: f64 = plant.shares.iter().map(|share| share.fraction).sum();
    if known < 0.999_999 {
        let dots = Stroke::dashed(SOFT, 1.0, &[0.1, 3.0]);
        scene.stroke(
            Path::line((x + 2.0, middle), (corner.0 + room - 1.0, middle)),
            dots,
        );
    }
    scene.stroke(
        Path::rect(corner.0, y, room, height),
        Stroke::solid(INK, 0.6),
    );
}

/// One stretch in the colour of its species; species after the ninth repeat a colour under slanted strokes.
pub fn stretch(scene: &mut Scene, corner: (f64, f64), size: (f64, f64), species: usize) {
    let (colour, round) = species_colour(species);
    scene.fill(Path::rect(corner.0, corner.1, size.0, size.1), colour);
    if round == 0 {
        return;
    }
    let step = 5.0 / round as f64;
    let mut x = corner.0 + step / 2.0;
    while x + 1.5 < corner.0 + size.0 {
        let stroke = Stroke::solid(PAPER, 1.0);
        scene.stroke(
            Path::line((x, corner.1 + size.1), (x + 1.5, corner.1)),
            stroke,
        );
        x += step.max(1.5);
    }
}

/// Writes the shares under the ribbon, each below its stretch, as much as fits there.
pub fn share_labels(
    scene: &mut Scene,
    drawing: &PedigreeDrawing,
    plant: &DrawnPlant,
    spot: ShareSpot,
) {
    if !labelled(plant, spot.manner) {
        return;
    }
    let size = spot.manner.small;
    let base = spot.place.1 + spot.ribbon / 2.0 + size * 0.95;
    let mut x = spot.place.0;
    for share in &plant.shares {
        let long = spot.room * share.fraction.clamp(0.0, 1.0);
        let colour = species_colour(share.species).0.readable();
        let name = drawing
            .species
            .get(share.species)
            .map(|name| words(name, false))
            .unwrap_or_default();
        set(
            scene,
            &share_text(written(share.fraction), name, size, long),
            (x, base),
            Setting { size, colour },
        );
        x += long;
    }
    if plant.unknown_share > 0.0 {
        let long = spot.room * plant.unknown_share.clamp(0.0, 1.0);
        let unknown = vec![Word::roman("unknown")];
        let text = share_text(written(plant.unknown_share), unknown, size, long);
        set(scene, &text, (x, base), Setting { size, colour: SOFT });
    }
}

/// Where share labels go.
pub struct ShareSpot<'a> {
    /// Left end and middle of the ribbon.
    pub place: (f64, f64),
    /// Its width.
    pub room: f64,
    /// Its height.
    pub ribbon: f64,
    /// Sizes.
    pub manner: &'a Manner,
}

/// The fullest of "½ ventricosa", "½ ven.", "½" and nothing that fits.
fn share_text(share: String, name: Vec<Word>, size: f64, room: f64) -> Vec<Word> {
    let mut full = vec![Word::roman(format!("{share} "))];
    full.extend(name.clone());
    if line_width(&full, size) <= room - 2.0 {
        return full;
    }
    let letters: String = name
        .iter()
        .flat_map(|word| word.text.chars())
        .take(3)
        .collect();
    let face = name.first().map_or(Face::Roman, |word| word.face);
    let short = vec![
        Word::roman(format!("{share} ")),
        Word {
            text: format!("{letters}."),
            face,
        },
    ];
    if line_width(&short, size) <= room - 2.0 {
        return short;
    }
    match width(&share, Face::Roman, size) <= room - 2.0 {
        true => vec![Word::roman(share)],
        false => Vec::new(),
    }
}
