//! Typed answers on what is on record of one thing: a screen, a sale card, a registration, a pedigree.
//!
//! ```text
//! A (burbidgeae) ─┬─ X1 ── X1-1, X1-2 (a mother), X1-3 (sold), X1-4 (of X1 or X3)
//! B (veitchii) ───┘
//! X1-2 ─┬─ X2 ── X2-1, X2-2     C (lowii) ─┬─ X3 ── X3-1
//! C ────┘ (or B)                B ─────────┘
//! ```

use crate::collection::{day, row};
use podbook::analysis::card::{CardError, Clones, HowMade, Question, Siblings, ancestors_up, card};
use podbook::analysis::pedigree::{
    Asked, CrossCodes, DrawnKind, DrawnParent, Fate, Pedigree, PedigreeWishes, Who, pedigree,
};
use podbook::analysis::registration::{Away, RaisedBy, registration};
use podbook::analysis::show::{
    OneOf, Side, Standing, StepKind, cross, numbered_of_pod, numbered_of_sowing, plant,
    pods_of_zone, pollen,
};
use podbook::context::Context;
use podbook::evidence::{Side as OfCross, Unit};
use podbook::observation::cell::with_unit;
use podbook::record::LengthUnit;
use podbook::registry::{Column, Registry, Target, build};
use podbook::text::Sources;

const PAGES: [(&str, &str); 7] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, grower: "me",
            traits: [(code: "span", name: "leaf span", reads: length(cm)), (code: "rim", name: "rim colour", reads: kinds(["green", "red"]))],
            places: [(name: "shelf 1", climate: "warm"), (name: "shelf 1, front", climate: "cool")],
            treatments: [(on: "2021-05-01", place: "shelf 1, front", product: "soap")])"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "burbidgeae"), (epithet: "veitchii"), (epithet: "lowii")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [
            (code: "A", received: "N. burbidgeae", confidence: tag, identified: [
                (on: "2015-01-01", name: "N. lowii", accepted: true), (on: "2016-01-01", name: "N. veitchii")]),
            (code: "B", received: "N. veitchii", confidence: tag),
            (code: "C", received: "N. lowii", confidence: tag, form: cutting),
        ])"#,
    ),
    (
        "pollen.ron",
        r#"(lots: [
            (code: "C-1", from: plant("C"), collected: "2019-05-01", stored: fridge, finished: "2019-05-31"),
            (code: "B-1", from: plant("B"), collected: "2021-12-02"),
        ])"#,
    ),
    (
        "crosses/X1.ron",
        r#"(code: "X1", parents: known(seed: "A", pollen: "B"), confidence: witnessed,
            pollinations: [(zone: "Z", on: ["2017-05-01"], flowers: 9)],
            pods: [(code: "P1", zone: "Z", harvested: "2017-08-29")],
            sowings: [(code: "S1", on: "2017-10-01", seeds: 60, germinated: [(on: "2017-12-01", count: 9)])],
            seedlings: [
                (number: "1", sowing: "S1", flowerings: [(opened: "2020-02-01")]),
                (number: "2", sowing: "S1", place: "shelf 1, front", pots: [(on: "2021-06-01", pot: "9 cm")],
                    photos: [(file: "a.jpg", on: "2021-01-01"), (file: "b.jpg", on: "2021-02-01")],
                    flowerings: [(opened: "2020-06-01", sex: female), (opened: "2019-06-01")]),
                (number: "3", sowing: "S1", fate: sold(on: "2020-01-01", to: "a friend")),
                (number: "4", one_of: ["P1", "X3.P1"]),
            ],
            sittings: [
                (on: "2019-10-01", columns: ["span cm", "rim"], rows: [["1", "4", "red"], ["2", "5", "red"], ["3", "7", "green"]]),
                (on: "2019-11-01", columns: ["pest"], rows: [["2", "mites"]]),
                (on: "2018-10-01", columns: ["span cm"], rows: [["2", "2 in"]]),
            ])"#,
    ),
    (
        "crosses/X2.ron",
        r#"(code: "X2", parents: pollen_one_of(seed: "X1-2", pollen: ["C", "B"], weights: [3, 1]), confidence: witnessed,
            seedlings: [(number: "1"), (number: "2")])"#,
    ),
    (
        "crosses/X3.ron",
        r#"(code: "X3", parents: known(seed: "C", pollen: "B"), confidence: witnessed, pods: [(code: "P1")],
            seedlings: [(number: "1", pod: "P1")])"#,
    ),
];

