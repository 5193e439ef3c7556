//! Seedlings of muddled trays and pots, whose pods are of more than one cross, or in another cross than their page.
//!
//! A seedling says itself which pods it may be of, or it was numbered out of a community pot that says so: then it
//! inherits the doubt of the pot, each plant for itself. A pod written on the seedling's own record is surer, and what was
//! numbered before the pots were mixed up no longer stood in them.

use super::cross::Cross;
use super::lookup::Lookup;
use super::page_seedlings::left_before_mix_up;
use super::parents::Codes;
use super::row_types::{CrossRow, OriginRow, PlantRow, PodRow, PotRow};
use super::seedling::SeedlingRow;
use super::target::Target;
use super::whole::Registry;
use crate::diagnostic::Findings;
use crate::record::When;

/// What may come from pods of more than one cross.
pub(super) struct Muddled {
    pub cross: CrossRow,
    pub member: Member,
    /// Crosses its pods belong to, in order; none when its parents count as unknown.
    pub crosses: Vec<CrossRow>,
    /// The cross of each of its pods, in order.
    pub pods: Vec<CrossRow>,
}

/// A seedling or a community pot of a page, by its place there.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) enum Member {
    Seedling(u32),
    Pot(usize),
}

/// Seedlings and pots whose pods are of more than one cross, or in another cross than their page.
pub(super) fn muddled<'t>(
    codes: &Codes<'t>,
    parts: &[Cross<'t>],
    findings: &mut Findings,
) -> Vec<Muddled> {
    let mut muddled = Vec::new();
    for (cross, page) in CrossRow::all(parts.len()).zip(parts) {
        // Pods a pot names and that are not there are told of by `check`, once for the pot.
        let of_pot = |pods: &[&str]| {
            sorted(
                pods.iter()
                    .filter_map(|pod| known_pod(codes, parts, cross, pod)),
            )
        };
        let of_pots: Vec<Vec<CrossRow>> = page
            .page
            .community_pots
            .iter()
            .map(|pot| of_pot(&pot.one_of))
            .collect();
        let says_nothing = page.details.iter().all(|detail| detail.one_of.is_empty());
        if says_nothing && of_pots.iter().all(Vec::is_empty) {
            continue;
        }
        let seedlings = (0..page.seedling_rows.len() as u32).map(|local| {
            let own = page.own_pods(local);
            let of = |pod: &&'t str| pod_cross(codes, parts, cross, pod, findings);
            let crosses = match page.muddled_pot(local) {
                Some(pot) => of_pots[pot].clone(),
                None => sorted(own.iter().filter_map(of)),
            };
            (Member::Seedling(local), crosses)
        });
        let mut members: Vec<(Member, Vec<CrossRow>)> = seedlings.collect();
        let pots = of_pots.into_iter().zip(0..);
        members.extend(pots.map(|(crosses, pot)| (Member::Pot(pot), crosses)));
        members.retain(|(_, pods)| pods.iter().any(|of| *of != cross));
        muddled.extend(members.into_iter().map(|(member, pods)| {
            let mut crosses = pods.clone();
            crosses.dedup();
            Muddled {
                cross,
                member,
                crosses,
                pods,
            }
        }));
    }
    muddled
}

fn sorted(crosses: impl Iterator<Item = CrossRow>) -> Vec<CrossRow> {
    let mut crosses: Vec<CrossRow> = crosses.collect();
    crosses.sort_unstable();
    crosses
}

impl<'t> Cross<'t> {
    /// The pods a seedling's own record says it may be of.
    fn own_pods(&self, local: u32) -> &[&'t str] {
        self.whole_record(local)
            .map_or(&[][..], |rest| &rest.one_of[..])
    }

    /// The muddled pot a seedling was numbered out of, when its own record does not say more.
    fn muddled_pot(&self, local: u32) -> Option<usize> {
        let row = self.seedling_rows[local as usize];
        let at = self
            .pot_left(local)
            .filter(|_| row.pod == SeedlingRow::NOWHERE)?;
        let pot = &self.page.community_pots[at];
        let is_muddled = !pot.one_of.is_empty() && !left_before_mix_up(pot, self.numbered(local));
        is_muddled.then_some(at)
    }

    /// The pot a seedling was numbered out of, when its own record names no pods that it may be of.
    fn pot_left(&self, local: u32) -> Option<usize> {
        let pot = usize::from(self.seedling_rows[local as usize].community_pot);
        let is_known = pot < self.page.community_pots.len() && self.own_pods(local).is_empty();
        is_known.then_some(pot)
    }

    fn numbered(&self, local: u32) -> Option<&'t str> {
        self.whole_record(local).and_then(|rest| rest.numbered)
    }
}

