//! One record searched: every word must be somewhere in it, and one field says where.

use super::excerpt::{excerpt, folded};
use serde::Serialize;

/// What a record is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RecordKind {
    /// A founder.
    Founder,
    /// A seedling.
    Seedling,
    /// A rooted piece.
    Ramet,
    /// A cross.
    Cross,
    /// A pollination.
    Zone,
    /// A pod.
    Pod,
    /// A seed lot.
    SeedLot,
    /// A sowing.
    Sowing,
    /// A community pot.
    CommunityPot,
    /// An envelope of pollen.
    Pollen,
    /// A sitting.
    Sitting,
    /// A species of `species.ron`.
    Species,
    /// A place, with what was used there.
    Place,
}

/// Where in a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Field {
    /// Its code.
    Code,
    /// Its name as worked out from its parents or its label, or an opinion on it.
    Name,
    /// The label it came with.
    Received,
    /// A nickname.
    Nickname,
    /// A cultivar epithet.
    Epithet,
    /// A label it left with.
    Label,
    /// What a cross is for.
    Goal,
    /// Where it stands, or is kept.
    Place,
    /// What it was treated with, and against what.
    Treated,
    /// The code of a spike of it.
    Spike,
    /// How it was mixed up.
    MixedUp,
    /// Who it came from.
    From,
    /// Who has it now.
    To,
    /// Remarks and reasons.
    Note,
}

impl Field {
    /// Codes first, then names, then the rest.
    fn rank(self) -> u8 {
        match self {
            Field::Code => 1,
            Field::Name | Field::Received | Field::Nickname | Field::Epithet | Field::Label => 2,
            _ => 3,
        }
    }
}

/// A record that holds the words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hit {
    /// Its code.
    pub code: String,
    /// What it is.
    pub record: RecordKind,
    /// The field that holds most of the words.
    pub field: Field,
    /// The words around, as written.
    pub around: String,
    /// Place in the order: 0 is the code itself, 1 a part of a code, 2 a name, 3 anything else.
    pub rank: u8,
}

/// What is looked for, and what was found.
pub(super) struct Searched {
    needles: Vec<String>,
    pub hits: Vec<Hit>,
    pub records: usize,
}

impl Searched {
    pub fn new(words: &[String]) -> Searched {
        Searched {
            needles: words.iter().map(|word| folded(word)).collect(),
            hits: Vec::new(),
            records: 0,
        }
    }

    /// Looks at one record; its code is a field of it.
    pub fn record(&mut self, record: RecordKind, code: &str, fields: &[(Field, Option<&str>)]) {
        self.records += 1;
        let given = fields
            .iter()
            .filter_map(|(field, text)| Some((*field, (*text)?)));
        let fields: Vec<(Field, &str, String)> = [(Field::Code, code)]
            .into_iter()
            .chain(given)
            .map(|(field, text)| (field, text, folded(text)))
            .collect();
        let held = |needle: &&String| {
            fields
                .iter()
                .any(|(.., text)| text.contains(needle.as_str()))
        };
        if self.needles.iter().filter(held).count() < self.needles.len() {
            return;
        }
        let count = |text: &str| {
            self.needles
                .iter()
                .filter(|n| text.contains(n.as_str()))
                .count()
        };
        let best = fields
            .iter()
            .max_by_key(|(field, _, text)| (count(text), std::cmp::Reverse(*field)));
        let Some((field, text, plain)) = best else {
            return;
        };
        let whole = count(plain) == self.needles.len();
        let first = self.needles.iter().find(|n| plain.contains(n.as_str()));
        self.hits.push(Hit {
            code: code.to_owned(),
            record,
            field: *field,
            around: excerpt(text, first.map_or("", String::as_str)),
            rank: match (whole, field) {
                (true, Field::Code) if [plain.as_str()] == self.needles[..] => 0,
                (true, field) => field.rank(),
                (false, _) => 3,
            },
        });
    }
}
