//! The search itself: parts are judged, split and dropped until no part is left that could hold a wanted plan.

use std::collections::BinaryHeap;

use super::super::dual::{self, Judged, leanest_plans, solved};
use super::super::duties::Duties;
use super::super::pack;
use super::super::pairs::{exchanged, made_to_fit, within_uses};
use super::super::partition::{around, halves};
use super::super::relax::{Domain, price_of_kinship, priced};
use super::super::season::Season;
use super::super::units::Question;
use super::answer::{Asked, Found, Progress};
use super::part::{Changes, Part};
use super::pool::Pool;

/// Finds the best plans. `watch` is told of progress before every part is judged and stops the search by giving `false`.
pub fn search(season: &Season, asked: Asked, watch: &mut dyn FnMut(Progress) -> bool) -> Found {
    let question = Question::of(season);
    let mut hunt = Hunt::new(season, asked, watch);
    if !hunt.may_hold_a_plan(&question, &Domain::of(&question)) {
        return hunt.nothing();
    }
    let ask = Ask::of(&question);
    let Some(root) = ask.judge(&Domain::of(&question), None, i64::MIN) else {
        return hunt.nothing();
    };
    hunt.steps += root.steps;
    hunt.meet(&question, &root);
    hunt.polish(&question, &root);
    let floor = hunt.pool.best().unwrap_or(i64::MIN);
    let mut complete = hunt.through(&question, &root, floor);
    // Stopped with the bound at the best plan met, there is nothing left to prove of its worth.
    let proved = complete || hunt.is_at_its_bound(&question);
    let bound = hunt.bound(&question);
    if complete && (asked.plans > 1 || asked.ties > 0) {
        hunt.pool.wanted = asked.plans.max(1);
        hunt.pool.counting = asked.ties > 0;
        complete = hunt.more(&question, &root);
    }
    let outside = outside(&question, &season.chosen_at);
    let all = hunt.no_better_outside(&question, outside);
    let all_proved = proved && complete && season.chosen_at.is_empty();
    hunt.found(&question, bound.max(outside), (proved && all, all_proved))
}

/// No plan with a pairing that was left out of the season is worth more: the lowest of the bounds under the prices at
/// which pairings were chosen.
fn outside(question: &Question, prices: &[f64]) -> f64 {
    let Some(load) = question.kinship_load().filter(|_| !question.unlike) else {
        return f64::NEG_INFINITY;
    };
    let all = Domain::of(question);
    let bound = |price: &f64| {
        let mut whole = vec![0; question.capacities.len()];
        whole[load] = price_of_kinship(*price, question.scale);
        priced(question, &all, &whole).map(|priced| priced.bound)
    };
    let lowest = prices.iter().filter_map(bound).min();
    lowest.map_or(f64::NEG_INFINITY, |units| {
        (units + question.tie / 2) as f64 / question.scale
    })
}

/// A question with what bounds its plans.
struct Ask<'q> {
    question: &'q Question,
    /// Where pods take unlike numbers of pots.
    duties: Option<Duties>,
}

impl<'q> Ask<'q> {
    fn of(question: &'q Question) -> Self {
        Self {
            question,
            duties: question.pots_load().map(|_| Duties::of(question)),
        }
    }

    fn judge(&self, domain: &Domain, warm: Option<&pack::Prices>, enough: i64) -> Option<Judged> {
        match &self.duties {
            Some(duties) => pack::judge(self.question, duties, (domain, warm), enough),
            None => dual::judge(self.question, domain, enough),
        }
    }

    /// Whether a plan under prices keeps what was priced beside the loads.
    fn allows(&self, sent: &[u32]) -> bool {
        let duties = self.duties.as_ref();
        duties.is_none_or(|duties| duties.room(sent).iter().all(|room| *room >= 0))
    }
}

