//! Lines of descent and the marks where they meet: each with the sign of its parent, the seed parent's above; broken where
//! it is less sure than a tag, and nowhere else.

use super::grid::{Bond, Line, PORT, Role};
use super::place::Layout;
use crate::render::scene::{Face, INK, PAPER, Path, Scene, Step, Stroke, TextRun, width};
use crate::report::PedigreeDrawing;

/// Half the width of a cross mark.
const ARM: f64 = 3.2;
/// Distance from the cross mark to where lines arrive, and to the signs on them.
const REACH: f64 = 8.0;
const SIGN: f64 = 15.5;

/// Strokes and gaps of a line that is in doubt.
pub const DOUBT: [f64; 2] = [3.6, 2.8];

/// A line from a parent, with the height at which it arrives at the mark.
struct Arrival<'a> {
    line: &'a Line,
    y: f64,
}

/// Paints every line and every cross mark.
pub fn paint(scene: &mut Scene, drawing: &PedigreeDrawing, layout: &Layout) {
    let mut of_cross: Vec<Vec<&Line>> = vec![Vec::new(); drawing.crosses.len()];
    for line in &layout.grid.lines {
        of_cross[line.cross].push(line);
        if line.bond == Bond::Raised {
            stroke_line(scene, layout, line, None);
        }
    }
    for tail in &layout.grid.tails {
        let from = (layout.span(tail.joint).1 + 4.0, layout.height[tail.joint]);
        let to = (
            layout.span(tail.child).0,
            layout.height[tail.child] + tail.drop,
        );
        scene.stroke(Path::tendril(from, to), pen(tail.sure));
    }
    let arrivals: Vec<Vec<Arrival>> = of_cross
        .iter()
        .map(|lines| arrivals(layout, lines))
        .collect();
    for arrival in arrivals.iter().flatten() {
        stroke_line(scene, layout, arrival.line, Some(arrival.y));
    }
    for arrivals in &arrivals {
        mark(scene, layout, arrivals);
    }
}

/// The parents' lines of one cross from top to bottom, the seed parents' first.
fn arrivals<'a>(layout: &Layout, lines: &[&'a Line]) -> Vec<Arrival<'a>> {
    let before = |line: &Line| layout.height[line.stops[line.stops.len() - 2]];
    let mut parents: Vec<&Line> = lines
        .iter()
        .copied()
        .filter(|line| line.bond != Bond::Raised)
        .collect();
    parents.sort_by(|a, b| a.bond.cmp(&b.bond).then(before(a).total_cmp(&before(b))));
    let top = -(parents.len() as f64 - 1.0) / 2.0 * PORT;
    let port = |(rank, line): (usize, &'a Line)| {
        let joint = layout.height[line.stops[line.stops.len() - 1]];
        Arrival {
            line,
            y: joint + top + rank as f64 * PORT,
        }
    };
    parents.into_iter().enumerate().map(port).collect()
}

/// How a line is drawn.
fn pen(sure: bool) -> Stroke {
    match sure {
        true => Stroke::solid(INK, 1.05),
        false => Stroke::dashed(INK, 1.05, &DOUBT),
    }
}

/// One line through its stops; `port` is the height at which it arrives at a cross mark.
fn stroke_line(scene: &mut Scene, layout: &Layout, line: &Line, port: Option<f64>) {
    let first = line.stops[0];
    let start = (layout.span(first).1, layout.height[first]);
    let start = if line.bond == Bond::Raised {
        (start.0 + 4.0, start.1)
    } else {
        start
    };
    let (mut path, mut at) = (Path(vec![Step::Move(start.0, start.1)]), start);
    for &stop in &line.stops[1..] {
        let (left, right) = layout.span(stop);
        let joint = matches!(layout.grid.spots[stop].role, Role::Joint(_));
        let to = match (joint, port) {
            (true, Some(y)) => (left - REACH, y),
            _ => (left, layout.height[stop]),
        };
        path.tendril_to(at, to);
        at = to;
        if layout.grid.spots[stop].role == Role::Lane && right > left {
            path.0.push(Step::Line(right, to.1));
            at = (right, to.1);
        }
    }
    scene.stroke(path, pen(line.sure));
}

/// The cross mark of one cross, the signs of its parents and the brackets around parents that are not certain. The
/// parents' lines run on into the arms of the mark.
fn mark(scene: &mut Scene, layout: &Layout, arrivals: &[Arrival]) {
    let Some(first) = arrivals.first() else {
        return;
    };
    let joint = first.line.stops[first.line.stops.len() - 1];
    let (x, y) = (layout.span(joint).0, layout.height[joint]);
    for side in sides(arrivals) {
        let (top, bottom) = (side[0].y, side[side.len() - 1].y);
        bracket(scene, (x - REACH, top), bottom);
        let port = (top + bottom) / 2.0;
        let arm = if port < y { -ARM } else { ARM };
        let line = Path::line((x - REACH, port), (x - ARM, y + arm));
        scene.stroke(line, Stroke::solid(INK, 1.05));
    }
    for arrival in arrivals {
        sign(scene, (x - SIGN, arrival.y), arrival.line.bond);
    }
    let stroke = Stroke::solid(INK, 1.5);
    scene.stroke(
        Path::line((x - ARM, y - ARM), (x + ARM, y + ARM)),
        stroke.clone(),
    );
    scene.stroke(Path::line((x - ARM, y + ARM), (x + ARM, y - ARM)), stroke);
}

/// Arrivals of one side together; where the sides are not known, each by itself.
fn sides<'a, 'b>(arrivals: &'b [Arrival<'a>]) -> impl Iterator<Item = &'b [Arrival<'a>]> {
    arrivals.chunk_by(|a, b| a.line.bond == b.line.bond && a.line.bond != Bond::Either)
}

/// A bracket around the ports of parents of which one is meant, or which were mixed.
fn bracket(scene: &mut Scene, top: (f64, f64), bottom: f64) {
    if bottom > top.1 {
        let x = top.0;
        let places = [
            (x - 2.5, top.1 - 3.0),
            (x, top.1 - 3.0),
            (x, bottom + 3.0),
            (x - 2.5, bottom + 3.0),
        ];
        scene.stroke(Path::polyline(&places), Stroke::solid(INK, 1.05));
    }
}

/// ♀, ♂ or ? on a line, like a bead.
fn sign(scene: &mut Scene, place: (f64, f64), bond: Bond) {
    let (text, size) = match bond {
        Bond::Seed => ("♀", 9.0),
        Bond::Pollen => ("♂", 9.0),
        _ => ("?", 8.0),
    };
    scene.fill(Path::circle(place, 4.6), PAPER);
    let wide = width(text, Face::Roman, size);
    scene.text(TextRun {
        place: (place.0 - wide / 2.0, place.1 + size * 0.31),
        size,
        face: Face::Roman,
        colour: INK,
        text: text.to_string(),
    });
}
