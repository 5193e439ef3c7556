//! The pedigree put together: its members, its crosses, and which of those are in doubt.

use super::asked::Asked;
use super::crosses::PedigreeCross;
use super::family::{PedigreeWishes, family};
use super::member::Member;
use super::work::Work;
use crate::context::Context;
use crate::evidence::{Strength, Unit};
use crate::lineage::PlantRow;
use crate::registry::OriginRow;
use std::collections::BTreeMap;

/// A pedigree.
#[derive(Clone, Debug, PartialEq)]
pub struct Pedigree {
    /// What it is of.
    pub asked: Asked,
    /// Whether it shows what came from it, not what it comes from.
    pub down: bool,
    /// All members: plants in the order of the registry, parents before offspring, then siblings drawn together.
    pub members: Vec<Member>,
    /// All crosses.
    pub crosses: Vec<PedigreeCross>,
    /// The plants drawn by themselves, but those of muddled trays.
    pub family: Vec<PlantRow>,
    /// How many plants have recorded parents that are not drawn.
    pub cut: usize,
    /// Crosses drawn, or a plant of one without a page of its own, that are less sure than their tags; what was asked for is
    /// left out.
    pub doubtful: Vec<Unit>,
}

/// Members drawn so far, the row each plant has, and the rows by origin.
struct Drawn {
    members: Vec<Member>,
    rows: BTreeMap<PlantRow, usize>,
    children: BTreeMap<OriginRow, Vec<usize>>,
}

/// The pedigree of a plant, or of the seedlings of a cross or a part of it.
pub fn pedigree(context: &Context, asked: Asked, wishes: PedigreeWishes) -> Pedigree {
    let origin = asked.cross();
    let origin = origin.and_then(|_| asked.unit().origin(context.registry));
    let family = family(context.lineage(), asked.plant(), origin, wishes);
    let work = Work::of(context, &family);
    let mut drawn = work.family_drawn(asked);
    let mut crosses = Vec::new();
    for &origin in &family.origins {
        crosses.extend(work.origin(origin, &mut drawn, asked));
    }
    columns(&mut drawn.members, &crosses);
    Pedigree {
        asked,
        down: wishes.down,
        members: drawn.members,
        crosses,
        family: family.plants.iter().copied().collect(),
        cut: family.cut.len(),
        doubtful: work.doubtful(asked),
    }
}

impl Work<'_, '_, '_> {
    fn family_drawn(&self, asked: Asked) -> Drawn {
        let family = self.family.plants.iter();
        let mut children: BTreeMap<OriginRow, Vec<usize>> = BTreeMap::new();
        for (row, &plant) in family.clone().enumerate() {
            if let Some(origin) = self.lineage.pedigree.origin_row(plant) {
                children.entry(origin).or_default().push(row);
            }
        }
        let member = |&plant: &PlantRow| self.plant(plant, asked.plant() == Some(plant));
        Drawn {
            children,
            members: family.clone().map(member).collect(),
            rows: family.enumerate().map(|(at, &plant)| (plant, at)).collect(),
        }
    }

    /// The crosses of one origin, with the seedlings that are not drawn by themselves.
    fn origin(&self, origin: OriginRow, drawn: &mut Drawn, asked: Asked) -> Vec<PedigreeCross> {
        let is_asked =
            asked.plant().is_none() && asked.unit().origin(self.registry) == Some(origin);
        let children = self.children(origin, drawn, (asked, is_asked));
        if self.names.cross_of_origin(origin).is_none() && children.0.is_empty() {
            // Nothing is left of a muddled pot: there is nothing to draw behind its cross.
            return Vec::new();
        }
        let mut crosses = self.crosses(origin, &drawn.rows, children);
        let unit = is_asked.then(|| asked.unit());
        let stated = self.stated(origin, unit);
        for cross in &mut crosses {
            cross.doubt(&stated);
        }
        crosses
    }

    /// The rows of what came of an origin, and how many siblings of them are not drawn.
    fn children(
        &self,
        origin: OriginRow,
        drawn: &mut Drawn,
        (asked, is_asked): (Asked, bool),
    ) -> (Vec<usize>, u64) {
        let mut children = drawn.children.get(&origin).cloned().unwrap_or_default();
        let mut others = self.seedlings_of(origin).saturating_sub(children.len());
        let of_part = asked.cross().filter(|&cross| asked != Asked::Cross(cross));
        if let Some(cross) = of_part.filter(|_| is_asked) {
            // One pod or sowing was asked for: its seedlings are the batch on offer, those of the rest are its siblings.
            let (batch, seedlings) = self.part(asked, cross);
            children.push(drawn.members.len());
            drawn.members.push(batch);
            others = others.saturating_sub(seedlings);
        } else if children.is_empty() {
            match self.names.cross_of_origin(origin) {
                Some(cross) => {
                    children.push(drawn.members.len());
                    drawn.members.push(self.batch(cross, is_asked));
                }
                None => children.extend(self.muddled(origin, drawn)),
            }
            others = 0;
        } else if is_asked {
            drawn.members[children[0]].focus = true;
        }
        (children, others as u64)
    }

    /// Seedlings from a muddled tray, each by itself: no other has its parents for certain. Those without numbers stand
    /// together, pot by pot.
    fn muddled(&self, origin: OriginRow, drawn: &mut Drawn) -> Vec<usize> {
        let mut rows = Vec::new();
        if !self.muddled.contains_key(&origin) {
            for pot in self
                .pots_of(origin)
                .into_iter()
                .filter_map(|pot| self.pot(pot))
            {
                rows.push(drawn.members.len());
                drawn.members.push(pot);
            }
        }
        for &plant in self.muddled.get(&origin).into_iter().flatten() {
            rows.push(drawn.members.len());
            drawn.rows.insert(plant, drawn.members.len());
            drawn.members.push(self.plant(plant, false));
        }
        rows
    }

    /// Crosses drawn that are less sure than their tags, but that of what was asked for.
    fn doubtful(&self, asked: Asked) -> Vec<Unit> {
        let of_asked = asked.unit().origin(self.registry);
        let origins = self.family.origins.iter();
        let others = origins.filter(|&&origin| Some(origin) != of_asked);
        let unit = |&origin: &OriginRow| {
            let cross = self.names.cross_of_origin(origin);
            let first = || self.raised.get(&origin)?.first().copied();
            cross.map(Unit::Cross).or_else(|| first().map(Unit::Plant))
        };
        let is_weak = |unit: &Unit| {
            let own = self.context.evidence().statement(*unit);
            own.is_some_and(|own| own.strength() > Strength::OnTag)
        };
        others.filter_map(unit).filter(is_weak).collect()
    }
}

/// Gives every member its generation in the picture: one more than the latest of its drawn parents.
fn columns(members: &mut [Member], crosses: &[PedigreeCross]) {
    let mut raised_in: BTreeMap<usize, usize> = BTreeMap::new();
    for (at, cross) in crosses.iter().enumerate() {
        raised_in.extend(cross.children.iter().map(|&child| (child, at)));
    }
    // Rows follow the registry, parents before offspring, and batches come last: one pass does.
    for row in 0..members.len() {
        let Some(&cross) = raised_in.get(&row) else {
            continue;
        };
        let parents = crosses[cross]
            .seed
            .rows()
            .iter()
            .chain(crosses[cross].pollen.rows());
        let above = parents.map(|&parent| members[parent].column + 1).max();
        members[row].column = above.unwrap_or(1);
    }
}
