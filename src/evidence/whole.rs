//! The evidence of a registry: what an answer asks about is worked out, and kept. All of it is linear in plants, crosses and
//! parents.

use super::controls::AllControls;
use super::further::{Behind, Further};
use super::names::{NameLink, name_link};
use super::statement::{Stated, Statement};
use super::strength::Strength;
use super::threads::same_flowers;
use super::unit::Unit;
use super::unread::UnreadDoubts;
use crate::naming::recorded::Names;
use crate::registry::{OriginRow, PlantRow, Registry, ZoneRow};
use std::collections::BTreeMap;
use std::sync::Arc;

/// How surely descent is known, for any unit.
pub struct Evidence<'e, 't> {
    pub(super) registry: &'e Registry<'t>,
    pub(super) names: Arc<Names<'e, 't>>,
    controls: AllControls,
    /// Zones that may be the same flowers as one of another cross, with its code.
    pub(super) threads: BTreeMap<ZoneRow, String>,
    /// What has a field about its parents that could not be read.
    unread: UnreadDoubts,
    /// For each origin the weakest cross behind it.
    further: Behind,
    /// For each origin the weakest founder's name behind it.
    weakest_name: Behind,
}

impl<'e, 't> Evidence<'e, 't> {
    /// Stands ready.
    pub fn of(registry: &'e Registry<'t>, names: Arc<Names<'e, 't>>) -> Self {
        Evidence {
            registry,
            names,
            controls: AllControls::of(registry),
            threads: same_flowers(registry),
            unread: UnreadDoubts::in_pages_of(registry),
            further: Behind::of(registry),
            weakest_name: Behind::of(registry),
        }
    }

    /// The registry it is of.
    pub fn registry(&self) -> &'e Registry<'t> {
        self.registry
    }

    /// The names of the registry.
    pub fn names(&self) -> &Names<'e, 't> {
        &self.names
    }

    /// What is recorded of a unit's own parents; none for a plant whose parents are not recorded.
    pub fn statement(&self, unit: Unit) -> Option<Statement> {
        let stated = Stated {
            registry: self.registry,
            names: &self.names,
            controls: &self.controls,
            threads: &self.threads,
            unread: &self.unread,
        };
        stated.of(unit)
    }

    /// The weakest cross behind a unit, its own not counted; none when no parent came of a recorded cross.
    pub fn further(&self, unit: Unit) -> Option<Further> {
        self.further_of(unit.origin(self.registry)?)
    }

    fn further_of(&self, origin: OriginRow) -> Option<Further> {
        let own = |plant| {
            let own = self.statement(Unit::Plant(plant));
            own.map(|own| own.strength())
        };
        self.further.weakest(self.registry, origin, own)
    }

    /// The ancestors on the way to the weakest cross behind a unit, the last of them came of it.
    pub fn path(&self, unit: Unit) -> Vec<PlantRow> {
        let mut path = Vec::new();
        let mut here = self.further(unit);
        while let Some(further) = here {
            path.push(further.through);
            if further.through == further.holder {
                break;
            }
            let origin = self.registry.origin_of(further.through);
            here = origin.and_then(|origin| self.further_of(origin));
        }
        path
    }

    /// The founder behind a unit whose name is known worst, and how; the plant itself for a founder.
    pub fn weakest_name(&self, unit: Unit) -> Option<NameLink> {
        let founder = match (unit, unit.origin(self.registry)) {
            (_, Some(origin)) => self.weakest_name_of(origin)?.holder,
            (Unit::Plant(plant), None) => plant,
            (_, None) => return None,
        };
        Some(name_link(self.registry, &self.names, founder))
    }

    fn weakest_name_of(&self, origin: OriginRow) -> Option<Further> {
        let name = |plant: PlantRow| {
            let is_founder = self.registry.origin_of(plant).is_none();
            is_founder.then(|| name_link(self.registry, &self.names, plant).strength)
        };
        self.weakest_name.weakest(self.registry, origin, name)
    }

    /// The names of all founders behind a unit, the best known first; its own for a founder.
    pub fn founders(&self, unit: Unit) -> Vec<NameLink> {
        let start = match (unit, unit.origin(self.registry)) {
            (_, Some(origin)) => self.registry[origin].parents(),
            (Unit::Plant(plant), None) => vec![plant],
            (_, None) => Vec::new(),
        };
        let above = self
            .names
            .lineage()
            .pedigree
            .with_ancestors(&start)
            .into_iter();
        let founders = above.filter(|&plant| self.registry.origin_of(plant).is_none());
        let mut links: Vec<NameLink> = founders
            .map(|plant| name_link(self.registry, &self.names, plant))
            .collect();
        links.sort_unstable();
        links
    }

    /// The weakest of a unit's own parents and of every cross further back.
    pub fn strength(&self, unit: Unit) -> Strength {
        let own = self.statement(unit).map(|own| own.strength());
        let further = self.further(unit).map(|further| further.strength);
        let name = || self.weakest_name(unit).map(|name| name.strength);
        own.max(further).or_else(name).unwrap_or(Strength::Unknown)
    }
}
