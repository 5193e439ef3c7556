//! Typed answers on a small collection of three generations, counted by hand: variety, lists, shares, names.
//!
//! ```text
//! A (burbidgeae) ─┬─ X1 ── X1-1 (died), X1-2 (two pieces), X1-3 (of P1 or P2)
//! B (veitchii) ───┘         │
//! C (lowii) ────────────────┴─ X2 ── X2-1: X1-2 × C, or X1-2 × A
//! ```

use podbook::analysis::diversity::{DiversityError, diversity};
use podbook::analysis::list::{PlantFilter, UnknownSpecies, chosen, crosses, plants, pods};
use podbook::analysis::name::{LeftOut, NameError, NameWishes, name};
use podbook::analysis::parentage::{Caution, Share, SharesAre, parentage};
use podbook::ancestry::{CrossKind, Part};
use podbook::context::Context;
use podbook::evidence::Unit;
use podbook::observation::tally::Total;
use podbook::record::{Day, Hemisphere, When};
use podbook::registry::{PlantRow, Registry, build};
use podbook::text::Sources;

pub const PAGES: [(&str, &str); 5] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, traits: [(code: "span", name: "leaf span", reads: length(cm))])"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "burbidgeae"), (epithet: "veitchii"), (epithet: "lowii"), (epithet: "edwardsiana")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [
            (code: "A", received: "N. burbidgeae", confidence: tag, ramets: [(code: "a", made: original, place: "shelf 1")]),
            (code: "B", received: "N. veitchii", confidence: tag, pots: [(on: "2020-03-01", pot: "12 cm", place: "shelf 2")]),
            (code: "C", received: "N. lowii", confidence: tag, kept: (on: "2021-01-01")),
        ])"#,
    ),
    (
        "crosses/X1.ron",
        r#"(code: "X1", parents: known(seed: "A", pollen: "B"), confidence: witnessed,
            pollinations: [(zone: "Z", on: ["2018-05-01", "2018-05-03"], flowers: 9)],
            pods: [(code: "P1", zone: "Z", harvested: "2018-09-01", seeds: 80), (code: "P2")],
            sowings: [(code: "S1", on: "2018-10-01", seeds: 60, germinated: [(on: "2019-01", count: 20), (on: "2019-03", count: 24)])],
            seedlings: [
                (number: "1", pod: "P1", fate: died(on: "2020-01-01")),
                (number: "2", pod: "P1", nickname: "Dumpling", kept: (on: "2021-01-01"),
                    ramets: [(code: "a", made: original), (code: "b", from: "a", made: cutting)],
                    flowerings: [(opened: "2021-06-01", sex: female)]),
                (number: "3", one_of: ["P1", "P2"], place: "shelf 2, front"),
            ],
            sittings: [
                (on: "2019-10-01", columns: ["span cm"], rows: [["1", "4"], ["2", "5"]]),
                (on: "2021-10-01", columns: ["span cm"], rows: [["2", "9"]]),
            ])"#,
    ),
    (
        "crosses/X2.ron",
        r#"(code: "X2", parents: pollen_one_of(seed: "X1-2", pollen: ["C", "A"]), confidence: witnessed,
            seedlings: [(number: "1")])"#,
    ),
];

pub fn sources() -> Sources {
    let mut sources = Sources::new();
    for (path, text) in PAGES {
        sources.add(path, text);
    }
    sources
}

pub fn day(text: &str) -> Day {
    let when = When::read(text, Hemisphere::North);
    when.expect("a day").first
}

/// Asks of the collection on 1 January 2022.
pub fn asked<T>(ask: impl FnOnce(&Context) -> T) -> T {
    let sources = sources();
    let (registry, findings) = build(&sources);
    assert_eq!(findings.len(), 0, "{findings:?}");
    ask(&Context::of(&registry, day("2022-01-01")))
}

pub fn row(registry: &Registry, code: &str) -> PlantRow {
    registry.plant(code).expect("a plant on record")
}

fn unit(context: &Context, code: &str) -> Unit {
    let target = context.registry.target(code).expect("a code on record");
    Unit::of(target).expect("a unit with descent")
}

