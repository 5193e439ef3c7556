//! Typed answers on plants side by side: readings of siblings, species in plants, who stands where, what varies most.

use crate::collection::{day, row};
use crate::on_record::asked;
use podbook::analysis::album::{Collection, SharedReadings, SpeciesIn, here_first};
use podbook::analysis::card::Siblings;
use podbook::analysis::siblings::{SiblingsWish, most_apart, pods_compared, siblings};
use podbook::context::Context;
use podbook::registry::{CrossRow, build};
use podbook::text::Sources;

fn cross(context: &Context, code: &str) -> CrossRow {
    context.registry.cross(code).expect("a cross")
}

/// 4, 5 and 7 cm, red, red and green were read on one day; the muddled one is no sure sibling.
#[test]
fn the_other_siblings_read_together_are_set_beside_a_plant() {
    asked(|context| {
        let read = SharedReadings::of_cross(context.registry, cross(context, "X1"));
        let seen = read.seen(context.registry, row(context.registry, "X1-2"));
        assert_eq!(seen[0].last.value, 5.0);
        let span = Siblings::Range {
            siblings: 2,
            least: 4.0,
            most: 7.0,
        };
        assert_eq!(seen[0].siblings, Some(span));
        let rim = Siblings::Kinds {
            siblings: 2,
            counts: vec![(0, 1), (1, 1)],
        };
        assert_eq!(seen[1].siblings, Some(rim));
        assert!(
            read.seen(context.registry, row(context.registry, "X1-4"))
                .is_empty()
        );
        let last = read.traits[0].last_sitting().expect("a sitting");
        assert_eq!(last.when.last, day("2019-10-01"));
        let values: Vec<f64> = last.values.iter().map(|of| of.1).collect();
        assert_eq!((last.alike, values), (true, vec![4.0, 5.0, 7.0]));
    });
}

#[test]
fn one_of_the_siblings_is_drawn_in_front() {
    asked(|context| {
        let registry = context.registry;
        let read = SharedReadings::of_cross(registry, cross(context, "X1"));
        let own = read.curve(Some(row(registry, "X1-2")), 9).expect("sizes");
        let sizes: Vec<f64> = own.own.iter().map(|point| point.1).collect();
        assert_eq!(sizes, [5.08, 5.0]);
        assert_eq!((own.siblings.len(), own.more), (2, 0));
        let all = read.curve(None, 1).expect("sizes");
        assert_eq!((all.siblings.len(), all.more, all.own.len()), (1, 2, 0));
        assert!(read.curve(Some(row(registry, "X1-4")), 9).is_none());
    });
}

#[test]
fn a_species_is_found_in_all_that_came_of_it() {
    asked(|context| {
        let species = SpeciesIn::of(context);
        let founder = row(context.registry, "B");
        assert_eq!(species.founders_with(context, "veitchii"), [founder]);
        let all: Vec<CrossRow> = context.registry.cross_rows().collect();
        assert_eq!(species.crosses_with(context, "veitchii"), all);
        assert!(species.crosses_with(context, "edwardsiana").is_empty());
        let share = |code: &str| {
            let share = species.share_in_cross(context, cross(context, code), "veitchii");
            share.map(|share| share.to_string())
        };
        // A half of X1-2, and all of B with one chance in four: ¼ + ⅛.
        assert_eq!(share("X1").as_deref(), Some("1/2"));
        assert_eq!(share("X2").as_deref(), Some("3/8"));
    });
}

#[test]
fn who_is_here_stands_first_and_has_a_place() {
    asked(|context| {
        let registry = context.registry;
        let all = Collection::of(context);
        assert_eq!((all.plants, all.here, all.founders.len()), (10, 9, 3));
        assert_eq!(all.places, ["shelf 1, front"]);
        let of = |code: &str| all.plant(context, row(registry, code));
        assert_eq!(of("X1-2").places, ["shelf 1, front"]);
        assert_eq!(
            of("X1-2").last_read.map(|when| when.last),
            Some(day("2019-11-01"))
        );
        assert!(!of("X1-3").is_here && of("X1-3").places.is_empty());
        let order = here_first(context, cross(context, "X1")).into_iter();
        let order: Vec<String> = order.map(|of| registry.code(of.plant)).collect();
        assert_eq!(order, ["X1-1", "X1-2", "X1-4", "X1-3"]);
    });
}

/// Spans of 10 to 10.7 cm differ little, lids of 1 to 8 cm much; one pod was grown, so none can be told apart.
#[test]
fn the_measure_that_varies_most_is_named_first() {
    let traits = r#"(genus: "Nepenthes", hemisphere: north, traits: [
        (code: "span", name: "leaf span", reads: length(cm)), (code: "lid", name: "lid width", reads: length(cm))])"#;
    let numbered = |n: u32| format!("(number: \"{n}\", sowing: \"S1\"), ");
    let read = |n: u32| format!("[\"{n}\", \"10.{}\", \"{n}\"], ", n - 1);
    let seedlings: String = (1..=8).map(numbered).collect();
    let rows: String = (1..=8).map(read).collect();
    let page = format!(
        "(code: \"X1\", parents: unknown, pods: [(code: \"P1\")], sowings: [(code: \"S1\", on: \"2020-01-01\")],
          seedlings: [{seedlings}], sittings: [(on: \"2022-01-01\", columns: [\"span cm\", \"lid cm\"], rows: [{rows}])])"
    );
    let mut sources = Sources::new();
    sources.add("registry.ron", traits);
    sources.add("crosses/X1.ron", page);
    let (registry, findings) = build(&sources);
    assert_eq!(findings.len(), 0, "{findings:?}");
    let context = Context::of(&registry, day("2022-02-01"));
    let Ok(report) = siblings(&context, "X1", &SiblingsWish::default()) else {
        panic!("siblings can be compared");
    };
    let most: Vec<&str> = most_apart(&report.traits)
        .iter()
        .map(|of| &*of.code)
        .collect();
    assert_eq!(most, ["lid"]);
    let pods = pods_compared(&report.traits);
    assert!(pods.apart.is_empty() && pods.alike.is_empty());
}
