//! Tags on sheets to cut, or each on a page of its own.

use super::compose::Composed;
use super::qr::DOT;
use crate::render::scene::{Colour, POINTS, Path, Scene, Stroke};

/// White along the edges of a sheet, millimetres: no printer prints to the edge.
const BORDER: f64 = 10.0;
/// Lines to cut along.
const CUT: Colour = Colour(0x99, 0x99, 0x99);
const WHITE: Colour = Colour(255, 255, 255);
/// Between pages set one under the other, millimetres.
const GAP: f64 = 4.0;

/// A sheet of paper.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 × 11 in.
    Letter,
}

impl Paper {
    fn sides(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }
}

/// How many tags stand beside and under each other on a sheet of this width and height.
fn grid((width, height): (f64, f64), tag: &Composed) -> (usize, usize) {
    let count =
        |room: f64, side: f64| libm::floor((room - 2.0 * BORDER) / side + 1e-9).max(0.0) as usize;
    (count(width, tag.size.length), count(height, tag.size.width))
}

/// The sheets, upright or across, whichever takes more tags; all tags have one size.
///
/// # Errors
/// In words, if a tag is larger than the paper.
pub fn sheets(tags: &[Composed], paper: Paper) -> Result<Vec<Scene>, String> {
    let Some(first) = tags.first() else {
        return Ok(Vec::new());
    };
    let (short, long) = paper.sides();
    let (upright, across) = (grid((short, long), first), grid((long, short), first));
    let (page, (beside, under)) = match across.0 * across.1 > upright.0 * upright.1 {
        true => ((long, short), across),
        false => ((short, long), upright),
    };
    if beside * under == 0 {
        return Err(format!(
            "a tag of {} is larger than the paper\nuse --single for a page of the tag's own size",
            first.size.words()
        ));
    }
    let pages = tags.chunks(beside * under);
    Ok(pages.map(|tags| sheet(tags, page, beside)).collect())
}

fn sheet(tags: &[Composed], page: (f64, f64), beside: usize) -> Scene {
    let mut scene = empty(page, tags);
    for (at, tag) in tags.iter().enumerate() {
        let corner = (
            BORDER + (at % beside) as f64 * tag.size.length,
            BORDER + (at / beside) as f64 * tag.size.width,
        );
        tag.draw(&mut scene, corner);
        let cut = [corner.0, corner.1, tag.size.length, tag.size.width].map(|mm| mm * POINTS);
        let cut = Path::rect(cut[0], cut[1], cut[2], cut[3]);
        scene.stroke(cut, Stroke::solid(CUT, 0.25));
    }
    scene
}

/// Each tag on a page of its own size.
pub fn singles(tags: &[Composed]) -> Vec<Scene> {
    let page = |tag: &Composed| {
        let mut scene = empty((tag.size.length, tag.size.width), std::slice::from_ref(tag));
        tag.draw(&mut scene, (0.0, 0.0));
        scene
    };
    tags.iter().map(page).collect()
}

fn empty((width, height): (f64, f64), tags: &[Composed]) -> Scene {
    let codes: Vec<&str> = tags.iter().map(|tag| tag.id.as_str()).collect();
    let mut scene = Scene {
        width: width * POINTS,
        height: height * POINTS,
        title: "Pot tags".to_owned(),
        description: format!("Tags for {}", codes.join(", ")),
        ..Scene::default()
    };
    scene.fill(Path::rect(0.0, 0.0, scene.width, scene.height), WHITE);
    scene
}

/// Pages one under the other, for pictures that have no pages.
pub fn stacked(pages: Vec<Scene>) -> Scene {
    let mut all = Scene::default();
    for page in pages {
        // Whole dots, so that the modules of every page stay whole dots.
        let top = match all.height == 0.0 {
            true => 0.0,
            false => libm::ceil((all.height / POINTS + GAP) / DOT) * DOT * POINTS,
        };
        all.width = all.width.max(page.width);
        all.height = top + page.height;
        all.title = page.title.clone();
        let told = [all.description.as_str(), page.description.as_str()];
        all.description = told
            .into_iter()
            .filter(|told| !told.is_empty())
            .collect::<Vec<_>>()
            .join("; ");
        all.marks
            .extend(page.marks.into_iter().map(|mark| mark.moved((0.0, top))));
    }
    all
}
