//! Whether rates may differ because of how plants were read and grown, in words.

use super::beside::at_age;
use crate::analysis::growth::{GroupGrowth, GrowthReport, SharedWindow};
use crate::report::unlike::unlike_words;
use crate::wording::{joined, listed};

impl GrowthReport {
    /// What makes rates less sure, one line each.
    pub(super) fn rates_alike_words(&self) -> impl Iterator<Item = String> {
        let groups = self.groups.iter().filter_map(GroupGrowth::methods_words);
        let window = self.shared_rates.iter();
        groups.chain(window.filter_map(|window| self.window_words(window)))
    }

    /// How the groups were not alike at the ages between which their rates are; nothing where each pair says as much.
    fn window_words(&self, window: &SharedWindow) -> Option<String> {
        let told = || self.comparisons.iter().flat_map(|pair| &pair.circumstances);
        let mut unlike = window.unlike.iter();
        let is_new =
            unlike.any(|of| !told().any(|told| (told.what, told.alike) == (of.what, of.alike)));
        let whom = listed(window.rates.iter().map(|rate| &rate.id));
        let [from, to] = [window.from, window.to].map(at_age);
        let words = unlike_words(&whom, window.unlike.iter()).filter(|_| is_new)?;
        Some(format!("growing from {from} to {to} months: {words}"))
    }
}

impl GroupGrowth {
    fn methods_words(&self) -> Option<String> {
        let methods = joined(&self.methods, "; ");
        (self.rate.is_some() && !self.methods.is_empty()).then(|| {
            format!(
                "{}: read by several methods ({methods}), so its growth may come from that",
                self.id
            )
        })
    }
}