impl Registry<'_> {
    /// The pods a seedling from a muddled tray or pot may come from; none for any other plant.
    pub fn pods_it_may_be_of(&self, plant: PlantRow) -> Vec<PodRow> {
        let Some(cross) = self.cross_of(plant) else {
            return Vec::new();
        };
        let page = &self[cross];
        let local = self.rows[plant.index()].local;
        match page.muddled_pot(local) {
            Some(at) => self.pods_of_pot(PotRow { cross, at }),
            None => self.pods_named(cross, page.own_pods(local)),
        }
    }

    /// The community pot a seedling was numbered out of and when, where its own record names no pods that it may be of. Whether
    /// its one pod stands on its own record or is that of the pot is not told apart here.
    pub fn stood_in(&self, plant: PlantRow) -> Option<(PotRow, When)> {
        let cross = self.cross_of(plant)?;
        let page = &self[cross];
        let local = self.rows[plant.index()].local;
        let at = page.pot_left(local)?;
        let numbered = page.numbered(local);
        let numbered = numbered.map_or(When::UNKNOWN, |on| self.when(on));
        Some((PotRow { cross, at }, numbered))
    }

    /// The pods the seedlings of a community pot may come from; none when the pot was not muddled.
    pub fn pods_of_pot(&self, pot: PotRow) -> Vec<PodRow> {
        self.pods_named(pot.cross, &self[pot].one_of)
    }

    /// Every community pot of a cross, then those of other crosses whose seedlings may be of several.
    pub fn pots_of_several_crosses(&self, cross: CrossRow) -> impl Iterator<Item = PotRow> {
        let own = self.community_pots(cross).map(|(row, _)| row);
        let others = self.pot_origins.keys().copied();
        own.chain(others.filter(move |row| row.cross != cross))
    }

    /// The origin of the seedlings of a community pot: that of its page, or one of its own when its pods
    /// lie elsewhere.
    pub fn origin_of_pot(&self, pot: PotRow) -> OriginRow {
        let own = self.pot_origins.get(&pot).copied();
        own.unwrap_or(self[pot.cross].origin)
    }

    /// The crosses that an origin of a muddled seedling or pot may be of, in order; none for the origin of a cross.
    pub fn crosses_it_may_be(&self, origin: OriginRow) -> &[CrossRow] {
        self.muddled_origins.get(&origin).map_or(&[], Vec::as_slice)
    }

    /// The pods that codes on the page of a cross name, each once.
    pub(super) fn pods_named(&self, cross: CrossRow, codes: &[&str]) -> Vec<PodRow> {
        let mut pods: Vec<PodRow> = Vec::new();
        for code in codes {
            let found = match code.contains('.') {
                true => match self.target(code) {
                    Some(Target::Pod(pod)) => Some(pod),
                    _ => None,
                },
                false => {
                    let mut own = self.pods(cross);
                    own.find(|(_, pod)| pod.code == *code).map(|(row, _)| row)
                }
            };
            pods.extend(found.filter(|pod| !pods.contains(pod)));
        }
        pods
    }
}

/// The cross a pod belongs to, if there is such a pod: `P1` is a pod of this page, `X21-03.P1` of another.
fn known_pod(codes: &Codes, parts: &[Cross], cross: CrossRow, pod: &str) -> Option<CrossRow> {
    let (of, local) = match pod.split_once('.') {
        Some((other, local)) => (codes.cross(other)?, local),
        None => (cross, pod),
    };
    let pods = &parts[of.index()].page.pods;
    pods.iter().any(|p| p.code == local).then_some(of)
}

/// The same, with a finding when there is none.
fn pod_cross<'t>(
    codes: &Codes<'t>,
    parts: &[Cross<'t>],
    cross: CrossRow,
    pod: &'t str,
    findings: &mut Findings,
) -> Option<CrossRow> {
    if let Some(of) = known_pod(codes, parts, cross, pod) {
        return Some(of);
    }
    let (of, local) = match pod.split_once('.') {
        Some((other, local)) => (codes.cross(other), local),
        None => (Some(cross), pod),
    };
    let page = &parts[cross.index()];
    let lookup = Lookup {
        sources: codes.sources,
        file: page.file,
    };
    if let Some(note) = codes.left_out(parts, "pod", pod, lookup) {
        findings.push(note);
        return None;
    }
    // Pods of this page and of the cross that was named; when none was, pods of that code in every cross.
    let told = |of: &Cross<'t>, pod: &str| format!("{}.{pod}", of.page.code);
    let mut near: Vec<String> = page.page.pods.iter().map(|p| p.code.to_owned()).collect();
    match of.filter(|&of| of != cross) {
        Some(of) => {
            let of = &parts[of.index()];
            near.extend(of.page.pods.iter().map(|p| told(of, p.code)));
        }
        None if codes.may_suggest() => {
            let there = |of: &&Cross<'t>| of.page.pods.iter().any(|p| p.code == local);
            near.extend(parts.iter().filter(there).map(|of| told(of, local)));
        }
        None => {}
    }
    findings.push(lookup.unknown("pod", pod, near.iter().map(String::as_str)));
    None
}
