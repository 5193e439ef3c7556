//! The names a misspelt word may mean.

use podbook::text::{Names, nearest};
use proptest::prelude::*;

const SPECIES: [&str; 8] = [
    "ampullaria",
    "maxima",
    "rajah",
    "veitchii",
    "ventricosa",
    "villosa",
    "gracilis",
    "Größe",
];

#[test]
fn slips_of_the_pen_are_understood() {
    let cases = [
        ("rajha", vec!["rajah"]),
        ("Veitchi", vec!["veitchii"]),
        ("vetichii", vec!["veitchii"]),
        ("ventrikosa", vec!["ventricosa"]),
        ("grosse", vec!["Größe"]),
        ("größe", vec!["Größe"]),
        ("grossse", vec![]),
        ("Groβe", vec!["Größe"]),
        ("max", vec!["maxima"]),
        ("amp", vec!["ampullaria"]),
        ("vi", vec![]),
        ("", vec![]),
        ("burbidgeae", vec![]),
    ];
    for (word, expected) in cases {
        assert_eq!(nearest(word, SPECIES), expected, "{word}");
    }
}

#[test]
fn the_likeliest_comes_first_and_ties_stand_in_order_of_bytes() {
    let ids = [
        "vei-9", "vei-12", "vei-2", "wei-7", "vei-1", "VEI-7", "vei-1",
    ];
    assert_eq!(nearest("vei-7", ids), ["VEI-7", "vei-1", "vei-2"]);
    let mut turned = ids;
    turned.reverse();
    assert_eq!(nearest("vei-7", turned), ["VEI-7", "vei-1", "vei-2"]);
    assert_eq!(nearest("vie-12", ids), ["vei-12", "vei-1", "vei-2"]);
}

#[test]
fn a_hundred_thousand_names_and_words_without_end_are_borne() {
    let names: Vec<_> = (0..100_000)
        .map(|number| format!("2024-{number:05}"))
        .collect();
    let known = Names::new(names.iter().map(String::as_str));
    for word in ["2024-0012x", "2O24-00120", "20240-0120"] {
        assert!(known.nearest(word).contains(&"2024-00120"), "{word}");
    }
    assert!(known.nearest(&"2".repeat(1_000_000)).is_empty());
}

/// The distance the slow way: every way of spelling one word from the other, one step at a time, tried by layers.
fn is_one_step(a: &str, b: &str) -> bool {
    let (a, b): (Vec<_>, Vec<_>) = (a.chars().collect(), b.chars().collect());
    let without = |word: &[char], at: usize| [&word[..at], &word[at + 1..]].concat();
    let shorter =
        (0..a.len()).any(|at| without(&a, at) == b) || (0..b.len()).any(|at| without(&b, at) == a);
    let replaced = a.len() == b.len() && a.iter().zip(&b).filter(|(a, b)| a != b).count() == 1;
    let swapped = a.len() == b.len()
        && (1..a.len()).any(|at| {
            let mut word = a.clone();
            word.swap(at - 1, at);
            word == b
        });
    shorter || replaced || swapped
}

proptest! {
    /// The quick bound never hides a name one step away.
    #[test]
    fn one_step_is_always_forgiven(word in "[a-d]{2,8}", name in "[a-d]{2,8}") {
        if is_one_step(&word, &name) {
            prop_assert_eq!(nearest(&word, [name.as_str()]), vec![name.as_str()]);
        }
    }

    #[test]
    fn any_word_is_borne(word in any::<String>(), names in prop::collection::vec(any::<String>(), 0..9)) {
        let found = nearest(&word, names.iter().map(String::as_str));
        prop_assert!(found.len() <= 3);
    }
}
