//! The registry of another grower comes in: everything once, nothing of it as one's own, nothing of one's own changed.

use crate::book::{Book, sources, today};
use crate::edits::edit;
use crate::nursery::{Chance, Nursery};
use podbook::observation::presence::{Presence, presence};
use podbook::record::{Hemisphere, When};
use podbook::recording::merging::conflict::{Decisions, Side};
use podbook::recording::merging::copy::Copy;
use podbook::recording::merging::merged::Merged;
use podbook::recording::merging::others::OtherMerge;
use podbook::recording::says::value::Record;
use podbook::recording::slip::Slip;
use podbook::registry::build;

pub fn merging(ours: &Book, theirs: &Book, by: &str, keep: Option<Side>) -> Result<Merged, Slip> {
    merging_as_one(ours, theirs, (by, keep), &[])
}

pub fn merging_as_one(
    ours: &Book,
    theirs: &Book,
    (by, keep): (&str, Option<Side>),
    same: &[(String, String)],
) -> Result<Merged, Slip> {
    let pages = [ours, theirs].map(|book| sources(&book.pages));
    let [here, there] = pages.each_ref().map(|pages| build(pages).0);
    let decisions = Decisions(keep.map(|side| (String::new(), side)).into_iter().collect());
    OtherMerge {
        ours: Copy {
            sources: &pages[0],
            registry: &here,
            entries: &ours.journal,
        },
        theirs: Copy {
            sources: &pages[1],
            registry: &there,
            entries: &theirs.journal,
        },
        by,
        decisions: &decisions,
        same,
        today: today(),
    }
    .merged()
}

pub fn merge(ours: &mut Book, theirs: &Book, by: &str) -> Merged {
    let merged = merging(ours, theirs, by, None).unwrap_or_else(|why| panic!("{why}"));
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    ours.write(&merged.changes, None, Some(&merged.memory));
    merged
}

pub fn named(name: &str, seed: u64) -> (Book, Nursery) {
    let nursery = Nursery {
        seed,
        founders: 8,
        ..Nursery::of(20)
    };
    let mut book = Book {
        pages: nursery.grow().pages.into_iter().collect(),
        journal: Vec::new(),
    };
    let settings =
        book.pages["registry.ron"].replacen("genus:", &format!("registry: \"{name}\", genus:"), 1);
    book.pages.insert("registry.ron".to_owned(), settings);
    edit(
        &mut book,
        &nursery,
        name.chars().next().unwrap(),
        false,
        &mut Chance(seed + 5),
    );
    (book, nursery)
}

/// Founders, seedlings, crosses and readings.
pub fn counts(book: &Book) -> [usize; 4] {
    let mut counts = [0; 4];
    for page in book.pages.values().filter_map(|text| Record::of_page(text)) {
        counts[0] += page.records("clones").count();
        counts[1] += page.records("seedlings").count();
        counts[2] += usize::from(page.get("parents").is_some());
        let rows = page
            .records("sittings")
            .filter_map(|sitting| sitting.get("rows"));
        counts[3] += rows.map(|rows| rows.list().len()).sum::<usize>();
    }
    counts
}

