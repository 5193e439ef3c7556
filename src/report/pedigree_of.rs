//! The pedigree of a plant or a cross as a drawing: who is in it, and every word.

use super::descent::Descent;
use super::name::rests_on;
use super::pedigree::{
    Caption, DrawnCross, DrawnKind, DrawnParent, DrawnPlant, DrawnShare, Fate as DrawnFate, Name,
    NameRun, PedigreeDrawing, Sex as DrawnSex,
};
use super::standing::{Presence, SexSeen, presence, sex_seen};
use super::words::counted;
use crate::ancestry::Part;
use crate::lineage::{Donor, Family, Lineage, PlantRow};
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Formula, Style, Writing, breeder, formula_only, runs};
use crate::record::{Day, Fate, Parents, Sex};
use crate::registry::{KnownBy, PlantKind, Registry, Target};
use std::collections::{BTreeMap, BTreeSet};

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct PedigreeWishes {
    /// Crosses upward, or downward with `down`.
    pub generations: u32,
    /// Descendants instead of ancestors.
    pub down: bool,
    /// The day that counts as today.
    pub today: Day,
}

/// The longest formula written beside a plant, in characters; longer ones are left to the lines of the picture.
const LONGEST_LABEL: usize = 60;

/// The most plants a picture holds; beyond that nobody can read it.
pub const MOST_PLANTS: usize = 2000;

/// Draws up the pedigree of whatever a code names.
///
/// # Errors
/// In words, when the code names nothing with a pedigree or the picture would be beyond reading.
pub fn pedigree_of(
    registry: &Registry,
    lineage: &Lineage,
    names: &Names,
    id: &str,
    wishes: PedigreeWishes,
) -> Result<PedigreeDrawing, String> {
    let (focus, cross) = match registry.target(id) {
        Some(Target::Plant(plant) | Target::Ramet(plant, _)) => (Some(plant), None),
        Some(
            Target::Cross(cross)
            | Target::Pod(cross, _)
            | Target::Sowing(cross, _)
            | Target::Patch(cross, _),
        ) => (None, Some(cross)),
        _ => {
            return Err(format!(
                "`{id}` has no pedigree: name a plant, a pod or a cross"
            ));
        }
    };
    let origin = cross.map(|cross| registry.crosses[cross as usize].origin);
    let family = family(lineage, focus, origin, wishes);
    if family.plants.len() > MOST_PLANTS {
        return Err(format!(
            "the picture would hold {} plants, more than the {MOST_PLANTS} anybody can read; ask for fewer with --generations",
            family.plants.len()
        ));
    }
    let descent = Descent::of(registry, lineage, names);
    let work = Work {
        registry,
        lineage,
        names,
        descent: &descent,
        family: &family,
        today: wishes.today,
    };
    Ok(work.draw(id, focus, cross))
}

fn family(
    lineage: &Lineage,
    focus: Option<PlantRow>,
    origin: Option<u32>,
    wishes: PedigreeWishes,
) -> Family {
    if wishes.down {
        let start = match (focus, origin) {
            (Some(plant), _) => vec![plant],
            (None, Some(origin)) => lineage.parents_from(origin),
            (None, None) => Vec::new(),
        };
        let mut family = lineage.descendants(&start, wishes.generations);
        family.origins.extend(origin);
        let mates: BTreeSet<PlantRow> = family
            .origins
            .iter()
            .flat_map(|&origin| lineage.pedigree.origins()[origin as usize].parents())
            .collect();
        let cut = mates
            .iter()
            .filter(|plant| lineage.pedigree.origin_index(**plant).is_some());
        let reached = |plant: &&PlantRow| {
            lineage
                .pedigree
                .origin_index(**plant)
                .is_some_and(|o| family.origins.contains(&(o as u32)))
        };
        family.cut = cut.filter(|plant| !reached(plant)).copied().collect();
        family.plants.extend(mates);
        return family;
    }
    match (focus, origin) {
        (Some(plant), _) => lineage.ancestors(&[plant], wishes.generations),
        (None, Some(origin)) => {
            let parents = lineage.pedigree.origins()[origin as usize].parents();
            let mut family = lineage.ancestors(&parents, wishes.generations.saturating_sub(1));
            family.origins.insert(origin);
            family
        }
        (None, None) => Family::default(),
    }
}

struct Work<'w, 'r, 't> {
    registry: &'r Registry<'t>,
    lineage: &'r Lineage,
    names: &'w Names<'r, 't>,
    descent: &'w Descent,
    family: &'w Family,
    today: Day,
}

