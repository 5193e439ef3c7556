//! Formulas of plants and crosses from their recorded parents.
//!
//! A formula is built along the rows of the ancestors, parents first, so no depth of pedigree recurses. Uncertain
//! parents stay uncertain: one of several, a mixture, an unknown one and a lost direction each keep their own form.

use super::founders::{FounderName, founder_name};
use super::labels::SeedLabel;
use super::words::vocabulary;
use crate::lineage::{Donor, Lineage, Origin, Pair, PlantRow};
use crate::naming::{
    Certainty, Direction, Formula, FormulaBuilder, Leaf, Part, PartId, Relation, Tag, Unknown,
    Vocabulary,
};
use crate::record::{Confidence, Parents};
use crate::registry::{CrossRow, KnownBy, OriginRow, PlantKind, PotRow, Registry};
use crate::wording::each_once;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, OnceLock};

/// What a formula is wanted of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TopOf {
    /// A plant.
    Plant(PlantRow),
    /// The seedlings of a cross.
    Cross(CrossRow),
    /// The seedlings of a community pot.
    Pot(PotRow),
}

/// What a formula starts from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Start {
    /// A plant.
    Plant(PlantRow),
    /// Seedlings of an origin that are not told apart.
    Origin(OriginRow),
}

/// Names for everything in one registry.
pub struct Names<'a, 't> {
    pub(super) registry: &'a Registry<'t>,
    pub(super) lineage: Arc<Lineage>,
    vocabulary: Vocabulary,
    /// Each read when it is first asked for: an answer about one plant touches few founders.
    founders: Vec<OnceLock<FounderName>>,
    /// For each cross what its own label states, read when it is first asked for.
    pub(super) labels: Vec<OnceLock<SeedLabel>>,
    /// For each origin the cross it belongs to; none for a seedling from a muddled tray.
    cross_of_origin: BTreeMap<OriginRow, CrossRow>,
}

impl<'a, 't> Names<'a, 't> {
    /// Stands ready; a founder's label is read when the founder is first asked for.
    pub fn of(registry: &'a Registry<'t>, lineage: Arc<Lineage>) -> Self {
        let vocabulary = vocabulary(registry);
        let founders = registry.founders().iter();
        let founders = founders.map(|_| OnceLock::new()).collect();
        let labels = registry.cross_rows().map(|_| OnceLock::new()).collect();
        let crosses = registry.all_crosses();
        let cross_of_origin = crosses.map(|(at, cross)| (cross.origin, at)).collect();
        Names {
            registry,
            lineage,
            vocabulary,
            founders,
            labels,
            cross_of_origin,
        }
    }

    /// The words names are written with.
    pub fn vocabulary(&self) -> &Vocabulary {
        &self.vocabulary
    }

    /// The lines the names are taken from.
    pub fn lineage(&self) -> &Lineage {
        &self.lineage
    }

    /// What a founder is, by its label.
    pub fn founder(&self, plant: PlantRow) -> Option<&FounderName> {
        let name = || founder_name(self.registry, &self.vocabulary, plant);
        let is_founder = self.registry.kind(plant) == PlantKind::Founder;
        is_founder.then(|| self.founders[plant.index()].get_or_init(name))
    }

    /// The cross whose seedlings have an origin; none for a seedling from a muddled tray.
    pub fn cross_of_origin(&self, origin: OriginRow) -> Option<CrossRow> {
        self.cross_of_origin.get(&origin).copied()
    }

    /// The formula of a plant or a cross; with `codes` each parent bears its own code.
    pub fn formula(&self, top: TopOf, codes: bool) -> Formula {
        let start = self.start(top);
        let first = self.first_plants(start);
        let behind = self.lineage.pedigree.with_ancestors(&first);
        self.built(start, (&behind, codes))
    }

    /// The formula of a plant or of an origin from all plants behind it, ascending.
    pub(super) fn built(&self, start: Start, (behind, codes): (&[PlantRow], bool)) -> Formula {
        let origin = match start {
            Start::Plant(plant) => self.registry.origin_of(plant),
            Start::Origin(origin) => Some(origin),
        };
        let label = origin
            .and_then(|origin| self.cross_of_origin(origin))
            .filter(|&cross| self.seed_label(cross).is_some());
        let mut work = Work {
            names: self,
            codes,
            label,
            builder: FormulaBuilder::new(),
            parts: BTreeMap::new(),
            origins: BTreeMap::new(),
        };
        for &plant in behind {
            let part = work.plant(plant, Start::Plant(plant) == start);
            work.parts.insert(plant, part);
        }
        let top = match start {
            Start::Plant(plant) => work.parts[&plant],
            Start::Origin(origin) => work.origin(origin),
        };
        if let Some(label) = label.map(|cross| self.label_formula(cross)) {
            for tag in &label.marks(label.top()).tags {
                work.tag(top, tag.clone());
            }
        }
        work.builder.finish(top)
    }