fn codes(context: &Context, filter: &PlantFilter) -> Vec<String> {
    let plants = chosen(context, filter).expect("a known species");
    let code = |plant: PlantRow| context.registry.code(plant);
    plants.into_iter().map(code).collect()
}

/// Of A, B and their child: kinship is ½ of each with itself, 0 and ¼ between; the mean is (3 · ½ + 4 · ¼) / 9.
#[test]
fn variety_of_a_pair_and_its_child_is_that_counted_by_hand() {
    asked(|context| {
        let set = ["A", "B", "X1-2"].map(|code| row(context.registry, code));
        let answer = diversity(context, &set).expect("a set");
        let mean = (3.0 * 0.5 + 4.0 * 0.25) / 9.0;
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-12, "{found}");
        near(answer.figures.mean_kinship, mean);
        near(answer.figures.gene_diversity, 1.0 - mean);
        near(answer.figures.founder_genome_equivalents, 0.5 / mean);
        assert_eq!((answer.figures.plants, answer.figures.founders), (3, 2));
        // Without A or B the mean is (½ + ½ + 2 · ¼) / 4, without the child (½ + ½) / 4.
        let losses: Vec<f64> = answer.plants.iter().map(|of| of.loss.unwrap()).collect();
        let wanted = [0.375 - mean, 0.375 - mean, 0.25 - mean];
        losses
            .iter()
            .zip(wanted)
            .for_each(|(&of, wanted)| near(of, wanted));
        let order: Vec<PlantRow> = answer.plants.iter().map(|of| of.plant).collect();
        assert_eq!(order, set, "the child is lost most gladly");
        let pieces: Vec<usize> = answer.plants.iter().map(|of| of.pieces).collect();
        assert_eq!(pieces, [1, 1, 2]);
        let spare: Vec<bool> = answer.plants.iter().map(|of| of.lacks_a_spare()).collect();
        assert_eq!(spare, [true, true, false]);
        assert!(answer.plants[2].holds_variety_down());
    });
}

/// A and B bring half of the genes each: the first alone is enough for half, and nothing is left beyond two.
#[test]
fn half_of_the_genes_come_through_the_first_of_two_equal_ancestors() {
    asked(|context| {
        let set = ["A", "B", "X1-2"].map(|code| row(context.registry, code));
        let answer = diversity(context, &set).expect("a set");
        let sum: f64 = answer.ancestors.iter().map(|of| of.contribution).sum();
        assert!((sum - 1.0).abs() < 1e-12);
        assert_eq!(answer.half().len(), 1);
        assert_eq!(answer.rest(answer.ancestors.len()), None);
        let rest = answer.rest(1).expect("ancestors beyond the first");
        assert_eq!(rest.ancestors, answer.ancestors.len() - 1);
        assert!((rest.contribution + answer.ancestors[0].contribution - 1.0).abs() < 1e-12);
        assert!(answer.ancestors.iter().all(|of| !of.uncertain));
    });
}

#[test]
fn an_ancestor_that_is_only_one_of_several_is_called_so() {
    asked(|context| {
        let registry = context.registry;
        let uncertain = |code: &str| {
            let of = row(registry, code);
            let answer = diversity(context, &[row(registry, "X2-1"), of]).expect("a set");
            let mut parts = answer.ancestors.iter();
            let part = parts.find(|part| part.plant == Some(of));
            part.map(|part| part.uncertain)
        };
        assert_eq!(uncertain("C"), Some(true));
        assert_eq!(uncertain("X1-2"), Some(false));
        assert!(matches!(
            diversity(context, &[]),
            Err(DiversityError::Empty)
        ));
    });
}

/// Of X2 A is one of two possible fathers, and a grandparent for certain; C is the other father and no more.
#[test]
fn perhaps_an_ancestor_is_one_from_which_nothing_descends_for_certain() {
    let mut pages = Sources::new();
    for (path, text) in PAGES {
        let two = text.replace(
            r#"seedlings: [(number: "1")])"#,
            r#"seedlings: [(number: "1"), (number: "2")])"#,
        );
        pages.add(path, two);
    }
    let (registry, _) = build(&pages);
    let context = Context::of(&registry, day("2022-01-01"));
    let set = ["X2-1", "X2-2", "X1-1"].map(|code| row(&registry, code));
    let answer = diversity(&context, &set).expect("a set");
    let doubt = |code: &str| {
        let mut parts = answer.ancestors.iter();
        let of = parts.find(|part| part.plant == Some(row(&registry, code)));
        of.map(|part| (part.uncertain, part.only_possible))
    };
    assert_eq!(doubt("A"), Some((true, false)));
    assert_eq!(doubt("C"), Some((true, true)));
}

