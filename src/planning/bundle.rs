//! What each seed parent could bear in so many pots, when every pod has a worth of its own.
//!
//! A bundle is some pods on one seed parent. Of all bundles that take as many pots only the best counts, and one that
//! takes more pots for no more worth never does; what is left for a seed parent is a short list. Over all seed parents
//! the best that fits into so many pots is found by the knapsack recursion (Bellman 1957).

/// Pods of one choice that may still be added.
#[derive(Clone, Copy, Debug)]
pub(super) struct Unit {
    pub choice: usize,
    pub worth: i64,
    /// Pots of a pod, at least 1.
    pub pots: usize,
    /// Pods at most.
    pub most: u32,
}

/// Pods on one seed parent.
#[derive(Clone, Debug, Default)]
pub(super) struct Bundle {
    pub pots: usize,
    pub worth: i64,
    /// A choice for each pod.
    pub picks: Vec<usize>,
}

/// The bundles of a seed parent that may bear so many pods: rising pots, rising worth, the empty one first. Items of no
/// worth are left out.
pub(super) fn bundles(items: &mut Vec<Unit>, pods: u32, pots: usize) -> Vec<Bundle> {
    items.retain(|item| item.worth > 0 && item.pots <= pots);
    items.sort_unstable_by_key(|item| (item.pots, std::cmp::Reverse(item.worth), item.choice));
    let one_size = items.first().map(|item| item.pots) == items.last().map(|item| item.pots);
    let units = units(items, pods);
    if one_size {
        return of_one_size(&units, pots);
    }
    let mut by_count: Vec<Vec<Bundle>> = vec![vec![Bundle::default()]];
    for unit in &units {
        for count in (0..by_count.len().min(pods as usize)).rev() {
            let more: Vec<Bundle> = by_count[count]
                .iter()
                .filter(|bundle| bundle.pots + unit.pots <= pots)
                .map(|bundle| bundle.with(unit))
                .collect();
            if count + 1 == by_count.len() {
                by_count.push(Vec::new());
            }
            by_count[count + 1].extend(more);
            by_count[count + 1] = best_of_each(std::mem::take(&mut by_count[count + 1]));
        }
    }
    best_of_each(by_count.into_iter().flatten().collect())
}

/// The pods that could be in a bundle: of each size the best, as many as the seed parent may bear.
fn units(items: &[Unit], pods: u32) -> Vec<Unit> {
    let mut units: Vec<Unit> = Vec::new();
    let mut of_size = 0;
    for (at, item) in items.iter().enumerate() {
        if at == 0 || items[at - 1].pots != item.pots {
            of_size = 0;
        }
        let taken = item.most.min(pods - of_size);
        of_size += taken;
        units.extend(std::iter::repeat_n(*item, taken as usize));
    }
    units
}

fn of_one_size(units: &[Unit], pots: usize) -> Vec<Bundle> {
    let mut bundles = vec![Bundle::default()];
    for unit in units {
        let next = bundles[bundles.len() - 1].with(unit);
        if next.pots > pots {
            break;
        }
        bundles.push(next);
    }
    bundles
}

/// Rising pots, rising worth.
fn best_of_each(mut bundles: Vec<Bundle>) -> Vec<Bundle> {
    // Stable: of bundles alike the first made stays.
    bundles.sort_by_key(|bundle| (bundle.pots, std::cmp::Reverse(bundle.worth)));
    let mut most = i64::MIN;
    bundles.retain(|bundle| {
        let better = bundle.worth > most;
        most = most.max(bundle.worth);
        better
    });
    bundles
}

impl Bundle {
    fn with(&self, unit: &Unit) -> Self {
        let mut picks = self.picks.clone();
        picks.push(unit.choice);
        Self {
            pots: self.pots + unit.pots,
            worth: self.worth + unit.worth,
            picks,
        }
    }
}

/// The best worth in 0, 1, 2 … pots, one seed parent after the other.
pub(super) struct Filled {
    /// Before the first seed parent, after it, after the next …
    pub after: Vec<Vec<i64>>,
}

impl Filled {
    pub fn of<'b>(pots: usize, seeds: impl Iterator<Item = &'b Vec<Bundle>>) -> Self {
        let mut after = vec![vec![0; pots + 1]];
        for bundles in seeds {
            let next = with_one_of(&after[after.len() - 1], bundles);
            after.push(next);
        }
        Self { after }
    }

    /// The bundle of each seed parent that makes up the best, by place.
    pub fn best(&self, seeds: &[&Vec<Bundle>]) -> Vec<usize> {
        let mut left = self.after[0].len() - 1;
        let mut chosen = vec![0; seeds.len()];
        for (at, bundles) in seeds.iter().enumerate().rev() {
            let (before, worth) = (&self.after[at], self.after[at + 1][left]);
            let fits = |bundle: &Bundle| {
                bundle.pots <= left && before[left - bundle.pots] + bundle.worth == worth
            };
            chosen[at] = bundles.iter().position(fits).unwrap_or(0);
            left -= bundles[chosen[at]].pots;
        }
        chosen
    }
}

fn with_one_of(before: &[i64], bundles: &[Bundle]) -> Vec<i64> {
    let mut after = before.to_vec();
    for bundle in bundles.iter().filter(|bundle| bundle.pots < before.len()) {
        let shifted = after[bundle.pots..].iter_mut().zip(before);
        shifted.for_each(|(best, before)| *best = (*best).max(before + bundle.worth));
    }
    after
}

/// The best of two groups of seed parents together, in 0, 1, 2 … pots.
pub(super) fn joined(one: &[i64], other: &[i64]) -> Vec<i64> {
    let mut best = vec![i64::MIN; one.len()];
    for (pots, worth) in one.iter().enumerate() {
        // Where one more pot adds nothing the fewer pots serve as well.
        if pots > 0 && one[pots - 1] == *worth {
            continue;
        }
        let shifted = best[pots..].iter_mut().zip(other);
        shifted.for_each(|(best, other)| *best = (*best).max(worth + other));
    }
    best
}
