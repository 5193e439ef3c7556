//! Rows for all plants, founders first, and the origins of their pods.
//!
//! Crosses are numbered as units, since all seedlings of one have the same possible parents; a seedling from a muddled
//! tray, which may belong to another cross, is a unit of its own. What is left on a loop loses its parents, with a
//! finding that names the whole loop, and the rest goes on.

use super::cross::Cross;
use super::lookup::Lookup;
use super::mating::{Mating, Side};
use super::order::founders_first;
use super::origin::{Donor, Origin, Pair, PlantRow};
use super::parents::{Codes, Named};
use super::plants::{KnownBy, Plant, Unseen};
use crate::diagnostic::{Code, Finding, Findings};

/// A seedling that may come from pods of more than one cross.
struct Muddled {
    cross: u32,
    local: u32,
    /// Crosses its pods belong to, in order.
    crosses: Vec<u32>,
}

/// Everything numbered.
pub(super) struct Numbered {
    pub rows: Vec<Plant>,
    pub origins: Vec<Origin>,
}

/// Gives every plant its row.
pub(super) fn number<'t>(
    codes: &Codes<'t>,
    parts: &mut [Cross<'t>],
    unseen: &mut [Unseen<'t>],
    mut matings: Vec<Mating<'t>>,
    founders: usize,
    findings: &mut Findings,
) -> Numbered {
    let muddled = muddled(codes, parts, findings);
    let mut units = Units {
        parts,
        unseen,
        muddled: &muddled,
        matings: &mut matings,
    };
    let order = loop {
        let sources = units.sources();
        let numbering = founders_first(&sources);
        if numbering.in_loop.is_empty() {
            break numbering.order;
        }
        units.cut(codes, &numbering.in_loop, findings);
    };
    give_rows(parts, unseen, &muddled, &matings, founders, &order)
}

struct Units<'a, 't> {
    parts: &'a [Cross<'t>],
    unseen: &'a [Unseen<'t>],
    muddled: &'a [Muddled],
    matings: &'a mut [Mating<'t>],
}

impl Units<'_, '_> {
    /// The unit a parent belongs to, if it is no founder.
    fn unit_of(&self, side: Side) -> Option<u32> {
        match side {
            Side::Plant(Named::Seedling { cross, local }, _) => {
                let own = self
                    .muddled
                    .binary_search_by_key(&(cross, local), |m| (m.cross, m.local));
                Some(own.map_or(cross, |at| (self.parts.len() + at) as u32))
            }
            Side::Unseen(at, _) => match self.unseen[at as usize].known_by {
                KnownBy::SeedlingOf(cross) => Some(cross),
                _ => None,
            },
            _ => None,
        }
    }

    fn cross_sources(&self, cross: u32) -> Vec<u32> {
        let pairs = &self.matings[cross as usize].pairs;
        let mut units: Vec<u32> = pairs
            .iter()
            .flat_map(|(seed, pollen, _)| [*seed, *pollen])
            .filter_map(|side| self.unit_of(side))
            .collect();
        units.sort_unstable();
        units.dedup();
        units
    }

    fn sources(&self) -> Vec<Vec<u32>> {
        let mut sources: Vec<Vec<u32>> = (0..self.parts.len() as u32)
            .map(|cross| self.cross_sources(cross))
            .collect();
        for muddled in self.muddled {
            let mut units: Vec<u32> = muddled
                .crosses
                .iter()
                .flat_map(|&cross| sources[cross as usize].clone())
                .collect();
            units.sort_unstable();
            units.dedup();
            sources.push(units);
        }
        sources
    }

