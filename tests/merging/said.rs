//! A conflict in words: each field that differs, and no other.

use crate::nursery::Chance;
use podbook::recording::merging::conflict::Step;
use podbook::recording::merging::said::said;
use podbook::recording::says::value::{Record, Value};

const FIELDS: [&str; 5] = ["on", "label", "to", "why", "seen_by"];
const VALUES: [&str; 4] = ["\"2021-05\"", "\"a swap\"", "female", "leaf_test"];

fn some(chance: &mut Chance) -> Vec<Option<&'static str>> {
    let value = |_| (chance.below(4) > 0).then(|| *chance.pick(&VALUES));
    FIELDS.map(value).to_vec()
}

fn record(fields: &[Option<&str>]) -> String {
    let said = FIELDS.iter().zip(fields);
    let said: Vec<String> = said
        .filter_map(|(name, value)| Some(format!("{name}: {}", (*value)?)))
        .collect();
    said.join(", ")
}

fn page(field: &str, value: &str) -> Value {
    let page = Record::of_page(&format!("({field}: {value})")).unwrap();
    page.get(field).unwrap().clone()
}

#[test]
fn each_field_that_differs_is_said_and_no_other() {
    let mut differing = 0;
    for seed in 0..300 {
        let mut chance = Chance(seed);
        let (own, other) = (some(&mut chance), some(&mut chance));
        for tag in ["", "sold"] {
            let [here, there] =
                [&own, &other].map(|of| page("fate", &format!("{tag}({})", record(of))));
            let words = said(&[Step::Field("fate".into())], Some(&here), Some(&there));
            for (at, name) in FIELDS.iter().enumerate() {
                let name = name.replace('_', " ");
                let is_said = words.each_ref().map(|of| {
                    of.split(", ").any(|part| {
                        part.trim_start_matches("no ")
                            .starts_with(&format!("{name} "))
                            || part == format!("no {name}")
                    })
                });
                assert_eq!(
                    is_said,
                    [own[at] != other[at]; 2],
                    "{seed} {name}: {words:?}"
                );
                differing += usize::from(own[at] != other[at]);
            }
        }
    }
    assert!(differing > 500, "{differing}");
}

#[test]
fn values_are_in_the_words_of_screens() {
    let cases = [
        (
            "kept",
            "(on: \"2025-06-01\", why: \"red rim\")",
            "(on: \"2025-06-01\", why: \"grows fast\")",
            ["why \"red rim\"", "why \"grows fast\""],
        ),
        (
            "kept",
            "(why: \"red rim\")",
            "(on: \"2025\", why: \"red rim\")",
            ["no on", "on 2025"],
        ),
        (
            "opened",
            "\"2024-05-01\"",
            "\"by 2024-05\"",
            ["2024-05-01", "by 2024-05"],
        ),
        ("note", "\"2024\"", "\"pale\"", ["\"2024\"", "\"pale\""]),
        (
            "fate",
            "elsewhere",
            "given(on: \"2024\")",
            ["another grower's, never here", "given away, on 2024"],
        ),
        (
            "fate",
            "died(on: \"2024\", cause: \"rot\")",
            "died(on: \"2025\", cause: \"rot\")",
            ["died, on 2024", "died, on 2025"],
        ),
        (
            "parents",
            "pollen_one_of(seed: \"A\", pollen: [\"B\", \"C\"])",
            "known(seed: \"A\", pollen: \"B\")",
            [
                "pollen one of, seed \"A\", pollen \"B\", \"C\"",
                "known, seed \"A\", pollen \"B\"",
            ],
        ),
        (
            "parents",
            "label_only(\"a, b\")",
            "unknown",
            ["label only, \"a, b\"", "unknown"],
        ),
    ];
    for (field, here, there, words) in cases {
        let step = [Step::Field(field.to_owned())];
        assert_eq!(
            said(&step, Some(&page(field, here)), Some(&page(field, there))),
            words
        );
    }
    let cell = [Step::Entry("3".to_owned(), 1)];
    let gone = said(&cell, Some(&page("cell", "\"8.0\"")), None);
    assert_eq!(gone, ["8.0", "taken out"]);
}