fn comes_in(seed: u64) {
    let (mut a, _) = named("alder", seed);
    let (mut b, nursery) = named("birch", seed + 1);
    let was = a.clone();
    let faults = a.faults() + b.faults();
    merge(&mut a, &b, "birch");
    assert!(a.faults() <= faults, "{seed}: {} faults", a.faults());
    let [own, other, all] = [&was, &b, &a].map(counts);
    assert_eq!(std::array::from_fn(|of| own[of] + other[of]), all, "{seed}");
    // What was here is here as it was, and only that stands here.
    for (path, text) in was
        .pages
        .iter()
        .filter(|(path, _)| path.starts_with("crosses/"))
    {
        assert_eq!(a.pages.get(path), Some(text), "{seed}");
    }
    let here = |book: &Book| {
        let pages = sources(&book.pages);
        let (registry, _) = build(&pages);
        let plants = registry
            .plants()
            .filter(|&plant| presence(&registry, plant, today()) == Presence::Here);
        plants
            .map(|plant| registry.code(plant))
            .collect::<Vec<String>>()
    };
    assert_eq!(here(&a), here(&was), "{seed}");
    // The other way round there is as much.
    let mut back = b.clone();
    merge(&mut back, &was, "alder");
    assert_eq!(counts(&back), all, "{seed}");
    // Twice is once; what they change later comes, and nothing else.
    let again = merging(&a, &b, "birch", None).unwrap();
    assert!(
        again.changes.is_empty() && again.clashes.is_empty(),
        "{seed}: {again:#?}"
    );
    let once = a.clone();
    let done = edit(&mut b, &nursery, 'z', false, &mut Chance(seed + 9));
    if !done.new.is_empty() || !done.facts.is_empty() {
        let said = merging(&a, &b, "birch", None).unwrap();
        assert!(said.clashes.is_empty(), "{seed}: {:#?}", said.clashes);
        a.write(&said.changes, None, Some(&said.memory));
        let text: String = a.pages.values().cloned().collect();
        // Their places have their name before them.
        let there = |word: &str| {
            let quoted = word.trim_matches('"');
            let ways = [format!("\"{quoted}\""), format!("\"birch, {quoted}\"")];
            ways.iter()
                .map(|way| text.matches(way.as_str()).count())
                .sum::<usize>()
        };
        for word in done.facts.values().chain(&done.new) {
            assert_eq!(there(word), 1, "{seed}: {word}\n{text}");
        }
        a.undo(a.journal.len() as u32);
        assert_eq!(a.pages, once.pages, "{seed}");
    }
}

#[test]
fn registries_of_two_growers_come_together() {
    (0..60).for_each(comes_in);
}

const OURS: [(&str, &str); 3] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, registry: "alder", format: 2, traits: [(code: "rim", name: "rim", reads: kinds(["red", "green"]))])"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "mira", note: "ours")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [(code: "V1", received: "N. mira", ramets: [(code: "a")], foreign: (registry: "birch", code: "Q7"))])"#,
    ),
];
const THEIRS: [(&str, &str); 5] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, registry: "birch", grower: "a friend", traits: [(code: "rim", name: "rim", reads: scale(["dull", "bright"]))], places: [(name: "shelf")])"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "mira", note: "theirs"), (epithet: "veitchii")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [
        (code: "Q7", received: "N. cf. mira", from: "a fair", ramets: [(code: "c")], identified: [(on: "2020", name: "N. mira", by: "me")],
            flowerings: [(opened: "2021-05", sex: female, ramet: "c")]),
        (code: "V1", received: "N. veitchii", note: "another plant"),
    ])"#,
    ),
    (
        "pollen.ron",
        r#"(lots: [(code: "V1-2105", from: plant("V1"), collected: "2021-05", stored: freezer)])"#,
    ),
    (
        "crosses/X21-01.ron",
        r#"// With their remark.
(code: "X21-01", parents: known(seed: "Q7-c", pollen: "V1"), pollinations: [(zone: "A", pollen: "V1-2105")],
    sowings: [(code: "S1", treatments: [(on: "2021-09", place: "tent", product: "soap", by: "me", perhaps: true)])],
    community_pots: [(code: "T1", treatments: [(on: "2021-10", place: "tent", product: "oil", by: "me", perhaps: true)])],
    seedlings: [(number: "1", place: "shelf"), (number: "2", fate: died(on: "2022"))],
    sittings: [(on: "2022-05", by: "me", columns: ["rim"], rows: [["1", "2"]])])
"#,
    ),
];

