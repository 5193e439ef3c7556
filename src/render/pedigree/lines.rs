//! Lines of descent and the marks where they meet: solid from the seed parent, dashed from the pollen parent, each with
//! its sign, so that neither dash nor colour is needed to read them.

use super::grid::{Bond, Line, PORT, Role};
use super::place::Layout;
use crate::render::scene::{Face, INK, PAPER, Path, SOFT, Scene, Step, Stroke, TextRun, width};
use crate::report::pedigree::{DrawnParent, PedigreeDrawing};

/// Distance from the cross mark to where lines arrive, and to the signs on them.
const REACH: f64 = 7.0;
const SIGN: f64 = 15.0;

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
    let arrivals: Vec<Vec<Arrival>> = of_cross
        .iter()
        .map(|lines| arrivals(layout, lines))
        .collect();
    for arrival in arrivals.iter().flatten() {
        stroke_line(scene, layout, arrival.line, Some(arrival.y));
    }
    for (row, arrivals) in arrivals.iter().enumerate() {
        mark(scene, drawing, layout, (row, arrivals));
    }
}

/// The parents' lines of one cross from top to bottom, those of one side kept together.
fn arrivals<'a>(layout: &Layout, lines: &[&'a Line]) -> Vec<Arrival<'a>> {
    let before = |line: &Line| layout.height[line.stops[line.stops.len() - 2]];
    let mut parents: Vec<&Line> = lines
        .iter()
        .copied()
        .filter(|line| line.bond != Bond::Raised)
        .collect();
    let mean = |bond: Bond| {
        let side = parents.iter().filter(|line| line.bond == bond);
        let (sum, count) = side.fold((0.0, 0.0), |(sum, count), line| {
            (sum + before(line), count + 1.0)
        });
        sum / f64::max(count, 1.0)
    };
    let (seed, pollen) = (mean(Bond::Seed), mean(Bond::Pollen));
    let side = |line: &Line| match line.bond {
        Bond::Seed => seed,
        Bond::Pollen => pollen,
        _ => before(line),
    };
    parents.sort_by(|a, b| {
        side(a)
            .total_cmp(&side(b))
            .then(a.bond.cmp(&b.bond))
            .then(before(a).total_cmp(&before(b)))
    });
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
fn pen(line: &Line) -> Stroke {
    let colour = if line.sure { INK } else { SOFT };
    match (line.bond, line.sure) {
        (Bond::Pollen, _) => Stroke::dashed(colour, 1.05, &[4.2, 3.2]),
        (Bond::Either, _) => Stroke::dashed(colour, 1.05, &[7.0, 2.6, 0.1, 2.6]),
        (Bond::Raised, false) => Stroke::dashed(colour, 1.05, &[0.1, 3.0]),
        _ => Stroke::solid(colour, 1.05),
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
    scene.stroke(path, pen(line));
}

/// The cross mark of one cross, the signs of its parents and the brackets around parents that are not certain.
fn mark(scene: &mut Scene, drawing: &PedigreeDrawing, layout: &Layout, cross: (usize, &[Arrival])) {
    let (row, arrivals) = cross;
    let Some(first) = arrivals.first() else {
        return;
    };
    let joint = first.line.stops[first.line.stops.len() - 1];
    let (x, y) = (layout.span(joint).0, layout.height[joint]);
    for bond in [Bond::Seed, Bond::Pollen, Bond::Either] {
        let side: Vec<f64> = arrivals
            .iter()
            .filter(|one| one.line.bond == bond)
            .map(|one| one.y)
            .collect();
        if bond == Bond::Either {
            side.iter()
                .for_each(|&port| meet(scene, (x, y), port, &pen(first.line)));
        } else if let (Some(&top), Some(&bottom)) = (side.first(), side.last()) {
            let line = arrivals
                .iter()
                .find(|one| one.line.bond == bond)
                .map_or(first.line, |one| one.line);
            bracket(scene, (x, top), bottom);
            meet(
                scene,
                (x, y),
                (top + bottom) / 2.0,
                &Stroke::solid(pen(line).colour, 1.05),
            );
        }
    }
    for arrival in arrivals {
        sign(scene, (x - SIGN, arrival.y), arrival.line.bond);
    }
    let stroke = Stroke::solid(INK, 1.5);
    let arm = 3.1;
    scene.fill(Path::circle((x, y), arm + 1.6), PAPER);
    scene.stroke(
        Path::line((x - arm, y - arm), (x + arm, y + arm)),
        stroke.clone(),
    );
    scene.stroke(Path::line((x - arm, y + arm), (x + arm, y - arm)), stroke);
    note(
        scene,
        drawing,
        layout,
        (row, (x, arrivals.last().map_or(y, |last| last.y))),
    );
}

/// From the height of arrival to the mark.
fn meet(scene: &mut Scene, mark: (f64, f64), port: f64, pen: &Stroke) {
    let from = (mark.0 - REACH, port);
    scene.stroke(
        Path::tendril(from, mark),
        Stroke {
            dash: Vec::new(),
            ..pen.clone()
        },
    );
}

/// A bracket around the ports of parents of which one is meant, or which were mixed.
fn bracket(scene: &mut Scene, top: (f64, f64), bottom: f64) {
    if bottom > top.1 {
        let x = top.0 - REACH;
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

/// "one of 3", "mixed pollen" or "direction not known", under the mark.
fn note(scene: &mut Scene, drawing: &PedigreeDrawing, layout: &Layout, cross: (usize, (f64, f64))) {
    let (row, (x, lowest)) = cross;
    let found = &drawing.crosses[row];
    let mut notes: Vec<String> = [&found.seed, &found.pollen]
        .iter()
        .filter_map(|parent| match parent {
            DrawnParent::OneOf(rows) => Some(format!("one of {}", rows.len())),
            DrawnParent::Mixed(_) => Some("mixed pollen".to_string()),
            DrawnParent::Known(_) | DrawnParent::Unknown => None,
        })
        .collect();
    if !found.direction_known {
        notes.push("direction not known".to_string());
    }
    let size = layout.manner.small * 0.93;
    for (rank, text) in notes.into_iter().enumerate() {
        let wide = width(&text, Face::Italic, size);
        let place = (
            x - wide / 2.0 - 4.0,
            lowest + size * 1.6 + rank as f64 * size * 1.1,
        );
        scene.fill(
            Path::rect(place.0 - 1.0, place.1 - size * 0.8, wide + 2.0, size * 1.05),
            PAPER,
        );
        scene.text(TextRun {
            place,
            size,
            face: Face::Italic,
            colour: SOFT,
            text,
        });
    }
}