    /// What a formula starts from.
    pub(super) fn start(&self, top: TopOf) -> Start {
        match top {
            TopOf::Plant(plant) => Start::Plant(plant),
            TopOf::Cross(cross) => Start::Origin(self.registry[cross].origin),
            TopOf::Pot(pot) => Start::Origin(self.registry.origin_of_pot(pot)),
        }
    }

    /// The plant a formula starts from, or all possible parents of its origin.
    pub(super) fn first_plants(&self, start: Start) -> Vec<PlantRow> {
        match start {
            Start::Plant(plant) => vec![plant],
            Start::Origin(origin) => self.lineage.pedigree[origin].parents(),
        }
    }
}

/// The founders whose labels are read so far.
impl fmt::Debug for Names<'_, '_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let founders = self.registry.founders().iter().zip(&self.founders);
        let read = founders.filter(|(_, name)| name.get().is_some());
        let read: Vec<&str> = read.map(|(founder, _)| founder.code).collect();
        out.debug_struct("Names").field("read", &read).finish()
    }
}

/// A formula in the making.
struct Work<'n, 'a, 't> {
    names: &'n Names<'a, 't>,
    codes: bool,
    /// The cross of the whole, if it came with a label: its words stand in the name of its own seedlings.
    label: Option<CrossRow>,
    builder: FormulaBuilder,
    parts: BTreeMap<PlantRow, PartId>,
    /// Origins written once: siblings share their part unless each bears its own code or established epithet.
    origins: BTreeMap<OriginRow, PartId>,
}

