//! What is said of the descent of plants whose parents are not recorded: a species, a label's formula, or nothing.

use std::collections::{BTreeMap, BTreeSet};

use crate::lineage::PlantRow;

use super::composition::{Composition, TooDeep};
use super::part::Part;
use super::part_sets::PartSets;

/// The descent of a founder, as received.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub enum FounderDescent {
    /// A plant of a species, by the caller's number.
    Species(u32),
    /// A hybrid received under a label: what came through its seed parent and what through its pollen parent.
    /// Where only the shares as a whole are stated, give the same composition twice.
    Sides(Box<[Composition; 2]>),
    /// A hybrid received under a Latin name alone: its composition if the name is right. In which generation it stands
    /// and what came through which parent is not known.
    Named(Box<Composition>),
    /// Nothing is known.
    #[default]
    Unknown,
}

impl FounderDescent {
    /// What came through the seed parent and through the pollen parent.
    pub fn sides(&self) -> [Composition; 2] {
        let both = |part| [Composition::pure(part), Composition::pure(part)];
        match self {
            Self::Species(species) => both(Part::Species(*species)),
            Self::Sides(sides) => (**sides).clone(),
            Self::Named(whole) => [(**whole).clone(), (**whole).clone()],
            Self::Unknown => both(Part::Unknown),
        }
    }

    /// The founder's own composition.
    ///
    /// # Errors
    /// [`TooDeep`] when a label's sides cannot be averaged within the limit.
    pub fn composition(&self) -> Result<Composition, TooDeep> {
        match self {
            Self::Species(species) => Ok(Composition::pure(Part::Species(*species))),
            Self::Unknown => Ok(Composition::pure(Part::Unknown)),
            Self::Sides(sides) => Composition::offspring(&sides[0], &sides[1]),
            Self::Named(whole) => Ok((**whole).clone()),
        }
    }
}

/// The generation of a received hybrid of two species, as its label says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LabelGeneration {
    /// 2 for F2 and for a sib cross.
    Filial(u32),
    /// Crossed back so often to a species.
    Backcross {
        /// The species, by the caller's number.
        to: u32,
        /// 1 for BC1.
        times: u32,
    },
}

/// The founders of whose descent something is known; all others are unknown.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Founders {
    stated: BTreeMap<PlantRow, FounderDescent>,
    /// Numbers of names that are no sure species.
    provisional: BTreeSet<u32>,
    /// For the question whether two copies may be of one species: the number that stands for several.
    taken_as: BTreeMap<u32, u32>,
    /// Of those whose labels have a hybrid's name alone for a parent, the species on that side.
    named_behind: BTreeMap<PlantRow, Vec<u32>>,
    /// Of received hybrids their generations, where labels state any after the first.
    generations: BTreeMap<PlantRow, LabelGeneration>,
    /// The batch of seed that each was raised from, where it is shared.
    batches: BTreeMap<PlantRow, u32>,
    /// What their labels leave open.
    pub(super) sets: PartSets,
}

impl Founders {
    /// What is known of a founder.
    pub fn descent(&self, founder: PlantRow) -> &FounderDescent {
        self.stated
            .get(&founder)
            .unwrap_or(&FounderDescent::Unknown)
    }

    /// The same founders, where these numbers are of provisional names (cf., aff., sp., claimed): a share of their own,
    /// which may turn out to be of any species.
    pub fn with_provisional(mut self, numbers: BTreeSet<u32>) -> Self {
        self.provisional = numbers;
        self
    }

    /// The share of one of several on a label, for descent that is stated afterwards.
    pub fn one_of(&mut self, several: Vec<Part>) -> Part {
        self.sets.part_for(several)
    }

    /// States what is known of one founder.
    pub fn state(&mut self, founder: PlantRow, descent: FounderDescent) {
        self.stated.insert(founder, descent);
    }

    /// States on which sides of its label one founder has a hybrid's name alone.
    pub fn state_names_behind(
        &mut self,
        founder: PlantRow,
        descent: &FounderDescent,
        sides: [bool; 2],
    ) {
        let FounderDescent::Sides(compositions) = descent else {
            return;
        };
        let named = compositions.iter().zip(sides).filter(|(_, named)| *named);
        let species: BTreeSet<u32> = named.flat_map(|(side, _)| species_in(side)).collect();
        if !species.is_empty() {
            let species = species.into_iter().collect();
            self.named_behind.insert(founder, species);
        }
    }

    /// Whether what is stated of a founder holds only if a hybrid's name is right: its own, or one behind it.
    pub fn is_by_name(&self, founder: PlantRow) -> bool {
        self.is_by_name_alone(founder) || self.named_behind.contains_key(&founder)
    }

