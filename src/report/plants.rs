//! What several answers say of a plant: days as typed, how a piece was made, the pot.

use crate::record::{Made, Potting, When};
use crate::registry::Registry;
use crate::wording::typed_date;

/// A day as typed, followed by what it covers where that is not plain.
pub(super) fn typed(registry: &Registry, on: &str) -> String {
    typed_date(on, registry.when(on))
}

/// The same of a day that may not be on record.
pub(super) fn typed_or_not(registry: &Registry, on: Option<&str>) -> String {
    let on = on.map(|on| typed(registry, on));
    on.unwrap_or_else(|| "day not recorded".to_owned())
}

/// What a copy of a plant is; `None` for the first plant, and where it is not recorded.
pub(super) fn copy_word(made: Option<Made>) -> Option<&'static str> {
    match made? {
        Made::Original => None,
        Made::Cutting => Some("cutting"),
        Made::Division => Some("division"),
        Made::Basal => Some("basal shoot"),
        Made::LabCopy => Some("laboratory copy"),
    }
}

/// `8 cm since 2024-05-01`.
pub(super) fn pot_words(registry: &Registry, pot: &Potting) -> String {
    match registry.when(pot.on) {
        When::UNKNOWN => format!("{}, day not known", &*pot.pot),
        _ => format!("{} since {}", &*pot.pot, typed(registry, pot.on)),
    }
}
