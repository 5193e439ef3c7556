//! Hybrid names that fit exact parents, as rows of an answer.

use serde::Serialize;

use crate::naming::{NoName, Suggestion};

/// A hybrid name that fits.
#[derive(Serialize)]
pub struct HybridName {
    /// The name with its sign.
    pub name: String,
    /// Its nomenclatural status, as the list states it.
    pub status: String,
    /// Whether it may be used as a name.
    pub may_be_used: bool,
    /// Whether the parents are only claimed, so that it fits if the claim is true.
    pub if_claim_is_true: bool,
    /// What stands behind the row.
    pub evidence: String,
    /// The rule by which it fits.
    pub rule: &'static str,
}

impl HybridName {
    /// Every text of it written anew.
    pub fn each(self, write: impl Fn(String) -> String) -> HybridName {
        HybridName {
            name: write(self.name),
            status: write(self.status),
            evidence: write(self.evidence),
            ..self
        }
    }
}

/// Suggestions as rows.
pub fn hybrid_names(names: Result<Vec<Suggestion>, NoName>, genus_short: &str) -> Vec<HybridName> {
    names
        .unwrap_or_default()
        .into_iter()
        .map(|name| HybridName {
            name: format!("{genus_short} ×{}", name.epithet),
            status: name.status,
            may_be_used: name.may_emit,
            if_claim_is_true: name.if_claim_is_true,
            evidence: name.evidence,
            rule: name.rule,
        })
        .collect()
}