struct Hunt<'a> {
    season: &'a Season,
    asked: Asked,
    watch: &'a mut dyn FnMut(Progress) -> bool,
    steps: u64,
    pool: Pool,
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
            pool: Pool::new(asked),
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
        let needed = self.pool.needed(question);
        needed.map_or(self.floor, |needed| needed.max(self.floor))
    }

    fn meet(&mut self, question: &Question, judged: &Judged) {
        for sent in &judged.fitting {
            self.pool.keep(question, sent);
        }
    }

    /// Makes plans that fit out of the plans under the best prices.
    fn polish(&mut self, question: &Question, judged: &Judged) {
        if question.capacities.is_empty() {
            return;
        }
        for sent in std::iter::once(&judged.best.sent).chain(&judged.others) {
            let within = within_uses(question, sent);
            if let Some(sent) = made_to_fit(question, &within) {
                self.try_out(question, &exchanged(question, &sent));
                self.try_out(question, &sent);
            }
        }
    }

    fn try_out(&mut self, question: &Question, sent: &[u32]) {
        let plan = self.season.plan(question.pods(sent));
        if self.season.allows(&plan) {
            self.pool.keep(question, sent);
        }
    }

    /// While no plan was met: whether each load can be kept in a domain. The plans that keep it best are met on the way.
    fn may_hold_a_plan(&mut self, question: &Question, domain: &Domain) -> bool {
        if self.pool.best().is_some() {
            return true;
        }
        self.steps += question.capacities.len() as u64;
        let Some(plans) = leanest_plans(question, domain) else {
            return false;
        };
        let fitting = plans.iter().filter(|sent| question.fits(sent));
        fitting.for_each(|sent| self.pool.keep(question, sent));
        true
    }

    /// Searches all plans worth at least `floor` units, with only the choices such a plan could use. True if the search
    /// came to its end.
    fn through(&mut self, question: &Question, root: &Judged, floor: i64) -> bool {
        let fewer = root.without_hopeless(question, floor);
        let ask = Ask::of(&fewer);
        let all = Domain::of(&fewer);
        self.floor = floor;
        let mut changes = Changes::default();
        let mut queue = BinaryHeap::from([Part {
            prices: root.prices.clone(),
            ..Part::whole()
        }]);
        let mut made = 1;
        while let Some(part) = queue.pop() {
            if part.bound < self.needed(question) {
                break;
            }
            self.open_bound = part.bound.min(root.best.bound);
            if self.stop(question) || changes.is_full() {
                return false;
            }
            let domain = changes.domain(all.clone(), part.changes);
            for mut smaller in self.open(&ask, (&part, &domain), &mut changes) {
                smaller.order = made;
                made += 1;
                queue.push(smaller);
            }
        }
        self.open_bound = i64::MIN;
        true
    }

    /// Judges a part and splits it into those that could hold a wanted plan.
    fn open(
        &mut self,
        ask: &Ask,
        (part, domain): (&Part, &Domain),
        changes: &mut Changes,
    ) -> Vec<Part> {
        let question = ask.question;
        let needed = self.needed(question);
        let Some(judged) = ask.judge(domain, part.prices.as_deref(), needed) else {
            self.steps += 1;
            return Vec::new();
        };
        self.steps += judged.steps;
        self.meet(question, &judged);
        if judged.best.bound < self.needed(question) || !self.may_hold_a_plan(question, domain) {
            return Vec::new();
        }
        let needed = self.needed(question);
        if solved(question, &judged.best) && ask.allows(&judged.best.sent) {
            return around((part, domain), &judged.best, needed, changes);
        }
        self.polish(question, &judged);
        let needed = self.needed(question);
        let domain = judged.narrowed(domain, needed);
        let parts = halves(question, (part, &domain), &judged, changes);
        let wanted = parts.into_iter().filter(|part| part.bound >= needed);
        wanted.collect()
    }

    /// Widens the search until every wanted plan is sure to have been met.
    fn more(&mut self, question: &Question, root: &Judged) -> bool {
        let best = self.pool.best().unwrap_or(0);
        let mut margin = (root.best.bound - best)
            .max(question.tie)
            .max(best.abs() / 4096);
        loop {
            let everything = margin > 1 << 54;
            let floor = if everything { i64::MIN } else { best - margin };
            if !self.through(question, root, floor) {
                return false;
            }
            if everything || self.pool.is_full_above(floor) {
                return true;
            }
            margin *= 8;
        }
    }

    /// Whether no plan can be worth more than the best met by more than counts.
    fn is_at_its_bound(&self, question: &Question) -> bool {
        let best = self.pool.best();
        best.is_some_and(|best| self.open_bound <= best.saturating_add(question.tie / 2))
    }

    /// Whether no pairing left out of the season could make a plan worth more than the best met by more than counts.
    fn no_better_outside(&self, question: &Question, outside: f64) -> bool {
        let best = self.pool.best();
        let level = best.map(|best| best.saturating_add(question.tie) as f64 / question.scale);
        level.is_some_and(|level| outside <= level) || outside == f64::NEG_INFINITY
    }

    fn stop(&mut self, question: &Question) -> bool {
        let progress = Progress {
            steps: self.steps,
            best: self.pool.best().map(|units| units as f64 / question.scale),
            bound: self.bound(question),
        };
        self.steps >= self.asked.steps || !(self.watch)(progress)
    }

    /// No plan is worth more than this; the hair taken off for inbreeding is given back.
    fn bound(&self, question: &Question) -> f64 {
        match self.open_bound.max(self.pool.best().unwrap_or(i64::MIN)) {
            i64::MIN => f64::NEG_INFINITY,
            i64::MAX => f64::INFINITY,
            units => (units + question.tie / 2) as f64 / question.scale,
        }
    }

    /// The answer; `(best, all)` says what is proved.
    fn found(&self, question: &Question, bound: f64, (proved, all_proved): (bool, bool)) -> Found {
        let (plans, best, ties) = self.pool.sorted(self.season, question);
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