#[test]
fn every_condition_of_a_filter_must_hold() {
    asked(|context| {
        let none = PlantFilter::default();
        assert_eq!(codes(context, &none).len(), 7);
        let of = |change: &dyn Fn(&mut PlantFilter)| {
            let mut filter = PlantFilter::default();
            change(&mut filter);
            codes(context, &filter)
        };
        assert_eq!(of(&|f| f.gone = true), ["X1-1"]);
        assert_eq!(of(&|f| f.founders = true), ["A", "B", "C"]);
        assert_eq!(of(&|f| f.kept = true), ["C", "X1-2"]);
        assert_eq!(of(&|f| (f.kept, f.founders) = (true, true)), ["C"]);
        assert_eq!(of(&|f| f.place = Some("shelf 2".into())), ["B", "X1-3"]);
        assert_eq!(of(&|f| f.species = Some("N. Lowii".into())), ["C", "X2-1"]);
        assert!(of(&|f| f.species = Some("edwardsiana".into())).is_empty());
        let since = day("2021-01-01");
        let unread =
            of(&|f| (f.unread_since, f.cross) = (Some(since), context.registry.cross("X1")));
        assert_eq!(unread, ["X1-1", "X1-3"]);
        let unknown = PlantFilter {
            species: Some("lowi".into()),
            ..none
        };
        let error = UnknownSpecies {
            typed: "lowi".into(),
            near: vec!["lowii".into()],
        };
        assert_eq!(chosen(context, &unknown), Err(error));
    });
}

#[test]
fn a_row_of_a_plant_says_what_was_seen_of_it() {
    asked(|context| {
        let list = plants(context, &PlantFilter::default()).expect("a list");
        assert_eq!((list.of, list.here), (7, 6));
        let of = |code: &str| {
            let plant = row(context.registry, code);
            *list
                .plants
                .iter()
                .find(|of| of.plant == plant)
                .expect("a row")
        };
        let (first, second, third) = (of("X1-1"), of("X1-2"), of("X1-3"));
        assert!(!first.is_here && first.fate.is_some());
        assert!(second.is_here && second.fate.is_none() && second.kept);
        assert_eq!(first.origin, second.origin);
        assert_eq!(first.as_sure_as, second.as_sure_as);
        assert_eq!(third.as_sure_as, None, "it is of one pod or the other");
        assert_eq!(
            second.last_read.map(|when| when.last),
            Some(day("2021-10-01"))
        );
        assert_eq!(
            (third.last_read, third.place),
            (None, Some("shelf 2, front"))
        );
        assert_eq!(of("B").place, Some("shelf 2"));
    });
}

#[test]
fn crosses_and_pods_are_counted() {
    asked(|context| {
        let answer = crosses(context);
        assert_eq!((answer.numbered, answer.here), (4, 3));
        let first = answer.crosses[0];
        assert_eq!(
            (first.pods, first.numbered, first.here, first.kept),
            (2, 3, 2, 1)
        );
        let counted = |count| {
            let is_minimum = false;
            Some(Total { count, is_minimum })
        };
        assert_eq!((first.sown, first.germinated), (counted(60), counted(24)));
        let pollinated = first.pollinated.expect("days");
        assert_eq!(pollinated.first, day("2018-05-01"));
        assert_eq!(pollinated.last, day("2018-05-03"));
        assert_eq!(answer.crosses[1].pollinated, None);
        let list = pods(context.registry, None);
        let counts: Vec<(Option<u32>, usize)> = list
            .pods
            .iter()
            .map(|of| (of.flowers, of.numbered))
            .collect();
        assert_eq!(
            counts,
            [(Some(9), 2), (None, 0)],
            "one of two pods is of neither"
        );
        assert_eq!(list.numbered, 2);
        let second = context.registry.cross("X2");
        assert!(pods(context.registry, second).pods.is_empty());
    });
}

