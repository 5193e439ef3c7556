//! Looking words up, and what to offer when a word is not known.

use std::collections::{BTreeMap, BTreeSet};

use crate::text::nearest;

use super::rows::{CultivarRow, NamedHybridRow, SpeciesRow, VocabularyRows};

/// Letters a word needs before two slips in it are thought of; a likeness of three letters is none.
const SLIPS_OF_TWO: usize = 6;

/// The words a label is read with.
#[derive(Clone, Debug, Default)]
pub struct Vocabulary {
    genus: String,
    species: BTreeMap<String, SpeciesRow>,
    hybrids: BTreeMap<String, NamedHybridRow>,
    synonyms: BTreeMap<String, String>,
    evidence: BTreeMap<String, String>,
    authors: BTreeSet<String>,
    codes: BTreeMap<String, String>,
    cultivars: BTreeMap<String, CultivarRow>,
}

impl Vocabulary {
    /// Builds the lookups. Every word has one meaning: where two rows differ the first is kept.
    pub fn from_rows(rows: VocabularyRows) -> Self {
        let mut built = Self {
            genus: rows.genus,
            ..Self::default()
        };
        for row in rows.species {
            built.add_species(row);
        }
        for row in rows.named_hybrids {
            let known = built.species.contains_key(&row.epithet);
            if !known {
                built.hybrids.entry(row.epithet.clone()).or_insert(row);
            }
        }
        for row in rows.synonyms {
            let synonym = row.synonym.to_lowercase();
            if !row.evidence.is_empty() {
                let evidence = built.evidence.entry(synonym.clone());
                evidence.or_insert(row.evidence);
            }
            built.synonyms.entry(synonym).or_insert(row.accepted);
        }
        for row in rows.codes {
            let code = built.codes.entry(row.code.to_lowercase());
            code.or_insert(row.epithet);
        }
        for row in rows.cultivars {
            built
                .cultivars
                .entry(plain_quotes(&row.epithet).to_lowercase())
                .or_insert(row);
        }
        built
    }

    fn add_species(&mut self, row: SpeciesRow) {
        if self.species.contains_key(&row.epithet) {
            return;
        }
        let words = row.authors.split_whitespace().filter_map(author);
        for word in words {
            // `Hook.f.` is written `Hook. f.` too.
            let name = word.split_once('.').map(|(name, _)| name);
            self.authors
                .extend(name.filter(|name| name.len() > 2).map(str::to_owned));
            self.authors.insert(word);
        }
        self.species.insert(row.epithet.clone(), row);
    }

    /// The genus in full.
    pub fn genus(&self) -> &str {
        &self.genus
    }

    /// The genus abbreviated to its first letter, for example `N.`.
    pub fn genus_short(&self) -> String {
        self.genus
            .chars()
            .next()
            .map(|letter| format!("{letter}."))
            .unwrap_or_default()
    }

    /// Whether a word stands for the genus: in full, cut to three letters or more, or its first letter, any case.
    pub fn is_genus(&self, word: &str) -> bool {
        let word = word.trim_end_matches('.').to_lowercase();
        let genus = self.genus.to_lowercase();
        let letters = word.chars().count();
        genus.starts_with(&word) && (letters == 1 || letters >= 3)
    }

    /// Whether a long word is the genus with a slip or two in it.
    pub(in crate::naming) fn is_genus_misspelt(&self, word: &str) -> bool {
        let word = word.trim_end_matches('.').to_lowercase();
        let letters = word.chars().count();
        (7..=14).contains(&letters)
            && !self.is_genus(&word)
            && !self.means_a_plant(&word)
            && strsim::damerau_levenshtein(&word, &self.genus.to_lowercase()) <= 2
    }

    /// Whether a lower-case word names a plant: a species, a hybrid, another name of one, or a declared code.
    pub(in crate::naming) fn means_a_plant(&self, word: &str) -> bool {
        self.species.contains_key(word)
            || self.hybrids.contains_key(word)
            || self.synonyms.contains_key(word)
            || self.codes.contains_key(word)
    }

    /// Whether a word is of an author citation of the species list.
    pub(in crate::naming) fn is_author(&self, word: &str) -> bool {
        author(word).is_some_and(|word| self.authors.contains(&word))
    }

