//! A season without its loads as a network: source, lines, seed parents, sets of spikes, demands, pollen lots, donors, lines,
//! sink.
//!
//! What must be is an arc that outweighs everything else; if one is not full, no plan can do it. Whatever a pod is
//! taken to be worth, the best flow is whole numbers.

use super::domain::Domain;
use super::flow::Flow;
use super::spike_sets::After;
use super::units::IntegerModel;

/// A duty (a line to keep, a pod that must be made) outweighs any value a path can have.
const BIG_M: i64 = 1 << 57;
/// The first node of each kind.
struct Nodes {
    seed_lines: usize,
    seeds: usize,
    spikes: usize,
    demands: usize,
    lots: usize,
    donors: usize,
    donor_lines: usize,
    sink: usize,
}

impl Nodes {
    fn of(model: &IntegerModel) -> Self {
        let seed_lines = 2;
        let seeds = seed_lines + model.seed_lines;
        let spikes = seeds + model.seed_pods.len();
        let demands = spikes + model.spike_sets.len();
        let lots = demands + model.demands.len();
        let donors = lots + model.lot_uses.len();
        let donor_lines = donors + model.donor_uses.len();
        let sink = donor_lines + model.donor_lines;
        Self {
            seed_lines,
            seeds,
            spikes,
            demands,
            lots,
            donors,
            donor_lines,
            sink,
        }
    }
}

/// What the fewest pods of a domain leave of each limit; `None` if they exceed one.
struct Rest {
    seeds: Vec<u32>,
    spikes: Vec<u32>,
    lots: Vec<u32>,
    donors: Vec<u32>,
    seed_lines: Vec<bool>,
    donor_lines: Vec<bool>,
    demands: Vec<u32>,
    fewest: u32,
    most: u32,
}

impl Rest {
    fn of(model: &IntegerModel, domain: &Domain) -> Option<Self> {
        let mut rest = Self {
            seeds: model.seed_pods.clone(),
            spikes: model.spike_sets.iter().map(|set| set.most).collect(),
            lots: model.lot_uses.clone(),
            donors: model.donor_uses.clone(),
            seed_lines: vec![true; model.seed_lines],
            donor_lines: vec![true; model.donor_lines],
            demands: model.demands.iter().map(|demand| demand.least).collect(),
            fewest: model.fewest,
            most: model.most,
        };
        for (choice, &pods) in model.choices.iter().zip(&domain.least) {
            if pods == 0 {
                continue;
            }
            let donor = model.lot_donor[choice.lot];
            rest.seeds[choice.seed] = rest.seeds[choice.seed].checked_sub(pods)?;
            for &set in &choice.spikes {
                rest.spikes[set] = rest.spikes[set].checked_sub(pods)?;
            }
            rest.lots[choice.lot] = rest.lots[choice.lot].checked_sub(pods)?;
            rest.donors[donor] = rest.donors[donor].checked_sub(pods)?;
            rest.most = rest.most.checked_sub(pods)?;
            rest.fewest = rest.fewest.saturating_sub(pods);
            if let Some(demand) = choice.demand {
                rest.demands[demand] = rest.demands[demand].saturating_sub(pods);
            }
            if let Some(line) = model.seed_line[choice.seed] {
                rest.seed_lines[line] = false;
            }
            if let Some(line) = model.donor_line[donor] {
                rest.donor_lines[line] = false;
            }
        }
        (rest.fewest <= rest.most).then_some(rest)
    }
}

/// The plan of the greatest worth that keeps all but the loads.
pub(super) struct BestOfNetwork {
    /// Pods of each choice.
    pub sent: Vec<u32>,
    /// For each choice by how much the worth falls at least when one more pod is forced on it.
    pub loss: Vec<i64>,
    /// Arcs looked at.
    pub looks: u64,
}