/// The part of the descent that no one species has for certain, 0 to 1.
fn of_no_one_species(shares: &[Share]) -> f64 {
    let species = shares.iter();
    let species = species.filter(|share| matches!(share.of, Part::Species(_)));
    1.0 - species.map(Share::fraction).sum::<f64>()
}

#[test]
fn shares_of_a_primary_hybrid_are_halves_that_do_not_stray() {
    asked(|context| {
        let answer = parentage(context, unit(context, "X1-2")).expect("shares");
        let shares: Vec<String> = answer
            .shares
            .iter()
            .map(|of| of.share.to_string())
            .collect();
        assert_eq!(shares, ["1/2", "1/2"]);
        assert!(matches!(answer.kind, CrossKind::Primary(_)));
        assert_eq!(answer.shares_are, SharesAre::AsRecorded);
        assert!(answer.possibilities.is_empty() && answer.assumed.is_none());
        assert_eq!(answer.heterozygosity.certain, 1.0);
        assert_eq!(answer.generation.longest, 1);
        assert_eq!(of_no_one_species(&answer.shares), 0.0);
        assert_eq!(answer.cautions, []);
    });
}

/// X1-2 × C is ¼ burbidgeae, ¼ veitchii, ½ lowii; X1-2 × A is ¾ burbidgeae, ¼ veitchii. Common to both are ¼ and ¼.
#[test]
fn shares_under_each_pair_have_their_least_in_common() {
    asked(|context| {
        let answer = parentage(context, unit(context, "X2-1")).expect("shares");
        assert_eq!(answer.shares_are, SharesAre::AtLeast);
        let written = |of: &[Share]| -> Vec<String> {
            of.iter().map(|share| share.share.to_string()).collect()
        };
        let each: Vec<_> = answer
            .possibilities
            .iter()
            .map(|of| written(&of.shares))
            .collect();
        assert_eq!(each, [vec!["1/2", "1/4", "1/4"], vec!["3/4", "1/4"]]);
        assert!(answer.possibilities.iter().all(|of| of.chance.is_none()));
        let first = answer.possibilities[0].parents.to_string();
        assert!(first.ends_with(" × C"), "{first}");
        assert!(!answer.nothing_in_common);
        assert!((of_no_one_species(&answer.shares) - 0.5).abs() < 1e-12);
        assert!(answer.cautions.contains(&Caution::EqualChances));
    });
}

#[test]
fn a_tag_keeps_account_of_what_it_leaves_out() {
    asked(|context| {
        let of =
            |code: &str, wishes: NameWishes| name(context, (unit(context, code), code), wishes);
        let long = of("X1-2", NameWishes::default()).expect("a name");
        assert_eq!(long.tag, None);
        assert_eq!(long.labels.nickname, Some("Dumpling"));
        assert_eq!((long.labels.received, long.labels.cultivar), (None, None));
        let founder = of("A", NameWishes::default()).expect("a name");
        assert_eq!(founder.labels.received, Some("N. burbidgeae"));
        let fit = |most: usize| NameWishes {
            fit: Some(most),
            ..NameWishes::default()
        };
        let tag = of("X2-1", fit(200)).expect("a name").tag.expect("a tag");
        assert!(!tag.left_out.contains(&LeftOut::Formula));
        let coded = NameWishes {
            coded_tag: true,
            ..fit(4)
        };
        let code = of("X1-2", coded).expect("a name").tag.expect("a tag");
        assert_eq!(code.text, "X1-2");
        assert!(code.left_out.len() == 1, "{:?}", code.left_out);
        let code_only = (5..=40).filter(|&most| {
            let coded = NameWishes {
                coded_tag: true,
                ..fit(most)
            };
            let tag = of("X1-2", coded).expect("a name").tag.expect("a tag");
            tag.text == "X1-2" && tag.left_out.contains(&LeftOut::Formula)
        });
        assert!(
            code_only.count() > 0,
            "no room for the formula behind the code"
        );
        let short = of("X1-2", fit(3)).map(|of| of.tag);
        assert_eq!(short, Err(NameError::TagTooShort { most: 3, least: 4 }));
    });
}
