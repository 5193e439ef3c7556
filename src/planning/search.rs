//! The best plans of a season, proved.
//!
//! Branch and bound, best bound first (Land & Doig 1960): a part of all plans is judged by its priced network; what
//! cannot hold a wanted plan is dropped; a part whose best plan is known is split around that plan (Murty 1968), which
//! yields the runners-up and every tie. The queue is kept in memory, nothing recurses, and the work can be stopped after
//! any step with the best plan so far and the bound that holds for all others.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::dual::{Judged, judge, solved};
use super::partition::{around, halves};
use super::relax::Domain;
use super::season::{Plan, Season};
use super::units::{Question, TIE};

/// What is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Asked {
    /// How many plans, best first; at least 1.
    pub plans: usize,
    /// Count plans worth as much as the best, up to this many; 0 to leave ties uncounted.
    pub ties: usize,
    /// Most networks to solve.
    pub steps: u64,
}

impl Default for Asked {
    fn default() -> Self {
        Self {
            plans: 1,
            ties: 0,
            steps: 1_000_000,
        }
    }
}

/// How far the search is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Progress {
    /// Networks solved.
    pub steps: u64,
    /// Value of the best plan so far.
    pub best: Option<f64>,
    /// No plan is worth more.
    pub bound: f64,
}

/// The answer.
#[derive(Clone, PartialEq, Debug)]
pub struct Found {
    /// Plans, best first: plans worth the same (to a millionth of the best pod's value) by mean inbreeding, then by
    /// pairing numbers. Empty if no plan keeps every limit, or none was found before the search was stopped.
    pub plans: Vec<Plan>,
    /// No plan is worth more than this.
    pub bound: f64,
    /// Whether the first plan is proved to be the best (or, without plans, that there is none).
    pub proved: bool,
    /// Whether the other plans are proved to be the next best, and ties are counted in full.
    pub all_proved: bool,
    /// Plans worth as much as the first, itself included; at least so many when `all_proved` is false or the limit asked
    /// for is reached. 0 if ties were not asked for.
    pub ties: usize,
    /// Networks solved.
    pub steps: u64,
}

impl Found {
    /// How much better than the first plan any plan could still be; 0 when proved.
    pub fn gap(&self) -> Option<f64> {
        let best = self.plans.first()?;
        Some(if self.proved {
            0.0
        } else {
            (self.bound - best.value).max(0.0)
        })
    }
}

/// Finds the best plans. `watch` is told of progress after every part judged and stops the search by giving `false`.
pub fn search(season: &Season, asked: Asked, watch: &mut dyn FnMut(Progress) -> bool) -> Found {
    let question = Question::of(season);
    let mut hunt = Hunt::new(season, asked, watch);
    let Some(root) = judge(&question, &Domain::of(&question), i64::MIN) else {
        return hunt.nothing();
    };
    hunt.steps += root.steps;
    hunt.meet(&question, &root);
    hunt.polish(&question, &root);
    let floor = hunt.pool.first().map_or(i64::MIN, |met| met.0);
    let mut complete = hunt.through(&question, &root, floor);
    let proved = complete;
    let bound = hunt.bound(&question);
    if complete && (asked.plans > 1 || asked.ties > 0) {
        hunt.wanted = asked.plans.max(1);
        hunt.counting = asked.ties > 0;
        complete = hunt.more(&question, &root);
    }
    hunt.found(&question, bound, proved, proved && complete)
}

/// A plan in whole numbers: units of value, pods by pairing.
type Met = (i64, Vec<(usize, u32)>);

struct Hunt<'a> {
    season: &'a Season,
    asked: Asked,
    watch: &'a mut dyn FnMut(Progress) -> bool,
    steps: u64,
    /// Plans met, best first.
    pool: Vec<Met>,
    wanted: usize,
    counting: bool,
    stopped: bool,
    /// Plans worth less are not looked for.
    floor: i64,
    /// The bound of what is still open.
    open_bound: i64,
}

