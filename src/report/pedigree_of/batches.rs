//! Seedlings that are drawn together, because none of them is a parent of anything in the picture.

use super::drawing::{Asked, Drawn, Work};
use super::plants::LONGEST_LABEL;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::registry::{Cross, CrossRow, OriginRow};
use crate::report::pedigree::{DrawnKind, DrawnPlant};
use crate::wording::{Name, NameRun, counted};

impl<'t> Work<'_, '_, 't> {
    /// How many numbered seedlings an origin has; those of a muddled tray have origins of their own.
    pub fn seedlings_of(&self, origin: OriginRow) -> usize {
        let certain = |plant: &&PlantRow| self.registry.origin_of(**plant) == Some(origin);
        let seedlings = |cross: &Cross| cross.seedlings.iter().filter(certain).count();
        self.cross_of(origin).map_or(0, seedlings)
    }

    /// The seedlings of a cross.
    pub fn batch(&self, cross: &Cross<'t>, focus: bool) -> DrawnPlant {
        let seedlings = self.seedlings_of(cross.origin);
        let unit = self.names.cross_of_origin(cross.origin).map(Unit::Cross);
        DrawnPlant {
            evidence: unit.and_then(|unit| self.evidence_of(unit)),
            ..self.together(cross.page.code, cross.origin, (seedlings, focus))
        }
    }

    /// The seedlings of one pod or sowing, and their number.
    pub fn part(&self, id: &str, asked: Asked, cross: CrossRow) -> (DrawnPlant, usize) {
        let cross = &self.registry[cross];
        let is_of = |plant: &&PlantRow| {
            let (sowing, pod, pot) = self.registry.road(**plant);
            match asked {
                Asked::Pod(asked) => pod == Some(asked),
                Asked::Sowing(asked) => sowing == Some(asked),
                Asked::Pot(asked) => pot == Some(asked),
                Asked::Plant(_) | Asked::Cross(_) => true,
            }
        };
        let seedlings = cross.seedlings.iter().filter(is_of).count();
        let origin = asked.unit().origin(self.registry).unwrap_or(cross.origin);
        let batch = DrawnPlant {
            evidence: self.evidence_of(asked.unit()),
            ..self.together(id, origin, (seedlings, true))
        };
        (batch, seedlings)
    }

    /// Seedlings from a muddled tray, each by itself: no other has its parents for certain.
    pub fn muddled(&self, origin: OriginRow, drawn: &mut Drawn) -> Vec<usize> {
        let mut rows = Vec::new();
        for &plant in self.muddled.get(&origin).into_iter().flatten() {
            rows.push(drawn.plants.len());
            drawn.rows.insert(plant, drawn.plants.len());
            drawn.plants.push(self.plant(plant, false));
        }
        rows
    }

    /// The formula of a cross, as short as a box needs it.
    fn batch_name(&self, origin: OriginRow) -> Option<Name> {
        let cross = self.names.cross_of_origin(origin)?;
        let parents = self.lineage.pedigree[origin].parents();
        let few = |&plant: &PlantRow| {
            self.names
                .short_formula(TopOf::Plant(plant), LONGEST_LABEL)
                .is_some()
        };
        let short = parents.iter().all(few);
        self.short_name(short.then(|| self.names.formula(TopOf::Cross(cross), false)))
    }

    fn together(&self, code: &str, origin: OriginRow, of: (usize, bool)) -> DrawnPlant {
        let (seedlings, focus) = of;
        let parts = self.context.descent().shares_of_origin(origin);
        let shares = self.shares(parts.unwrap_or_default());
        let words = match seedlings {
            0 => "no numbered seedling yet".to_owned(),
            n => counted(n, "numbered seedling", "numbered seedlings"),
        };
        let words = vec![NameRun {
            text: words,
            italic: false,
        }];
        let name = self.batch_name(origin);
        DrawnPlant {
            code: code.to_owned(),
            label: name.into_iter().chain([words]).collect(),
            kind: DrawnKind::Siblings,
            shares: shares.known,
            either: shares.either,
            unknown_share: shares.unknown,
            focus,
            ..DrawnPlant::default()
        }
    }
}
