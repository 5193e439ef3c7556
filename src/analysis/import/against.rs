//! What a row says against its parents.

use super::answer::{ImportRow, Kind, Who, Why};
use super::index::code_of;
use super::parents::Unclear;
use super::sorting::Sorting;
use super::species::species_named;
use crate::registry::{CrossRow, KnownBy, Pair, PlantRow, Target};

impl Sorting<'_, '_> {
    /// A label of one species, where a parent is surely of another.
    pub fn label_against(&self, row: &ImportRow) -> Option<Unclear> {
        let label = row.facts.label.as_ref()?;
        let species = species_named(label, self.vocabulary)?;
        let sides = [&row.parents.seed, &row.parents.pollen];
        let sure = sides.into_iter().filter_map(|side| match &side[..] {
            [one] => self.name_of(one),
            _ => None,
        });
        let mut named = sure.filter(|name| {
            let own = species_named(name, self.vocabulary);
            own.is_some_and(|own| own != species)
        });
        let name = named.next()?;
        Some((label.clone(), Why::ParentIs(name)))
    }

    /// The name that a parent is on record under, or in its row.
    pub fn name_of(&self, who: &Who) -> Option<String> {
        match who {
            Who::Species(epithet) => Some(format!("N. {epithet}")),
            Who::Row(at) => self.rows[*at].facts.label.clone(),
            Who::OnRecord(code) => {
                let founder = self.registry.founder(self.registry.plant(code)?)?;
                Some(founder.received.to_string())
            }
        }
    }

    /// Parents of a seedling that are not those of its cross in the tables, which is a row by its place.
    pub fn cross_against(&self, at: usize, row: &ImportRow, line: usize) -> Option<Unclear> {
        let cross = &self.rows[line];
        let own = self.parents_of(at, &row.facts);
        let of_cross = self.parents_of(line, &cross.facts);
        let sides = [
            (own.seed, of_cross.seed, &row.facts.seed_parent),
            (own.pollen, of_cross.pollen, &row.facts.pollen_parent),
        ];
        let differs = sides.into_iter().find(|(own, other, _)| {
            let both_known = !own.is_empty() && !other.is_empty();
            both_known && !own.iter().any(|who| other.contains(who))
        });
        let (_, _, cell) = differs?;
        let code = cross.facts.code.clone().unwrap_or_default();
        Some((cell.clone().unwrap_or_default(), Why::CrossHasOthers(code)))
    }

    /// Parents of a seedling that are not those of its cross on record, or of the plant there that the row says more about.
    pub fn recorded_against(&self, at: usize, row: &ImportRow) -> Option<Unclear> {
        let cross = match &row.kind {
            Kind::Seedling { cross, .. } => self.registry.cross(cross)?,
            Kind::More(Who::OnRecord(code)) => {
                self.registry.cross_of(self.registry.plant(code)?)?
            }
            _ => return None,
        };
        self.parents_against(at, row, cross)
    }

    /// Parents that a row names and a cross on record does not have.
    pub fn parents_against(&self, at: usize, row: &ImportRow, cross: CrossRow) -> Option<Unclear> {
        let pairs = &self.registry[self.registry[cross].origin].pairs;
        let own = self.parents_of(at, &row.facts);
        type Side = fn(&Pair) -> Option<PlantRow>;
        let sides: [(_, Side, _); 2] = [
            (own.seed, |pair| pair.seed, &row.facts.seed_parent),
            (own.pollen, |pair| pair.pollen, &row.facts.pollen_parent),
        ];
        let differs = sides.into_iter().find(|(own, side, _)| {
            // A side that is not known on record may be any plant.
            let recorded: Option<Vec<PlantRow>> = pairs.iter().map(side).collect();
            let may_be = |recorded: &[PlantRow]| {
                let mut all = own
                    .iter()
                    .flat_map(|who| recorded.iter().map(move |of| (who, *of)));
                all.any(|(who, of)| self.may_be(who, of))
            };
            !own.is_empty() && recorded.is_some_and(|recorded| !may_be(&recorded))
        });
        let (_, _, cell) = differs?;
        let cell = cell.as_ref().or(row.facts.both_parents.as_ref());
        let code = self.registry[cross].page.code.to_owned();
        Some((cell.cloned().unwrap_or_default(), Why::CrossHasOthers(code)))
    }

    /// Whether a parent that is named may be a plant on record.
    pub fn may_be(&self, who: &Who, recorded: PlantRow) -> bool {
        let code = match who {
            Who::OnRecord(code) => Some(code.clone()),
            Who::Row(at) => code_on_record(&self.rows[*at]),
            Who::Species(named) => {
                let own = self.species_of(recorded);
                return own.is_none_or(|own| own == *named);
            }
        };
        if self.registry.unseen(recorded).is_some() {
            let name = self.name_of(who);
            let named = name.and_then(|name| species_named(&name, self.vocabulary));
            let own = self.species_of(recorded);
            return named.is_none() || own.is_none() || named == own;
        }
        // A row that has lost its code to another plant may be any.
        let Some(code) = code else { return true };
        match self.registry.target(&code) {
            Some(Target::Plant(plant) | Target::Ramet(plant, _)) => plant == recorded,
            // A cross as parent is one of its seedlings.
            Some(Target::Cross(cross)) => self.registry.cross_of(recorded) == Some(cross),
            _ => false,
        }
    }

    /// The species of a plant, where its name says no more than that.
    fn species_of(&self, plant: PlantRow) -> Option<String> {
        if let Some(founder) = self.registry.founder(plant) {
            return species_named(&founder.received, self.vocabulary);
        }
        match self.registry.unseen(plant)?.known_by {
            KnownBy::Species(epithet) => Some(epithet.to_owned()),
            _ => None,
        }
    }
}

/// The code by which a row names a plant: that on record, where it says more about one.
fn code_on_record(row: &ImportRow) -> Option<String> {
    match &row.kind {
        Kind::More(Who::OnRecord(code)) => Some(code.clone()),
        _ => code_of(row),
    }
}
