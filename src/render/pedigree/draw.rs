//! A laid-out pedigree, painted: lines first, then plants, the heading over it, the key and the notes under it.

use super::grid::Role;
use super::manner::Manner;
use super::parts::Signs;
use super::place::{Layout, MARGIN, layout};
use super::sheet::advice;
use super::text::{Sizes, paragraph};
use super::{heading, key, lines};
use crate::render::outline::more_text;
use crate::render::scene::{Face, Mark, PAPER, Path, SOFT, Scene, Stroke, TextRun, Word, width};
use crate::report::pedigree::{DrawnPlant, PedigreeDrawing};

/// Least width of a picture, so that the heading has room.
const LEAST_WIDTH: f64 = 380.0;
/// Strokes and gaps of the frame around what is not known.
pub(super) const UNKNOWN: [f64; 2] = [0.1, 2.6];

/// The picture of a pedigree.
pub fn draw(drawing: &PedigreeDrawing) -> Scene {
    let layout = layout(drawing);
    let mut scene = begin(drawing, layout.size.0.max(LEAST_WIDTH));
    let text = Sizes::PAPER;
    let top = heading::paint(&mut scene, drawing, &text);
    let tree = tree(drawing, &layout);
    let moved = |mark: Mark| mark.moved((0.0, top));
    scene.marks.extend(tree.marks.into_iter().map(moved));
    let mut y = key::paint(&mut scene, drawing, (top + layout.size.1, true), &text);
    if let Some(advice) = advice((scene.width, y + MARGIN)) {
        y = paragraph(&mut scene, &[Word::roman(advice)], y, (text.small, SOFT));
    }
    scene.height = y + MARGIN * 0.7;
    scene
}

/// An empty picture of that width, with its title and description.
pub(super) fn begin(drawing: &PedigreeDrawing, width: f64) -> Scene {
    Scene {
        width,
        title: drawing.title.clone(),
        description: description(drawing),
        ..Scene::default()
    }
}

/// Lines first, then plants over their ends.
fn tree(drawing: &PedigreeDrawing, layout: &Layout) -> Scene {
    let (mut scene, signs) = (Scene::default(), Signs::of(drawing));
    lines::paint(&mut scene, drawing, layout);
    for spot in 0..layout.grid.spots.len() {
        paint_spot(&mut scene, &signs, layout, spot);
    }
    for tail in &layout.grid.tails {
        let place = (
            layout.span(tail.child).0,
            layout.height[tail.child] + tail.drop,
        );
        let count = drawing.crosses[tail.cross].more_siblings;
        more(&mut scene, count, place, &layout.manner);
    }
    scene
}

fn paint_spot(scene: &mut Scene, signs: &Signs, layout: &Layout, spot: usize) {
    let (left, right) = layout.span(spot);
    let y = layout.height[spot];
    match layout.grid.spots[spot].role {
        Role::Plant(row) => paint_plant(scene, signs, layout, (row, (left, y), right - left)),
        Role::Unknown(_) => unknown(scene, (left, y), right - left, &layout.manner),
        Role::More(row) => more(
            scene,
            signs.drawing.crosses[row].more_siblings,
            (left, y),
            &layout.manner,
        ),
        Role::Joint(_) | Role::Lane => {}
    }
}

fn more(scene: &mut Scene, count: u64, place: (f64, f64), manner: &Manner) {
    let (text, size) = (more_text(count), manner.small);
    scene.text(TextRun {
        place: (place.0 + 3.0, place.1 + size * 0.3),
        size,
        face: Face::Italic,
        colour: SOFT,
        text,
    });
}

fn paint_plant(scene: &mut Scene, signs: &Signs, layout: &Layout, at: (usize, (f64, f64), f64)) {
    let (row, place, room) = at;
    let (plant, block) = (&signs.drawing.plants[row], &layout.blocks[row]);
    scene.open(titled(plant));
    block.paint(scene, (plant, signs), place, (room, &layout.manner));
    scene.close();
}

/// Code and name, for a reader who cannot see the picture.
pub fn titled(plant: &DrawnPlant) -> String {
    let names = plant.label.iter().map(|name| {
        let runs = name.iter().map(|run| run.text.as_str());
        runs.collect::<String>()
    });
    let names: Vec<String> = names.collect();
    format!("{} {}", plant.code, names.join(" "))
}

/// An unknown parent: a dotted box with a question mark.
fn unknown(scene: &mut Scene, place: (f64, f64), room: f64, manner: &Manner) {
    let half = manner.name * 0.85;
    let frame = Path::rounded((place.0, place.1 - half), (room, 2.0 * half), 3.0);
    scene.framed(frame, PAPER, Stroke::dashed(SOFT, 0.9, &UNKNOWN));
    let wide = width("?", Face::Roman, manner.name);
    let at = (place.0 + (room - wide) / 2.0, place.1 + manner.name * 0.33);
    scene.text(TextRun {
        place: at,
        size: manner.name,
        face: Face::Roman,
        colour: SOFT,
        text: "?".to_string(),
    });
}

fn description(drawing: &PedigreeDrawing) -> String {
    let formula: String = drawing
        .caption
        .formula
        .iter()
        .map(|run| run.text.as_str())
        .collect();
    let (plants, crosses) = (drawing.plants.len(), drawing.crosses.len());
    format!("Pedigree of {plants} plants and {crosses} crosses. {formula}")
        .trim_end()
        .to_string()
}
