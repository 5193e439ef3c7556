//! Exporting 50,000 plants against reading them: each table and all records written into memory, in the same run.
//!
//! Ours: passport data, the pedigree, the sheet of plants, every record as JSON, each from a registry that was read, with
//! lineage, names and evidence worked out anew. The yardstick: the same registry read and built from its texts in memory.
//! Medians of alternating runs; the ratio is what counts.
//!
//! `cargo bench --bench exporting [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
#[path = "../support/rounds.rs"]
mod rounds;

use nursery::Nursery;
use podbook::context::Context;
use podbook::record::Day;
use podbook::registry::{Registry, build};
use podbook::render::Written;
use podbook::report::export::{
    ExportTable, PassportOptions, passport_table, pedigree_table, plant_table, registry_records,
};
use podbook::text::Sources;
use rounds::{median, seconds};
use std::hint::black_box;

const RUNS: usize = 9;

fn main() {
    let sizes: Vec<usize> = std::env::args().filter_map(|of| of.parse().ok()).collect();
    let sizes = if sizes.is_empty() {
        vec![50_000]
    } else {
        sizes
    };
    println!("exporting ÷ reading the registry");
    for seedlings in sizes {
        measure(seedlings, &Nursery::of(seedlings).grow().sources());
    }
}

fn measure(seedlings: usize, sources: &Sources) {
    let (registry, _) = build(sources);
    let today = Day::new(2030, 1, 1).expect("a day");
    let mut times: [Vec<f64>; 5] = Default::default();
    for _ in 0..RUNS {
        times[0].push(seconds(|| drop(black_box(build(sources)))));
        times[1].push(seconds(|| {
            written(&registry, today, |context| {
                let plants: Vec<_> = registry.plants().collect();
                passport_table(context, plants, PassportOptions::default())
            });
        }));
        times[2].push(seconds(|| {
            written(&registry, today, |context| {
                pedigree_table(context, registry.plants().collect())
            });
        }));
        times[3].push(seconds(|| {
            written(&registry, today, |context| {
                plant_table(context, registry.plants().collect())
            });
        }));
        times[4].push(seconds(|| {
            black_box(Written::json_value(&registry_records(sources).0)).expect("JSON");
        }));
    }
    let [reading, passport, pedigree, plants, records] = times.map(median);
    println!(
        "{seedlings} seedlings: reading {:.0} ms; passport {:.2}, pedigree {:.2}, plants {:.2}, records {:.2}",
        reading * 1e3,
        passport / reading,
        pedigree / reading,
        plants / reading,
        records / reading,
    );
}

fn written(
    registry: &Registry,
    today: Day,
    table: impl for<'c> Fn(&'c Context) -> ExportTable<'c>,
) {
    let context = Context::of(registry, today);
    black_box(Written::csv_table(&table(&context)));
}
