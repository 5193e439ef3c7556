//! Tags as plain values.

use crate::wording::Name;
use serde::Serialize;

/// The tags of a selection, in its order: of plants, or of trays and pots of seedlings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Tags {
    /// Size of a tag in words: `102 × 13 mm`.
    pub size: String,
    /// A tag for each plant or tray; for each piece where a plant has several.
    pub tags: Vec<Tag>,
}

/// What one tag may say. Nothing private is among it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Tag {
    /// Code of the plant, the piece or the tray.
    pub id: String,
    /// The parents by their codes, with what is uncertain about them; `null` for a founder.
    pub parents: Option<String>,
    /// The name from the longest version to the shortest; none of them means anything else. Empty where every version is
    /// longer than any tag.
    pub names: Vec<TagName>,
    /// Which of them stands on a tag of the size asked for; `null` where none has room.
    pub printed: Option<usize>,
    /// Month of sowing: `sown 2022-09`; `null` when it is not recorded.
    pub sown: Option<String>,
    /// What a tray holds: `48 seeds`, `12 left`; `null` for a plant, and where it was not counted.
    pub count: Option<String>,
    /// `♀` or `♂`, seen on open flowers; `null` when none was, or only a guess.
    pub sex: Option<&'static str>,
    /// Short name of the registry.
    pub mark: Option<String>,
}

/// One version of a name.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TagName {
    /// The text, Latin in italics.
    pub text: Name,
    /// What the formula has and this version leaves out.
    pub left_out: Vec<&'static str>,
}

impl TagName {
    /// The text without its italics.
    pub fn plain(&self) -> String {
        self.text.iter().map(|run| run.text.as_str()).collect()
    }
}
