//! What podbook promises of writing, each promise with the test that holds it: see `docs/promises.md`.
//!
//! A plain run tries each a few hundred or thousand times. `PODBOOK_PROMISES=N` in the environment asks for N times.

mod base;
mod bench;
mod chance;
mod events;
mod facts;
mod hostile;
mod layout;
mod left_out;
#[path = "../fuzz/mutate.rs"]
mod mutate;
#[cfg(target_os = "linux")]
mod no_locks;
mod odd_tables;
mod pieces;
mod processes;
mod random;
#[cfg(target_os = "linux")]
mod traced;

use podbook::text::Sources;
use proptest::test_runner::{Config, RngSeed};

/// How often something is tried: `usual` times, or as often as the environment asks.
fn rounds(usual: u64) -> u64 {
    let asked = std::env::var("PODBOOK_PROMISES").ok();
    asked.map_or(usual, |asked| {
        asked
            .replace(['_', ','], "")
            .parse()
            .expect("PODBOOK_PROMISES is a number")
    })
}

/// The same draws at every run; `PROPTEST_RNG_SEED` asks for others.
fn settings(cases: u32) -> Config {
    let asked = Config::default();
    Config {
        failure_persistence: None,
        rng_seed: match asked.rng_seed {
            RngSeed::Random => RngSeed::Fixed(1),
            fixed => fixed,
        },
        cases,
        ..asked
    }
}

fn sources(pages: &base::Pages) -> Sources {
    let mut sources = Sources::new();
    for (path, text) in pages {
        sources.add(path.as_str(), text.as_str());
    }
    sources
}
