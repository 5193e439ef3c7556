//! The picture put together: plants, crosses, caption and footnotes.

use crate::analysis::evidence::{EvidenceRow, evidence_row};
use crate::context::Context;
use crate::evidence::{Strength, Unit};
use crate::lineage::{Family, Lineage, PlantRow};
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Formula, Style, Writing, breeder, formula_only, runs};
use crate::registry::{Cross, CrossRow, OriginRow, PodRow, PotRow, Registry, SowingRow};
use crate::report::pedigree::{Caption, DrawnCross, DrawnPlant, PedigreeDrawing};
use crate::wording::{Name, NameRun, counted};
use std::collections::BTreeMap;

/// The most crosses whose doubts are written out below a picture.
const MOST_DOUBTS: usize = 6;

/// What the pedigree is of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Asked {
    /// One plant.
    Plant(PlantRow),
    /// The seedlings of a cross.
    Cross(CrossRow),
    /// Those of one pod.
    Pod(PodRow),
    /// Those of one sowing.
    Sowing(SowingRow),
    /// Those of one community pot.
    Pot(PotRow),
}

impl Asked {
    /// The plant on offer.
    pub fn plant(self) -> Option<PlantRow> {
        match self {
            Self::Plant(plant) => Some(plant),
            _ => None,
        }
    }

    /// The cross whose seedlings are meant.
    pub fn cross(self) -> Option<CrossRow> {
        match self {
            Self::Plant(_) => None,
            Self::Cross(cross)
            | Self::Pod(PodRow { cross, .. })
            | Self::Sowing(SowingRow { cross, .. })
            | Self::Pot(PotRow { cross, .. }) => Some(cross),
        }
    }

    /// The unit whose descent is shown.
    pub fn unit(self) -> Unit {
        match self {
            Self::Plant(plant) => Unit::Plant(plant),
            Self::Cross(cross) => Unit::Cross(cross),
            Self::Pod(pod) => Unit::Pod(pod),
            Self::Sowing(sowing) => Unit::Sowing(sowing),
            Self::Pot(pot) => Unit::Pot(pot),
        }
    }
}

/// Everything a picture is put together from.
pub struct Work<'w, 'r, 't> {
    pub context: &'w Context<'r, 't>,
    pub registry: &'r Registry<'t>,
    pub lineage: &'w Lineage,
    pub names: &'w Names<'r, 't>,
    pub family: &'w Family,
    pub down: bool,
    pub with_evidence: bool,
    /// Seedlings of muddled trays by their origins: no cross leads to them.
    pub muddled: BTreeMap<OriginRow, Vec<PlantRow>>,
    /// Plants of the family by their origins.
    pub raised: BTreeMap<OriginRow, Vec<PlantRow>>,
}

/// Plants drawn so far, the row each has, and the rows by origin.
pub struct Drawn {
    pub plants: Vec<DrawnPlant>,
    pub rows: BTreeMap<PlantRow, usize>,
    children: BTreeMap<OriginRow, Vec<usize>>,
}

impl<'t> Work<'_, '_, 't> {
    /// The whole picture.
    pub fn draw(&self, id: &str, asked: Asked) -> PedigreeDrawing {
        let mut drawn = self.family_drawn(asked);
        let mut crosses = Vec::new();
        for &origin in &self.family.origins {
            crosses.extend(self.origin(origin, &mut drawn, (id, asked)));
        }
        let mut plants = drawn.plants;
        columns(&mut plants, &crosses);
        let formula = self.names.formula(asked.unit().top(), false);
        let heading = self.heading((&plants, &crosses), asked, &formula);
        let title = breeder(&formula, &Writing::plain(self.names.vocabulary()));
        PedigreeDrawing {
            title: title.map_or_else(
                |_| format!("Pedigree of {id}"),
                |name| format!("{id}: {name}"),
            ),
            footnotes: self.footnotes((&plants, &crosses), asked),
            down: self.down,
            plants,
            crosses,
            species: self
                .context
                .descent()
                .species
                .iter()
                .map(|name| self.taxon(name))
                .collect(),
            caption: Caption {
                heading,
                formula: self.name(&formula, true).unwrap_or_default(),
                code: id.to_owned(),
                evidence: self.context.evidence().sentence(asked.unit()),
            },
        }
    }

    fn family_drawn(&self, asked: Asked) -> Drawn {
        let family = self.family.plants.iter();
        let mut children: BTreeMap<OriginRow, Vec<usize>> = BTreeMap::new();
        for (row, &plant) in family.clone().enumerate() {
            if let Some(origin) = self.lineage.pedigree.origin_row(plant) {
                children.entry(origin).or_default().push(row);
            }
        }
        Drawn {
            children,
            plants: family
                .clone()
                .map(|&plant| self.plant(plant, asked.plant() == Some(plant)))
                .collect(),
            rows: family.enumerate().map(|(at, &plant)| (plant, at)).collect(),
        }
    }