/// Asks of the record on 1 January 2022.
pub fn asked<T>(ask: impl FnOnce(&Context) -> T) -> T {
    let mut sources = Sources::new();
    for (path, text) in PAGES {
        sources.add(path, text);
    }
    let (registry, findings) = build(&sources);
    assert_eq!(findings.len(), 0, "{findings:?}");
    ask(&Context::of(&registry, day("2022-01-01")))
}

fn target(registry: &Registry, code: &str) -> Target<'static> {
    match registry.target(code).expect("a code on record") {
        Target::Plant(plant) => Target::Plant(plant),
        Target::Cross(cross) => Target::Cross(cross),
        Target::Pod(pod) => Target::Pod(pod),
        Target::Sowing(sowing) => Target::Sowing(sowing),
        Target::Zone(zone) => Target::Zone(zone),
        Target::Pollen(lot) => Target::Pollen(lot),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_history_of_a_plant_counts_the_days_between_its_steps() {
    asked(|context| {
        let seen = plant(context, row(context.registry, "X1-3"));
        let history = seen.history.expect("a seedling has one");
        let steps: Vec<_> = history.steps.iter().map(|of| (of.what, of.took)).collect();
        // From 1 May to 29 August are 120 days, to 1 October 33. Those up at the only count, 61 days later, came up on any day
        // until then.
        assert_eq!(
            steps,
            [
                (StepKind::Pollinated, None),
                (StepKind::Harvested, Some((120, 120))),
                (StepKind::Sown, Some((33, 33))),
                (StepKind::Germinated, Some((0, 61))),
            ]
        );
        // Sold 822 days after it was sown, and not older since.
        assert!(history.ended);
        let (least, most) = history.from_sowing.expect("it was sown");
        assert!((least * 30.4375 - 822.0).abs() < 1e-9 && least == most);
        assert!(seen.end.is_some() && seen.pieces == 0);
        let founder = plant(context, row(context.registry, "A"));
        assert_eq!(founder.history, None);
    });
}

#[test]
fn readings_stand_oldest_first_with_what_is_no_reading_marked() {
    asked(|context| {
        let seen = plant(context, row(context.registry, "X1-2"));
        let told: Vec<_> = seen
            .readings
            .iter()
            .map(|of| (with_unit(of.cell, Some(LengthUnit::Cm)), of.own_words))
            .collect();
        // A bare number alone has the unit of its heading.
        let wanted = [
            ("2 in", false),
            ("5 cm", false),
            ("red", false),
            ("mites", true),
        ];
        assert_eq!(told, wanted.map(|(cell, own)| (cell.to_owned(), own)));
        assert_eq!(seen.readings[3].column, Column::Pest);
        assert_eq!(
            seen.last_read.map(|when| when.last),
            Some(day("2019-11-01"))
        );
    });
}

#[test]
fn a_parent_knows_its_side_and_whether_it_is_sure() {
    asked(|context| {
        let registry = context.registry;
        let of = |code: &str| {
            let seen = plant(context, row(registry, code));
            let told = seen.offspring.into_iter();
            told.map(|of| (registry[of.cross].page.code, of.side, of.sure))
                .collect::<Vec<_>>()
        };
        assert_eq!(of("X1-2"), [("X2", Side::Seed, true)]);
        let of_c = of("C");
        assert!(of_c.contains(&("X2", Side::Pollen, false)), "{of_c:?}");
        assert!(of_c.contains(&("X3", Side::Seed, true)), "{of_c:?}");
        assert!(
            plant(context, row(registry, "X1-2"))
                .parent_without_spare()
                .is_some()
        );
        assert!(
            plant(context, row(registry, "X1-1"))
                .parent_without_spare()
                .is_none()
        );
        let parents = |code: &str| plant(context, row(registry, code)).parents;
        let two = parents("X2-1").expect("parents");
        assert_eq!((two.pairs.len(), two.one_of), (2, OneOf::One));
        assert_eq!(parents("X1-1").expect("parents").one_of, OneOf::Alone);
        assert_eq!(parents("X1-4").expect("parents").one_of, OneOf::One);
        assert_eq!(parents("A"), None);
    });
}

#[test]
fn an_accepted_opinion_gives_the_name_only_where_the_name_is_wanted_so() {
    asked(|context| {
        let seen = plant(context, row(context.registry, "A"));
        let standing: Vec<_> = seen
            .opinions
            .iter()
            .map(|(_, standing)| *standing)
            .collect();
        let first = standing[0].expect("of a founder");
        assert!(matches!(first, Standing::Shown | Standing::AsReceived));
        assert_eq!(standing[1], Some(Standing::NotAccepted));
    });
}

#[test]
fn a_cross_counts_its_muddled_seedlings_and_its_parts() {
    asked(|context| {
        let registry = context.registry;
        let code = |text: &str| target(registry, text);
        let (Target::Cross(x1), Target::Cross(x3)) = (code("X1"), code("X3")) else {
            panic!("crosses");
        };
        let seen = cross(context, x1);
        assert_eq!(
            (seen.muddled.seedlings, &seen.muddled.others[..]),
            (1, &[x3][..])
        );
        assert_eq!((seen.counts.numbered, seen.counts.here), (4, 3));
        assert_eq!(seen.offspring.len(), 1);
        assert_eq!(seen.history.steps.len(), 4);
        assert_eq!(cross(context, x3).muddled.seedlings, 0);
        let (Target::Pod(pod), Target::Sowing(sowing), Target::Zone(zone)) =
            (code("X1.P1"), code("X1.S1"), code("X1.Z"))
        else {
            panic!("parts");
        };
        assert_eq!(numbered_of_sowing(registry, sowing), 3);
        // One sowing of the one pod; the fourth is of it or not.
        assert_eq!(numbered_of_pod(registry, pod), seen.pods[0].numbered);
        assert_eq!(pods_of_zone(registry, zone), seen.pods);
    });
}

#[test]
fn pollen_ages_until_it_is_finished() {
    asked(|context| {
        let of = |code: &str| match target(context.registry, code) {
            Target::Pollen(lot) => pollen(context, lot),
            other => panic!("{other:?}"),
        };
        let (finished, fresh) = (of("C-1"), of("B-1"));
        assert_eq!(
            (finished.age, finished.finished),
            (Some((30, Some(30))), true)
        );
        assert_eq!((fresh.age, fresh.finished), (Some((30, Some(30))), false));
        assert_eq!(finished.plant, Some(row(context.registry, "C")));
    });
}

#[test]
fn a_card_has_the_last_of_everything_and_asks_for_the_rest() {
    asked(|context| {
        let card = card(context, "X1-2").expect("a card");
        let of = card.offered;
        assert_eq!(of.made(), Some(HowMade::Seedling));
        assert_eq!(of.photo().map(|photo| &*photo.file), Some("b.jpg"));
        assert_eq!(of.climate(), Some("cool"), "the nearest place counts");
        let pests = of.pests().expect("a look");
        assert_eq!((pests.cell, pests.any), ("mites", true));
        assert_eq!(of.sex_on(), Some("2020-06-01"));
        // Treated before it was potted there.
        let of_place = of.place_treatments().into_iter().map(|last| last.on);
        assert_eq!(of_place.collect::<Vec<_>>(), ["2021-05-01"]);
        // Whether it stood there then is not on record, so a buyer's question stays open.
        assert!(of.treatments().is_empty());
        let size = card.size.expect("a size");
        assert_eq!(size.last.value, 5.0);
        let beside = Siblings::Range {
            siblings: 2,
            least: 4.0,
            most: 7.0,
        };
        assert_eq!(size.siblings, Some(beside));
        let rim = Siblings::Kinds {
            siblings: 2,
            counts: vec![(0, 1), (1, 1)],
        };
        assert_eq!(card.traits.len(), 1);
        assert_eq!(card.traits[0].siblings, Some(rim));
        assert_eq!(card.open, [Question::Treatment, Question::GrowthPoints]);
    });
}

#[test]
fn a_founder_is_not_asked_when_it_was_sown() {
    asked(|context| {
        let of = card(context, "C").expect("a card");
        let all = [
            Question::Photo,
            Question::Size,
            Question::Pot,
            Question::Sex,
            Question::Climate,
            Question::Pests,
            Question::Treatment,
            Question::GrowthPoints,
            Question::Traits,
        ];
        assert_eq!(of.open, all);
        assert_eq!(card(context, "X1").err(), Some(CardError::NoPlant));
    });
}

#[test]
fn ancestors_of_a_card_are_followed_by_their_own() {
    asked(|context| {
        let registry = context.registry;
        let unit = Unit::Plant(row(registry, "X2-1"));
        let up = ancestors_up(context.evidence(), unit, 2);
        let told: Vec<_> = up.iter().map(|of| (of.generation, of.side)).collect();
        let (seed, pollen) = (Some(OfCross::Seed), Some(OfCross::Pollen));
        assert_eq!(told, [(1, seed), (2, seed), (2, pollen), (1, pollen)]);
        assert_eq!(up[0].clones, Clones::One(row(registry, "X1-2")));
        let fathers = vec![Some(row(registry, "C")), Some(row(registry, "B"))];
        assert_eq!(up[3].clones, Clones::OneOf(fathers));
        let doubtful: Vec<bool> = up.iter().map(|of| of.doubtful).collect();
        assert_eq!(doubtful, [false, false, false, true]);
    });
}

#[test]
fn a_registration_names_who_raised_the_plant() {
    asked(|context| {
        let of = |code: &str| registration(context, row(context.registry, code));
        let own = of("X1-2");
        assert_eq!((own.away, own.raised_by), (None, Some(RaisedBy::Own("me"))));
        assert_eq!(
            own.first_flower,
            Some("2019-06-01"),
            "not the first one written"
        );
        assert_eq!(own.pieces, 0);
        let bought = of("C");
        assert_eq!(
            (bought.away, bought.raised_by),
            (Some(Away::RaisedElsewhere), None)
        );
        assert_eq!(of("X1-3").away, Some(Away::Gone));
    });
}

fn drawn(context: &Context, code: &str, down: bool) -> Pedigree {
    let asked = Asked::of(target(context.registry, code)).expect("it has a pedigree");
    let wishes = PedigreeWishes {
        generations: 8,
        down,
    };
    pedigree(context, asked, wishes)
}

#[test]
fn a_pedigree_has_every_ancestor_once_each_below_its_parents() {
    asked(|context| {
        let of = drawn(context, "X2-1", false);
        let code = |who: Who| match who {
            Who::Plant(plant) => context.registry.code(plant),
            Who::Siblings { .. } | Who::Pot { .. } => panic!("a plant was asked for"),
        };
        let told: Vec<_> = of
            .members
            .iter()
            .map(|of| (code(of.who), of.column))
            .collect();
        let told: Vec<(&str, usize)> = told.iter().map(|(code, at)| (&**code, *at)).collect();
        assert_eq!(
            told,
            [("A", 0), ("B", 0), ("C", 0), ("X1-2", 1), ("X2-1", 2)]
        );
        assert!(of.members[4].focus && of.members.iter().filter(|of| of.focus).count() == 1);
        assert_eq!(of.crosses.len(), 2);
        let last = &of.crosses[1];
        assert_eq!(last.seed, DrawnParent::Known(3));
        assert_eq!(last.pollen, DrawnParent::OneOf(vec![2, 1]));
        assert_eq!(last.chances, [(1, 0.25), (2, 0.75), (3, 1.0)]);
        assert_eq!((last.more_siblings, &last.children[..]), (1, &[4][..]));
        assert!(last.pollen_doubtful && !last.seed_doubtful);
        assert_eq!(
            of.crosses[0].more_siblings, 2,
            "the muddled one has an origin of its own"
        );
        assert_eq!(of.cut, 0);
        let shares: f64 = of.members[4].shares.known.iter().map(|of| of.1).sum();
        // C or B by three to one: ¼ burbidgeae, ¼ + ⅛ veitchii, ⅜ lowii.
        assert!((shares - 1.0).abs() < 1e-12, "{:?}", of.members[4].shares);
    });
}

#[test]
fn seedlings_of_a_cross_are_drawn_together() {
    asked(|context| {
        let of = drawn(context, "X1", false);
        let last = of.members.last().expect("members");
        assert_eq!((last.kind, last.focus), (DrawnKind::Siblings, true));
        assert!(matches!(last.who, Who::Siblings { seedlings: 3, .. }));
        assert!(matches!(of.crosses[0].codes, CrossCodes::One(_)));
        let pod = drawn(context, "X1.S1", false);
        let last = pod.members.last().expect("members");
        assert!(matches!(
            last.who,
            Who::Siblings {
                seedlings: 3,
                of: Asked::Sowing(_),
                ..
            }
        ));
    });
}

/// Its parents are A × B or C × B: two crosses, each with the one plant.
#[test]
fn a_muddled_seedling_has_a_cross_for_each_mother() {
    asked(|context| {
        let of = drawn(context, "X1-4", false);
        let codes: Vec<_> = of.crosses.iter().map(|of| of.codes.clone()).collect();
        let cross = |code: &str| context.registry.cross(code).expect("a cross");
        // One father, two mothers: one mark stands for both.
        assert_eq!(codes, [CrossCodes::OneOf(vec![cross("X1"), cross("X3")])]);
        assert_eq!(of.crosses[0].seed.rows().len(), 2);
        assert_eq!(of.crosses[0].pollen.rows().len(), 1);
    });
}

#[test]
fn descendants_bring_their_other_parents() {
    asked(|context| {
        let of = drawn(context, "X1-2", true);
        let alone = |who: Who| matches!(who, Who::Plant(_));
        let plants = of.members.iter().filter(|of| alone(of.who)).count();
        assert_eq!(plants, 3, "X1-2 and the fathers its seedlings may have");
        let last = of.members.last().expect("members");
        assert!(matches!(last.who, Who::Siblings { seedlings: 2, .. }));
        assert_eq!(last.column, 1);
        let sold = drawn(context, "X1-3", false);
        let fates: Vec<Fate> = sold.members.iter().map(|of| of.fate).collect();
        assert_eq!(fates, [Fate::Here, Fate::Here, Fate::Sold]);
    });
}

/// A reading without a day may be later than any other: the last dated one is then the first that it may be.
#[test]
fn a_reading_without_a_day_hides_no_dated_one() {
    use podbook::observation::standing::latest;
    use podbook::record::{Day, When};
    let on = |day: i32| When::on(Day(day));
    assert_eq!(latest([on(7), on(9), on(8)].into_iter()), Some(on(9)));
    assert_eq!(
        latest([on(7), When::UNKNOWN, on(5)].into_iter()),
        Some(When {
            first: Day(7),
            last: Day::LAST
        })
    );
    assert_eq!(latest([When::UNKNOWN].into_iter()), Some(When::UNKNOWN));
    assert_eq!(latest(std::iter::empty()), None);
}
