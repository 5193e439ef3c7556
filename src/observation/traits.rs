//! Which declared trait is meant, and what the columns beside the traits say.

use crate::observation::months::MONTH;
use crate::record::{PitcherType, Trait};
use crate::registry::{Registry, TraitRow};

/// Kinds of pitcher as written in a `pitcher` column.
pub const PITCHERS: [(&str, PitcherType); 4] = [
    ("juvenile", PitcherType::Juvenile),
    ("lower", PitcherType::Lower),
    ("intermediate", PitcherType::Intermediate),
    ("upper", PitcherType::Upper),
];

/// A declared trait by its code or name, whatever its case.
pub fn trait_named(registry: &Registry, name: &str) -> Option<TraitRow> {
    let traits = &registry.settings.traits;
    let same = |a: &str| a.eq_ignore_ascii_case(name.trim());
    traits
        .iter()
        .position(|t| same(t.code) || same(&t.name))
        .map(TraitRow::new)
}

/// Codes of the declared traits, in the order of declaration.
pub fn declared_codes(registry: &Registry) -> Vec<String> {
    let traits = registry.settings.traits.iter();
    traits.map(|of| of.code.to_owned()).collect()
}

/// The trait that is the leaf span: the one called `span` or `leaf span`.
pub fn span_trait(registry: &Registry) -> Option<TraitRow> {
    trait_named(registry, "span").or_else(|| trait_named(registry, "leaf span"))
}

/// Days by which months of the calendar are shorter than mean ones at most: a plant is a year old on its birthday.
const SHORT_MONTHS: f64 = 3.0;

/// Whether a plant is surely younger than the trait can be judged at; `age` in months from sowing, least and greatest.
pub fn is_too_young(declared: &Trait, age: Option<(f64, f64)>) -> bool {
    let surely_under = |from: f64| age.is_some_and(|(_, most)| most < from - SHORT_MONTHS / MONTH);
    declared.from_months.is_some_and(surely_under)
}

/// Whether a plant of this leaf span, read on the same row, is smaller than the trait can be judged at. Centimetres.
pub fn is_too_small(declared: &Trait, span_cm: Option<f64>) -> bool {
    let under = |least: f64| span_cm.is_some_and(|cm| cm < least);
    declared.from_span_cm.is_some_and(under)
}

/// Whether a plant of this leaf span, read on the same row, is so small that the trait is doubtful on it. Centimetres.
pub fn is_doubtful(declared: &Trait, span_cm: Option<f64>) -> bool {
    let under = |least: f64| span_cm.is_some_and(|cm| cm < least);
    declared.doubtful_under_span_cm.is_some_and(under)
}

/// A kind of pitcher as written in a `pitcher` column.
pub fn pitcher_named(word: &str) -> Option<PitcherType> {
    let word = word.trim();
    let mut all = PITCHERS.iter();
    all.find(|(name, _)| *name == word).map(|(_, kind)| *kind)
}

/// Whether a `pest` cell says that pests or damage were seen.
pub fn says_pest(cell: &str) -> bool {
    !matches!(cell.trim(), "" | "no" | "none" | "-")
}
