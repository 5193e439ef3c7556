//! The samples as pictures to look at.

use podbook::render::{dot, pedigree, pedigree_text, png, svg};
use podbook::report::PedigreeDrawing;

use crate::samples;

fn show(file: &str, drawing: &PedigreeDrawing) {
    let scene = pedigree::draw(drawing);
    let layout = pedigree::layout(drawing);
    println!(
        "{file}: {} crossings, {:?} points",
        layout.crossings(),
        layout.size()
    );
    let scale = f64::min(2.0, 3000.0 / scene.height.max(scene.width));
    let bytes = png(&scene, scale).expect("the sample fits");
    assert_eq!(
        bytes,
        png(&pedigree::draw(drawing), scale).expect("the sample fits")
    );
    keep(&format!("{file}.png"), &bytes);
    keep(&format!("{file}.svg"), svg(&scene).as_bytes());
    keep(
        &format!("{file}.txt"),
        pedigree_text(drawing, 80).as_bytes(),
    );
    keep(&format!("{file}.dot"), dot(drawing).as_bytes());
}

/// Writes a file to look at, where a folder was named for it.
pub fn keep(file: &str, bytes: &[u8]) {
    if let Ok(folder) = std::env::var("PODBOOK_PICTURES") {
        std::fs::write(format!("{folder}/{file}"), bytes).expect("the folder can be written");
    }
}

#[test]
fn the_samples_are_drawn() {
    show("tree", &samples::tree());
    show("complex", &samples::complex());
    show("registry", &samples::registry(300));
    show("tangle", &samples::tangle(300));
    show("uncertain", &samples::uncertain());
    show("long", &samples::long_labels());
}
