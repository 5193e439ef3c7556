//! What is on record here, by the names that other registries have for it.

use crate::record::ToldBy;
use crate::registry::Registry;
use std::collections::{BTreeMap, BTreeSet};

/// A registry's short name and a code in it.
pub type Told<'a> = (&'a str, &'a str);

/// What is on record here, by who recorded it first; founders also by the code that their record says they have elsewhere.
#[derive(Default)]
pub struct Known<'a> {
    founders: BTreeMap<Told<'a>, &'a str>,
    crosses: BTreeMap<Told<'a>, &'a str>,
    pollen: BTreeMap<Told<'a>, &'a str>,
    /// Those that another grower told of.
    told: BTreeSet<&'a str>,
}

impl<'a> Known<'a> {
    /// Everything of a registry.
    pub fn of(ours: &'a Registry<'_>) -> Known<'a> {
        let mut known = Known::default();
        let own = ours.settings.registry;
        for founder in ours.plants().filter_map(|plant| ours.founder(plant)) {
            let foreign = founder.foreign.as_ref().map(|of| (of.registry, of.code));
            let names = known.names(own, founder.told_by.as_ref(), founder.code);
            let names = names.into_iter().chain(foreign);
            known.founders.extend(names.map(|of| (of, founder.code)));
        }
        for page in ours.crosses.iter().map(|cross| &cross.page) {
            let name = known.names(own, page.told_by.as_deref(), page.code);
            known.crosses.extend(name.map(|of| (of, page.code)));
        }
        for lot in &ours.pollen {
            let name = known.names(own, lot.told_by.as_ref(), lot.code);
            known.pollen.extend(name.map(|of| (of, lot.code)));
        }
        known
    }

    /// What a record is called by whoever recorded it first; none of our own where our registry has no name.
    fn names(
        &mut self,
        own: Option<&'a str>,
        told_by: Option<&'a ToldBy>,
        code: &'a str,
    ) -> Option<Told<'a>> {
        self.told.extend(told_by.map(|_| code));
        match told_by {
            Some(by) => Some((by.registry, by.code)),
            None => own.map(|name| (name, code)),
        }
    }

    /// The code here of a founder with any of the names, the first that is known.
    pub fn founder(&self, named: [Option<Told>; 3]) -> Option<&'a str> {
        let mut named = named.into_iter().flatten();
        named.find_map(|of| self.founders.get(&of).copied())
    }

    /// The code here of a cross.
    pub fn cross(&self, told: Told) -> Option<&'a str> {
        self.crosses.get(&told).copied()
    }

    /// The code here of an envelope.
    pub fn envelope(&self, told: Told) -> Option<&'a str> {
        self.pollen.get(&told).copied()
    }

    /// Whether another grower told of what has a code here.
    pub fn is_told(&self, here: &str) -> bool {
        self.told.contains(here)
    }
}
