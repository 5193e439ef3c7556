//! The picture on a sheet: A4 upright or across, or the next larger sheet on which its letters can be read.

use super::draw::draw;
use super::sheet::{EDGE, sheet};
use crate::render::scene::{POINTS, Scene};
use crate::report::pedigree::PedigreeDrawing;

/// How far it may be made larger to fill its sheet.
const LARGEST: f64 = 1.25;

/// The pedigree as a page in millimetres. A picture too large for the largest sheet keeps its own size.
pub fn on_paper(drawing: &PedigreeDrawing) -> Scene {
    let scene = draw(drawing);
    match sheet((scene.width, scene.height)) {
        Some((_, scale, page)) => placed(scene, scale.min(LARGEST), page),
        None => scene,
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
        title: scene.title,
        description: scene.description,
    }
}
