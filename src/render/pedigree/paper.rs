//! The picture on a sheet: A4 upright or across, or the next larger sheet on which its letters can be read.

use super::draw::draw;
use crate::render::scene::{POINTS, Scene};
use crate::report::pedigree::PedigreeDrawing;

/// Shorter and longer side of sheets in millimetres, A4 to A0 (ISO 216).
const SHEETS: [(&str, f64, f64); 5] = [
    ("A4", 210.0, 297.0),
    ("A3", 297.0, 420.0),
    ("A2", 420.0, 594.0),
    ("A1", 594.0, 841.0),
    ("A0", 841.0, 1189.0),
];
/// Edge of a sheet that printers leave white, in millimetres.
const EDGE: f64 = 8.0;
/// How far a picture may be made smaller: letters of 7 points then have 5.
const SMALLEST: f64 = 5.0 / 7.0;
/// How far it may be made larger to fill its sheet.
const LARGEST: f64 = 1.25;

/// The pedigree as a page in millimetres. A picture too large for the largest sheet keeps its own size.
pub fn on_paper(drawing: &PedigreeDrawing) -> Scene {
    let scene = draw(drawing);
    let fitting = SHEETS
        .into_iter()
        .map(|(_, short, long)| better(&scene, short * POINTS, long * POINTS))
        .find(|(scale, _)| *scale >= SMALLEST);
    match fitting {
        Some((scale, page)) => placed(scene, scale.min(LARGEST), page),
        None => scene,
    }
}

/// Says so where a picture of that size cannot be read on A4.
pub(super) fn advice(width: f64, height: f64) -> Option<String> {
    let scene = Scene {
        width,
        height,
        ..Scene::default()
    };
    let fits = |&(_, short, long): &(&str, f64, f64)| {
        better(&scene, short * POINTS, long * POINTS).0 >= SMALLEST
    };
    match SHEETS.iter().find(|sheet| fits(sheet)) {
        Some(("A4", ..)) => None,
        Some((sheet, ..)) => Some(format!(
            "Too large to read on one A4 sheet: print it on {sheet}."
        )),
        None => Some("Too large to read on one A4 sheet: draw fewer generations.".to_owned()),
    }
}

/// Of a sheet upright and across, the one on which the picture is larger: its scale there, and width and height.
fn better(scene: &Scene, short: f64, long: f64) -> (f64, (f64, f64)) {
    let scale = |page: (f64, f64)| {
        let room = |side: f64| side - 2.0 * EDGE * POINTS;
        f64::min(room(page.0) / scene.width, room(page.1) / scene.height)
    };
    let (upright, across) = ((short, long), (long, short));
    match scale(across) > scale(upright) {
        true => (scale(across), across),
        false => (scale(upright), upright),
    }
}

/// The picture so many times as large, centred across and near the top of a page.
fn placed(scene: Scene, scale: f64, page: (f64, f64)) -> Scene {
    let edge = EDGE * POINTS;
    let (wide, high) = (scene.width * scale, scene.height * scale);
    let spare = (page.1 - high) / 2.0;
    let place = ((page.0 - wide) / 2.0, spare.min(2.0 * edge));
    let marks = scene.marks.into_iter();
    Scene {
        marks: marks.map(|mark| mark.scaled(scale).moved(place)).collect(),
        width: page.0,
        height: page.1,
        ..scene_head(scene.title, scene.description)
    }
}

fn scene_head(title: String, description: String) -> Scene {
    Scene {
        title,
        description,
        ..Scene::default()
    }
}
