//! The pages as `ron` reads them into plain derived types, every list a `Vec`.
//!
//! The yardstick of the bench of reading, kept apart so that it stays the same when the program's own types get faster.
//! Texts are borrowed, as ours are: a weaker yardstick would copy each.

#![allow(dead_code)]

use podbook::record::FreeText;
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CrossPage<'t> {
    code: &'t str,
    #[serde(borrow)]
    parents: Parents<'t>,
    #[serde(default)]
    confidence: Confidence,
    #[serde(borrow, default)]
    received: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    from: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    goal: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    pollinations: Vec<Pollination<'t>>,
    #[serde(borrow, default)]
    pods: Vec<Pod<'t>>,
    #[serde(borrow, default)]
    seed_lots: Vec<SeedLot<'t>>,
    #[serde(borrow, default)]
    sowings: Vec<Sowing<'t>>,
    #[serde(borrow, default)]
    community_pots: Vec<CommunityPot<'t>>,
    #[serde(borrow, default)]
    seedlings: Vec<Seedling<'t>>,
    #[serde(borrow, default)]
    sittings: Vec<Sitting<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Parents<'t> {
    Known {
        #[serde(borrow)]
        seed: &'t str,
        #[serde(borrow)]
        pollen: &'t str,
    },
    PollenOneOf {
        #[serde(borrow)]
        seed: &'t str,
        #[serde(borrow)]
        pollen: Vec<&'t str>,
        #[serde(default)]
        weights: Vec<u32>,
    },
    PollenMixed {
        #[serde(borrow)]
        seed: &'t str,
        #[serde(borrow)]
        pollen: Vec<&'t str>,
        #[serde(default)]
        weights: Vec<u32>,
    },
    Open {
        #[serde(borrow)]
        seed: &'t str,
    },
    PollenUnknown {
        #[serde(borrow)]
        seed: &'t str,
    },
    SeedOneOf {
        #[serde(borrow)]
        seed: Vec<&'t str>,
        #[serde(borrow)]
        pollen: &'t str,
    },
    SeedUnknown {
        #[serde(borrow)]
        pollen: &'t str,
    },
    OneOfPairs(#[serde(borrow)] Vec<PossiblePair<'t>>),
    DirectionLost(#[serde(borrow)] (&'t str, &'t str)),
    LabelOnly(#[serde(borrow)] FreeText<'t>),
    Unknown,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PossiblePair<'t> {
    seed: &'t str,
    pollen: &'t str,
    #[serde(default)]
    weight: u32,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pollination<'t> {
    zone: &'t str,
    #[serde(borrow, default)]
    plant: Option<&'t str>,
    #[serde(borrow, default)]
    on: Vec<&'t str>,
    #[serde(borrow, default)]
    pollen: Option<&'t str>,
    #[serde(default)]
    flowers: Option<u32>,
    #[serde(default)]
    set: Option<u32>,
    #[serde(borrow, default)]
    counted: Option<&'t str>,
    #[serde(default)]
    covered: Option<bool>,
    #[serde(default)]
    control_flowers: Option<u32>,
    #[serde(default)]
    control_set: Option<u32>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pod<'t> {
    code: &'t str,
    #[serde(borrow, default)]
    zone: Option<&'t str>,
    #[serde(default)]
    capsules: Option<u32>,
    #[serde(borrow, default)]
    harvested: Option<&'t str>,
    #[serde(default)]
    seeds: Option<u32>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SeedLot<'t> {
    code: &'t str,
    #[serde(borrow, default)]
    pod: Option<&'t str>,
    #[serde(default)]
    seeds: Option<u32>,
    #[serde(default)]
    estimated: bool,
    #[serde(default)]
    embryo_percent: Option<u8>,
    #[serde(borrow, default)]
    stored: Option<FreeText<'t>>,
    #[serde(default)]
    given_away: Option<u32>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sowing<'t> {
    code: &'t str,
    #[serde(borrow, default)]
    lot: Option<&'t str>,
    #[serde(borrow, default)]
    pod: Option<&'t str>,
    #[serde(borrow, default)]
    on: Option<&'t str>,
    #[serde(default)]
    seeds: Option<u32>,
    #[serde(borrow, default)]
    container: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    medium: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    place: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    germinated: Vec<Tally<'t>>,
    #[serde(borrow, default)]
    pricked_out: Vec<Pricking<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Tally<'t> {
    #[serde(borrow)]
    on: &'t str,
    count: u32,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pricking<'t> {
    #[serde(borrow)]
    on: &'t str,
    moved: u32,
    #[serde(default)]
    left: Option<u32>,
    #[serde(borrow, default)]
    to: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct CommunityPot<'t> {
    code: &'t str,
    #[serde(borrow, default)]
    sowing: Option<&'t str>,
    #[serde(borrow, default)]
    one_of: Vec<&'t str>,
    #[serde(borrow, default)]
    alive: Vec<Tally<'t>>,
    #[serde(borrow, default)]
    pot: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    place: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    fate: Option<Fate<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Seedling<'t> {
    number: &'t str,
    #[serde(borrow, default)]
    sowing: Option<&'t str>,
    #[serde(borrow, default)]
    pod: Option<&'t str>,
    #[serde(borrow, default)]
    community_pot: Option<&'t str>,
    #[serde(borrow, default)]
    one_of: Vec<&'t str>,
    #[serde(borrow, default)]
    germinated: Option<&'t str>,
    #[serde(borrow, default)]
    numbered: Option<&'t str>,
    #[serde(borrow, default)]
    place: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    nickname: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    cultivar: Option<Cultivar<'t>>,
    #[serde(borrow, default)]
    identified: Vec<Identification<'t>>,
    #[serde(borrow, default)]
    ramets: Vec<Ramet<'t>>,
    #[serde(borrow, default)]
    flowerings: Vec<Flowering<'t>>,
    #[serde(borrow, default)]
    pots: Vec<Potting<'t>>,
    #[serde(borrow, default)]
    kept: Option<Kept<'t>>,
    #[serde(borrow, default)]
    fate: Option<Fate<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Sitting<'t> {
    #[serde(borrow)]
    on: &'t str,
    #[serde(borrow, default)]
    place: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    method: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    by: Option<FreeText<'t>>,
    #[serde(default)]
    pitcher: Option<PitcherType>,
    #[serde(borrow, default)]
    light: Option<FreeText<'t>>,
    #[serde(borrow)]
    columns: Vec<&'t str>,
    #[serde(borrow)]
    rows: Vec<Vec<FreeText<'t>>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum PitcherType {
    Juvenile,
    Lower,
    Intermediate,
    Upper,
}

#[derive(Deserialize, Default)]
#[serde(rename_all = "snake_case")]
enum Confidence {
    Witnessed,
    Tag,
    Claim,
    OneOfSeveral,
    #[default]
    Unknown,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ramet<'t> {
    code: &'t str,
    #[serde(borrow, default)]
    from: Option<&'t str>,
    #[serde(default)]
    made: Option<Made>,
    #[serde(borrow, default)]
    cut: Option<&'t str>,
    #[serde(borrow, default)]
    rooted: Option<&'t str>,
    #[serde(borrow, default)]
    place: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    fate: Option<Fate<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum Made {
    Original,
    Cutting,
    Division,
    Basal,
    LabCopy,
}
#[derive(Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum Fate<'t> {
    Died {
        #[serde(borrow)]
        on: &'t str,
        #[serde(borrow, default)]
        cause: Option<FreeText<'t>>,
    },
    Culled {
        #[serde(borrow)]
        on: &'t str,
        #[serde(borrow, default)]
        reason: Option<FreeText<'t>>,
    },
    Sold {
        #[serde(borrow)]
        on: &'t str,
        #[serde(borrow, default)]
        label: Option<FreeText<'t>>,
        #[serde(borrow, default)]
        to: Option<FreeText<'t>>,
    },
    Given {
        #[serde(borrow)]
        on: &'t str,
        #[serde(borrow, default)]
        label: Option<FreeText<'t>>,
        #[serde(borrow, default)]
        to: Option<FreeText<'t>>,
    },
    Lost {
        #[serde(borrow)]
        on: &'t str,
        #[serde(borrow, default)]
        note: Option<FreeText<'t>>,
    },
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Flowering<'t> {
    #[serde(borrow, default)]
    spike: Option<&'t str>,
    #[serde(borrow, default)]
    opened: Option<&'t str>,
    #[serde(borrow, default)]
    over: Option<&'t str>,
    #[serde(default)]
    sex: Option<Sex>,
    #[serde(default)]
    seen_by: SeenBy,
    #[serde(borrow, default)]
    ramet: Option<&'t str>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum Sex {
    Female,
    Male,
}
#[derive(Deserialize, Default)]
#[serde(rename_all = "snake_case")]
enum SeenBy {
    #[default]
    Flowers,
    Buds,
    LeafTest,
    Supplier,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Identification<'t> {
    #[serde(borrow, default)]
    on: Option<&'t str>,
    #[serde(borrow)]
    name: FreeText<'t>,
    #[serde(borrow, default)]
    by: Option<FreeText<'t>>,
    #[serde(default)]
    confidence: Confidence,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Potting<'t> {
    #[serde(borrow)]
    on: &'t str,
    #[serde(borrow)]
    pot: FreeText<'t>,
    #[serde(borrow, default)]
    place: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Kept<'t> {
    #[serde(borrow, default)]
    on: Option<&'t str>,
    #[serde(borrow, default)]
    why: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Cultivar<'t> {
    #[serde(borrow)]
    epithet: FreeText<'t>,
    #[serde(borrow, default)]
    published: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields)]
pub struct ClonesPage<'t> {
    #[serde(borrow, default)]
    clones: Vec<FounderClone<'t>>,
    #[serde(borrow, default)]
    sittings: Vec<Sitting<'t>>,
}
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FounderClone<'t> {
    code: &'t str,
    #[serde(borrow)]
    received: FreeText<'t>,
    #[serde(borrow, default)]
    from: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    on: Option<&'t str>,
    #[serde(default)]
    form: Option<ReceivedAs>,
    #[serde(borrow, default)]
    supplier_code: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    batch: Option<&'t str>,
    #[serde(default)]
    confidence: Confidence,
    #[serde(borrow, default)]
    identified: Vec<Identification<'t>>,
    #[serde(borrow, default)]
    locality: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    papers: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    nights: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    nickname: Option<FreeText<'t>>,
    #[serde(borrow, default)]
    cultivar: Option<Cultivar<'t>>,
    #[serde(borrow, default)]
    ramets: Vec<Ramet<'t>>,
    #[serde(borrow, default)]
    flowerings: Vec<Flowering<'t>>,
    #[serde(borrow, default)]
    pots: Vec<Potting<'t>>,
    #[serde(borrow, default)]
    kept: Option<Kept<'t>>,
    #[serde(borrow, default)]
    fate: Option<Fate<'t>>,
    #[serde(borrow, default)]
    note: Option<FreeText<'t>>,
}
#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum ReceivedAs {
    Seed,
    Seedling,
    Cutting,
    Division,
    LabPlant,
    Plant,
}
