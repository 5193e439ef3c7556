//! How long a pedigree takes to lay out, and how many of its lines cross, beside Graphviz where that is installed.
//!
//! Run with `cargo bench --bench pictures`. Only ratios of one run travel between machines. Graphviz is timed with the
//! start of its process, as a grower would meet it; its crossings are those of its drawn splines that share no end.

#[path = "../pictures/samples.rs"]
#[allow(dead_code)]
mod samples;
#[path = "../pictures/sketch.rs"]
#[allow(dead_code)]
mod sketch;

use std::io::Write;
use std::process::{Command, Stdio};
use std::time::Instant;

use podbook::render::{dot, pedigree, png, svg};
use podbook::report::PedigreeDrawing;

fn main() {
    println!(
        "{:<16}{:>7}{:>12}{:>10}{:>10}{:>12}{:>13}{:>14}",
        "picture",
        "plants",
        "layout ms",
        "svg ms",
        "png ms",
        "crossings",
        "Graphviz ms",
        "its crossings"
    );
    for (label, drawing) in [
        ("tree", samples::tree()),
        ("hybrid", samples::complex()),
        ("registry", samples::registry(300)),
        ("tangle", samples::tangle(300)),
        ("registry", samples::registry(1000)),
    ] {
        row(label, &drawing);
    }
}

fn row(label: &str, drawing: &PedigreeDrawing) {
    let layout_ms = best(|| drop(pedigree::layout(drawing)));
    let scene = pedigree::draw(drawing);
    let svg_ms = best(|| drop(svg(&scene)));
    let png_ms = best(|| drop(png(&scene, 1.0)));
    let crossings = pedigree::layout(drawing).crossings();
    print!(
        "{label:<16}{:>7}{layout_ms:>12.2}{svg_ms:>10.2}{png_ms:>10.2}{crossings:>12}",
        drawing.plants.len()
    );
    match graphviz(&dot(drawing)) {
        Some((ms, theirs)) => println!("{ms:>13.1}{theirs:>14}"),
        None => println!("{:>13}{:>14}", "not here", "-"),
    }
}

/// Best of three, in milliseconds.
fn best(mut work: impl FnMut()) -> f64 {
    let once = |work: &mut dyn FnMut()| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e3
    };
    (0..3)
        .map(|_| once(&mut work))
        .fold(f64::INFINITY, f64::min)
}

/// Graphviz on the same graph: milliseconds and crossings.
fn graphviz(text: &str) -> Option<(f64, usize)> {
    let start = Instant::now();
    let mut child = Command::new("dot")
        .arg("-Tplain")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    child.stdin.take()?.write_all(text.as_bytes()).ok()?;
    let plain = String::from_utf8(child.wait_with_output().ok()?.stdout).ok()?;
    let ms = start.elapsed().as_secs_f64() * 1e3;
    let splines: Vec<Spline> = plain.lines().filter_map(spline).collect();
    let pairs = (0..splines.len()).flat_map(|one| (0..one).map(move |other| (one, other)));
    let count = pairs
        .filter(|&(one, other)| cross(&splines[one], &splines[other]))
        .count();
    Some((ms, count))
}

/// A drawn line: the names of its ends and places along it.
struct Spline {
    ends: [String; 2],
    places: Vec<(f64, f64)>,
}

fn spline(line: &str) -> Option<Spline> {
    let mut words = line.strip_prefix("edge ")?.split(' ');
    let ends = [words.next()?.to_string(), words.next()?.to_string()];
    let count: usize = words.next()?.parse().ok()?;
    let numbers: Vec<f64> = words
        .take(2 * count)
        .filter_map(|word| word.parse().ok())
        .collect();
    let controls: Vec<(f64, f64)> = numbers
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect();
    let mut places = Vec::new();
    for piece in controls.windows(4).step_by(3) {
        places.extend((0..=12).map(|part| along(piece, f64::from(part) / 12.0)));
    }
    Some(Spline { ends, places })
}

fn along(piece: &[(f64, f64)], t: f64) -> (f64, f64) {
    let u = 1.0 - t;
    let weights = [u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t];
    let sum = |of: fn(&(f64, f64)) -> f64| {
        piece
            .iter()
            .zip(weights)
            .map(|(place, weight)| of(place) * weight)
            .sum()
    };
    (sum(|place| place.0), sum(|place| place.1))
}

fn cross(one: &Spline, other: &Spline) -> bool {
    if one.ends.iter().any(|end| other.ends.contains(end)) {
        return false;
    }
    one.places
        .windows(2)
        .any(|a| other.places.windows(2).any(|b| segments_cross(a, b)))
}

fn segments_cross(a: &[(f64, f64)], b: &[(f64, f64)]) -> bool {
    let side = |p: (f64, f64), q: (f64, f64), r: (f64, f64)| {
        (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0)
    };
    side(a[0], a[1], b[0]) * side(a[0], a[1], b[1]) < 0.0
        && side(b[0], b[1], a[0]) * side(b[0], b[1], a[1]) < 0.0
}