impl Work<'_, '_, '_> {
    /// Adds a plant whose parents are in; its own labels are kept only if it is the whole.
    fn plant(&mut self, plant: PlantRow, is_whole: bool) -> PartId {
        let registry = self.names.registry;
        let part = match registry.origin_of(plant) {
            Some(origin) if self.codes || self.established(plant).is_some() => self.origin(origin),
            Some(origin) => match self.origins.get(&origin) {
                Some(&part) => part,
                None => {
                    let part = self.origin(origin);
                    self.origins.insert(origin, part);
                    part
                }
            },
            None => self.without_parents(plant, is_whole),
        };
        if !is_whole {
            if let Some(epithet) = self.established(plant) {
                self.tag(part, Tag::Cultivar(epithet));
            }
            if self.codes && registry.kind(plant) != PlantKind::Unseen {
                self.tag(part, Tag::Plant(registry.code(plant)));
            }
        }
        part
    }

    /// The cultivar epithet a plant bears in its descendants' names; single quotes say that it is established.
    fn established(&self, plant: PlantRow) -> Option<String> {
        let cultivar = self.names.registry.cultivar(plant)?;
        (cultivar.published.is_some()).then(|| cultivar.epithet.to_string())
    }

    fn tag(&mut self, part: PartId, tag: Tag) {
        let tags = &mut self.builder.marks(part).tags;
        if !tags.contains(&tag) {
            tags.push(tag);
        }
    }

    fn without_parents(&mut self, plant: PlantRow, is_whole: bool) -> PartId {
        if let Some(founder) = self.names.founder(plant) {
            let formula = &founder.formula;
            // Which of several plants it is, is not known; its name says less than one that is claimed.
            let doubted = matches!(founder.confidence, Confidence::OneOfSeveral);
            let part = if is_whole {
                self.builder.copy_of(formula)
            } else {
                self.builder.copy_bare(formula)
            };
            if doubted {
                self.builder.marks(part).certainty = Certainty::Doubtful;
            }
            if let Some(received) = &founder.received {
                self.tag(part, Tag::Received(received.clone()));
            }
            return part;
        }
        match self
            .names
            .registry
            .unseen(plant)
            .map(|unseen| (unseen.known_by, unseen))
        {
            Some((KnownBy::Species(epithet), _)) => self.builder.species(epithet),
            Some((KnownBy::Label, unseen)) => {
                self.side_of_label(unseen.cross, unseen.bore_the_seed)
            }
            _ => self.builder.leaf(Leaf::Unknown(Unknown::NotRecorded)),
        }
    }

    /// One side of the label a cross came with.
    fn side_of_label(&mut self, cross: CrossRow, seed_side: bool) -> PartId {
        let label = self.names.label(cross);
        let formula = &label.formula;
        match formula.part(formula.top()) {
            Part::Cross(sides) if label.names_both_parents() => {
                let side = if seed_side { sides.seed } else { sides.pollen };
                let mut builder = FormulaBuilder::new();
                builder.copy_of(formula);
                let excerpt = builder.excerpt(side);
                let part = match self.label == Some(cross) {
                    true => self.builder.copy_of(&excerpt),
                    false => self.builder.copy_bare(&excerpt),
                };
                // A label that doubts the whole cross doubts both parents: `maxima x veitchii?`.
                let doubt = formula.marks(formula.top()).certainty;
                let certainty = &mut self.builder.marks(part).certainty;
                *certainty = doubt.max(*certainty);
                part
            }
            Part::Leaf(leaf) if !matches!(leaf, Leaf::Species { .. } | Leaf::Unnamed { .. }) => {
                self.builder.leaf(Leaf::Unknown(Unknown::NotRecorded))
            }
            // Of seed labelled with a species, or one of several crosses, both parents are what the label says.
            _ => self.builder.copy_bare(formula),
        }
    }

    /// Adds the seedlings of an origin whose parents are in.
    fn origin(&mut self, at: OriginRow) -> PartId {
        let origin = &self.names.lineage.pedigree[at];
        let cross = self.names.cross_of_origin.get(&at).copied();
        let direction = self.direction(cross);
        let pairs: Vec<[Parent; 2]> = origin
            .pairs
            .iter()
            .flat_map(|pair| self.names.parents(at, pair))
            .collect();
        let parts: Vec<(PartId, PartId)> = pairs
            .iter()
            .map(|&[seed, pollen]| (self.side(seed), self.side(pollen)))
            .collect();
        let part = match &parts[..] {
            [(seed, pollen)] => match cross.and_then(|cross| self.as_labelled(cross, *seed)) {
                Some(part) => part,
                None => self.cross(origin, (*seed, *pollen), direction),
            },
            [(seed, _), ..] if pairs.iter().all(|pair| pair[0] == pairs[0][0]) => {
                let fathers = each_once(parts.iter().map(|(_, pollen)| *pollen));
                // A plant of a muddled tray has one of these fathers; no pollen was mixed for it.
                let father = match (origin.donor, cross) {
                    (Donor::WholePod, _) | (_, None) => self.one_of(fathers),
                    (Donor::EachSeed | Donor::OneMother, Some(_)) => {
                        let fathers = self.each_once(fathers);
                        self.builder.mixed(fathers)
                    }
                };
                self.builder.cross(*seed, father, direction)
            }
            [(_, pollen), ..] if pairs.iter().all(|pair| pair[1] == pairs[0][1]) => {
                let mothers = each_once(parts.iter().map(|(seed, _)| *seed));
                let mother = self.one_of(mothers);
                self.builder.cross(mother, *pollen, direction)
            }
            _ => {
                let crosses = parts
                    .iter()
                    .map(|&(seed, pollen)| self.builder.cross(seed, pollen, direction))
                    .collect();
                self.one_of(crosses)
            }
        };
        // A label is a claim, whatever else the page says.
        let is_claimed = cross.is_some_and(|cross| {
            let page = &self.names.registry[cross].page;
            page.confidence == Confidence::Claim || matches!(page.parents, Parents::LabelOnly(_))
        });
        if is_claimed && !matches!(self.builder.part(part), Part::Leaf(Leaf::Unknown(_))) {
            let certainty = &mut self.builder.marks(part).certainty;
            *certainty = Certainty::Claimed.max(*certainty);
        }
        part
    }

    /// What the label of a cross says of its seedlings, where it does not name their two parents.
    fn as_labelled(&mut self, cross: CrossRow, seed: PartId) -> Option<PartId> {
        let label = self.names.seed_label(cross)?;
        match self.names.relation_on_label(cross) {
            Some(relation) => Some(self.builder.within(seed, relation)),
            None => (!label.names_both_parents()).then(|| self.builder.copy_bare(&label.formula)),
        }
    }

    /// One of several, each that reads alike once: several plants of one species make no other name, whichever it was.
    fn one_of(&mut self, parts: Vec<PartId>) -> PartId {
        let apart = self.each_once(parts);
        self.builder.one_of(apart)
    }

    fn each_once(&self, parts: Vec<PartId>) -> Vec<PartId> {
        let mut apart: Vec<PartId> = Vec::new();
        for part in parts {
            if !apart.iter().any(|known| self.builder.same(*known, part)) {
                apart.push(part);
            }
        }
        apart
    }

    /// A certain pair: full siblings give the next filial generation.
    fn cross(
        &mut self,
        origin: &Origin,
        (seed, pollen): (PartId, PartId),
        direction: Direction,
    ) -> PartId {
        let pair = origin.pairs[0];
        if pair.seed.is_some() && pair.seed == pair.pollen {
            self.builder.within(seed, Relation::SelfReported)
        } else if let Some(relation) = self.relation_of_sibs(origin, seed) {
            match (self.builder.same(seed, pollen), relation) {
                (true, relation) => self.builder.within(seed, relation),
                (false, Relation::Filial) => self.builder.sibs(seed, pollen, direction),
                _ => self.builder.cross(seed, pollen, direction),
            }
        } else if [pair.seed, pair.pollen] == [None; 2] && self.builder.same(seed, pollen) {
            // Seed of which nothing is known may be of a species: no cross is made of two signs of the unknown.
            seed
        } else {
            self.builder.cross(seed, pollen, direction)
        }
    }

    /// What plants are to each other that have the same parents: the first of a generation where they are of a cross, sibs
    /// where only a species or a name is known of them all. None where each seed may have a father of its own.
    fn relation_of_sibs(&self, origin: &Origin, parent: PartId) -> Option<Relation> {
        let is_of_sibs = self.names.is_of_sibs(origin);
        let plant = origin.pairs[0].seed.filter(|_| is_of_sibs)?;
        match self.builder.part(parent) {
            Part::Leaf(Leaf::Unknown(_)) => None,
            Part::Leaf(_) => Some(Relation::Sib),
            Part::Cross(cross) if self.is_of_several_fathers(cross.pollen) => None,
            _ if self.names.is_by_name_alone(plant) => Some(Relation::Sib),
            _ => Some(Relation::Filial),
        }
    }

    fn is_of_several_fathers(&self, pollen: PartId) -> bool {
        use Unknown::{MixedPollen, OpenPollinated};
        let part = self.builder.part(pollen);
        matches!(
            part,
            Part::Mixed(_) | Part::Leaf(Leaf::Unknown(MixedPollen | OpenPollinated))
        )
    }

    fn direction(&self, cross: Option<CrossRow>) -> Direction {
        let Some(cross) = cross else {
            return Direction::Known;
        };
        match &self.names.registry[cross].page.parents {
            Parents::DirectionLost(_) => Direction::Unknown,
            Parents::LabelOnly(_) => {
                let label = self.names.label_formula(cross);
                match label.part(label.top()) {
                    Part::Cross(sides) => sides.direction,
                    _ => Direction::Assumed,
                }
            }
            _ => Direction::Known,
        }
    }

    fn side(&mut self, parent: Parent) -> PartId {
        match parent {
            Parent::Plant(plant) => self.parts[&plant],
            Parent::Unknown(how) => self.builder.leaf(Leaf::Unknown(how)),
        }
    }
}