    /// Takes the parents from one cross of a loop and tells the whole loop.
    fn cut(&mut self, codes: &Codes, in_loop: &[u32], findings: &mut Findings) {
        let crosses = self.parts.len() as u32;
        let cross_of = |unit: u32| match unit.checked_sub(crosses) {
            Some(muddled) => self.muddled[muddled as usize].cross,
            None => unit,
        };
        let steps: Vec<(u32, &str)> = in_loop
            .iter()
            .enumerate()
            .map(|(at, &unit)| {
                let source = in_loop[(at + 1) % in_loop.len()];
                let crosses: Vec<u32> = match unit.checked_sub(crosses) {
                    Some(muddled) => self.muddled[muddled as usize].crosses.clone(),
                    None => vec![unit],
                };
                let parent = crosses
                    .iter()
                    .find_map(|&cross| self.parent_in(cross, source));
                (cross_of(unit), parent.unwrap_or("?"))
            })
            .collect();
        let told: Vec<String> = steps
            .iter()
            .map(|(cross, parent)| {
                format!(
                    "{} has parent {parent}",
                    self.parts[*cross as usize].page.code
                )
            })
            .collect();
        let (cross, parent) = steps[0];
        let file = self.parts[cross as usize].file;
        let mut finding = Finding::fault(Code("own-ancestor"), "a plant would be its own ancestor")
            .at(codes.sources.span_of(file, parent))
            .found(told.join(", "))
            .needed("parents that are older than their seedlings")
            .help(format!(
                "one of these parents is wrong; until it is mended the parents of {} count as unknown",
                self.parts[cross as usize].page.code
            ));
        for (cross, parent) in &steps[1..] {
            let file = self.parts[*cross as usize].file;
            if let Some(place) = codes.sources.span_of(file, parent) {
                finding = finding.related(place, "and here");
            }
        }
        findings.push(finding);
        self.matings[cross as usize].pairs = vec![(Side::Unknown, Side::Unknown, 0)];
    }

    /// The code of the parent of a cross that belongs to a unit.
    fn parent_in(&self, cross: u32, unit: u32) -> Option<&str> {
        let pairs = &self.matings[cross as usize].pairs;
        pairs
            .iter()
            .flat_map(|(seed, pollen, _)| [*seed, *pollen])
            .find_map(|side| {
                let code = match side {
                    Side::Plant(_, code) | Side::Unseen(_, code) => code,
                    Side::Unknown => return None,
                };
                (self.unit_of(side) == Some(unit)).then_some(code)
            })
    }
}

/// Seedlings whose pods lie in more than one cross, or in another cross than their page.
fn muddled<'t>(codes: &Codes<'t>, parts: &[Cross<'t>], findings: &mut Findings) -> Vec<Muddled> {
    let mut muddled = Vec::new();
    for (cross, page) in parts.iter().enumerate() {
        for (local, row) in page.locals.iter().enumerate() {
            let Some(rest) = page.rests.get(row.rest as usize) else {
                continue;
            };
            let mut crosses: Vec<u32> = rest
                .one_of
                .iter()
                .filter_map(|pod| pod_cross(codes, parts, cross as u32, pod, findings))
                .collect();
            crosses.sort_unstable();
            crosses.dedup();
            if !crosses.is_empty() && crosses != [cross as u32] {
                muddled.push(Muddled {
                    cross: cross as u32,
                    local: local as u32,
                    crosses,
                });
            }
        }
    }
    muddled
}

/// The cross a pod belongs to: `P1` is a pod of this page, `X21-03.P1` of another.
fn pod_cross<'t>(
    codes: &Codes<'t>,
    parts: &[Cross<'t>],
    cross: u32,
    pod: &'t str,
    findings: &mut Findings,
) -> Option<u32> {
    let (of, local) = match pod.split_once('.') {
        Some((other, local)) => (codes.cross(other), local),
        None => (Some(cross), pod),
    };
    let known = |of: u32| parts[of as usize].page.pods.iter().any(|p| p.code == local);
    if let Some(of) = of.filter(|&of| known(of)) {
        return Some(of);
    }
    let page = &parts[cross as usize];
    let lookup = Lookup {
        sources: codes.sources,
        file: page.file,
    };
    let all: Vec<String> = parts
        .iter()
        .flat_map(|p| p.page.pods.iter().map(move |pod| (p.page.code, pod.code)))
        .map(|(of, pod)| {
            if of == page.page.code {
                pod.into()
            } else {
                format!("{of}.{pod}")
            }
        })
        .collect();
    findings.push(lookup.unknown("pod", pod, all.iter().map(String::as_str)));
    None
}

