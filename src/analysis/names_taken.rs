//! Founders whose names a figure takes as right although they may be wrong: provisional ones (claimed, cf., aff., sp.), and
//! those known by a hybrid's name alone.

use crate::evidence::{Evidence, NameKind, NameLink, Unit};
use crate::registry::Registry;
use std::collections::BTreeSet;

/// Codes of founders by what may be wrong with their names, ascending.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct NamesTaken {
    /// Their names are provisional.
    pub provisional: Vec<String>,
    /// Known by a hybrid's Latin name alone.
    pub by_hybrid_name: Vec<String>,
}

/// The founders behind some units whose names may be wrong; `None` where there are none.
pub fn names_taken(evidence: &Evidence, units: &[Unit]) -> Option<NamesTaken> {
    let behind = units.iter().flat_map(|&unit| evidence.founders(unit));
    let behind: BTreeSet<NameLink> = behind.collect();
    let of_kind = |kind| codes(evidence.registry(), &behind, kind);
    let taken = NamesTaken {
        provisional: of_kind(NameKind::Provisional),
        by_hybrid_name: of_kind(NameKind::HybridNameAlone),
    };
    (taken != NamesTaken::default()).then_some(taken)
}

fn codes(registry: &Registry, of: &BTreeSet<NameLink>, kind: NameKind) -> Vec<String> {
    let links = of.iter().filter(|link| link.kind == kind);
    let codes: BTreeSet<String> = links.map(|link| registry.code(link.plant)).collect();
    codes.into_iter().collect()
}