/// One side of a pair.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Parent {
    Plant(PlantRow),
    Unknown(Unknown),
}

impl Names<'_, '_> {
    /// A pair of an origin. A muddled plant may be of crosses whose unknown father is unknown in two ways: each is a pair.
    fn parents(&self, origin: OriginRow, pair: &Pair) -> Vec<[Parent; 2]> {
        let named = |plant: Option<PlantRow>| plant.map(Parent::Plant);
        let not_recorded = Parent::Unknown(Unknown::NotRecorded);
        let seed = named(pair.seed).unwrap_or(not_recorded);
        if let Some(pollen) = named(pair.pollen) {
            return vec![[seed, pollen]];
        }
        let cross = self.cross_of_origin(origin);
        let may_be = self.registry.crosses_it_may_be(origin).iter().copied();
        let has_it = |cross: &CrossRow| {
            let pairs = &self.registry[self.registry[*cross].origin].pairs;
            let is_it = |of: &Pair| (of.seed, of.pollen) == (pair.seed, None);
            pairs.iter().any(is_it)
        };
        let crosses = cross.into_iter().chain(may_be.filter(has_it));
        let is_open =
            |cross: CrossRow| matches!(self.registry[cross].page.parents, Parents::Open { .. });
        let is_open: Vec<bool> = crosses.map(is_open).collect();
        let ways = [
            (is_open.contains(&true), Unknown::OpenPollinated),
            (
                is_open.contains(&false) || is_open.is_empty(),
                Unknown::NotRecorded,
            ),
        ];
        let ways = ways.into_iter().filter(|(is_so, _)| *is_so);
        ways.map(|(_, how)| [seed, Parent::Unknown(how)]).collect()
    }
}
