//! Hybrid names: suggested by the set of parents alone (Code Art. H.4.1, confirmed; for three and more parents our reading).

use super::reading;
use podbook::naming::{NoName, Suggestion, starter_rows};
use std::collections::{BTreeMap, BTreeSet};

fn names(label: &str) -> Result<Vec<String>, NoName> {
    reading(label)
        .names
        .map(|names| names.into_iter().map(|name| name.epithet).collect())
}

#[test]
fn order_nesting_generation_and_dose_do_not_matter() {
    for label in [
        "rafflesiana × ampullaria",
        "ampullaria × rafflesiana",
        "(ampullaria × rafflesiana) × rafflesiana",
        "(ampullaria × rafflesiana) F2",
        "ampullaria-rafflesiana",
    ] {
        assert_eq!(names(label), Ok(vec!["hookeriana".to_owned()]), "{label}");
    }
    assert_eq!(
        names("(northiana × maxima) × (rafflesiana × veitchii)"),
        Ok(vec!["dyeriana".to_owned()])
    );
}

#[test]
fn neither_more_nor_fewer_parents_match() {
    assert_eq!(
        names("(ampullaria × rafflesiana) × lowii"),
        Err(NoName::NoneListed)
    );
    assert_eq!(
        names("ventricosa × lowii"),
        Err(NoName::NoneListed),
        "the trade name of this cross rests on too little"
    );
    assert_eq!(
        names("(ventricosa × lowii) × maxima"),
        Err(NoName::NoneListed)
    );
}

#[test]
fn names_that_may_be_given_out_come_first_then_the_earliest() {
    // Three trade names for one parent set, none to be given out; by year of publication (memory).
    assert_eq!(
        names("(ampullaria × rafflesiana) × mirabilis"),
        Ok(vec![
            "williamsii".to_owned(),
            "coccinea".to_owned(),
            "wrigleyana".to_owned()
        ])
    );
    assert_eq!(
        names("gracilis × mirabilis"),
        Ok(vec!["sharifah-hapsahii".to_owned(), "neglecta".to_owned()])
    );
    let found: Vec<Suggestion> = reading("burbidgeae × rajah").names.unwrap();
    assert_eq!(
        (found[0].status.as_str(), found[0].rule, found[0].may_emit),
        ("published", "H.4.1", true)
    );
}

#[test]
fn no_name_without_all_parents_sure() {
    for label in [
        "ampullaria × ?",
        "ampullaria × cf. rafflesiana",
        "ampullaria × (rafflesiana or gracilis)",
        "N. ×dominii × ampullaria",
    ] {
        assert_eq!(names(label), Err(NoName::ParentsNotAllKnown), "{label}");
    }
    assert_eq!(
        names("rajah clone A × rajah clone B"),
        Err(NoName::OneSpecies)
    );
    assert_eq!(
        names("mirabilis var. globosa × mirabilis"),
        Err(NoName::OneSpecies)
    );
}

#[test]
fn a_name_fits_parents_below_the_species_too() {
    // Art. H.5, Ex. 2 (confirmed): the hybrid has the lower of its parents' ranks.
    let found = reading("mirabilis var. globosa × ampullaria")
        .names
        .unwrap();
    assert_eq!(found[0].epithet, "kuchingensis");
    assert!(!found[0].may_emit);
}

/// Of two rows that claim one word the second would never be read.
#[test]
fn the_starter_list_claims_no_word_twice() {
    let rows = starter_rows();
    let species = rows.species.iter().map(|row| row.epithet.as_str());
    let hybrids = rows.named_hybrids.iter().map(|row| row.epithet.as_str());
    let mut claimed = BTreeSet::new();
    let twice: Vec<&str> = (species.chain(hybrids))
        .filter(|epithet| !claimed.insert(*epithet))
        .collect();
    assert!(twice.is_empty(), "{twice:?}");
    let synonyms = rows
        .synonyms
        .iter()
        .map(|row| (&row.synonym, &row.accepted));
    let codes = rows.codes.iter().map(|row| (&row.code, &row.epithet));
    for words in [synonyms.collect::<Vec<_>>(), codes.collect()] {
        let mut meant = BTreeMap::new();
        for (word, of) in words {
            let before = meant.insert(word.to_lowercase(), of);
            assert!(before.is_none_or(|before| before == of), "{word}");
        }
    }
}
