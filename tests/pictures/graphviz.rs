//! How many lines cross in a layout of Graphviz: those of its drawn splines that share no end.

use std::io::Write;
use std::process::{Command, Stdio};

/// How many lines cross when Graphviz lays the text out; nothing where it is not installed.
pub fn crossings(text: &str) -> Option<usize> {
    let mut child = Command::new("dot")
        .arg("-Tplain")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    let (mut input, text) = (child.stdin.take()?, text.to_owned());
    let writer = std::thread::spawn(move || input.write_all(text.as_bytes()));
    let plain = String::from_utf8(child.wait_with_output().ok()?.stdout).ok()?;
    let _ = writer.join();
    let splines: Vec<Spline> = plain.lines().filter_map(spline).collect();
    let pairs = (0..splines.len()).flat_map(|one| (0..one).map(move |other| (one, other)));
    let count = pairs
        .filter(|&(one, other)| cross(&splines[one], &splines[other]))
        .count();
    Some(count)
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
