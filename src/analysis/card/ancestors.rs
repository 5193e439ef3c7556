//! Parents and grandparents by clone, as surely as they are known.

use crate::evidence::{Direction, Doubt, Evidence, Side, Unit};
use crate::lineage::{Pair, PlantRow};
use crate::wording::each_once;

/// A parent, or a parent's parent.
#[derive(Clone, Debug, PartialEq)]
pub struct Ancestor {
    /// 1 for a parent, 2 for a grandparent.
    pub generation: usize,
    /// Its part in the cross; `None` where the direction is not known.
    pub side: Option<Side>,
    /// Which plant it is.
    pub clones: Clones,
    /// Whether it is only probable.
    pub probable: bool,
    /// Whether it is less sure than a tag that it is this plant.
    pub doubtful: bool,
}

/// Which plant an ancestor is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Clones {
    /// This one.
    One(PlantRow),
    /// It is not known.
    NotKnown,
    /// The flower was open to any pollen, and the father is not known.
    Open,
    /// One of several; one that is not known is `None`.
    OneOf(Vec<Option<PlantRow>>),
    /// The mixed pollen of several.
    Mixed(Vec<Option<PlantRow>>),
}

impl Ancestor {
    /// The plant, where it is a single one.
    pub fn plant(&self) -> Option<PlantRow> {
        match self.clones {
            Clones::One(plant) => Some(plant),
            _ => None,
        }
    }
}

/// Ancestors up to a generation, each followed by its own.
pub fn ancestors_up(evidence: &Evidence, unit: Unit, generations: usize) -> Vec<Ancestor> {
    let mut all = Vec::new();
    let mut open = parents(evidence, unit, 1);
    open.reverse();
    while let Some(ancestor) = open.pop() {
        let next = ancestor.generation + 1;
        if let Some(plant) = ancestor.plant().filter(|_| next <= generations) {
            let above = parents(evidence, Unit::Plant(plant), next);
            open.extend(above.into_iter().rev());
        }
        all.push(ancestor);
    }
    all
}

/// Both parents; none where parents are not recorded.
fn parents(evidence: &Evidence, unit: Unit, generation: usize) -> Vec<Ancestor> {
    let registry = evidence.registry();
    let Some(origin) = unit.origin(registry) else {
        return Vec::new();
    };
    let own = evidence.statement(unit);
    let direction = own.as_ref().map_or(Direction::Known, |own| own.direction);
    let is_mixed_up = !unit.mixed_up_with(registry).is_empty();
    let stated = || own.iter().flat_map(|own| &own.doubts).map(|(_, of)| of);
    let is_open = stated().any(|of| matches!(of, Doubt::Open(_)));
    // A plant of a muddled tray may come of a mixture or not.
    let is_muddled = match unit {
        Unit::Plant(plant) => !registry.pods_it_may_be_of(plant).is_empty(),
        _ => false,
    };
    let is_mixed = !is_muddled && stated().any(|of| matches!(of, Doubt::Mixed(_)));
    let strays = stated().any(|of| of.leaves_father_probable());
    let pairs = &registry[origin].pairs;
    let one = |side: Side, of: fn(&Pair) -> Option<PlantRow>| {
        let is_father = side == Side::Pollen;
        let rows = each_once(pairs.iter().map(of));
        let clones = clones(rows, (is_open && is_father, is_mixed && is_father));
        let is_one = matches!(clones, Clones::One(_));
        Ancestor {
            generation,
            side: (direction == Direction::Known).then_some(side),
            probable: is_one && is_father && strays,
            doubtful: !is_one || is_mixed_up || stated().any(|of| of.weakens(side)),
            clones,
        }
    };
    vec![
        one(Side::Seed, |pair| pair.seed),
        one(Side::Pollen, |pair| pair.pollen),
    ]
}

fn clones(rows: Vec<Option<PlantRow>>, (open, mixed): (bool, bool)) -> Clones {
    match rows[..] {
        [Some(plant)] => Clones::One(plant),
        [None] if open => Clones::Open,
        [None] | [] => Clones::NotKnown,
        _ if mixed => Clones::Mixed(rows),
        _ => Clones::OneOf(rows),
    }
}
