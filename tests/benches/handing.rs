//! What leaves the house with a plant against reading the same registry, in the same run.
//!
//! Ours: pot tags of every plant that is here, as pages of PDF; one sale card as a page of PDF; one lineage handed over, as
//! texts with its fingerprint; the grid of 60 siblings of another registry as a page of PDF. Each from the registry as it is built. The yardstick: reading the same registry from disk to the
//! built one, which every command does. Medians of alternating runs.
//!
//! `cargo bench --bench handing [-- SEEDLINGS…]`

#[path = "../support/nursery.rs"]
mod nursery;
#[path = "../support/rounds.rs"]
mod rounds;

use nursery::Nursery;
use podbook::analysis::select::{KeepWish, keep};
use podbook::analysis::tags::tags;
use podbook::context::Context;
use podbook::lineage::PlantRow;
use podbook::observation::presence::{Presence, presence};
use podbook::record::{Day, Hemisphere, KeepRules, When};
use podbook::recording::handover;
use podbook::registry::{PlantKind, PlantOrRamet, Registry, build};
use podbook::render::Written;
use podbook::render::card::{self, pages};
use podbook::render::chart::{self, Look};
use podbook::render::tags::{Paper, compose, sheets};
use podbook::report::card::card as sale_card;
use podbook::report::select::select_grid;
use podbook::text::Sources;
use rounds::{median, seconds, sizes_asked};
use std::hint::black_box;

fn main() {
    let sizes = sizes_asked(&[2_000, 20_000]);
    println!("a thing to hand over ÷ reading the registry");
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
    let mut times: [Vec<f64>; 5] = Default::default();
    let mut printed = 0;
    let sixty = Nursery {
        crosses: 1,
        ..Nursery::of(60)
    };
    let (code, sixty) = (sixty.code(0), sixty.grow().sources());
    let (siblings, _) = build(&sixty);
    for _ in 0..9 {
        times[0].push(seconds(|| {
            let sources = Sources::read(folder.path());
            black_box(build(&sources).0.plant_count());
        }));
        let sources = Sources::read(folder.path());
        let (registry, _) = build(&sources);
        let here = here(&registry, today);
        let plant = *here.last().expect("a plant");
        times[1].push(seconds(|| printed = printed_tags(&registry, &here, today)));
        times[2].push(seconds(|| {
            black_box(printed_card(&registry, plant, today)).clear()
        }));
        times[3].push(seconds(|| {
            let lineage = handover::Lineage::of(&registry, plant);
            black_box(handover::fingerprint(&handover::lines(&registry, &lineage)));
            black_box(handover::pages(&registry, &lineage).len());
        }));
        times[4].push(seconds(|| black_box(drawn_grid(&siblings, &code, today))));
    }
    let [reading, tags, card, lineage, grid] = times.map(median);
    println!(
        "{seedlings:>9} seedlings, read in {:.1} ms: {printed} tags {:.2}, a card {:.2}, a lineage {:.2}, the grid of 60 {:.2}",
        reading * 1e3,
        tags / reading,
        card / reading,
        lineage / reading,
        grid / reading
    );
}

/// At most 2,000 seedlings that stand here.
fn here(registry: &Registry, today: Day) -> Vec<PlantRow> {
    let seedlings = registry
        .plants()
        .filter(|&plant| registry.kind(plant) == PlantKind::Seedling);
    let here = seedlings.filter(|&plant| presence(registry, plant, today) == Presence::Here);
    here.take(2_000).collect()
}

/// Tags of all plants as pages; how many.
fn printed_tags(registry: &Registry, plants: &[PlantRow], today: Day) -> usize {
    let context = Context::of(registry, today);
    let plants: Vec<_> = plants
        .iter()
        .map(|&plant| PlantOrRamet::whole(plant))
        .collect();
    let answer = tags(&context, &plants);
    let size = "13x102".parse().expect("a size");
    let composed = answer.tags.iter().map(|tag| compose(tag, size));
    let composed: Vec<_> = composed.collect::<Result<_, _>>().expect("tags with room");
    let pages = sheets(&composed, Paper::A4).expect("pages");
    black_box(Written::pdf(&pages).bytes().len());
    composed.len()
}

/// The grid of all siblings of a cross as pages; how many bytes.
fn drawn_grid(registry: &Registry, cross: &str, today: Day) -> usize {
    let rules = KeepRules::read(
        r#"(weigh: [(of: "span", weight: 1), (of: "banding", weight: 1)], keep: 8)"#,
    );
    let wish = KeepWish {
        today,
        minutes: None,
        minutes_each: 1.0,
        heritability: 0.4,
    };
    let report =
        keep(registry, &[cross.to_owned()], &rules.expect("rules"), wish).expect("a proposal");
    let sheet = chart::select(&select_grid(&report), Look::A4);
    Written::pdf(&sheet.pages()).bytes().len()
}

fn printed_card(registry: &Registry, plant: PlantRow, today: Day) -> Vec<u8> {
    let context = Context::of(registry, today);
    let card = sale_card(&context, &registry.code(plant)).expect("a card");
    Written::pdf(&pages(&card, None, card::Look::A5))
        .bytes()
        .to_vec()
}
