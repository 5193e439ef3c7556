//! The sale card laid out: whatever is on it, no word leaves the page and none stands on another.

use podbook::render::card::{Look, pages, picture};
use podbook::render::scene::{POINTS, Scene, width};
use podbook::report::Fact;
use podbook::report::card::{Ancestor, Card, TraitSeen};
use podbook::wording::NameRun;
use proptest::prelude::*;

/// Boxes of the words, from the height of capitals to the lowest letter.
fn boxes(scene: &Scene) -> Vec<([f64; 4], String)> {
    let of = scene.texts().map(|run| {
        let (x, y) = run.place;
        let wide = width(run.text.trim_end(), run.face, run.size);
        (
            [x, y - 0.66 * run.size, x + wide, y + 0.24 * run.size],
            run.text.clone(),
        )
    });
    of.collect()
}

fn fault(scene: &Scene) -> Option<String> {
    let boxes = boxes(scene);
    for (at, (one, said)) in boxes.iter().enumerate() {
        if one[0] < 0.0 || one[1] < 0.0 || one[2] > scene.width || one[3] > scene.height {
            return Some(format!("`{said}` at {one:?} leaves the page"));
        }
        for (other, also) in &boxes[at + 1..] {
            let apart = one[2] <= other[0] + 0.01
                || other[2] <= one[0] + 0.01
                || one[3] <= other[1] + 0.01
                || other[3] <= one[1] + 0.01;
            if !apart {
                return Some(format!("`{said}` on `{also}`"));
            }
        }
    }
    None
}

fn words() -> impl Strategy<Value = String> {
    proptest::collection::vec(
        prop_oneof!["[a-z]{1,12}", "[A-Z][a-z]{2,30}", "[ -~é猪♀]{1,9}"],
        1..25,
    )
    .prop_map(|words| words.join(" "))
}

fn facts() -> impl Strategy<Value = Vec<Fact>> {
    let fact = words().prop_map(|value| Fact {
        label: "climate it was kept in",
        value,
    });
    proptest::collection::vec(fact, 0..9)
}

fn card() -> impl Strategy<Value = Card> {
    let ancestor = (1..3_usize, words(), words(), any::<bool>()).prop_map(
        |(generation, clone, name, doubtful)| Ancestor {
            generation,
            side: doubtful.then_some("♀"),
            clone,
            name: vec![NameRun {
                text: name,
                italic: true,
            }],
            doubtful,
        },
    );
    let seen = (words(), words()).prop_map(|(name, value)| TraitSeen {
        name,
        value,
        when: "2024-05-01".to_owned(),
        siblings: Some("3 siblings: 1 to 2".to_owned()),
    });
    let lists = (
        proptest::collection::vec(ancestor, 0..7),
        proptest::collection::vec(seen, 0..9),
        proptest::collection::vec(words(), 0..5),
    );
    (words(), facts(), facts(), lists).prop_map(
        |(name, facts, kept, (ancestors, traits, cautions))| Card {
            id: "X22-02-5".to_owned(),
            name: vec![NameRun {
                text: name,
                italic: true,
            }],
            facts,
            kept,
            ancestors,
            traits,
            cautions,
            made: "2024-06-01".to_owned(),
            ..Card::default()
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 8, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_word_leaves_a_page_or_stands_on_another(card in card()) {
        for look in [Look::A5, Look::A4, Look::PHONE] {
            let pages = pages(&card, None, look);
            for page in &pages {
                prop_assert_eq!(fault(page), None);
            }
            let all: Vec<String> = pages.iter().flat_map(Scene::texts).map(|run| run.text.clone()).collect();
            let all: String = all.concat().split_whitespace().collect();
            for fact in card.facts.iter().chain(&card.kept) {
                let whole: String = fact.value.split_whitespace().collect();
                prop_assert!(all.contains(&whole), "{} is lost", fact.value);
            }
        }
    }
}

/// Every line of a pedigree begins at the plant it belongs to and is broken where there is doubt.
#[test]
fn doubt_is_a_broken_line() {
    let parent = |doubtful| Ancestor {
        generation: 1,
        side: Some("♀"),
        clone: "V1".to_owned(),
        name: Vec::new(),
        doubtful,
    };
    let card = Card {
        id: "X22-02-5".to_owned(),
        ancestors: vec![parent(true), parent(false)],
        ..Card::default()
    };
    let scene = picture(&card, None, Look::A5);
    assert!((scene.width - 148.0 * POINTS).abs() < 1e-9);
    let dashes = scene.marks.iter().filter_map(|mark| match mark {
        podbook::render::scene::Mark::Shape {
            stroke: Some(stroke),
            ..
        } if stroke.width == 0.8 => Some(!stroke.dash.is_empty()),
        _ => None,
    });
    assert_eq!(dashes.collect::<Vec<_>>(), [true, false]);
}