impl<'a> Hunt<'a> {
    fn new(season: &'a Season, asked: Asked, watch: &'a mut dyn FnMut(Progress) -> bool) -> Self {
        Self {
            season,
            asked,
            watch,
            steps: 0,
            pool: Vec::new(),
            wanted: 1,
            counting: false,
            stopped: false,
            floor: i64::MIN,
            open_bound: i64::MIN,
        }
    }

    fn nothing(&self) -> Found {
        Found {
            plans: Vec::new(),
            bound: f64::NEG_INFINITY,
            proved: true,
            all_proved: true,
            ties: 0,
            steps: self.steps,
        }
    }

    /// The least bound of a part that could still hold a wanted plan.
    fn needed(&self, question: &Question) -> i64 {
        let Some(best) = self.pool.first() else {
            return self.floor;
        };
        let by_number = self
            .pool
            .get(self.wanted - 1)
            .map_or(i64::MIN, |met| met.0 + 1);
        let level = best.0 - question.tie;
        let tied = self.pool.partition_point(|met| met.0 >= level);
        let by_ties = if self.counting && tied < self.asked.ties {
            level
        } else {
            i64::MAX
        };
        by_number.min(by_ties).max(self.floor)
    }

    fn keep(&mut self, question: &Question, sent: &[u32]) {
        let met = (question.value(sent), question.pods(sent));
        let place = self
            .pool
            .binary_search_by(|other| met.0.cmp(&other.0).then_with(|| other.1.cmp(&met.1)));
        if let Err(place) = place {
            self.pool.insert(place, met);
            self.pool
                .truncate(self.asked.plans.max(self.asked.ties).max(1));
        }
    }

    fn meet(&mut self, question: &Question, judged: &Judged) {
        for sent in &judged.fitting {
            self.keep(question, sent);
        }
    }

    /// Makes plans that fit out of the plans under the best prices.
    fn polish(&mut self, question: &Question, judged: &Judged) {
        for sent in std::iter::once(&judged.best.sent).chain(&judged.other) {
            if let Some(sent) = super::pairs::made_to_fit(question, sent) {
                let plan = self.season.plan(question.pods(&sent));
                if self.season.allows(&plan) {
                    self.keep(question, &sent);
                }
            }
        }
    }

    /// Searches all plans worth at least `floor` units, with only the choices such a plan could use. True if the search
    /// came to its end.
    fn through(&mut self, question: &Question, root: &Judged, floor: i64) -> bool {
        let keep = |at: &usize| {
            let could = root.best.bound.saturating_sub(root.best.loss[*at]) >= floor;
            could || root.best.sent[*at] > 0
        };
        let kept: Vec<usize> = (0..question.choices.len()).filter(keep).collect();
        let mut fewer = question.clone();
        fewer.choices = kept
            .iter()
            .map(|&at| question.choices[at].clone())
            .collect();
        self.floor = floor;
        let mut queue = BinaryHeap::from([Part::new(Domain::of(&fewer), i64::MAX, 0)]);
        let mut made = 1;
        while let Some(part) = queue.pop() {
            if part.bound < self.needed(question) {
                break;
            }
            self.open_bound = part.bound.min(root.best.bound);
            if self.stop(question) {
                return false;
            }
            for mut child in self.open(&fewer, part) {
                child.order = made;
                made += 1;
                queue.push(child);
            }
        }
        self.open_bound = i64::MIN;
        true
    }

    /// Judges a part that was not yet, or splits one that was.
    fn open(&mut self, question: &Question, part: Part) -> Vec<Part> {
        let needed = self.needed(question);
        let Some(judged) = part.judged else {
            let Some(judged) = judge(question, &part.domain, needed) else {
                self.steps += 1;
                return Vec::new();
            };
            self.steps += judged.steps;
            self.meet(question, &judged);
            let bound = judged.best.bound.min(part.bound);
            if bound < self.needed(question) {
                return Vec::new();
            }
            if !solved(question, &judged.best) {
                self.polish(question, &judged);
            }
            return vec![Part {
                judged: Some(judged),
                bound,
                ..part
            }];
        };
        let split = if solved(question, &judged.best) {
            around(question, &part.domain, &judged.best, needed)
        } else {
            halves(question, &part.domain, &judged)
        };
        let parts = split
            .into_iter()
            .map(|(domain, bound)| Part::new(domain, bound.min(part.bound), 0));
        parts.filter(|part| part.bound >= needed).collect()
    }