    /// What stands behind a synonym, when the list says so.
    pub(in crate::naming) fn evidence_of(&self, synonym: &str) -> Option<&str> {
        self.evidence.get(synonym).map(String::as_str)
    }

    /// The species of this lower-case epithet.
    pub fn species(&self, epithet: &str) -> Option<&SpeciesRow> {
        self.species.get(epithet)
    }

    /// Whether the name of any species is in doubt.
    pub(in crate::naming) fn has_doubts(&self) -> bool {
        self.species.values().any(|row| row.doubt.is_some())
    }

    /// Why this name on a label may not mean the species, the species in front; none where it is not in doubt.
    pub fn doubt(&self, epithet: &str) -> Option<String> {
        let doubt = self.species(epithet)?.doubt.as_ref()?;
        Some(format!("{epithet}: {doubt}"))
    }

    /// The named hybrid of this lower-case epithet, written without the sign.
    pub fn named_hybrid(&self, epithet: &str) -> Option<&NamedHybridRow> {
        self.hybrids.get(epithet)
    }

    /// The epithet in use for a synonym.
    pub fn accepted(&self, synonym: &str) -> Option<&str> {
        self.synonyms.get(synonym).map(String::as_str)
    }

    /// The epithet a declared code stands for; case does not matter.
    pub fn decoded(&self, code: &str) -> Option<&str> {
        self.codes.get(&code.to_lowercase()).map(String::as_str)
    }

    /// The shortest declared code of an epithet, in capitals.
    pub fn code_of(&self, epithet: &str) -> Option<String> {
        let codes = self
            .codes
            .iter()
            .filter(|(_, meant)| *meant == epithet)
            .map(|(code, _)| code);
        codes
            .min_by_key(|code| (code.chars().count(), (*code).clone()))
            .map(|code| code.to_uppercase())
    }

    /// The cultivar epithet or clone label in use, whatever its case or kind of quotes.
    pub fn cultivar(&self, epithet: &str) -> Option<&CultivarRow> {
        self.cultivars.get(&plain_quotes(epithet).to_lowercase())
    }

    /// All cultivar epithets and clone labels in use, in alphabetical order.
    pub fn cultivars(&self) -> impl Iterator<Item = &CultivarRow> {
        self.cultivars.values()
    }

    /// All named hybrids, in alphabetical order.
    pub fn named_hybrids(&self) -> impl Iterator<Item = &NamedHybridRow> {
        self.hybrids.values()
    }

    /// The epithets a shortened word may begin, species before named hybrids.
    pub fn beginning_with(&self, start: &str) -> Vec<String> {
        let start = start.trim_end_matches('.').to_lowercase();
        let all = self.species.keys().chain(self.hybrids.keys());
        all.filter(|epithet| epithet.starts_with(&start))
            .cloned()
            .collect()
    }

    /// The epithets a mistyped word may mean, the likeliest first; at most three, and never one more than two slips away.
    pub fn near(&self, word: &str) -> Vec<String> {
        let names = self.species.keys().chain(self.hybrids.keys());
        let names = names.chain(self.synonyms.keys()).map(String::as_str);
        let near = |name: &&str| {
            let slips = strsim::damerau_levenshtein(word, name);
            slips == 1 || (slips == 2 && word.chars().count() >= SLIPS_OF_TWO)
        };
        nearest(word, names)
            .into_iter()
            .filter(near)
            .map(str::to_owned)
            .collect()
    }

    /// The parent species of a named hybrid, synonyms resolved.
    pub fn parents_of(&self, row: &NamedHybridRow) -> BTreeSet<String> {
        let in_use = |name: &String| self.accepted(name).unwrap_or(name).to_owned();
        row.parent_set.iter().map(in_use).collect()
    }
}

/// A word of an author citation, for comparison; `None` for the words between authors.
fn author(word: &str) -> Option<String> {
    let word = word.trim_matches(['(', ')', ',', ';', '.']).to_lowercase();
    let joins = matches!(word.as_str(), "" | "ex" | "et" | "in" | "&" | "f" | "and");
    (!joins).then_some(word)
}

/// The text without blanks around it, with quotes of one kind, as epithets are compared.
pub fn plain_quotes(text: &str) -> String {
    text.trim().replace(['‘', '’', '‛', '`', '´', '′'], "'")
}
