//! A laid-out pedigree, painted: lines first, then plants, then what stands under the picture.

use super::grid::Role;
use super::manner::Manner;
use super::place::{Layout, MARGIN, layout, more_text};
use super::{caption, lines};
use crate::render::scene::{Face, PAPER, Path, SOFT, Scene, Stroke, TextRun, width};
use crate::report::pedigree::PedigreeDrawing;

/// The picture of a pedigree.
pub fn draw(drawing: &PedigreeDrawing) -> Scene {
    let layout = layout(drawing);
    let mut scene = Scene {
        width: layout.size.0.max(caption::LEAST_WIDTH),
        title: drawing.title.clone(),
        ..Scene::default()
    };
    scene.description = description(drawing);
    lines::paint(&mut scene, drawing, &layout);
    for spot in 0..layout.grid.spots.len() {
        paint_spot(&mut scene, drawing, &layout, spot);
    }
    for tail in &layout.grid.tails {
        let place = (
            layout.span(tail.child).0,
            layout.height[tail.child] + tail.drop,
        );
        more(
            &mut scene,
            drawing.crosses[tail.cross].more_siblings,
            place,
            &layout.manner,
        );
    }
    scene.height = caption::paint(&mut scene, drawing, layout.size.1) + MARGIN * 0.7;
    scene
}

fn paint_spot(scene: &mut Scene, drawing: &PedigreeDrawing, layout: &Layout, spot: usize) {
    let (left, right) = layout.span(spot);
    let y = layout.height[spot];
    match layout.grid.spots[spot].role {
        Role::Plant(row) => paint_plant(scene, drawing, layout, (row, (left, y), right - left)),
        Role::Unknown(_) => unknown(scene, (left, y), right - left, &layout.manner),
        Role::More(row) => more(
            scene,
            drawing.crosses[row].more_siblings,
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

fn paint_plant(
    scene: &mut Scene,
    drawing: &PedigreeDrawing,
    layout: &Layout,
    at: (usize, (f64, f64), f64),
) {
    let (row, place, room) = at;
    let (plant, block) = (&drawing.plants[row], &layout.blocks[row]);
    let name: String = plant
        .label
        .iter()
        .flatten()
        .map(|run| run.text.as_str())
        .collect();
    scene.open(format!("{} {name}", plant.code));
    block.paint(scene, plant, place, (room, &layout.manner));
    block.label(scene, (drawing, plant), place, (room, &layout.manner));
    scene.close();
}

/// An unknown parent: a dotted box with a question mark.
fn unknown(scene: &mut Scene, place: (f64, f64), room: f64, manner: &Manner) {
    let half = manner.name * 0.85;
    let frame = Path::rounded((place.0, place.1 - half), (room, 2.0 * half), 3.0);
    scene.framed(frame, PAPER, Stroke::dashed(SOFT, 1.1, &[0.1, 2.8]));
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