    /// Widens the search until every wanted plan is sure to have been met.
    fn more(&mut self, question: &Question, root: &Judged) -> bool {
        let best = self.pool.first().map_or(0, |met| met.0);
        let mut margin = (root.best.bound - best)
            .max(question.tie)
            .max(best.abs() / 64);
        loop {
            let everything = margin > 1 << 54;
            let floor = if everything { i64::MIN } else { best - margin };
            if !self.through(question, root, floor) {
                return false;
            }
            let sure = self
                .pool
                .get(self.wanted - 1)
                .is_some_and(|met| met.0 >= floor);
            if sure || everything {
                return true;
            }
            margin *= 8;
        }
    }

    fn stop(&mut self, question: &Question) -> bool {
        let progress = Progress {
            steps: self.steps,
            best: self.pool.first().map(|met| met.0 as f64 / question.scale),
            bound: self.bound(question),
        };
        self.stopped |= self.steps >= self.asked.steps || !(self.watch)(progress);
        self.stopped
    }

    /// No plan is worth more than this; the hair taken off for inbreeding is given back.
    fn bound(&self, question: &Question) -> f64 {
        let best = self.pool.first().map_or(i64::MIN, |met| met.0);
        let units = self.open_bound.max(best);
        if units == i64::MIN || units == i64::MAX {
            return if units == i64::MIN {
                f64::NEG_INFINITY
            } else {
                f64::INFINITY
            };
        }
        (units + question.tie / 2) as f64 / question.scale
    }

    fn found(&self, question: &Question, bound: f64, proved: bool, all_proved: bool) -> Found {
        let mut plans: Vec<Plan> = self
            .pool
            .iter()
            .map(|met| self.season.plan(met.1.clone()))
            .collect();
        let largest = question.tie as f64 / question.scale;
        let best = plans
            .iter()
            .map(|plan| plan.value)
            .fold(f64::NEG_INFINITY, f64::max);
        let tied = |plan: &Plan| plan.value >= best - largest;
        plans.sort_by(|a, b| {
            let first = tied(b).cmp(&tied(a));
            let value = if tied(a) {
                Ordering::Equal
            } else {
                b.value.total_cmp(&a.value)
            };
            let inbred = a.mean_inbreeding.total_cmp(&b.mean_inbreeding);
            first
                .then(value)
                .then(inbred)
                .then_with(|| a.pods.cmp(&b.pods))
        });
        let ties = plans.iter().filter(|plan| tied(plan)).count();
        plans.truncate(self.asked.plans.max(1));
        Found {
            bound: if proved && !plans.is_empty() {
                best
            } else {
                bound
            },
            proved,
            all_proved,
            ties: if self.asked.ties > 0 { ties } else { 0 },
            steps: self.steps,
            plans,
        }
    }
}

/// A part of all plans.
struct Part {
    bound: i64,
    judged: Option<Judged>,
    domain: Domain,
    order: u64,
}

impl Part {
    fn new(domain: Domain, bound: i64, order: u64) -> Self {
        Self {
            bound,
            judged: None,
            domain,
            order,
        }
    }

    /// Highest bound first; among equals what is judged, then what was made last.
    fn rank(&self) -> (i64, bool, u64) {
        (self.bound, self.judged.is_some(), self.order)
    }
}

impl PartialEq for Part {
    fn eq(&self, other: &Self) -> bool {
        self.rank() == other.rank()
    }
}

impl Eq for Part {}

impl PartialOrd for Part {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Part {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}

/// The part of the best pod's value within which plans count as worth the same.
pub const SAME_WORTH: f64 = TIE;
