//! An album of 2,000 plants: how much its pages weigh, and that they say the same each time.

use crate::nursery::Nursery;
use podbook::context::Context;
use podbook::record::Day;
use podbook::registry::{Readers, build};
use podbook::render::album::pages;
use podbook::report::album::Album;

/// The most a page may weigh, bytes: one that lists plants of all crosses, and that of a plant or a cross.
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
    for nursery in [Nursery::of(2_000), Nursery::hobby()] {
        let pages = made(nursery);
        assert!(pages.len() > 2_000, "{}", pages.len());
        for (path, text) in &pages {
            let of_one = path.starts_with("plants/") || path.starts_with("crosses/");
            let most = if of_one { OTHER } else { COLLECTION };
            assert!(text.len() < most, "{path} weighs {} bytes", text.len());
        }
        let heaviest = pages.iter().max_by_key(|(_, text)| text.len());
        println!(
            "{} pages, the heaviest {:?}",
            pages.len(),
            heaviest.map(|(path, text)| (path, text.len()))
        );
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