    /// The crosses of one origin, with the seedlings nobody draws by themselves.
    fn origin(&self, origin: OriginRow, drawn: &mut Drawn, of: (&str, Asked)) -> Vec<DrawnCross> {
        let (id, asked) = of;
        let is_asked =
            asked.plant().is_none() && asked.unit().origin(self.registry) == Some(origin);
        let mut children = drawn.children.get(&origin).cloned().unwrap_or_default();
        let mut others = self.seedlings_of(origin).saturating_sub(children.len());
        let of_part = asked.cross().filter(|&cross| asked != Asked::Cross(cross));
        if let Some(cross) = of_part.filter(|_| is_asked) {
            // One pod or sowing was asked for: its seedlings are the batch on offer, those of the rest are its siblings.
            let (batch, seedlings) = self.part(id, asked, cross);
            children.push(drawn.plants.len());
            drawn.plants.push(batch);
            others = others.saturating_sub(seedlings);
        } else if children.is_empty() {
            match self.cross_of(origin) {
                Some(cross) => {
                    children.push(drawn.plants.len());
                    drawn.plants.push(self.batch(cross, is_asked));
                }
                None => children.extend(self.muddled(origin, drawn)),
            }
            others = 0;
        } else if is_asked {
            drawn.plants[children[0]].focus = true;
        }
        let mut crosses = self.crosses(origin, &drawn.rows, (children, others as u64));
        let unit = is_asked.then(|| asked.unit());
        let probable = self.is_probable(origin, unit);
        let (seed, pollen) = self.doubtful_parents(origin, unit);
        for cross in &mut crosses {
            (cross.seed_doubtful, cross.pollen_doubtful) = (seed, pollen);
            cross.father_probable = probable && !cross.pollen.rows().is_empty();
        }
        crosses
    }

    /// The cross all of whose seedlings have this origin; none for a seedling from a muddled tray.
    pub fn cross_of(&self, origin: OriginRow) -> Option<&Cross<'t>> {
        let cross = self.names.cross_of_origin(origin)?;
        Some(&self.registry[cross])
    }

    fn footnotes(
        &self,
        (plants, crosses): (&[DrawnPlant], &[DrawnCross]),
        asked: Asked,
    ) -> Vec<String> {
        let mut notes =
            vec!["Expected shares are averages over seedlings, not a test of a plant.".to_owned()];
        if self.down && crosses.is_empty() && plants.len() == 1 {
            notes.insert(0, "No offspring on record.".to_owned());
        }
        notes.extend(self.doubts(asked));
        let drawn = self.family.plants.iter().copied().map(TopOf::Plant);
        notes.extend(self.names.doubts(drawn.chain([asked.unit().top()])));
        match self.family.cut.len() {
            0 => {}
            1 => notes.push("One plant has recorded parents that are not drawn here.".to_owned()),
            several => notes.push(format!(
                "{} have recorded parents that are not drawn here.",
                counted(several, "plant", "plants")
            )),
        }
        notes
    }

    /// Crosses drawn that are less sure than their tags, each with what is recorded of its own parents; that of what was
    /// asked for stands in the caption.
    fn doubts(&self, asked: Asked) -> Vec<String> {
        let mut notes: Vec<String> = Vec::new();
        let of_asked = asked.unit().origin(self.registry);
        for &origin in self
            .family
            .origins
            .iter()
            .filter(|&&origin| Some(origin) != of_asked)
        {
            let cross = self.names.cross_of_origin(origin);
            let first = || self.raised.get(&origin)?.first().copied();
            let unit = cross.map(Unit::Cross).or_else(|| first().map(Unit::Plant));
            let Some((unit, statement)) =
                unit.and_then(|unit| Some((unit, self.context.evidence().statement(unit)?)))
            else {
                continue;
            };
            if statement.strength() > Strength::OnTag {
                let code = match unit {
                    Unit::Plant(plant) => self.registry.code(plant),
                    unit => unit.cross(self.registry).map_or(String::new(), |cross| {
                        self.registry[cross].page.code.to_owned()
                    }),
                };
                notes.extend(
                    self.context
                        .evidence()
                        .own(unit)
                        .map(|own| format!("{code}: {own}.")),
                );
            }
        }
        let more = notes.len().saturating_sub(MOST_DOUBTS);
        notes.truncate(MOST_DOUBTS);
        if more > 0 {
            let crosses = counted(more, "more cross is", "more crosses are");
            notes.push(format!(
                "{crosses} less sure than a tag: `podbook show` says how."
            ));
        }
        notes
    }

    /// How surely the descent of one thing drawn is known, where that was asked for.
    pub fn evidence_of(&self, unit: Unit) -> Option<EvidenceRow> {
        self.with_evidence
            .then(|| evidence_row(self.context.evidence(), unit))
    }

    /// A species or provisional taxon with the genus.
    fn taxon(&self, name: &str) -> Name {
        vec![NameRun {
            text: format!("{} {name}", self.names.vocabulary().genus_short()),
            italic: true,
        }]
    }

    /// A formula in runs of upright and italic letters; nothing when it is too long to write out.
    pub fn name(&self, formula: &Formula, with_basis: bool) -> Option<Name> {
        let writing = Writing {
            style: Style::Runs,
            ..Writing::plain(self.names.vocabulary())
        };
        let text = if with_basis {
            breeder(formula, &writing)
        } else {
            formula_only(formula, &writing)
        };
        let run = |(text, italic)| NameRun { text, italic };
        Some(runs(&text.ok()?).into_iter().map(run).collect())
    }
}

/// Gives every plant its generation in the picture: one more than the latest of its drawn parents.
fn columns(plants: &mut [DrawnPlant], crosses: &[DrawnCross]) {
    let mut raised_in: BTreeMap<usize, usize> = BTreeMap::new();
    for (at, cross) in crosses.iter().enumerate() {
        raised_in.extend(cross.children.iter().map(|&child| (child, at)));
    }
    // Rows follow the registry, parents before offspring, and batches come last: one pass does.
    for row in 0..plants.len() {
        let Some(&cross) = raised_in.get(&row) else {
            continue;
        };
        let parents = crosses[cross]
            .seed
            .rows()
            .iter()
            .chain(crosses[cross].pollen.rows());
        let above = parents.map(|&parent| plants[parent].column + 1).max();
        plants[row].column = above.unwrap_or(1);
    }
}
