//! An album of 2,000 plants: how much its pages weigh, and that they say the same each time.

use crate::nursery::Nursery;
use podbook::context::Context;
use podbook::record::Day;
use podbook::registry::{Readers, build};
use podbook::render::album::pages;
use podbook::report::album::Album;
use std::collections::BTreeSet;

/// The most a page may weigh, bytes: the one with every plant, which is searched, and any other.
const COLLECTION: usize = 600_000;
const OTHER: usize = 100_000;

fn made(nursery: Nursery) -> Vec<(String, String)> {
    let sources = nursery.grow().sources();
    let (registry, _) = build(&sources);
    let today = Day::new(2030, 1, 1).expect("a day");
    let context = Context::of(&registry, today);
    pages(&Album::of(&context, Readers::Grower))
}

#[test]
fn pages_are_light() {
    let large = Nursery {
        seedlings: 1_900,
        crosses: 1,
        ..Nursery::hobby()
    };
    for nursery in [Nursery::of(2_000), Nursery::hobby(), large] {
        let pages = made(nursery);
        assert!(pages.len() > 1_900, "{}", pages.len());
        for (path, text) in &pages {
            let most = if path == "index.html" {
                COLLECTION
            } else {
                OTHER
            };
            assert!(text.len() < most, "{path} weighs {} bytes", text.len());
        }
        every_plant_is_listed(&pages, "crosses/");
        every_plant_is_listed(&pages, "species/");
        let heaviest = pages.iter().max_by_key(|(_, text)| text.len());
        println!(
            "{} pages, the heaviest {:?}",
            pages.len(),
            heaviest.map(|(path, text)| (path, text.len()))
        );
    }
}

/// Without a program every seedling is found from the pages of its cross and of a species.
fn every_plant_is_listed(pages: &[(String, String)], folder: &str) {
    let of_folder = pages.iter().filter(|(path, _)| path.starts_with(folder));
    let linked: BTreeSet<&str> = of_folder
        .flat_map(|(_, text)| text.split("href=\"../").skip(1))
        .filter_map(|rest| rest.split('"').next())
        .collect();
    let seedlings = pages
        .iter()
        .filter(|(path, _)| path.starts_with("plants/x"));
    for (path, _) in seedlings {
        assert!(linked.contains(&**path), "{path} is not linked in {folder}");
    }
    let further = pages
        .iter()
        .filter(|(path, _)| path.starts_with(folder) && path.matches('.').count() > 1);
    for (path, _) in further {
        assert!(linked.contains(&**path), "{path} is not linked in {folder}");
    }
}

#[test]
fn pages_say_the_same_each_time() {
    let nursery = Nursery {
        seedlings: 300,
        crosses: 12,
        ..Nursery::hobby()
    };
    assert!(made(nursery) == made(nursery));
}
