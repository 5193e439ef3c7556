//! What a vocabulary is made from: one plain row per word.

use crate::naming::Infraspecific;

/// Everything a vocabulary is built from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct VocabularyRows {
    /// The genus in full, for example `Nepenthes`; its first letter with a full stop is the abbreviation.
    pub genus: String,
    /// Species.
    pub species: Vec<SpeciesRow>,
    /// Named hybrids (nothospecies and trade Latin).
    pub named_hybrids: Vec<NamedHybridRow>,
    /// Other names for a species or a named hybrid.
    pub synonyms: Vec<SynonymRow>,
    /// Short codes the grower has declared.
    pub codes: Vec<CodeRow>,
    /// Cultivar epithets and clone labels in use.
    pub cultivars: Vec<CultivarRow>,
}

/// One species.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SpeciesRow {
    /// Lower-case epithet.
    pub epithet: String,
    /// Varieties, subspecies and forms known of it.
    pub varieties: Vec<Infraspecific>,
    /// Who published the name, as the list cites them; empty when it does not say.
    pub authors: String,
    /// Year of publication, when known.
    pub year: Option<u16>,
    /// Nomenclatural status as the list states it, for example `believed-accepted`.
    pub status: String,
    /// Why the name on a label may not mean this species, in one line.
    pub doubt: Option<String>,
    /// Whether the species itself stands in Appendix I, as the list states it.
    pub appendix_one: bool,
}

/// One named hybrid.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct NamedHybridRow {
    /// Lower-case epithet without the sign.
    pub epithet: String,
    /// Epithets of all parent species; empty when they are not known.
    pub parent_set: Vec<String>,
    /// How the parents are told to have been combined, as text to be read; direction is not vouched for.
    pub formula: String,
    /// Nomenclatural status as the list states it.
    pub status: String,
    /// Year of publication, when known.
    pub year: Option<u16>,
    /// A label bearing the name may be read as the formula.
    pub expand: bool,
    /// The name may be offered as a name.
    pub may_emit: bool,
    /// It is a natural hybrid and nothing else: its parents are listed in no order of sex.
    pub natural: bool,
    /// What stands behind the row: `confirmed`, `partly-confirmed` or `memory`.
    pub evidence: String,
    /// Whether a parent stands in Appendix I; `None` when it is not known.
    pub appendix_one_ancestor: Option<bool>,
}

/// Another name for a species or a named hybrid.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SynonymRow {
    /// The other name, lower case.
    pub synonym: String,
    /// The epithet in use.
    pub accepted: String,
    /// What stands behind the row, in words; empty for a grower's own row.
    pub evidence: String,
}

/// A short code the grower has declared.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CodeRow {
    /// The code as declared; read without regard to case.
    pub code: String,
    /// The epithet it stands for.
    pub epithet: String,
}

/// A cultivar epithet or clone label in use.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CultivarRow {
    /// The epithet without quotes.
    pub epithet: String,
    /// The plant's parents as text to be read, when recorded.
    pub formula: Option<String>,
    /// A dated publication with a description is on record.
    pub established: bool,
}
