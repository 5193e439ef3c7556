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

/// The tables are taken apart by a reader of our own: its cells against those of a general one.
#[test]
fn every_cell_is_what_a_general_reader_of_tables_reads() {
    let rows = starter_rows();
    let species = include_str!("../../src/registry/starter/species.csv");
    let own = rows.species.iter().map(|row| row.authors.clone());
    assert_eq!(own.collect::<Vec<_>>(), column(species, "authors"));
    let own = rows.species.iter().map(|row| row.doubt.clone());
    let own = own.map(Option::unwrap_or_default);
    assert_eq!(own.collect::<Vec<_>>(), column(species, "doubt"));
    let hybrids = include_str!("../../src/registry/starter/nothospecies.csv");
    let own = rows.named_hybrids.iter().map(|row| row.status.clone());
    let status = column(hybrids, "nomenclatural_status");
    assert_eq!(own.collect::<Vec<_>>(), status);
    assert!(
        status.iter().any(|cell| cell.contains(',')),
        "one in quotes"
    );
    let own = rows.named_hybrids.iter().map(|row| row.evidence.clone());
    assert_eq!(own.collect::<Vec<_>>(), column(hybrids, "evidence"));
    let synonyms = include_str!("../../src/registry/starter/synonyms.csv");
    let own = rows.synonyms.iter().map(|row| row.accepted.clone());
    assert_eq!(own.collect::<Vec<_>>(), column(synonyms, "accepted"));
    let sources = column(synonyms, "source").into_iter();
    let unchecked = |source: String| match source.is_empty() {
        true => "from memory, not checked".to_owned(),
        false => source,
    };
    let own = rows.synonyms.iter().map(|row| row.evidence.clone());
    assert!(own.eq(sources.map(unchecked)));
}

fn column(table: &str, name: &str) -> Vec<String> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let headings = reader.headers().expect("a first line");
    let at = headings.iter().position(|heading| heading == name);
    let at = at.expect("a column of this name");
    let rows = reader.records().map(|row| row.expect("a whole row"));
    rows.map(|row| row[at].to_owned()).collect()
}
