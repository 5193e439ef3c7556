//! How long a pedigree takes to lay out, and how many of its lines cross, beside Graphviz where that is installed.
//!
//! Run with `cargo bench --bench pictures`. Only ratios of one run travel between machines. Graphviz is timed with the
//! start of its process, as a grower would meet it, and the count of its crossings.

#[path = "../pictures/graphviz.rs"]
mod graphviz;
#[path = "../pictures/samples.rs"]
#[allow(dead_code)]
mod samples;
#[path = "../pictures/sketch.rs"]
#[allow(dead_code)]
mod sketch;

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
    let start = Instant::now();
    let theirs = graphviz::crossings(&dot(drawing));
    let ms = start.elapsed().as_secs_f64() * 1e3;
    match theirs {
        Some(theirs) => println!("{ms:>13.1}{theirs:>14}"),
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
