//! Worked examples of botanical and breeder order.

use super::{breeder_of, codes_of, reading, shares_of};
use podbook::naming::{NoteCode, Reading};

/// A label, its breeder order without the basis, its botanical order, its shares.
struct Row(&'static str, &'static str, &'static str, &'static str);

/// Formulas: genus with every parent (Code Art. H.2 Ex. 2, confirmed), alphabetical order in the botanical formula and a
/// stated basis otherwise (Rec. H.2A.1, confirmed), brackets round hybrid parents (our choice; the Code gives no syntax).
///
/// Of two sides the one whose names end earlier in the alphabet stands first: plain "alphabetical by first name" would
/// turn the fourth row, "single names before brackets" the sixth; this rule gives them all and is stated in the docs.
const ROWS: [Row; 11] = [
    Row(
        "rafflesiana × ampullaria",
        "N. rafflesiana × N. ampullaria",
        "N. ampullaria × N. rafflesiana",
        "ampullaria 1/2, rafflesiana 1/2",
    ),
    Row(
        "ampullaria × rafflesiana",
        "N. ampullaria × N. rafflesiana",
        "N. ampullaria × N. rafflesiana",
        "ampullaria 1/2, rafflesiana 1/2",
    ),
    // Art. H.4.1: the taxon is that of the first cross; that it is a backcross stands in words.
    Row(
        "(ampullaria × rafflesiana) × rafflesiana",
        "(N. ampullaria × N. rafflesiana) × N. rafflesiana",
        "N. ampullaria × N. rafflesiana (backcross to N. rafflesiana)",
        "ampullaria 1/4, rafflesiana 3/4",
    ),
    Row(
        "(ventricosa × lowii) × maxima",
        "(N. ventricosa × N. lowii) × N. maxima",
        "N. maxima × (N. lowii × N. ventricosa)",
        "lowii 1/4, maxima 1/2, ventricosa 1/4",
    ),
    Row(
        "(northiana × maxima) × (rafflesiana × veitchii)",
        "(N. northiana × N. maxima) × (N. rafflesiana × N. veitchii)",
        "(N. maxima × N. northiana) × (N. rafflesiana × N. veitchii)",
        "maxima 1/4, northiana 1/4, rafflesiana 1/4, veitchii 1/4",
    ),
    Row(
        "N. ×mixta × rajah",
        "(N. northiana × N. maxima, direction unknown) × N. rajah",
        "(N. maxima × N. northiana) × N. rajah",
        "maxima 1/4, northiana 1/4, rajah 1/2",
    ),
    // Model: two subspecies of one Polypodium in Art. H.2 Ex. 1 (confirmed).
    Row(
        "mirabilis var. globosa × mirabilis var. mirabilis",
        "N. mirabilis var. globosa × N. mirabilis var. mirabilis",
        "N. mirabilis var. globosa × N. mirabilis var. mirabilis",
        "mirabilis 1",
    ),
    // No sign within a species: our choice.
    Row(
        "rajah clone A × rajah clone B",
        "N. rajah (clone A × clone B)",
        "N. rajah",
        "rajah 1",
    ),
    // Art. H.3.2: a designation, not a formula of the Code.
    Row(
        "maxima × unknown pollen",
        "N. maxima × ?",
        "N. maxima × ?",
        "maxima 1/2, unknown 1/2",
    ),
    Row(
        "N. maxima × veitchii",
        "N. maxima × N. veitchii",
        "N. maxima × N. veitchii",
        "maxima 1/2, veitchii 1/2",
    ),
    Row(
        "'Harbour Mist' × rajah",
        "N. 'Harbour Mist' × N. rajah",
        "N. 'Harbour Mist' × N. rajah",
        "rajah 1/2, unknown 1/2",
    ),
];

#[test]
fn worked_examples_are_written_in_both_orders() {
    for Row(label, breeder, botanical, shares) in ROWS {
        let reading = reading(label);
        assert_eq!(
            reading.breeder.as_deref(),
            Some(format!("{breeder} (seed parent assumed first)").as_str()),
            "{label}"
        );
        assert_eq!(reading.botanical.as_deref(), Some(botanical), "{label}");
        assert_eq!(shares_of(&reading), shares, "{label}");
    }
}

#[test]
fn hyphenated_pair_is_a_formula_of_unknown_direction() {
    // Code Art. H.10.2 (confirmed): joining two epithets by a hyphen makes a formula.
    let reading = reading("N. ventricosa-alata");
    assert_eq!(
        reading.botanical.as_deref(),
        Some("N. alata × N. ventricosa")
    );
    assert_eq!(
        reading.breeder.as_deref(),
        Some("N. ventricosa × N. alata (direction unknown)")
    );
    assert_eq!(reading.purdy, None);
    assert!(codes_of(&reading).contains(&NoteCode::HyphenReadAsFormula));
    // An epithet that itself has a hyphen is no pair.
    assert_eq!(
        breeder_of("N. ×sharifah-hapsahii"),
        "N. gracilis × N. mirabilis (direction unknown)"
    );
}

#[test]
fn second_genus_is_restored_and_said() {
    assert!(codes_of(&reading("N. maxima × veitchii")).contains(&NoteCode::GenusAdded));
    assert!(!codes_of(&reading("N. maxima × N. veitchii")).contains(&NoteCode::GenusAdded));
}

#[test]
fn parents_of_a_cultivar_are_expanded_and_the_clone_kept() {
    let reading: Reading = reading("N. 'Old Lantern' × rajah");
    assert_eq!(
        reading.botanical.as_deref(),
        Some("N. rajah × (N. lowii × N. ventricosa)")
    );
    assert_eq!(
        reading.breeder.as_deref(),
        Some(
            "N. 'Old Lantern' (N. lowii × N. ventricosa, direction unknown) × N. rajah (seed parent assumed first)"
        )
    );
    assert_eq!(shares_of(&reading), "lowii 1/4, rajah 1/2, ventricosa 1/4");
}

#[test]
fn one_species_is_no_hybrid() {
    for label in [
        "rajah clone A × rajah clone B",
        "mirabilis × mirabilis var. globosa",
        "lowii sib",
    ] {
        assert!(
            codes_of(&reading(label)).contains(&NoteCode::OneSpecies),
            "{label}"
        );
    }
}

#[test]
fn sibs_of_two_species_stay_a_formula_of_two() {
    assert_eq!(
        reading("(maxima × veitchii) sib").botanical.as_deref(),
        Some("N. maxima × N. veitchii (sib cross)")
    );
    assert_eq!(
        reading("(veitchii × maxima) F3").botanical.as_deref(),
        Some("N. maxima × N. veitchii (F3)")
    );
    let both = reading("(maxima × veitchii) × (veitchii × maxima)");
    assert_eq!(
        both.botanical.as_deref(),
        Some("N. maxima × N. veitchii (later generation)")
    );
    assert!(codes_of(&both).contains(&NoteCode::SameCrossBothSides));
}
