//! Names: labels read, formulas written, epithets judged.
//!
//! The rows follow the project's list of naming rules; each says what it rests on. "Code" is the international code of
//! nomenclature for algae, fungi and plants (Chapter H in the Shenzhen edition of 2018), "ICNCP" the cultivated plant
//! code, ninth edition, 2016. Where a row says "memory" the article was not seen.

mod awkward;
mod built;
mod double;
mod epithets;
mod examples;
mod generations;
mod labels;
mod names;
mod notation;
mod offers;
mod properties;
mod sellers;
mod starter;
mod styles;

use podbook::naming::{
    CodeRow, CultivarRow, NoteCode, ReadOptions, Reading, RefusalCode, Vocabulary, read,
    starter_rows,
};

/// The starter list with a few declared codes and cultivars.
fn vocabulary() -> Vocabulary {
    let mut rows = starter_rows();
    for (code, epithet) in [("low", "lowii"), ("ven", "ventricosa"), ("max", "maxima")] {
        rows.codes.push(CodeRow {
            code: code.into(),
            epithet: epithet.into(),
        });
    }
    rows.cultivars.push(CultivarRow {
        epithet: "Old Lantern".into(),
        formula: Some("lowii × ventricosa".into()),
        established: true,
    });
    rows.cultivars.push(CultivarRow {
        epithet: "Harbour Mist".into(),
        formula: None,
        established: true,
    });
    Vocabulary::from_rows(rows)
}

fn reading(label: &str) -> Reading {
    read(label, &vocabulary(), ReadOptions::default())
}

/// The breeder text of a label that must be readable.
fn breeder_of(label: &str) -> String {
    let reading = reading(label);
    reading
        .breeder
        .unwrap_or_else(|| panic!("{label}: {:?}", reading.refused))
}

fn codes_of(reading: &Reading) -> Vec<NoteCode> {
    reading.notes.iter().map(|note| note.code).collect()
}

fn shares_of(reading: &Reading) -> String {
    reading
        .shares
        .iter()
        .map(|(of, share)| format!("{of} {share}"))
        .collect::<Vec<_>>()
        .join(", ")
}

/// The refusal of a label that must be refused.
fn refusal_of(label: &str) -> (RefusalCode, usize, Vec<String>) {
    let reading = reading(label);
    let refused = reading
        .refused
        .unwrap_or_else(|| panic!("{label} was read as {:?}", reading.breeder));
    assert_eq!(
        (reading.breeder, reading.botanical, reading.purdy),
        (None, None, None),
        "{label}"
    );
    assert!(!refused.text.is_empty(), "{label}");
    let hidden = sellers::is_doubted(label) && sellers::is_pure_species(&self::reading(label));
    assert!(!hidden, "{label}: {:?}", refused.readings);
    (refused.code, refused.column, refused.readings)
}

/// The same draws at every run, `cases` of them; `PROPTEST_RNG_SEED` and `PROPTEST_CASES` ask for others.
pub fn draws(cases: u32) -> proptest::test_runner::Config {
    use proptest::test_runner::{Config, RngSeed};
    let asked = Config::default();
    Config {
        failure_persistence: None,
        rng_seed: match asked.rng_seed {
            RngSeed::Random => RngSeed::Fixed(1),
            fixed => fixed,
        },
        cases: match std::env::var_os("PROPTEST_CASES") {
            Some(_) => asked.cases,
            None => cases,
        },
        ..asked
    }
}
