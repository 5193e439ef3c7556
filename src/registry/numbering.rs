//! Rows for all plants, founders first, and the origins of their pods.
//!
//! Crosses are numbered as units, since all seedlings of one have the same possible parents; a seedling from a muddled
//! tray, which may belong to another cross, is a unit of its own that comes after those crosses. Of a loop one unit
//! loses its parents, with a finding that names the whole loop, and the rest goes on.

use super::cross::Cross;
use super::lookup::Lookup;
use super::mating::{Mating, Side};
use super::order::founders_first;
use super::origin::{Donor, Origin, Pair, PlantRow};
use super::parents::{Codes, Named};
use super::plants::{KnownBy, Plant, Unseen};
use crate::diagnostic::{Code, Finding, Findings};
use crate::text::{Sources, Span};

/// A seedling that may come from pods of more than one cross.
struct Muddled {
    cross: u32,
    local: u32,
    /// Crosses its pods belong to, in order; none when its parents count as unknown.
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
    let mut muddled = muddled(codes, parts, findings);
    let units = Units {
        sources: codes.sources,
        parts,
        unseen,
        muddled: &muddled,
        matings: &matings,
    };
    let mut without_parents = Vec::new();
    let order = founders_first(&units.links(), |in_loop| {
        findings.push(units.own_ancestor(in_loop));
        without_parents.push(in_loop[0]);
    });
    for unit in without_parents {
        match (unit as usize).checked_sub(parts.len()) {
            None => matings[unit as usize].pairs = vec![(Side::Unknown, Side::Unknown, 0)],
            Some(at) => muddled[at].crosses.clear(),
        }
    }
    give_rows(parts, unseen, &muddled, &matings, founders, &order)
}

struct Units<'a, 't> {
    sources: &'t Sources,
    parts: &'a [Cross<'t>],
    unseen: &'a [Unseen<'t>],
    muddled: &'a [Muddled],
    matings: &'a [Mating<'t>],
}

impl<'t> Units<'_, 't> {
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

    /// For each unit those that must come before it.
    fn links(&self) -> Vec<Vec<u32>> {
        let crosses = (0..self.parts.len() as u32).map(|cross| self.cross_sources(cross));
        let muddled = self.muddled.iter().map(|plant| plant.crosses.clone());
        crosses.chain(muddled).collect()
    }

    /// The whole loop in words, each step at its place.
    fn own_ancestor(&self, in_loop: &[u32]) -> Finding {
        let sources = in_loop.iter().cycle().skip(1);
        let steps: Vec<(String, Option<Span>)> = in_loop
            .iter()
            .zip(sources)
            .map(|(&unit, &source)| self.step(unit, source))
            .collect();
        let told: Vec<&str> = steps.iter().map(|(told, _)| told.as_str()).collect();
        let mut finding = Finding::fault(Code("own-ancestor"), "a plant would be its own ancestor")
            .at(steps[0].1)
            .found(told.join(", "))
            .needed("parents that are older than their seedlings")
            .help(format!(
                "one of these parents is wrong; until it is mended the parents of {} count as unknown",
                self.named(in_loop[0])
            ));
        for (_, place) in &steps[1..] {
            if let Some(place) = place {
                finding = finding.related(*place, "and here");
            }
        }
        finding
    }

    /// Why a unit must come after its source, and where that is said.
    fn step(&self, unit: u32, source: u32) -> (String, Option<Span>) {
        let named = self.named(unit);
        if let Some(at) = (unit as usize).checked_sub(self.parts.len()) {
            let Muddled { cross, local, .. } = self.muddled[at];
            let page = &self.parts[cross as usize];
            let place = self
                .sources
                .span_of(page.file, page.number_text(self.sources, local));
            return (
                format!("{named} may come from {}", self.named(source)),
                place,
            );
        }
        let parent = self.parent_in(unit, source).unwrap_or("?");
        let file = self.parts[unit as usize].file;
        let place = self.sources.span_of(file, parent);
        (format!("{named} has parent {parent}"), place)
    }

    fn named(&self, unit: u32) -> String {
        let Some(at) = (unit as usize).checked_sub(self.parts.len()) else {
            return self.parts[unit as usize].page.code.to_owned();
        };
        let Muddled { cross, local, .. } = self.muddled[at];
        let page = &self.parts[cross as usize];
        format!(
            "{}-{}",
            page.page.code,
            page.number_text(self.sources, local)
        )
    }

    /// The code of the parent of a cross that belongs to a unit.
    fn parent_in(&self, cross: u32, unit: u32) -> Option<&'t str> {
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
        if page.rests.iter().all(|rest| rest.one_of.is_empty()) {
            continue;
        }
        for local in 0..page.locals.len() as u32 {
            let Some(rest) = page.whole_record(local) else {
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
                    local,
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
    // Pods of the cross that was named, or of this page and every cross by its first pod.
    let told = |of: &Cross<'t>, pod: &str| format!("{}.{pod}", of.page.code);
    let mut near: Vec<String> = page.page.pods.iter().map(|p| p.code.to_owned()).collect();
    match of.filter(|&of| of != cross) {
        Some(of) => {
            let of = &parts[of as usize];
            near.extend(of.page.pods.iter().map(|p| told(of, p.code)));
        }
        None if codes.may_suggest() => near.extend(parts.iter().map(|of| told(of, local))),
        None => {}
    }
    findings.push(lookup.unknown("pod", pod, near.iter().map(String::as_str)));
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

/// All pairs of all the crosses a muddled seedling may belong to; unknown parents when there is none left.
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
    if all.is_empty() {
        return Origin::certain(None, None);
    }
    Origin {
        pairs: all,
        donor: Donor::EachSeed,
    }
}
