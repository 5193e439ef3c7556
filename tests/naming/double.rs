//! Names in double quotes: labels as received, never cultivar epithets.
//!
//! ICNCP by public guides (confirmed): single quotes are for cultivars; double quotes are "at worst" a way to keep a label.

use super::{codes_of, reading, shares_of};
use podbook::naming::{Leaf, NoteCode, Part};

#[test]
fn a_label_keeps_its_double_quotes() {
    for (label, breeder, shares) in [
        ("\"red giant\"", "N. \"red giant\"", "unknown 1"),
        ("N. “red giant”", "N. \"red giant\"", "unknown 1"),
        (
            "lowii x \"Marrow Lamp\"",
            "N. lowii × N. \"Marrow Lamp\" (seed parent assumed first)",
            "lowii 1/2, unknown 1/2",
        ),
        (
            "\"Marrow Lamp\" x lowii",
            "N. \"Marrow Lamp\" × N. lowii (seed parent assumed first)",
            "lowii 1/2, unknown 1/2",
        ),
        (
            "\"ventricosa x spathulata\"",
            "N. \"ventricosa x spathulata\"",
            "unknown 1",
        ),
        // Which plant a label in double quotes means is not for us to say, even when a cultivar is spelt like it.
        ("\"Old Lantern\"", "N. \"Old Lantern\"", "unknown 1"),
    ] {
        let read = reading(label);
        assert_eq!(read.breeder.as_deref(), Some(breeder), "{label}");
        assert_eq!(shares_of(&read), shares, "{label}");
        assert!(codes_of(&read).contains(&NoteCode::LabelKept), "{label}");
        assert!(
            !codes_of(&read).contains(&NoteCode::QuotedNotVerified),
            "{label}: nothing is said of cultivars"
        );
        let again = reading(breeder);
        assert!(
            again
                .formula
                .is_some_and(|again| again.same_as(&read.formula.unwrap())),
            "{label}"
        );
    }
}

#[test]
fn a_label_that_could_be_a_formula_or_a_cultivar_is_told_to_be_asked_about() {
    let told = |label: &str| -> String {
        let notes = reading(label).notes;
        notes.into_iter().map(|note| note.text).collect()
    };
    assert!(told("\"ventricosa x spathulata\"").contains("without the quotes"));
    assert!(told("\"Old Lantern\"").contains("'Old Lantern' is on record"));
    assert!(!told("\"red giant\"").contains("without the quotes"));
}

#[test]
fn single_quotes_stay_a_cultivar_and_latin_in_quotes_stays_latin() {
    assert_eq!(
        reading("N. ‘Marrow Lamp’").breeder.as_deref(),
        Some("N. 'Marrow Lamp'")
    );
    assert_eq!(
        reading("\"Ventrata\"").breeder.as_deref(),
        Some("N. alata × N. ventricosa (direction unknown)")
    );
    let variety = reading("\"mirabilis var. globosa\"").formula.unwrap();
    assert!(matches!(
        variety.part(variety.top()),
        Part::Leaf(Leaf::Species {
            infraspecific: Some(_),
            ..
        })
    ));
}

#[test]
fn the_parents_of_a_label_may_stand_in_brackets_after_it() {
    let read = reading("\"Marrow Lamp\" (lowii x maxima) x hamata");
    assert_eq!(
        read.breeder.as_deref(),
        Some("(N. lowii × N. maxima) \"Marrow Lamp\" × N. hamata (seed parent assumed first)")
    );
    assert_eq!(shares_of(&read), "hamata 1/2, lowii 1/4, maxima 1/4");
}

#[test]
fn a_label_stands_in_double_quotes_in_a_purdy_pedigree() {
    let again = reading("lowii/\"red giant\"");
    assert_eq!(again.purdy.as_deref(), Some("lowii/\"red giant\""));
    assert_eq!(shares_of(&again), "lowii 1/2, unknown 1/2");
    for sign in ["x", "×", "/", "*"] {
        let label = format!("lowii x \"ventricosa {sign} spathulata\"");
        assert_eq!(
            reading(&label).purdy,
            None,
            "{sign} would be taken for a cross"
        );
    }
    assert_eq!(
        reading("lowii x \"red giant\"").purdy.as_deref(),
        Some("lowii/\"red giant\"")
    );
}
