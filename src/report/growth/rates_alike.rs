//! Whether rates may differ because of how plants were read and grown, in words.

use super::beside::at_age;
use crate::analysis::growth::{GroupGrowth, GrowthReport, SharedWindow};
use crate::observation::circumstances::{Circumstance, unlike_once};
use crate::report::unlike::unlike_words;
use crate::wording::listed;

impl GrowthReport {
    /// What makes rates less sure, one line each.
    pub(super) fn rates_alike_words(&self) -> impl Iterator<Item = String> {
        let groups = self.groups.iter().filter_map(GroupGrowth::methods_words);
        let window = self.shared_rates.iter();
        groups.chain(window.filter_map(|window| self.window_words(window)))
    }

    /// How the groups were not alike at the ages between which their rates are; nothing where pairs say as much.
    fn window_words(&self, window: &SharedWindow) -> Option<String> {
        let pairs = self.comparisons.iter();
        let told = unlike_once(pairs.flat_map(|pair| pair.circumstances.iter().cloned()));
        let differs = |of: &Circumstance| of.alike == Some(false);
        let is_told = |of: &Circumstance| {
            told.iter()
                .any(|told| told.what == of.what && differs(told))
        };
        let is_new = told.is_empty() || window.unlike.iter().any(|of| differs(of) && !is_told(of));
        let whom = listed(window.rates.iter().map(|rate| &rate.id));
        let [from, to] = [window.from, window.to].map(at_age);
        let words = unlike_words(&whom, window.unlike.iter()).filter(|_| is_new)?;
        Some(format!("growing from {from} to {to} months: {words}"))
    }
}

impl GroupGrowth {
    fn methods_words(&self) -> Option<String> {
        let methods = self.methods.iter().map(|method| format!("\"{method}\""));
        let methods = listed(methods);
        (self.rate.is_some() && !self.methods.is_empty()).then(|| {
            format!(
                "{}: read by several methods ({methods}), so its growth may come from that",
                self.id
            )
        })
    }
}
