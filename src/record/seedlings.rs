//! The seedlings of a page as they are read: what most of them say in a short row, what few say in a box beside it.
//!
//! A page may hold thousands; a whole [`Seedling`] is several hundred bytes, nearly all of them empty.

use super::{Fate, Seedling};
use serde::de::{Deserialize, Deserializer, SeqAccess, Visitor};
use serde::{Serialize, Serializer};
use std::fmt;

/// What most seedlings say.
#[derive(Debug)]
pub struct BriefSeedling<'t> {
    /// Number within the cross.
    pub number: &'t str,
    /// The sowing it comes from.
    pub sowing: Option<&'t str>,
    /// Its pod, when no sowing was recorded.
    pub pod: Option<&'t str>,
    /// The community pot it was taken from.
    pub community_pot: Option<&'t str>,
    /// What else is said.
    pub beside: Beside<'t>,
}

/// What few seedlings say.
#[derive(Debug)]
pub enum Beside<'t> {
    /// No more than the short row.
    Nothing,
    /// Only what became of it.
    Fate(Box<Fate<'t>>),
    /// The whole record.
    More(Box<Seedling<'t>>),
}

impl<'t> From<Seedling<'t>> for BriefSeedling<'t> {
    fn from(mut seedling: Seedling<'t>) -> Self {
        Self {
            number: seedling.number,
            sowing: seedling.sowing,
            pod: seedling.pod,
            community_pot: seedling.community_pot,
            beside: if says_more(&seedling) {
                Beside::More(Box::new(seedling))
            } else {
                seedling.fate.take().map_or(Beside::Nothing, Beside::Fate)
            },
        }
    }
}

fn says_more(seedling: &Seedling) -> bool {
    // Taken apart, so that a new field is not forgotten here.
    let Seedling {
        number: _,
        sowing: _,
        pod: _,
        community_pot: _,
        fate: _,
        one_of,
        germinated,
        numbered,
        place,
        nickname,
        cultivar,
        identified,
        ramets,
        flowerings,
        pots,
        treatments,
        photos,
        muddled,
        kept,
        came_back,
        note,
    } = seedling;
    let lists = one_of.is_empty()
        && identified.is_empty()
        && ramets.is_empty()
        && flowerings.is_empty()
        && pots.is_empty()
        && treatments.is_empty()
        && photos.is_empty()
        && muddled.is_empty()
        && came_back.is_empty();
    let dates = germinated.is_none() && numbered.is_none();
    let words = place.is_none() && nickname.is_none() && note.is_none();
    !(lists && dates && words && cultivar.is_none() && kept.is_none())
}

/// The seedlings of a page in its order.
#[derive(Debug, Default)]
pub struct Seedlings<'t>(pub Vec<BriefSeedling<'t>>);

impl<'de: 't, 't> Deserialize<'de> for Seedlings<'t> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_seq(OneByOne).map(Seedlings)
    }
}

struct OneByOne;

impl<'de> Visitor<'de> for OneByOne {
    type Value = Vec<BriefSeedling<'de>>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a list of seedlings")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seedlings: A) -> Result<Self::Value, A::Error> {
        let mut brief = Vec::new();
        while let Some(seedling) = seedlings.next_element::<Seedling>()? {
            brief.push(seedling.into());
        }
        Ok(brief)
    }
}

impl<'t> BriefSeedling<'t> {
    /// The whole record of one that says no more than the short row, or what became of it.
    fn spelt_out(&self, fate: Option<Box<Fate<'t>>>) -> Seedling<'t> {
        Seedling {
            number: self.number,
            sowing: self.sowing,
            pod: self.pod,
            community_pot: self.community_pot,
            fate,
            ..Seedling::default()
        }
    }
}

/// As its whole record: how it is kept in memory is not seen from outside.
impl Serialize for BriefSeedling<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match &self.beside {
            Beside::Nothing => self.spelt_out(None).serialize(to),
            Beside::Fate(fate) => self.spelt_out(Some(fate.clone())).serialize(to),
            Beside::More(whole) => whole.serialize(to),
        }
    }
}

impl Serialize for Seedlings<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(&self.0)
    }
}
