//! Two registries coming together, against reading both, in the same run.
//!
//! Ours: from two registries that are read to the pages that change, as `podbook merge` does before it checks and writes. Two
//! copies differ in a seedling of every tenth page; another grower's registry comes in whole. The yardstick is reading the
//! pages of both. Medians of alternating runs.
//!
//! `cargo bench --bench merging [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
#[path = "../support/rounds.rs"]
mod rounds;

use nursery::Nursery;
use podbook::record::{Day, JournalEntry};
use podbook::recording::merging::conflict::Decisions;
use podbook::recording::merging::copies::CopyMerge;
use podbook::recording::merging::copy::Copy;
use podbook::recording::merging::others::OtherMerge;
use podbook::registry::{Registry, build};
use podbook::text::Sources;
use rounds::{median, seconds, sizes_asked};
use std::collections::BTreeSet;

fn main() {
    let sizes = sizes_asked(&[5_000, 50_000]);
    println!("merging ÷ reading both, the same at every size");
    for seedlings in sizes {
        measure(seedlings);
    }
}

/// A registry of so many seedlings, with something else in every tenth page.
fn registry(seedlings: usize, (was, now): (&str, &str)) -> Sources {
    let mut sources = Sources::new();
    for (at, (path, text)) in Nursery::of(seedlings).grow().pages.into_iter().enumerate() {
        let text = match at % 10 {
            0 => text.replacen(was, now, 1),
            _ => text,
        };
        sources.add(path, text);
    }
    sources
}

fn measure(seedlings: usize) {
    let base = registry(seedlings, ("", ""));
    let ours = registry(
        seedlings,
        ("(number: \"1\"", "(number: \"1\", nickname: \"wide\""),
    );
    let other = registry(seedlings, ("goal: \"a wide", "goal: \"a very wide"));
    let (mut reading, mut copies, mut others) = (Vec::new(), Vec::new(), Vec::new());
    let none = Decisions::default();
    for _ in 0..5 {
        reading.push(seconds(|| {
            (build(&ours).0.plant_count(), build(&other).0.plant_count())
        }));
        let (here, there, first) = (build(&ours).0, build(&other).0, build(&base).0);
        copies.push(seconds(|| {
            let merge = CopyMerge {
                ours: copy(&ours, &here),
                theirs: copy(&other, &there),
                base: Some(copy(&base, &first)),
                decisions: &none,
                same: &BTreeSet::new(),
                joined: &[],
            };
            merge.merged().expect("they can be merged").changes.len()
        }));
        others.push(seconds(|| {
            let merge = OtherMerge {
                ours: copy(&ours, &here),
                theirs: copy(&other, &there),
                by: "birch",
                decisions: &none,
                same: &[],
                today: Day(738_000),
            };
            merge.merged().expect("they can be merged").changes.len()
        }));
    }
    let [reading, copies, others] = [reading, copies, others].map(median);
    println!(
        "{seedlings:>9} seedlings: reading both {:.0} ms; copies {:.0} ms, ratio {:.2}; another's {:.0} ms, ratio {:.2}",
        reading * 1e3,
        copies * 1e3,
        copies / reading,
        others * 1e3,
        others / reading
    );
}

fn copy<'a>(sources: &'a Sources, registry: &'a Registry<'a>) -> Copy<'a> {
    const NONE: &[JournalEntry] = &[];
    Copy {
        sources,
        registry,
        entries: NONE,
    }
}
