//! The graph of who came from whom, for walking up and down from a plant.
//!
//! Computations run on the parent table ([`Pedigree`]); the graph answers "which crosses is this plant a parent of" and
//! "who belongs into a picture". Its vertices are origins and the plants that are parents of one, so its size does not
//! grow with the number of siblings.

use super::pedigree::{Pedigree, PlantRow};
use crate::registry::{OriginRow, Registry};
use petgraph::Direction;
use petgraph::graph::{DiGraph, NodeIndex};
use std::collections::{BTreeMap, BTreeSet};

/// A vertex.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kin {
    /// A plant that is a parent.
    Parent(PlantRow),
    /// The origin of one cross's seedlings.
    Origin(OriginRow),
}

/// What an edge says.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Link {
    /// Bore the seed, or may have.
    Seed,
    /// Gave the pollen, or may have.
    Pollen,
    /// Came from this origin.
    Raised,
}

/// The lines of a registry.
#[derive(Debug)]
pub struct Lineage {
    /// The parent table; its rows are the registry's.
    pub pedigree: Pedigree,
    graph: DiGraph<Kin, Link>,
    parents: BTreeMap<PlantRow, NodeIndex>,
    origins: Vec<NodeIndex>,
}

/// The plants and origins of a picture or a walk.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Family {
    /// Plants, ancestors before descendants.
    pub plants: BTreeSet<PlantRow>,
    /// Origins, in the same order.
    pub origins: BTreeSet<OriginRow>,
    /// Plants whose parents are known but were left out for the limit of generations.
    pub cut: BTreeSet<PlantRow>,
}

impl Lineage {
    /// The lines of a registry.
    pub fn of(registry: &Registry) -> Lineage {
        let mut pedigree = Pedigree::with_capacity(registry.plant_count());
        let mut to_come = registry.origin_rows().peekable();
        for plant in registry.plants() {
            match registry.origin_of(plant) {
                None => {
                    pedigree.add_founder();
                }
                Some(origin) => {
                    // Origins are numbered in the order in which their plants are, so all earlier ones are in.
                    while let Some(earlier) = to_come.next_if(|&earlier| earlier <= origin) {
                        pedigree.add_origin(registry[earlier].clone());
                    }
                    pedigree.add_offspring(origin);
                }
            }
        }
        for origin in to_come {
            pedigree.add_origin(registry[origin].clone());
        }
        Lineage::on(pedigree)
    }

    /// The lines of a parent table.
    pub fn on(pedigree: Pedigree) -> Lineage {
        let mut graph = DiGraph::new();
        let mut parents = BTreeMap::new();
        let mut origins = Vec::with_capacity(pedigree.origins().len());
        for (row, origin) in pedigree.origin_rows().zip(pedigree.origins()) {
            let vertex = graph.add_node(Kin::Origin(row));
            origins.push(vertex);
            for (link, side) in [(Link::Seed, 0), (Link::Pollen, 1)] {
                let rows: BTreeSet<PlantRow> = origin
                    .pairs
                    .iter()
                    .filter_map(|pair| [pair.seed, pair.pollen][side])
                    .collect();
                for row in rows {
                    let parent = *parents
                        .entry(row)
                        .or_insert_with(|| graph.add_node(Kin::Parent(row)));
                    graph.add_edge(parent, vertex, link);
                }
            }
        }
        for (&row, &vertex) in &parents {
            if let Some(origin) = pedigree.origin_row(row) {
                graph.add_edge(origins[origin.index()], vertex, Link::Raised);
            }
        }
        Lineage {
            pedigree,
            graph,
            parents,
            origins,
        }
    }

    /// Origins of which a plant is, or may be, a parent, ascending; with the side it is on.
    pub fn offspring_of(&self, plant: PlantRow) -> Vec<(OriginRow, Link)> {
        let Some(&vertex) = self.parents.get(&plant) else {
            return Vec::new();
        };
        let mut found: Vec<(OriginRow, Link)> = self
            .graph
            .neighbors_directed(vertex, Direction::Outgoing)
            .flat_map(|to| self.graph.edges_connecting(vertex, to))
            .filter_map(
                |edge| match self.graph[petgraph::visit::EdgeRef::target(&edge)] {
                    Kin::Origin(origin) => Some((origin, *edge.weight())),
                    Kin::Parent(_) => None,
                },
            )
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }

    /// Plants of an origin that are themselves parents, ascending.
    pub fn parents_from(&self, origin: OriginRow) -> Vec<PlantRow> {
        let vertex = self.origins[origin.index()];
        let mut rows: Vec<PlantRow> = self
            .graph
            .neighbors_directed(vertex, Direction::Outgoing)
            .filter_map(|to| match self.graph[to] {
                Kin::Parent(row) => Some(row),
                Kin::Origin(_) => None,
            })
            .collect();
        rows.sort_unstable();
        rows
    }

    /// A plant with its ancestors through at most `generations` crosses.
    pub fn ancestors(&self, start: &[PlantRow], generations: u32) -> Family {
        let mut family = Family::default();
        let mut layer: BTreeSet<PlantRow> = start.iter().copied().collect();
        for generation in 0..=generations {
            let mut next = BTreeSet::new();
            for &plant in &layer {
                family.plants.insert(plant);
                let Some(origin) = self.pedigree.origin_row(plant) else {
                    continue;
                };
                if generation == generations {
                    family.cut.insert(plant);
                    continue;
                }
                family.origins.insert(origin);
                next.extend(self.pedigree[origin].parents());
            }
            // A plant already in was met on a shorter way; its parents are in or coming.
            layer = next.difference(&family.plants).copied().collect();
            if layer.is_empty() {
                break;
            }
        }
        let cut = std::mem::take(&mut family.cut);
        let reached = |plant: &PlantRow| {
            self.pedigree
                .origin_row(*plant)
                .is_some_and(|o| family.origins.contains(&o))
        };
        let is_named = |plant: &PlantRow| self.pedigree.parents(*plant).next().is_some();
        family.cut = cut
            .into_iter()
            .filter(|plant| is_named(plant) && !reached(plant))
            .collect();
        family
    }

    /// A plant with its descendants through at most `generations` crosses: the origins it is a parent of and those of
    /// their plants that are parents in turn. Plants without offspring are counted by their origins, not listed.
    pub fn descendants(&self, start: &[PlantRow], generations: u32) -> Family {
        let mut family = Family::default();
        family.plants.extend(start);
        let mut layer: Vec<PlantRow> = start.to_vec();
        for _ in 0..generations {
            let mut next = Vec::new();
            for plant in layer {
                for (origin, _) in self.offspring_of(plant) {
                    if family.origins.insert(origin) {
                        next.extend(self.parents_from(origin));
                    }
                }
            }
            next.retain(|plant| family.plants.insert(*plant));
            if next.is_empty() {
                break;
            }
            layer = next;
        }
        family
    }
}
