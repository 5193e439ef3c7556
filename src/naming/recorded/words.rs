//! The vocabulary of one registry: its species list, its codes, its cultivars.

use crate::naming::vocabulary::{
    CodeRow, CultivarRow, NamedHybridRow, SpeciesRow, SynonymRow, Vocabulary, VocabularyRows,
    starter_synonyms,
};
use crate::naming::{Infraspecific, Rank};
use crate::record::{NamedHybrid, Species, SpeciesPage};
use crate::registry::Registry;

/// The words a registry's labels are read with. Without a species list the starter list serves.
pub fn vocabulary(registry: &Registry) -> Vocabulary {
    vocabulary_with(registry, VocabularyRows::default())
}

/// As [`vocabulary`], with species and named hybrids that the registry's list does not have yet.
pub(super) fn vocabulary_with(registry: &Registry, more: VocabularyRows) -> Vocabulary {
    Vocabulary::from_rows(rows_with(registry, more))
}

/// The words with which labels of another registry are read here once its names are taken in; ours stay as they are.
pub fn vocabulary_of_both(ours: &Registry, theirs: &Registry) -> Vocabulary {
    let [mut rows, theirs] =
        [ours, theirs].map(|registry| rows_with(registry, VocabularyRows::default()));
    rows.species.extend(theirs.species);
    rows.named_hybrids.extend(theirs.named_hybrids);
    rows.synonyms.extend(theirs.synonyms);
    rows.codes.extend(theirs.codes);
    rows.cultivars.extend(theirs.cultivars);
    Vocabulary::from_rows(rows)
}

fn rows_with(registry: &Registry, more: VocabularyRows) -> VocabularyRows {
    let taxa = &registry.taxa;
    let mut rows = if taxa.species.is_empty() && taxa.named_hybrids.is_empty() {
        crate::naming::starter_rows()
    } else {
        VocabularyRows {
            species: taxa.species.iter().map(species).collect(),
            named_hybrids: taxa
                .named_hybrids
                .iter()
                .map(|hybrid| named_hybrid(hybrid, taxa))
                .collect(),
            ..VocabularyRows::default()
        }
    };
    rows.species.extend(more.species);
    rows.named_hybrids.extend(more.named_hybrids);
    rows.genus = registry.settings.genus.to_owned();
    rows.synonyms = synonyms(&rows, taxa);
    rows.codes.extend(taxa.codes.iter().map(|row| CodeRow {
        code: row.code.to_owned(),
        epithet: row.means.to_owned(),
    }));
    let checked = taxa.epithets.iter().map(|row| CultivarRow {
        epithet: row.epithet.to_string(),
        formula: row.formula.as_deref().map(str::to_owned),
        established: true,
    });
    let own = registry
        .plants()
        .filter_map(|plant| registry.cultivar(plant))
        .map(|cultivar| CultivarRow {
            epithet: cultivar.epithet.to_string(),
            formula: None,
            established: cultivar.published.is_some(),
        });
    rows.cultivars = own.chain(checked).collect();
    rows
}

/// The grower's own synonyms, and those of the starter list whose species are kept here and whose words mean nothing else.
fn synonyms(rows: &VocabularyRows, taxa: &SpeciesPage) -> Vec<SynonymRow> {
    let own = taxa.synonyms.iter().map(|row| SynonymRow {
        synonym: row.name.to_owned(),
        accepted: row.now.to_owned(),
        ..SynonymRow::default()
    });
    let own: Vec<SynonymRow> = own.collect();
    let is_species = |name: &str| rows.species.iter().any(|row| row.epithet == name);
    let taken = |name: &str| {
        is_species(name)
            || rows.named_hybrids.iter().any(|row| row.epithet == name)
            || own.iter().any(|row| row.synonym.to_lowercase() == name)
            || taxa.codes.iter().any(|row| row.code.to_lowercase() == name)
    };
    let listed = starter_synonyms().into_iter();
    let listed: Vec<SynonymRow> = listed
        .filter(|row| is_species(&row.accepted) && !taken(&row.synonym))
        .collect();
    own.into_iter().chain(listed).collect()
}

fn species(row: &Species) -> SpeciesRow {
    SpeciesRow {
        epithet: row.epithet.to_owned(),
        varieties: row
            .varieties
            .iter()
            .filter_map(|text| infraspecific(text))
            .collect(),
        authors: row.authors.as_deref().unwrap_or("").to_owned(),
        year: row.year,
        status: row.status.as_deref().unwrap_or("").to_owned(),
        doubt: doubt(row),
        appendix_one: row.appendix == Some("I"),
    }
}

/// Why the name is in doubt: as recorded, else that it is marked so. A `note` is the grower's own, and this goes on cards.
fn doubt(row: &Species) -> Option<String> {
    let marked = || "marked doubtful in species.ron";
    let doubt = row.doubt.as_deref();
    doubt
        .or_else(|| row.doubtful.then(marked))
        .map(str::to_owned)
}

/// `var. globosa`, or a bare epithet taken as a variety.
fn infraspecific(text: &str) -> Option<Infraspecific> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let (rank, epithet) = match words[..] {
        ["var.", epithet] => (Rank::Variety, epithet),
        ["subsp.", epithet] => (Rank::Subspecies, epithet),
        ["f.", epithet] => (Rank::Forma, epithet),
        [epithet] => (Rank::Variety, epithet),
        _ => return None,
    };
    Some(Infraspecific {
        rank,
        epithet: epithet.to_owned(),
    })
}

fn named_hybrid(row: &NamedHybrid, taxa: &SpeciesPage) -> NamedHybridRow {
    let appendix = |epithet: &&str| {
        taxa.species
            .iter()
            .find(|species| species.epithet == *epithet)
            .map(|s| s.appendix == Some("I"))
    };
    NamedHybridRow {
        epithet: row.epithet.to_owned(),
        parent_set: row
            .parents
            .iter()
            .map(|&parent| parent.to_owned())
            .collect(),
        formula: row
            .formula
            .as_deref()
            .map_or_else(|| row.parents.join(" × "), str::to_owned),
        status: row.status.to_string(),
        year: row.year,
        expand: row.expand,
        may_emit: row.may_be_used,
        natural: row.origin.as_deref() == Some("natural"),
        evidence: row.evidence.as_deref().unwrap_or("").to_owned(),
        appendix_one_ancestor: row
            .parents
            .iter()
            .map(appendix)
            .try_fold(false, |any, one| Some(any || one?)),
    }
}
