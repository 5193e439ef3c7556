//! The starter list as shipped.

use podbook::naming::{ReadOptions, read};
use podbook::naming::{starter, starter_rows};

#[test]
fn every_row_is_there() {
    let rows = starter_rows();
    assert_eq!(rows.genus, "Nepenthes");
    assert_eq!(
        rows.species.len(),
        193,
        "195 rows less two of low confidence"
    );
    assert_eq!(
        rows.named_hybrids.len(),
        31,
        "39 rows less eight of low confidence"
    );
    assert!(
        rows.species
            .iter()
            .all(|row| !row.epithet.is_empty() && !row.status.is_empty())
    );
    assert!(
        rows.named_hybrids.iter().all(|row| !row.formula.is_empty()
            && !row.status.is_empty()
            && !row.evidence.is_empty())
    );
}

#[test]
fn two_species_stand_in_appendix_one() {
    let listed: Vec<String> = starter_rows()
        .species
        .into_iter()
        .filter(|row| row.appendix_one)
        .map(|row| row.epithet)
        .collect();
    assert_eq!(
        listed,
        ["khasiana", "rajah"],
        "as read in a public list (confirmed); lists change"
    );
}

#[test]
fn every_formula_that_is_to_be_expanded_can_be_read_and_has_its_parents() {
    let vocabulary = starter();
    for row in starter_rows().named_hybrids.iter().filter(|row| row.expand) {
        let reading = read(&row.formula, &vocabulary, ReadOptions::default());
        let parents: Vec<String> = reading.shares.keys().map(ToString::to_string).collect();
        assert_eq!(parents, row.parent_set, "{}", row.epithet);
        let ancestor = row.parent_set.iter().any(|parent| {
            vocabulary
                .species(parent)
                .is_some_and(|row| row.appendix_one)
        });
        assert_eq!(row.appendix_one_ancestor, Some(ancestor), "{}", row.epithet);
    }
}

#[test]
fn twenty_three_letter_prefixes_are_ambiguous() {
    let vocabulary = starter();
    for prefix in
        "alb bur cha dia gla gra ham lon mac mal man max min mir pan ram sum sur tal ten".split(' ')
    {
        let species = vocabulary
            .beginning_with(prefix)
            .into_iter()
            .filter(|name| vocabulary.species(name).is_some());
        assert!(species.count() >= 2, "{prefix}");
    }
}
