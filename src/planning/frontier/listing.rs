//! All plans of a small season, counted through as an odometer does.

use super::super::season::{Plan, Season};

/// Plans looked at between two questions whether to go on.
const LOOKS_BETWEEN: usize = 1 << 12;

/// All plans of a season, or `None` if there are more than `most` (or too many to look through), or `goes_on`, which is
/// asked now and then, gives `false`.
pub fn all_plans(
    season: &Season,
    most: usize,
    goes_on: &mut dyn FnMut() -> bool,
) -> Option<Vec<Plan>> {
    let open: Vec<usize> = (0..season.pairings.len())
        .filter(|&at| season.open(&season.pairings[at]))
        .collect();
    let mut left = Left::of(season);
    let mut pods = vec![0u32; open.len()];
    let (mut plans, mut total) = (Vec::new(), 0);
    let mut looks = 0usize;
    loop {
        looks += 1;
        let asks = looks.is_multiple_of(LOOKS_BETWEEN);
        if looks > most.saturating_mul(64) || (asks && !goes_on()) {
            return None;
        }
        if total >= season.limits.fewest_pods {
            let given = open.iter().zip(&pods).filter(|(_, n)| **n > 0);
            let plan = season.plan(given.map(|(&at, &n)| (at, n)).collect());
            if season.allows(&plan) {
                plans.push(plan);
            }
            if plans.len() > most {
                return None;
            }
        }
        // Counting on, as an odometer does: the first place that can take one more takes it, those before go back.
        let mut at = 0;
        while at < open.len() && !left.take(season, open[at], pods[at]) {
            left.give_back(season, open[at], pods[at]);
            total -= std::mem::take(&mut pods[at]);
            at += 1;
        }
        if at == open.len() {
            return Some(plans);
        }
        pods[at] += 1;
        total += 1;
    }
}

struct Left {
    seeds: Vec<u32>,
    lots: Vec<u32>,
    donors: Vec<u32>,
    pods: u32,
}

impl Left {
    fn of(season: &Season) -> Self {
        Self {
            seeds: season.seed_parents.iter().map(|s| s.pods).collect(),
            lots: season.lots.iter().map(|l| l.uses).collect(),
            donors: season.donors.iter().map(|d| d.uses).collect(),
            pods: season.limits.most_pods.unwrap_or(u32::MAX),
        }
    }

    fn take(&mut self, season: &Season, at: usize, now: u32) -> bool {
        let pairing = &season.pairings[at];
        let donor = season.lots[pairing.lot].donor;
        let limits = [
            &mut self.seeds[pairing.seed],
            &mut self.lots[pairing.lot],
            &mut self.donors[donor],
            &mut self.pods,
        ];
        if now >= pairing.most || limits.iter().any(|left| **left == 0) {
            return false;
        }
        limits.into_iter().for_each(|left| *left -= 1);
        true
    }

    fn give_back(&mut self, season: &Season, at: usize, pods: u32) {
        let pairing = &season.pairings[at];
        self.seeds[pairing.seed] += pods;
        self.lots[pairing.lot] += pods;
        self.donors[season.lots[pairing.lot].donor] += pods;
        self.pods = self.pods.saturating_add(pods);
    }
}
