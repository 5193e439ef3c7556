//! A season without its loads as a network: source, lines, seed parents, demands, pollen lots, donors, lines, sink.
//!
//! What must be is a channel that outweighs everything else; if one is not full, no plan can do it. Whatever a pod is
//! taken to be worth, the best flow is whole numbers.

use super::flow::Flow;
use super::relax::Domain;
use super::units::Question;

/// A duty (a line to keep, a pod that must be made) outweighs any value a path can have.
const DUTY: i64 = 1 << 57;
/// Where the places of the network lie.
struct Places {
    seed_lines: usize,
    seeds: usize,
    demands: usize,
    lots: usize,
    donors: usize,
    donor_lines: usize,
    sink: usize,
}

impl Places {
    fn of(question: &Question) -> Self {
        let seed_lines = 2;
        let seeds = seed_lines + question.seed_lines;
        let demands = seeds + question.seed_pods.len();
        let lots = demands + question.demands.len();
        let donors = lots + question.lot_uses.len();
        let donor_lines = donors + question.donor_uses.len();
        let sink = donor_lines + question.donor_lines;
        Self {
            seed_lines,
            seeds,
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
    lots: Vec<u32>,
    donors: Vec<u32>,
    seed_lines: Vec<bool>,
    donor_lines: Vec<bool>,
    demands: Vec<u32>,
    fewest: u32,
    most: u32,
}

impl Rest {
    fn of(question: &Question, domain: &Domain) -> Option<Self> {
        let mut rest = Self {
            seeds: question.seed_pods.clone(),
            lots: question.lot_uses.clone(),
            donors: question.donor_uses.clone(),
            seed_lines: vec![true; question.seed_lines],
            donor_lines: vec![true; question.donor_lines],
            demands: question.demands.iter().map(|demand| demand.least).collect(),
            fewest: question.fewest,
            most: question.most,
        };
        for (choice, &pods) in question.choices.iter().zip(&domain.least) {
            if pods == 0 {
                continue;
            }
            let donor = question.lot_donor[choice.lot];
            rest.seeds[choice.seed] = rest.seeds[choice.seed].checked_sub(pods)?;
            rest.lots[choice.lot] = rest.lots[choice.lot].checked_sub(pods)?;
            rest.donors[donor] = rest.donors[donor].checked_sub(pods)?;
            rest.most = rest.most.checked_sub(pods)?;
            rest.fewest = rest.fewest.saturating_sub(pods);
            if let Some(demand) = choice.demand {
                rest.demands[demand] = rest.demands[demand].saturating_sub(pods);
            }
            if let Some(line) = question.seed_line[choice.seed] {
                rest.seed_lines[line] = false;
            }
            if let Some(line) = question.donor_line[donor] {
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
    /// Channels looked at.
    pub looks: u64,
}

/// The best plan of a domain when a pod of each choice is worth so much; `None` if something that must be is beyond
/// reach.
pub(super) fn best_of_network(
    question: &Question,
    domain: &Domain,
    worths: &[i64],
) -> Option<BestOfNetwork> {
    let rest = Rest::of(question, domain)?;
    let places = Places::of(question);
    let mut flow = Flow::new(places.sink + 1, question.choices.len() + 2 * places.sink);
    let mut duties = lay_to_seeds(question, &rest, &places, &mut flow);
    duties.extend(lay_to_demands(question, &rest, &places, &mut flow));
    let mut channels = vec![None; question.choices.len()];
    for (at, choice) in question.choices.iter().enumerate() {
        let more = domain.most[at] - domain.least[at];
        let more = more.min(rest.seeds[choice.seed]).min(rest.lots[choice.lot]);
        let from = match choice.demand {
            Some(demand) => places.demands + demand,
            None => places.seeds + choice.seed,
        };
        let to = places.lots + choice.lot;
        channels[at] = (more > 0).then(|| flow.channel(from, to, more, worths[at]));
    }
    duties.extend(lay_from_lots(question, &rest, &places, &mut flow));
    flow.send(0, places.sink);
    if duties
        .iter()
        .any(|&(channel, units)| flow.sent(channel) < units)
    {
        return None;
    }
    let more = |channel: &Option<usize>| channel.map_or(0, |channel| flow.sent(channel));
    let loss = |channel: &Option<usize>| {
        channel.map_or(i64::MAX, |channel| flow.reduced_cost(channel).max(0))
    };
    let sent = channels
        .iter()
        .zip(&domain.least)
        .map(|(channel, least)| least + more(channel));
    Some(BestOfNetwork {
        sent: sent.collect(),
        loss: channels.iter().map(loss).collect(),
        looks: flow.looks,
    })
}

/// Source, lines, seed parents. Gives the channels that must be full.
fn lay_to_seeds(
    question: &Question,
    rest: &Rest,
    places: &Places,
    flow: &mut Flow,
) -> Vec<(usize, u32)> {
    let mut duties = vec![(flow.channel(0, 1, rest.fewest, DUTY), rest.fewest)];
    flow.channel(0, 1, rest.most - rest.fewest, 0);
    for (line, &wanted) in rest.seed_lines.iter().enumerate() {
        if wanted {
            duties.push((flow.channel(1, places.seed_lines + line, 1, DUTY), 1));
        }
        flow.channel(1, places.seed_lines + line, rest.most, 0);
    }
    for (seed, &pods) in rest.seeds.iter().enumerate() {
        let from = question.seed_line[seed].map_or(1, |line| places.seed_lines + line);
        flow.channel(from, places.seeds + seed, pods, 0);
    }
    duties
}

/// Seed parents to what is demanded of them: one place for each demand, from which all lots of its donor are reached, so
/// that any of them will do. Gives the channels that must be full.
fn lay_to_demands(
    question: &Question,
    rest: &Rest,
    places: &Places,
    flow: &mut Flow,
) -> Vec<(usize, u32)> {
    let mut duties = Vec::new();
    for (at, (demand, &least)) in question.demands.iter().zip(&rest.demands).enumerate() {
        let (from, to) = (places.seeds + demand.seed, places.demands + at);
        duties.push((flow.channel(from, to, least, DUTY), least));
        flow.channel(from, to, rest.seeds[demand.seed], 0);
    }
    duties
}

/// Lots, donors, lines, sink. Gives the channels that must be full.
fn lay_from_lots(
    question: &Question,
    rest: &Rest,
    places: &Places,
    flow: &mut Flow,
) -> Vec<(usize, u32)> {
    for (lot, &uses) in rest.lots.iter().enumerate() {
        flow.channel(
            places.lots + lot,
            places.donors + question.lot_donor[lot],
            uses,
            0,
        );
    }
    for (donor, &uses) in rest.donors.iter().enumerate() {
        let to = question.donor_line[donor].map_or(places.sink, |line| places.donor_lines + line);
        flow.channel(places.donors + donor, to, uses, 0);
    }
    let mut duties = Vec::new();
    for (line, &wanted) in rest.donor_lines.iter().enumerate() {
        let from = places.donor_lines + line;
        if wanted {
            duties.push((flow.channel(from, places.sink, 1, DUTY), 1));
        }
        flow.channel(from, places.sink, rest.most, 0);
    }
    duties
}
