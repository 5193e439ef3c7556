//! `species.ron`: the names a label may use – species, named hybrids, other spellings, declared codes.

use super::FreeText;
use serde::{Deserialize, Serialize};

/// The whole file.
#[derive(Deserialize, Serialize, Debug, Default)]
#[serde(deny_unknown_fields)]
pub struct SpeciesPage<'t> {
    /// Species, varieties and provisional taxa.
    #[serde(borrow, default)]
    pub species: Vec<Species<'t>>,
    /// Latin names of hybrids, with their status.
    #[serde(default)]
    pub named_hybrids: Vec<NamedHybrid<'t>>,
    /// Names understood on a label and read as another.
    #[serde(default)]
    pub synonyms: Vec<Synonym<'t>>,
    /// Short codes this grower writes for a species.
    #[serde(default)]
    pub codes: Vec<DeclaredCode<'t>>,
    /// Cultivar epithets of other growers' plants that this grower has checked to be established.
    #[serde(default)]
    pub epithets: Vec<CheckedEpithet<'t>>,
}

/// How sure a row is.
#[derive(Deserialize, Serialize, Clone, Copy, PartialEq, Eq, Debug, Default)]
#[serde(rename_all = "snake_case")]
pub enum Sureness {
    /// Sure of the name.
    High,
    /// Fairly sure.
    Medium,
    /// Unsure: the starter list has no such row.
    Low,
    /// Nothing said.
    #[default]
    Unsaid,
}

/// One species, variety or provisional taxon.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Species<'t> {
    /// Lower-case epithet, or `sp. Name` for a provisional taxon.
    pub epithet: &'t str,
    /// Variety or form below the species, such as `var. globosa`.
    #[serde(default)]
    pub varieties: Vec<&'t str>,
    /// Authors of the name.
    pub authors: Option<FreeText<'t>>,
    /// Year of the name.
    pub year: Option<u16>,
    /// Lowest and highest altitude of the wild plants, metres.
    pub elevation_m: Option<(i32, i32)>,
    /// Where it grows wild.
    pub area: Option<FreeText<'t>>,
    /// The treaty appendix a list gave, as a fact about that list.
    pub appendix: Option<&'t str>,
    /// Accepted, disputed, ...
    pub status: Option<FreeText<'t>>,
    /// Whether the name is doubtful and should not be used as a name.
    #[serde(default)]
    pub doubtful: bool,
    /// Why this name on a label may mean another species, in one line.
    pub doubt: Option<FreeText<'t>>,
    /// Kinship to assume between founders of this species that are not recorded as related, 0 to 1; 0 when left out.
    pub background_kinship: Option<f64>,
    /// How sure the row is.
    #[serde(default)]
    pub sureness: Sureness,
    /// The source of the row.
    pub evidence: Option<FreeText<'t>>,
    /// Where it was read.
    pub source: Option<FreeText<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// A Latin name given to the hybrids of one set of parents.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct NamedHybrid<'t> {
    /// Lower-case epithet without the sign.
    pub epithet: &'t str,
    /// The species it stands for.
    pub parents: Vec<&'t str>,
    /// The parentage as published, nesting kept.
    pub formula: Option<FreeText<'t>>,
    /// Authors of the name.
    pub authors: Option<FreeText<'t>>,
    /// Year of the name.
    pub year: Option<u16>,
    /// Published, bare name, trade name ...
    pub status: FreeText<'t>,
    /// Natural, cultivated or both.
    pub origin: Option<FreeText<'t>>,
    /// Whether a label with this name is read as its parents.
    pub expand: bool,
    /// Whether the name may be suggested as a name.
    pub may_be_used: bool,
    /// How sure the row is.
    #[serde(default)]
    pub sureness: Sureness,
    /// The source of the row.
    pub evidence: Option<FreeText<'t>>,
    /// Where it was read.
    pub source: Option<FreeText<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// A name that a label may carry and that is read as another.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct Synonym<'t> {
    /// The epithet on old labels.
    pub name: &'t str,
    /// The epithet it is read as.
    pub now: &'t str,
    /// Why, and how sure.
    pub note: Option<FreeText<'t>>,
}

/// A cultivar epithet that was looked up and found established. No list of them is bundled.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct CheckedEpithet<'t> {
    /// The epithet without quotes.
    #[serde(borrow)]
    pub epithet: FreeText<'t>,
    /// Where it was published with a description, and when that was looked up.
    pub source: FreeText<'t>,
    /// The plant's parents, as text to be read, where the publication states them.
    pub formula: Option<FreeText<'t>>,
}

/// A short code declared by this grower.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct DeclaredCode<'t> {
    /// As written on tags.
    pub code: &'t str,
    /// The epithet it stands for.
    pub means: &'t str,
}