fn give_rows<'t>(
    parts: &mut [Cross<'t>],
    unseen: &mut [Unseen<'t>],
    muddled: &[Muddled],
    matings: &[Mating<'t>],
    founders: usize,
    order: &[u32],
) -> Numbered {
    let total = founders + unseen.len() + parts.iter().map(|p| p.locals.len()).sum::<usize>();
    let mut rows: Vec<Plant> = Vec::with_capacity(total);
    let founder = |home| Plant {
        home,
        local: Plant::IS_FOUNDER,
        origin: Plant::FOUNDER,
    };
    rows.extend((0..founders as u32).map(founder));
    for (at, plant) in unseen.iter_mut().enumerate() {
        if !matches!(plant.known_by, KnownBy::SeedlingOf(_)) {
            plant.row = PlantRow(rows.len() as u32);
            rows.push(Plant {
                home: at as u32,
                local: Plant::IS_UNSEEN,
                origin: Plant::FOUNDER,
            });
        }
    }
    let mut unseen_of: Vec<Vec<u32>> = vec![Vec::new(); parts.len()];
    for (at, plant) in unseen.iter().enumerate() {
        if let KnownBy::SeedlingOf(cross) = plant.known_by {
            unseen_of[cross as usize].push(at as u32);
        }
    }
    for page in parts.iter_mut() {
        page.seedlings = vec![PlantRow(u32::MAX); page.locals.len()];
    }
    let mut alone: Vec<Vec<u32>> = vec![Vec::new(); parts.len()];
    for plant in muddled {
        alone[plant.cross as usize].push(plant.local);
    }
    let mut origins: Vec<Origin> = Vec::with_capacity(parts.len());
    for &unit in order {
        let origin = origins.len() as u32;
        if let Some(at) = (unit as usize).checked_sub(parts.len()) {
            let plant = &muddled[at];
            origins.push(muddled_origin(parts, unseen, matings, &plant.crosses));
            let row = PlantRow(rows.len() as u32);
            rows.push(Plant {
                home: plant.cross,
                local: plant.local,
                origin,
            });
            parts[plant.cross as usize].seedlings[plant.local as usize] = row;
            continue;
        }
        let mating = &matings[unit as usize];
        origins.push(Origin {
            pairs: pairs(parts, unseen, mating),
            donor: mating.donor,
        });
        let page = &mut parts[unit as usize];
        page.origin = origin;
        let mut skip = alone[unit as usize].iter().peekable();
        for local in 0..page.locals.len() as u32 {
            if skip.next_if_eq(&&local).is_some() {
                continue;
            }
            page.seedlings[local as usize] = PlantRow(rows.len() as u32);
            rows.push(Plant {
                home: unit,
                local,
                origin,
            });
        }
        for &at in &unseen_of[unit as usize] {
            unseen[at as usize].row = PlantRow(rows.len() as u32);
            rows.push(Plant {
                home: at,
                local: Plant::IS_UNSEEN,
                origin,
            });
        }
    }
    Numbered { rows, origins }
}

fn row_of(parts: &[Cross], unseen: &[Unseen], side: Side) -> Option<PlantRow> {
    match side {
        Side::Unknown => None,
        Side::Unseen(at, _) => Some(unseen[at as usize].row),
        Side::Plant(Named::Founder(at), _) => Some(PlantRow(at)),
        Side::Plant(Named::Seedling { cross, local }, _) => {
            Some(parts[cross as usize].seedlings[local as usize])
        }
        Side::Plant(Named::Cross(_) | Named::Species(_), _) => None,
    }
}

fn pairs(parts: &[Cross], unseen: &[Unseen], mating: &Mating) -> Vec<Pair> {
    let pairs = mating.pairs.iter();
    pairs
        .map(|&(seed, pollen, weight)| Pair {
            seed: row_of(parts, unseen, seed),
            pollen: row_of(parts, unseen, pollen),
            weight,
        })
        .collect()
}

/// All pairs of all the crosses a muddled seedling may belong to.
fn muddled_origin(
    parts: &[Cross],
    unseen: &[Unseen],
    matings: &[Mating],
    crosses: &[u32],
) -> Origin {
    let mut all: Vec<Pair> = Vec::new();
    for &cross in crosses {
        for pair in pairs(parts, unseen, &matings[cross as usize]) {
            let pair = Pair { weight: 0, ..pair };
            if !all.contains(&pair) {
                all.push(pair);
            }
        }
    }
    Origin {
        pairs: all,
        donor: Donor::EachSeed,
    }
}