/// The best plan of a domain when a pod of each choice is worth so much; `None` if something that must be is beyond
/// reach.
pub(super) fn best_of_network(
    model: &IntegerModel,
    domain: &Domain,
    worths: &[i64],
) -> Option<BestOfNetwork> {
    let rest = Rest::of(model, domain)?;
    let nodes = Nodes::of(model);
    let mut flow = Flow::new(nodes.sink + 1, model.choices.len() + 2 * nodes.sink);
    let mut duties = lay_to_seeds(model, &rest, &nodes, &mut flow);
    lay_to_spikes(model, &rest, &nodes, &mut flow);
    duties.extend(lay_to_demands(model, &rest, &nodes, &mut flow));
    let mut arcs = vec![None; model.choices.len()];
    for (at, choice) in model.choices.iter().enumerate() {
        let more = domain.most[at] - domain.least[at];
        let more = more.min(rest.seeds[choice.seed]).min(rest.lots[choice.lot]);
        let from = match (choice.demand, choice.through) {
            (Some(demand), _) => nodes.demands + demand,
            (None, Some(set)) => nodes.spikes + set,
            (None, None) => nodes.seeds + choice.seed,
        };
        let to = nodes.lots + choice.lot;
        arcs[at] = (more > 0).then(|| flow.arc(from, to, more, worths[at]));
    }
    duties.extend(lay_from_lots(model, &rest, &nodes, &mut flow));
    flow.send(0, nodes.sink);
    if duties.iter().any(|&(arc, units)| flow.sent(arc) < units) {
        return None;
    }
    let more = |arc: &Option<usize>| arc.map_or(0, |arc| flow.sent(arc));
    let loss = |arc: &Option<usize>| arc.map_or(i64::MAX, |arc| flow.reduced_cost(arc).max(0));
    let sent = arcs
        .iter()
        .zip(&domain.least)
        .map(|(arc, least)| least + more(arc));
    Some(BestOfNetwork {
        sent: sent.collect(),
        loss: arcs.iter().map(loss).collect(),
        looks: flow.looks,
    })
}

/// Source, lines, seed parents. Gives the arcs that must be full.
fn lay_to_seeds(
    model: &IntegerModel,
    rest: &Rest,
    nodes: &Nodes,
    flow: &mut Flow,
) -> Vec<(usize, u32)> {
    let mut duties = vec![(flow.arc(0, 1, rest.fewest, BIG_M), rest.fewest)];
    flow.arc(0, 1, rest.most - rest.fewest, 0);
    for (line, &wanted) in rest.seed_lines.iter().enumerate() {
        if wanted {
            duties.push((flow.arc(1, nodes.seed_lines + line, 1, BIG_M), 1));
        }
        flow.arc(1, nodes.seed_lines + line, rest.most, 0);
    }
    for (seed, &pods) in rest.seeds.iter().enumerate() {
        let from = model.seed_line[seed].map_or(1, |line| nodes.seed_lines + line);
        flow.arc(from, nodes.seeds + seed, pods, 0);
    }
    duties
}

/// Seed parents to sets of their spikes, larger sets to smaller ones.
fn lay_to_spikes(model: &IntegerModel, rest: &Rest, nodes: &Nodes, flow: &mut Flow) {
    for (at, (set, &pods)) in model.spike_sets.iter().zip(&rest.spikes).enumerate() {
        let from = match set.after {
            Some(After::Seed(seed)) => nodes.seeds + seed,
            Some(After::Set(larger)) => nodes.spikes + larger,
            None => continue,
        };
        flow.arc(from, nodes.spikes + at, pods, 0);
    }
}

/// Seed parents to what is demanded of them: one place for each demand, from which all lots of its donor are reached, so
/// that any of them will do. Gives the arcs that must be full.
fn lay_to_demands(
    model: &IntegerModel,
    rest: &Rest,
    nodes: &Nodes,
    flow: &mut Flow,
) -> Vec<(usize, u32)> {
    let mut duties = Vec::new();
    for (at, (demand, &least)) in model.demands.iter().zip(&rest.demands).enumerate() {
        let (from, to) = (nodes.seeds + demand.seed, nodes.demands + at);
        duties.push((flow.arc(from, to, least, BIG_M), least));
        flow.arc(from, to, rest.seeds[demand.seed], 0);
    }
    duties
}

/// Lots, donors, lines, sink. Gives the arcs that must be full.
fn lay_from_lots(
    model: &IntegerModel,
    rest: &Rest,
    nodes: &Nodes,
    flow: &mut Flow,
) -> Vec<(usize, u32)> {
    for (lot, &uses) in rest.lots.iter().enumerate() {
        flow.arc(
            nodes.lots + lot,
            nodes.donors + model.lot_donor[lot],
            uses,
            0,
        );
    }
    for (donor, &uses) in rest.donors.iter().enumerate() {
        let to = model.donor_line[donor].map_or(nodes.sink, |line| nodes.donor_lines + line);
        flow.arc(nodes.donors + donor, to, uses, 0);
    }
    let mut duties = Vec::new();
    for (line, &wanted) in rest.donor_lines.iter().enumerate() {
        let from = nodes.donor_lines + line;
        if wanted {
            duties.push((flow.arc(from, nodes.sink, 1, BIG_M), 1));
        }
        flow.arc(from, nodes.sink, rest.most, 0);
    }
    duties
}