#[test]
fn a_plant_named_by_a_record_is_one_and_any_other_is_two() {
    let mut ours = Book::of(&OURS);
    let merged = merge(&mut ours, &Book::of(&THEIRS), "birch");
    assert_eq!(merged.own, ["Q7"]);
    assert_eq!(ours.faults(), 0, "{:#?}", ours.pages);
    let clones = Record::of_page(&ours.pages["clones.ron"]).unwrap();
    let codes: Vec<&str> = clones
        .records("clones")
        .filter_map(|of| of.text("code"))
        .collect();
    assert_eq!(codes, ["V1", "birch-V1"]);
    let own = clones.record("clones", 0).unwrap();
    // Their opinion came; their piece, what they saw of its flowers, and whom they had it from, did not.
    assert_eq!(
        own.get("identified").unwrap().line(),
        r#"[(on: "2020", name: "N. mira", by: "birch")]"#
    );
    assert_eq!(own.get("flowerings"), None);
    assert_eq!(merged.stayed[0].what, [(1, "flowering")]);
    assert_eq!(own.get("ramets").unwrap().line(), r#"[(code: "a")]"#);
    assert_eq!(
        (own.text("received"), own.text("from")),
        (Some("N. mira"), None)
    );
    let other = clones.record("clones", 1).unwrap();
    assert_eq!(
        other.get("told_by").unwrap().line(),
        r#"(registry: "birch", code: "V1", on: "2026-06-01")"#
    );
    assert_eq!(other.text("fate"), Some("elsewhere"));
    let page = &ours.pages["crosses/X21-01.ron"];
    for words in [
        "// With their remark.",
        "seed: \"V1\", pollen: \"birch-V1\"",
        "place: \"birch, shelf\"",
        "fate: elsewhere",
        "died(on: \"2022\")",
        "columns: [\"birch-rim\"]",
        "product: \"soap\", by: \"birch\"",
        "product: \"oil\", by: \"birch\"",
        "(on: \"2022-05\", by: \"birch\", columns",
    ] {
        assert!(page.contains(words), "{words}\n{page}");
    }
    let settings = &ours.pages["registry.ron"];
    assert!(
        settings.contains("birch-rim")
            && settings.contains("name: \"birch, rim\"")
            && settings.contains("birch, shelf")
            && !settings.contains("a friend"),
        "{settings}"
    );
    assert!(
        ours.pages["species.ron"].contains("ours")
            && ours.pages["species.ron"].contains("veitchii")
    );
    assert!(!ours.pages["species.ron"].contains("theirs"));
    // The envelope is there, and not in hand.
    let pages = sources(&ours.pages);
    let (registry, _) = build(&pages);
    assert_eq!(
        registry.pollen[0].told_by.as_ref().map(|by| by.code),
        Some("V1-2105")
    );
    let results = podbook::observation::pollen::OwnResults::of(&registry, today());
    assert!(podbook::observation::pollen::in_hand(&registry, today(), &results).is_empty());
}

/// A plant that came from them and stands here keeps its place here.
#[test]
fn what_stands_here_keeps_standing_here() {
    let mut ours = Book::of(&OURS);
    merge(&mut ours, &Book::of(&THEIRS), "birch");
    // It is bought: it stands here from now on.
    let text = ours.pages["crosses/X21-01.ron"].replacen(
        ", fate: elsewhere",
        ", pots: [(on: \"2026-05\", pot: \"7 cm\")]",
        1,
    );
    ours.replace("crosses/X21-01.ron", false, &text);
    let mut theirs = Book::of(&THEIRS);
    let sold = theirs.pages["crosses/X21-01.ron"].replacen(
        "place: \"shelf\"",
        "fate: sold(on: \"2026-05\", label: \"X21-01-1\"), note: \"the wide one\"",
        1,
    );
    theirs.replace("crosses/X21-01.ron", false, &sold);
    merge(&mut ours, &theirs, "birch");
    let page = &ours.pages["crosses/X21-01.ron"];
    assert!(
        page.contains("the wide one") && page.contains("7 cm") && !page.contains("sold"),
        "{page}"
    );
}

#[test]
fn registries_that_do_not_fit_are_refused() {
    let ours = Book::of(&OURS);
    let mut theirs = Book::of(&THEIRS);
    let other = theirs.pages["registry.ron"].replacen("Nepenthes", "Heliamphora", 1);
    theirs.replace("registry.ron", true, &other);
    assert!(matches!(
        merging(&ours, &theirs, "birch", None),
        Err(Slip::Contradicts { .. })
    ));
}

/// Every date means the same days after a merge of registries of two hemispheres.
#[test]
fn seasons_of_the_other_half_of_the_world_are_written_as_months() {
    let dates = [
        "spring 2021",
        "winter 2020/21",
        "winter 2020",
        "early autumn 2019",
        "by spring 2018",
        "after winter 2017",
        "spring 2016 to autumn 2017",
        "2015-06 to summer 2016",
        "2014-05-03",
        "late 2013",
        "May 2012",
        "unknown",
    ];
    let there = [Hemisphere::South, Hemisphere::North];
    for (hemisphere, name) in there.into_iter().zip(["south", "north"]) {
        let here = ["north", "south"][usize::from(name == "north")];
        // A season over the turn of the year is another one there.
        let over = match hemisphere {
            Hemisphere::South => "summer 2020/21",
            Hemisphere::North => "winter 2020/21",
        };
        let dates = dates.map(|date| if date == "winter 2020/21" { over } else { date });
        let mut theirs = Book::of(&THEIRS);
        let seedlings: Vec<String> = (dates.iter().enumerate())
            .map(|(at, date)| {
                format!(
                    "(number: \"{}\", germinated: \"{date}\", note: \"spring 2021\")",
                    at + 1
                )
            })
            .collect();
        let cross = format!(
            "(code: \"X21-01\", parents: known(seed: \"Q7\", pollen: \"V1\"), seedlings: [{}], pollinations: [(zone: \"A\", on: [\"2021-01-02\", \"spring 2021\"], spike: \"spring 2021\")])",
            seedlings.join(", ")
        );
        theirs.replace("crosses/X21-01.ron", true, &cross);
        let [ours, there] = [here, name].map(|name| {
            let settings = OURS[0].1.replacen("north", name, 1);
            settings.replacen(
                "traits: [(code: \"rim\", name: \"rim\", reads: kinds([\"red\", \"green\"]))]",
                "",
                1,
            )
        });
        let mut book = Book::of(&OURS);
        book.replace("registry.ron", true, &ours);
        theirs.replace("registry.ron", true, &there.replacen("alder", "birch", 1));
        let merged = merge(&mut book, &theirs, "birch");
        let page = Record::of_page(&book.pages["crosses/X21-01.ron"]).unwrap();
        let own = match hemisphere {
            Hemisphere::South => Hemisphere::North,
            Hemisphere::North => Hemisphere::South,
        };
        let mut written = 0;
        for (seedling, date) in page.records("seedlings").zip(dates) {
            let now = seedling.text("germinated").unwrap();
            assert_eq!(
                When::read(now, own),
                When::read(date, hemisphere),
                "{date} {now}"
            );
            let same = When::read(date, own) == When::read(date, hemisphere);
            assert_eq!(now == date, same, "{date} {now}");
            assert_eq!(seedling.text("note"), Some("spring 2021"));
            written += usize::from(!same);
        }
        assert_eq!(written, 8);
        // The day of pollination is another; a spike's code there is words. Nothing else has seasons.
        let zone = page.records("pollinations").next().unwrap();
        assert!(!zone.get("on").unwrap().line().contains("spring"));
        assert_eq!(zone.text("spike"), Some("spring 2021"));
        assert_eq!(merged.seasons, written + 1);
        let again = merging(&book, &theirs, "birch", None).unwrap();
        assert!(again.changes.is_empty() && again.seasons == 0, "{again:#?}");
    }
}
