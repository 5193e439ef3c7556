//! An album of 2,000 plants against reading them: all pages written into memory, in the same run.
//!
//! Ours: lineage, names, evidence and every page, from a registry that was read. The yardstick: the same registry read and
//! built from its texts in memory. Medians of alternating runs; the ratio is what counts.
//!
//! `cargo bench --bench album [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
#[path = "../support/rounds.rs"]
mod rounds;

use nursery::Nursery;
use podbook::context::Context;
use podbook::record::Day;
use podbook::registry::{Readers, Registry, build};
use podbook::render::album::pages;
use podbook::report::album::Album;
use podbook::text::Sources;
use rounds::{median, seconds};
use std::hint::black_box;

const RUNS: usize = 5;

fn main() {
    let sizes: Vec<usize> = std::env::args().filter_map(|of| of.parse().ok()).collect();
    let shapes = match sizes.is_empty() {
        true => vec![Nursery::hobby(), Nursery::of(2_000)],
        false => sizes.into_iter().map(Nursery::of).collect(),
    };
    println!("an album ÷ reading the registry");
    for nursery in shapes {
        measure(nursery, &nursery.grow().sources());
    }
}

fn measure(nursery: Nursery, sources: &Sources) {
    let (registry, _) = build(sources);
    let (mut reading, mut writing, mut bytes) = (Vec::new(), Vec::new(), 0);
    for _ in 0..RUNS {
        reading.push(seconds(|| drop(black_box(build(sources)))));
        writing.push(seconds(|| bytes = written(&registry)));
    }
    let (reading, writing) = (median(reading), median(writing));
    println!(
        "{} seedlings of {} crosses: reading {:.1} ms; album {:.2} s, {:.1} MB: {:.0} times",
        nursery.seedlings,
        nursery.crosses,
        reading * 1e3,
        writing,
        bytes as f64 / 1e6,
        writing / reading,
    );
}

fn written(registry: &Registry) -> usize {
    let today = Day::new(2030, 1, 1).expect("a day");
    let context = Context::of(registry, today);
    let album = Album::of(&context, Readers::Grower);
    black_box(pages(&album))
        .iter()
        .map(|(_, text)| text.len())
        .sum()
}
