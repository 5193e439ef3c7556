//! One event at the bench against reading the same registry, in the same run.
//!
//! Ours: hold the registry, read it from disk, make the event's change, look for what it would bring, write the page and the
//! entry in the journal, both forced to disk. The yardstick: reading the same registry from disk to the built one, which
//! every command does. Medians of alternating runs; each event is another plant's, so none is refused. Forcing to disk is
//! timed apart, since it is the disk's and not ours.
//!
//! `cargo bench --bench recording [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
#[path = "../support/rounds.rs"]
mod rounds;

use nursery::Nursery;
use podbook::record::{Day, Hemisphere, When};
use podbook::recording::checked::consequences;
use podbook::recording::draft::Draft;
use podbook::recording::events::keep::mark;
use podbook::recording::journal::{Asked, entry};
use podbook::registry::{PlantKind, Registry, build};
use podbook::text::commit::{FileChange, Hold, commit};
use podbook::text::{NoFailures, Sources};
use rounds::{median, seconds, sizes_asked};
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

fn main() {
    let sizes = sizes_asked(&[10_000, 100_000]);
    println!("one event ÷ reading the registry, aim 1.3");
    for seedlings in sizes {
        measure(seedlings);
    }
}

fn measure(seedlings: usize) {
    let folder = tempfile::tempdir().expect("a folder");
    Nursery::of(seedlings).grow().write(folder.path());
    let today = When::read("2025-06-01", Hemisphere::North)
        .expect("a day")
        .first;
    let (mut reading, mut recording, mut forcing) = (Vec::new(), Vec::new(), Vec::new());
    for round in 0..15 {
        reading.push(seconds(|| {
            let sources = Sources::read(folder.path());
            black_box(build(&sources).0.plant_count());
        }));
        let mut forced = 0.0;
        let whole = seconds(|| forced = event(folder.path(), round, today));
        recording.push(whole - forced);
        forcing.push(forced);
    }
    let [reading, recording, forcing] = [reading, recording, forcing].map(median);
    println!(
        "{seedlings:>9} seedlings: event {:.1} ms, reading {:.1} ms, ratio {:.2}; forced to disk in {:.1} ms more",
        recording * 1e3,
        reading * 1e3,
        recording / reading,
        forcing * 1e3
    );
}

/// Marks a plant to keep; the seconds it took to write.
fn event(folder: &Path, round: usize, today: Day) -> f64 {
    let hold = Hold::to_write(folder).expect("held");
    let sources = Sources::read(folder);
    let (registry, _) = build(&sources);
    let mut draft = Draft::new(&registry, today);
    let plant = unmarked(&registry, round);
    let recorded = mark(&mut draft, "2025-06-01", vec![(plant, None)]).expect("marked");
    let pages = draft.changes();
    let brought = consequences(&registry, &pages, &recorded.about, today);
    black_box(brought.findings.len());
    let asked = Asked {
        change: round as u32 + 1,
        on: today,
        asked: "keep",
        about: &recorded.about,
        undoes: None,
        event: None,
        merged: None,
    };
    let (path, text) = entry(&asked, &pages);
    let bytes = |text: Option<String>| text.map(String::into_bytes);
    let mut files: Vec<FileChange> = pages
        .into_iter()
        .map(|page| FileChange {
            path: page.path,
            was: bytes(page.was),
            now: bytes(page.now),
        })
        .collect();
    files.push(FileChange {
        path,
        was: None,
        now: Some(text.into_bytes()),
    });
    let start = Instant::now();
    commit(&hold, &files, &NoFailures).expect("written");
    start.elapsed().as_secs_f64()
}

/// A seedling without a mark, another one each round.
fn unmarked(registry: &Registry, round: usize) -> podbook::registry::PlantRow {
    let seedlings = registry
        .plants()
        .filter(|plant| registry.kind(*plant) == PlantKind::Seedling);
    let unmarked = seedlings
        .filter(|plant| registry.kept(*plant).is_none() && registry.fate(*plant).is_none());
    unmarked.step_by(97).nth(round).expect("a seedling")
}
