//! Plain greedy work: a plan that breaks a limit made to fit.
//!
//! A plan made to fit is only a good start for the search, never the answer.

use super::units::IntegerModel;

/// Takes pods out of a plan until its loads fit and its spikes bear no more than they can, then adds the most valuable pods
/// there is room for. `None` if taking pods out does not help.
pub(super) fn made_to_fit(model: &IntegerModel, sent: &[u32]) -> Option<Vec<u32>> {
    let mut sent = sent.to_vec();
    while let Some(load) = (0..model.capacities.len()).find(|&l| model.room(l, &sent) < 0) {
        let removable = (0..sent.len()).filter(|&at| {
            sent[at] > 0 && model.choices[at].loads[load] > 0 && model.spared(&sent, at)
        });
        let price =
            |at: usize| model.choices[at].value as f64 / model.choices[at].loads[load] as f64;
        let cheapest = removable.min_by(|&a, &b| price(a).total_cmp(&price(b)))?;
        sent[cheapest] -= 1;
    }
    while let Some(set) = model.crowded_spikes(&sent) {
        let removable = (0..sent.len()).filter(|&at| {
            sent[at] > 0 && model.choices[at].spikes.contains(&set) && model.spared(&sent, at)
        });
        let cheapest = removable.min_by_key(|&at| model.choices[at].value)?;
        sent[cheapest] -= 1;
    }
    fill(model, &mut sent);
    Some(sent)
}

/// The most valuable pods of a plan that the seed parents, the pollen and the number of pods suffice for.
pub(super) fn within_uses(model: &IntegerModel, sent: &[u32]) -> Vec<u32> {
    let nothing = vec![0; sent.len()];
    let mut left = Left::of(model, &nothing);
    // Loads are looked at when the plan is made to fit.
    left.rooms.clear();
    let mut order: Vec<usize> = (0..sent.len()).filter(|&at| sent[at] > 0).collect();
    order.sort_by_key(|&at| std::cmp::Reverse(model.choices[at].value));
    let mut within = nothing;
    for at in order {
        while within[at] < sent[at] && left.take(model, at) {
            within[at] += 1;
        }
    }
    within
}

/// Exchanges at most.
const EXCHANGES: usize = 60;

/// Exchanges one pod for a more valuable one as long as the loads and limits allow, the greatest gain first, and fills
/// what room that leaves. Lines to keep are not looked at: whoever asks must check the plan.
pub(super) fn exchanged(model: &IntegerModel, sent: &[u32]) -> Vec<u32> {
    let mut sent = sent.to_vec();
    for _ in 0..EXCHANGES {
        let Some((out, into)) = best_exchange(model, &sent) else {
            break;
        };
        sent[out] -= 1;
        sent[into] += 1;
        fill(model, &mut sent);
    }
    sent
}

fn best_exchange(model: &IntegerModel, sent: &[u32]) -> Option<(usize, usize)> {
    let mut left = Left::of(model, sent);
    let value = |at: usize| model.choices[at].value;
    let mut best: Option<(i64, usize, usize)> = None;
    for out in (0..sent.len()).filter(|&out| sent[out] > 0 && model.spared(sent, out)) {
        left.move_by(model, out, 1);
        for &into in &model.by_value {
            let gain = value(into) - value(out);
            if gain <= best.map_or(0, |best| best.0) {
                break;
            }
            if sent[into] < model.choices[into].most && left.allows(model, into) {
                best = Some((gain, out, into));
            }
        }
        left.move_by(model, out, -1);
    }
    best.map(|(_, out, into)| (out, into))
}

fn fill(model: &IntegerModel, sent: &mut [u32]) {
    let mut left = Left::of(model, sent);
    let worth_a_pod = |at: &&usize| model.choices[**at].value > 0;
    for &at in model.by_value.iter().take_while(worth_a_pod) {
        while sent[at] < model.choices[at].most && left.take(model, at) {
            sent[at] += 1;
        }
    }
}

/// What a plan leaves of each limit.
struct Left {
    seeds: Vec<u32>,
    lots: Vec<u32>,
    donors: Vec<u32>,
    rooms: Vec<i128>,
    spikes: Vec<i64>,
    pods: u32,
}

impl Left {
    fn of(model: &IntegerModel, sent: &[u32]) -> Self {
        let mut left = Self {
            seeds: model.seed_pods.clone(),
            lots: model.lot_uses.clone(),
            donors: model.donor_uses.clone(),
            rooms: (0..model.capacities.len())
                .map(|load| model.room(load, sent))
                .collect(),
            spikes: model.room_on_spikes(sent),
            pods: model.most.saturating_sub(sent.iter().sum()),
        };
        for (choice, &n) in model.choices.iter().zip(sent) {
            left.seeds[choice.seed] = left.seeds[choice.seed].saturating_sub(n);
            left.lots[choice.lot] = left.lots[choice.lot].saturating_sub(n);
            let donor = model.lot_donor[choice.lot];
            left.donors[donor] = left.donors[donor].saturating_sub(n);
        }
        left
    }

    /// Whether there is room for one more pod.
    fn allows(&self, model: &IntegerModel, at: usize) -> bool {
        let choice = &model.choices[at];
        let donor = model.lot_donor[choice.lot];
        let free = self.pods > 0
            && self.seeds[choice.seed] > 0
            && self.lots[choice.lot] > 0
            && self.donors[donor] > 0;
        let fits = self
            .rooms
            .iter()
            .zip(&choice.loads)
            .all(|(room, &load)| *room >= i128::from(load));
        free && fits && choice.spikes.iter().all(|set| self.spikes[*set] > 0)
    }

    fn take(&mut self, model: &IntegerModel, at: usize) -> bool {
        let allowed = self.allows(model, at);
        if allowed {
            self.move_by(model, at, -1);
        }
        allowed
    }

    /// Gives back the room of so many pods, or takes it when negative.
    fn move_by(&mut self, model: &IntegerModel, at: usize, pods: i32) {
        let choice = &model.choices[at];
        let donor = model.lot_donor[choice.lot];
        for left in [
            &mut self.pods,
            &mut self.seeds[choice.seed],
            &mut self.lots[choice.lot],
            &mut self.donors[donor],
        ] {
            *left = left.saturating_add_signed(pods);
        }
        for (room, &load) in self.rooms.iter_mut().zip(&choice.loads) {
            *room += i128::from(load) * i128::from(pods);
        }
        for set in &choice.spikes {
            self.spikes[*set] += i64::from(pods);
        }
    }
}
