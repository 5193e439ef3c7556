//! Many tags, from sharp to a blur: what is read is right, most that is sharp is read, every other is seen as a tag or as
//! out of focus, and no picture is placed wrongly.
//!
//! 60 pictures of 1,600 × 1,200; `PODBOOK_PHOTOS=200 cargo test --test photos -- --nocapture` makes 200 and prints the
//! rates.

use crate::camera::{View, at, jpeg, lay, leaves};
use crate::lot::Lot;
use podbook::analysis::photos::{PictureRead, Placed, Placing, place};
use podbook::picture::{Picture, TagSeen, mark, taken};
use podbook::record::Day;
use podbook::registry::{Registry, build};
use podbook::text::{Sources, on_cores};
use std::collections::BTreeMap;

const SIZE: (u32, u32) = (1600, 1200);
/// Blur in modules; that of the last two no decoder reads.
const BLURS: [f64; 8] = [0.0, 0.2, 0.35, 0.5, 0.65, 0.8, 1.1, 1.6];
/// Side of the code in parts of the long side.
const SIZES: [f64; 5] = [0.04, 0.06, 0.09, 0.15, 0.3];

/// A tag, photographed.
struct Shot {
    code: String,
    view: View,
    read: PictureRead,
}

fn asked() -> usize {
    let asked = std::env::var("PODBOOK_PHOTOS").ok();
    asked.and_then(|asked| asked.parse().ok()).unwrap_or(60)
}

fn read(file: String, bytes: &[u8]) -> PictureRead {
    PictureRead {
        file,
        mark: mark(bytes),
        taken: taken(bytes),
        seen: Picture::read(bytes)
            .map(|of| of.tag())
            .map_err(|why| why.to_string()),
    }
}

/// The clock goes on by 20 seconds from picture to picture: no pause ever ends a row.
fn time(at: usize) -> String {
    let second = at * 20;
    format!(
        "2025:05:10 {:02}:{:02}:{:02}",
        8 + second / 3600,
        second / 60 % 60,
        second % 60
    )
}

fn shot(number: usize) -> (Shot, PictureRead) {
    let mut lot = Lot(number as u64 * 977 + 5);
    let code = format!("X22-02-{}", number + 1);
    let view = View {
        size: SIZES[lot.below(SIZES.len())],
        turned: lot.below(360) as f64,
        light: [1.0, 0.7, 0.4][lot.below(3)],
        blur: BLURS[number % BLURS.len()],
    };
    let mut picture = leaves(SIZE, number as u64);
    let plant = jpeg(&picture, at(&time(2 * number + 1)));
    lay(&mut picture, &code, view);
    let tag = jpeg(&picture, at(&time(2 * number)));
    // Names against the order of the clock.
    let name = |kind: &str| format!("{kind}-{:04}.jpg", 5000 - number);
    let read_tag = read(name("tag"), &tag);
    let shot = Shot {
        code,
        view,
        read: read_tag,
    };
    (shot, read(name("plant"), &plant))
}

fn registry(plants: usize) -> Sources {
    let seedlings: String = (1..=plants)
        .map(|number| format!("(number: \"{number}\"),"))
        .collect();
    let page = format!(
        "(code: \"X22-02\", parents: known(seed: \"A1\", pollen: \"B1\"), seedlings: [{seedlings}])"
    );
    let mut sources = Sources::new();
    sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
    sources.add(
        "clones.ron",
        r#"(clones: [(code: "A1", received: "N. ventricosa"), (code: "B1", received: "N. spathulata")])"#,
    );
    sources.add("crosses/X22-02.ron", page);
    sources
}

#[test]
fn of_many_tags_none_is_misread() {
    let numbers: Vec<usize> = (0..asked() / 2).collect();
    let shots = on_cores(&numbers, true, |number| shot(*number));
    let mut rates: BTreeMap<String, (usize, usize, usize)> = BTreeMap::new();
    let mut sharp = (0, 0);
    for (tag, _) in &shots {
        let is_read = tag.read.seen == Ok(TagSeen::Read(tag.code.clone()));
        let is_seen = tag.read.seen != Ok(TagSeen::None);
        let said = matches!(&tag.read.seen, Ok(TagSeen::Read(_)));
        assert!(is_read || !said, "{}: {:?}", tag.code, tag.read.seen);
        let rate = rates.entry(format!("{:.2}", tag.view.blur)).or_default();
        *rate = (
            rate.0 + 1,
            rate.1 + usize::from(is_read),
            rate.2 + usize::from(is_seen),
        );
        if tag.view.blur <= 0.35 {
            sharp = (sharp.0 + 1, sharp.1 + usize::from(is_read));
        }
        assert!(is_seen, "passed over: {}: {:?}", tag.read.file, tag.view);
    }
    for (blur, (all, read, seen)) in &rates {
        println!("blur {blur} modules: {read} of {all} read, {seen} seen as a tag");
    }
    println!("sharp: {} of {} read", sharp.1, sharp.0);
    assert!(sharp.1 * 10 >= sharp.0 * 9, "{sharp:?}");
    placing(&shots);
}

/// The plant with which each picture is placed, or is likely to be.
fn placed(registry: &Registry, read: &[PictureRead]) -> Vec<(String, Option<String>, bool)> {
    let placed = place(registry, read, 5, Day::new(2025, 6, 1).expect("a day"));
    let of = |of: Placed| {
        let (plant, sure) = match &of.placing {
            Placing::Own(plant) => (Some(*plant), true),
            Placing::Before(before) => (Some(before.of), true),
            Placing::Likely(before, _) => (Some(before.of), false),
            _ => (None, false),
        };
        let plant = plant.map(|plant| registry.code(plant.plant));
        (of.file, plant, sure)
    };
    placed.into_iter().map(of).collect()
}

/// Each plant is photographed after its tag: it is placed with that plant or with none. The same without the pictures of
/// plants, where a tag that is passed over would come right after another.
fn placing(shots: &[(Shot, PictureRead)]) {
    let sources = registry(shots.len());
    let (registry, findings) = build(&sources);
    assert!(findings.is_empty(), "{findings:?}");
    let both = shots
        .iter()
        .flat_map(|(tag, plant)| [tag.read.clone(), plant.clone()]);
    let tags = shots.iter().map(|(tag, _)| tag.read.clone());
    let shown: BTreeMap<&str, &str> = shots
        .iter()
        .flat_map(|(tag, plant)| [(&*tag.read.file, &*tag.code), (&*plant.file, &*tag.code)])
        .collect();
    let read = |tag: &Shot| matches!(tag.read.seen, Ok(TagSeen::Read(_)));
    let tags_read = shots.iter().filter(|(tag, _)| read(tag)).count();
    // The plant after a tag that was read is placed with it.
    for (pictures, rightly) in [
        (both.collect::<Vec<_>>(), 2 * tags_read),
        (tags.collect(), tags_read),
    ] {
        let placed = placed(&registry, &pictures);
        let sure = placed.iter().filter(|(.., sure)| *sure);
        let is_right =
            |of: &&(String, Option<String>, bool)| of.1.as_deref() == Some(shown[&*of.0]);
        let (right, wrong): (Vec<_>, Vec<_>) = sure.partition(is_right);
        println!("{} of {} placed rightly", right.len(), placed.len());
        assert!(wrong.is_empty(), "{wrong:?}");
        assert_eq!(right.len(), rightly);
    }
}