    /// States the generation of one founder.
    pub fn state_generation(&mut self, founder: PlantRow, generation: LabelGeneration) {
        self.generations.insert(founder, generation);
    }

    /// The generation that a founder's label states.
    pub fn generation(&self, founder: PlantRow) -> Option<LabelGeneration> {
        self.generations.get(&founder).copied()
    }

    /// The same founders, where those of one batch of seed are full siblings.
    pub fn with_batches(mut self, batches: BTreeMap<PlantRow, u32>) -> Self {
        self.batches = batches;
        self
    }

    /// The batch of seed that a founder shares with others.
    pub fn batch(&self, founder: PlantRow) -> Option<u32> {
        self.batches.get(&founder).copied()
    }

    /// The founders among some plants, by their places there, each with its own name.
    pub(super) fn among(&self, plants: &[PlantRow]) -> Self {
        let places = || (0..).map(PlantRow::new).zip(plants);
        let descent = places().map(|(at, &row)| (at, self.descent(row).clone()));
        let batches = places().filter_map(|(at, &row)| Some((at, self.batch(row)?)));
        let behind =
            places().filter_map(|(at, row)| Some((at, self.named_behind.get(row)?.clone())));
        let generations = places().filter_map(|(at, &row)| Some((at, self.generation(row)?)));
        Self {
            sets: self.sets.clone(),
            generations: generations.collect(),
            named_behind: behind.collect(),
            ..descent.collect::<Self>().with_batches(batches.collect())
        }
    }

    /// Whether a part is one species for certain.
    pub fn is_sure(&self, part: Part) -> bool {
        matches!(part, Part::Species(number) if !self.provisional.contains(&number))
    }

    /// Whether a founder is known by a hybrid's name alone, of two species or more.
    pub fn is_by_name_alone(&self, founder: PlantRow) -> bool {
        matches!(self.descent(founder), FounderDescent::Named(whole) if whole.sole_part().is_none())
    }

    /// The part a gene copy counts as where copies are compared: a "one of" share and a provisional name may be any.
    pub(super) fn compared_as(&self, part: Part) -> Part {
        match part {
            Part::Species(number) if self.is_sure(part) => {
                Part::Species(self.taken_as.get(&number).copied().unwrap_or(number))
            }
            _ => Part::Unknown,
        }
    }

    /// The founders with nothing known of those that have a hybrid's name alone, also behind them; none without such
    /// founders.
    pub(super) fn without_names_alone(&self) -> Option<Self> {
        let mut known = self.stated.keys();
        known.any(|row| self.is_by_name(*row)).then(|| {
            let mut others = self.clone();
            others.stated.retain(|row, _| !self.is_by_name(*row));
            others
        })
    }

    /// The species of a hybrid's name alone that a founder is known by, or that is behind it, ascending.
    pub(super) fn species_of_name_alone(&self, founder: PlantRow) -> Option<Vec<u32>> {
        match self.descent(founder) {
            FounderDescent::Named(whole) if self.is_by_name_alone(founder) => {
                let species: BTreeSet<u32> = species_in(whole).collect();
                Some(species.into_iter().collect())
            }
            _ => self.named_behind.get(&founder).cloned(),
        }
    }

    /// The founders with all species of one hybrid's name taken as one, for each of these names, since a plant of that name
    /// alone may be nearly pure of any of them.
    pub(super) fn with_names_merged<'n>(
        &self,
        names: impl IntoIterator<Item = &'n Vec<u32>>,
    ) -> Self {
        let mut merged = self.clone();
        for species in names {
            merged.merge(species);
        }
        merged
    }

    /// Lets the least number stand for all of these, and for those each of them stands with.
    fn merge(&mut self, species: &[u32]) {
        let stands = |of: &u32| self.taken_as.get(of).copied().unwrap_or(*of);
        let joined: BTreeSet<u32> = species.iter().map(stands).collect();
        let Some(&least) = joined.first() else {
            return;
        };
        for &of in species {
            self.taken_as.entry(of).or_insert(of);
        }
        for stands in self.taken_as.values_mut() {
            if joined.contains(stands) {
                *stands = least;
            }
        }
    }
}

/// The numbers in a composition.
fn species_in(composition: &Composition) -> impl Iterator<Item = u32> {
    let shares = composition.shares().into_iter();
    shares.filter_map(|(part, _)| match part {
        Part::Species(number) => Some(number),
        _ => None,
    })
}

impl FromIterator<(PlantRow, FounderDescent)> for Founders {
    fn from_iter<I: IntoIterator<Item = (PlantRow, FounderDescent)>>(stated: I) -> Self {
        Self {
            stated: stated.into_iter().collect(),
            ..Self::default()
        }
    }
}