impl Work<'_, '_, '_> {
    fn draw(&self, id: &str, focus: Option<PlantRow>, cross: Option<u32>) -> PedigreeDrawing {
        let rows: BTreeMap<PlantRow, usize> = self
            .family
            .plants
            .iter()
            .enumerate()
            .map(|(at, &plant)| (plant, at))
            .collect();
        let mut plants: Vec<DrawnPlant> = self
            .family
            .plants
            .iter()
            .map(|&plant| self.plant(plant, focus == Some(plant)))
            .collect();
        let mut crosses = Vec::new();
        for &origin in &self.family.origins {
            let mut drawn = self.cross(origin, &rows);
            let focus_cross =
                cross.is_some_and(|c| self.registry.crosses[c as usize].origin == origin);
            if drawn.children.is_empty() {
                drawn.children.push(plants.len());
                plants.push(self.batch(origin, drawn.more_siblings, focus_cross));
                drawn.more_siblings = 0;
            } else if focus_cross {
                plants[drawn.children[0]].focus = true;
            }
            crosses.push(drawn);
        }
        columns(&mut plants, &crosses);
        let top = match (focus, cross) {
            (Some(plant), _) => TopOf::Plant(plant),
            (None, cross) => TopOf::Cross(cross.unwrap_or_default()),
        };
        let formula = self.names.formula(top, false);
        let title = breeder(&formula, &Writing::plain(self.names.vocabulary()));
        PedigreeDrawing {
            title: title.map_or_else(
                |_| format!("Pedigree of {id}"),
                |name| format!("{id}: {name}"),
            ),
            plants,
            crosses,
            species: self
                .descent
                .species
                .iter()
                .map(|name| self.taxon(name))
                .collect(),
            caption: Caption {
                formula: self.name(&formula, true).unwrap_or_default(),
                code: id.to_owned(),
                rests_on: rests_on(self.registry, self.names, top),
            },
            footnotes: self.footnotes(),
        }
    }

    fn footnotes(&self) -> Vec<String> {
        let mut notes =
            vec!["Expected shares are averages over seedlings, not a test of a plant.".to_owned()];
        if !self.family.cut.is_empty() {
            let several = self.family.cut.len() > 1;
            notes.push(format!(
                "{} recorded parents that are not drawn here.",
                if several {
                    format!("{} plants have", self.family.cut.len())
                } else {
                    "One plant has".to_owned()
                }
            ));
        }
        notes
    }

    /// A species or provisional taxon with the genus.
    fn taxon(&self, name: &str) -> Name {
        vec![NameRun {
            text: format!("{} {name}", self.names.vocabulary().genus_short()),
            italic: true,
        }]
    }

    fn name(&self, formula: &Formula, with_basis: bool) -> Option<Name> {
        let writing = Writing {
            style: Style::Runs,
            ..Writing::plain(self.names.vocabulary())
        };
        let text = if with_basis {
            breeder(formula, &writing)
        } else {
            formula_only(formula, &writing)
        }
        .ok()?;
        Some(
            runs(&text)
                .into_iter()
                .map(|(text, italic)| NameRun { text, italic })
                .collect(),
        )
    }

    fn plant(&self, plant: PlantRow, focus: bool) -> DrawnPlant {
        let kind = match self.registry.kind(plant) {
            PlantKind::Seedling => DrawnKind::Seedling,
            PlantKind::Unseen => match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
                Some(KnownBy::SeedlingOf(_)) => DrawnKind::Seedling,
                _ => DrawnKind::Founder,
            },
            PlantKind::Founder => match self.names.founder(plant) {
                Some(founder) if founder.formula.generations() > 0 => DrawnKind::Clone,
                _ => DrawnKind::Founder,
            },
        };
        let (shares, unknown_share) = self.shares(
            self.descent
                .shares_of(self.lineage, plant)
                .unwrap_or_default(),
        );
        DrawnPlant {
            code: self.code(plant),
            label: self.label(plant),
            column: 0,
            kind,
            fate: self.fate(plant),
            sex: match sex_seen(self.registry, plant) {
                SexSeen::Certain(Sex::Female) => Some(DrawnSex::Female),
                SexSeen::Certain(Sex::Male) => Some(DrawnSex::Male),
                _ => None,
            },
            shares,
            unknown_share,
            focus,
        }
    }

    fn code(&self, plant: PlantRow) -> String {
        match self.registry.unseen(plant).map(|unseen| unseen.known_by) {
            None => self.registry.code(plant),
            Some(KnownBy::SeedlingOf(cross)) => {
                format!(
                    "{}, number lost",
                    self.registry.crosses[cross as usize].page.code
                )
            }
            Some(KnownBy::Species(_)) => "never seen".to_owned(),
            Some(KnownBy::Label) => "by label only".to_owned(),
        }
    }

    fn label(&self, plant: PlantRow) -> Vec<Name> {
        let mut lines = Vec::new();
        let formula = self.names.formula(TopOf::Plant(plant), false);
        if let Some(name) = self.name(&formula, false)
            && name
                .iter()
                .map(|run| run.text.chars().count())
                .sum::<usize>()
                <= LONGEST_LABEL
        {
            lines.push(name);
        }
        let roman = |text: String| {
            vec![NameRun {
                text,
                italic: false,
            }]
        };
        if let Some(cultivar) = self.registry.cultivar(plant) {
            lines.push(roman(format!("'{}'", &*cultivar.epithet)));
        }
        lines.extend(
            self.registry
                .nickname(plant)
                .map(|nickname| roman(format!("\u{201c}{nickname}\u{201d}"))),
        );
        lines
    }

    fn fate(&self, plant: PlantRow) -> DrawnFate {
        match (
            presence(self.registry, plant, self.today),
            self.registry.fate(plant),
        ) {
            (Presence::Here | Presence::NeverHere, _) => DrawnFate::Here,
            (Presence::Gone, _) => DrawnFate::Dead,
            (Presence::LetGo, Some(Fate::Sold { .. })) => DrawnFate::Sold,
            (Presence::LetGo, _) => DrawnFate::LetGo,
        }
    }

    /// Shares of known species, and the rest.
    fn shares(&self, parts: Vec<(Part, crate::ancestry::Fraction)>) -> (Vec<DrawnShare>, f64) {
        let known: Vec<DrawnShare> = parts
            .iter()
            .filter_map(|(part, share)| match part {
                Part::Species(species) => Some(DrawnShare {
                    species: *species as usize,
                    fraction: share.as_f64(),
                }),
                _ => None,
            })
            .collect();
        let open = parts
            .iter()
            .filter(|(part, _)| !matches!(part, Part::Species(_)));
        (known, open.map(|(_, share)| share.as_f64()).sum())
    }

    /// Seedlings of a cross none of which is drawn by itself.
    fn batch(&self, origin: u32, seedlings: u64, focus: bool) -> DrawnPlant {
        let code = self.origin_code(origin);
        let (shares, unknown_share) =
            self.shares(self.descent.shares_of_origin(origin).unwrap_or_default());
        let words = match seedlings {
            0 => "no numbered seedling yet".to_owned(),
            n => counted(n as usize, "numbered seedling", "numbered seedlings"),
        };
        DrawnPlant {
            code,
            label: vec![vec![NameRun {
                text: words,
                italic: false,
            }]],
            kind: DrawnKind::Patch,
            shares,
            unknown_share,
            focus,
            ..DrawnPlant::default()
        }
    }

    fn cross_of(&self, origin: u32) -> Option<&crate::registry::Cross<'_>> {
        self.registry
            .crosses
            .iter()
            .find(|cross| cross.origin == origin)
    }

    fn origin_code(&self, origin: u32) -> String {
        self.cross_of(origin).map_or_else(
            || "muddled tray".to_owned(),
            |cross| cross.page.code.to_owned(),
        )
    }

    fn cross(&self, origin: u32, rows: &BTreeMap<PlantRow, usize>) -> DrawnCross {
        let cross = self.cross_of(origin);
        let of = &self.lineage.pedigree.origins()[origin as usize];
        let side = |pick: fn(&crate::lineage::Pair) -> Option<PlantRow>| {
            let mut members: Vec<usize> = Vec::new();
            for row in of
                .pairs
                .iter()
                .filter_map(pick)
                .filter_map(|plant| rows.get(&plant))
            {
                if !members.contains(row) {
                    members.push(*row);
                }
            }
            match (members.len(), of.donor) {
                (0, _) => DrawnParent::Unknown,
                (1, _) => DrawnParent::Known(members[0]),
                (_, Donor::EachSeed) if cross.is_some() => DrawnParent::Mixed(members),
                _ => DrawnParent::OneOf(members),
            }
        };
        let children: Vec<usize> = rows
            .iter()
            .filter(|(plant, _)| {
                self.lineage.pedigree.origin_index(**plant) == Some(origin as usize)
            })
            .map(|(_, row)| *row)
            .collect();
        let seedlings = cross.map_or(children.len(), |cross| cross.seedlings.len());
        let direction_lost =
            cross.is_some_and(|c| matches!(c.page.parents, Parents::DirectionLost(_)));
        DrawnCross {
            code: self.origin_code(origin),
            seed: side(|pair| pair.seed),
            pollen: side(|pair| pair.pollen),
            direction_known: !direction_lost,
            more_siblings: seedlings.saturating_sub(children.len()) as u64,
            children,
        }
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
