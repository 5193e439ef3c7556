//! Which records a page holds, and how each is tried alone.

use crate::record::typed::typed;
use crate::record::{
    CheckedEpithet, ClonesPage, CommunityPot, CrossPage, DeclaredCode, Flowering, FounderClone,
    FreeText, Identification, NamedHybrid, Parents, PartGone, Pod, PollenLot, PollenPage,
    Pollination, PotStep, Potting, Pricking, Ramet, RegistryPage, SeedLot, Seedling, ShelfSpace,
    Sitting, Sowing, Species, SpeciesPage, Synonym, Tally, Trait,
};
use ron::error::SpannedError;
use serde::Deserialize;

/// A kind of record.
pub struct Kind {
    /// The grower's word for one.
    pub word: &'static str,
    /// The typed parse of one.
    pub(super) trial: fn(&str) -> Result<(), SpannedError>,
    /// Its fields that are lists of records.
    pub(super) lists: &'static [(&'static str, &'static Kind)],
    /// What stands in for a required field of a page that is at fault, so that the rest of the page can be kept.
    pub(super) stand_ins: &'static [(&'static str, &'static str)],
}

/// A page that can be read from a file.
pub trait Page<'t>: Deserialize<'t> {
    /// What it holds.
    const KIND: &'static Kind;

    /// Told when something stands in for `parents` that could not be read: the seed parent, if that could.
    fn parents_stood_in(&mut self, _seed: Option<&'t str>) {}
}

macro_rules! kind {
    ($name:ident, $record:ident, $word:literal, [$(($field:literal, $of:ident)),*]) => {
        kind!($name, $record, $word, [$(($field, $of)),*], []);
    };
    ($name:ident, $record:ident, $word:literal, [$(($field:literal, $of:ident)),*], $stand_ins:expr) => {
        static $name: Kind = Kind {
            word: $word,
            trial: |text| typed::<$record>(text).map(drop),
            lists: &[$(($field, &$of)),*],
            stand_ins: &$stand_ins,
        };
    };
}

type Row<'t> = Vec<FreeText<'t>>;

kind!(TALLY, Tally, "count", []);
kind!(PRICKING, Pricking, "pricking out", []);
kind!(PART_GONE, PartGone, "seedlings that are gone", []);
kind!(IDENTIFICATION, Identification, "identification", []);
kind!(RAMET, Ramet, "ramet", [("pots", POTTING)]);
kind!(FLOWERING, Flowering, "flowering", []);
kind!(POTTING, Potting, "potting", []);
kind!(ROW, Row, "row", []);
kind!(SITTING, Sitting, "sitting", [("rows", ROW)]);
kind!(POLLINATION, Pollination, "pollination", []);
kind!(POD, Pod, "pod", []);
kind!(SEED_LOT, SeedLot, "seed lot", [("gone", PART_GONE)]);
kind!(
    SOWING,
    Sowing,
    "sowing",
    [("germinated", TALLY), ("pricked_out", PRICKING)]
);
kind!(
    COMMUNITY_POT,
    CommunityPot,
    "community pot",
    [("alive", TALLY), ("gone", PART_GONE)]
);
kind!(
    SEEDLING,
    Seedling,
    "seedling",
    [
        ("identified", IDENTIFICATION),
        ("ramets", RAMET),
        ("flowerings", FLOWERING),
        ("pots", POTTING)
    ]
);
kind!(
    CROSS,
    CrossPage,
    "cross",
    [
        ("pollinations", POLLINATION),
        ("pods", POD),
        ("seed_lots", SEED_LOT),
        ("sowings", SOWING),
        ("community_pots", COMMUNITY_POT),
        ("seedlings", SEEDLING),
        ("sittings", SITTING)
    ],
    [("parents", "unknown")]
);
kind!(
    CLONE,
    FounderClone,
    "clone",
    [
        ("identified", IDENTIFICATION),
        ("ramets", RAMET),
        ("flowerings", FLOWERING),
        ("pots", POTTING)
    ]
);
kind!(
    CLONES,
    ClonesPage,
    "page of clones",
    [("clones", CLONE), ("sittings", SITTING)]
);
kind!(LOT, PollenLot, "pollen lot", []);
kind!(POLLEN, PollenPage, "page of pollen", [("lots", LOT)]);
kind!(TRAIT, Trait, "trait", []);
kind!(POT_STEP, PotStep, "pot step", []);
kind!(SHELF, ShelfSpace, "shelf", []);
kind!(
    REGISTRY,
    RegistryPage,
    "registry page",
    [
        ("traits", TRAIT),
        ("pot_steps", POT_STEP),
        ("shelves", SHELF)
    ],
    [("genus", "\"Nepenthes\""), ("hemisphere", "north")]
);
kind!(SPECIES, Species, "species", []);
kind!(NAMED_HYBRID, NamedHybrid, "named hybrid", []);
kind!(SYNONYM, Synonym, "synonym", []);
kind!(DECLARED_CODE, DeclaredCode, "code", []);
kind!(CHECKED_EPITHET, CheckedEpithet, "epithet", []);
kind!(
    TAXA,
    SpeciesPage,
    "page of species",
    [
        ("species", SPECIES),
        ("named_hybrids", NAMED_HYBRID),
        ("synonyms", SYNONYM),
        ("codes", DECLARED_CODE),
        ("epithets", CHECKED_EPITHET)
    ]
);

impl<'t> Page<'t> for RegistryPage<'t> {
    const KIND: &'static Kind = &REGISTRY;
}
impl<'t> Page<'t> for SpeciesPage<'t> {
    const KIND: &'static Kind = &TAXA;
}
impl<'t> Page<'t> for ClonesPage<'t> {
    const KIND: &'static Kind = &CLONES;
}
impl<'t> Page<'t> for PollenPage<'t> {
    const KIND: &'static Kind = &POLLEN;
}
impl<'t> Page<'t> for CrossPage<'t> {
    const KIND: &'static Kind = &CROSS;

    fn parents_stood_in(&mut self, seed: Option<&'t str>) {
        self.parents_misread = true;
        if let Some(seed) = seed {
            self.parents = Parents::PollenUnknown { seed };
        }
    }
}
