//! The search itself: parts are judged, split and dropped until no part is left that could hold a wanted plan.

use std::collections::BinaryHeap;

use super::super::domain::Domain;
use super::super::duties::Duties;
use super::super::fitting::{exchanged, made_to_fit, within_uses};
use super::super::lagrangian_bound::{self, Prices, Relaxation, leanest_plans, solved};
use super::super::pack;
use super::super::relax::{price_of_kinship, priced};
use super::super::season::Season;
use super::super::units::IntegerModel;
use super::answer::{Asked, Found, Progress};
use super::part::{Changes, Part};
use super::partition::{around, halves};
use super::pool::Pool;

/// Finds the best plans. `watch` is called with the progress before every part is judged, and stops the search by giving `false`.
pub fn search(season: &Season, asked: Asked, watch: &mut dyn FnMut(Progress) -> bool) -> Found {
    let model = IntegerModel::of(season);
    let mut search = BranchAndBound::new(season, asked, watch);
    if !search.may_hold_a_plan(&model, &Domain::of(&model)) {
        return search.nothing();
    }
    let ask = Ask::of(&model);
    let Some(root) = ask.relaxed(&Domain::of(&model), None, i64::MIN) else {
        return search.nothing();
    };
    search.steps += root.steps;
    search.meet(&model, &root);
    search.polish(&model, &root);
    let floor = search.pool.best().unwrap_or(i64::MIN);
    let mut complete = search.through(&model, &root, floor);
    // Stopped with the bound at the best plan met, there is nothing left to prove of its worth.
    let proved = complete || search.is_at_its_bound(&model);
    let bound = search.bound(&model);
    if complete && (asked.plans > 1 || asked.ties > 0) {
        search.pool.wanted = asked.plans.max(1);
        search.pool.counting = asked.ties > 0;
        complete = search.more(&model, &root);
    }
    let outside = outside(&model, &season.chosen_at);
    let all = search.no_better_outside(&model, outside);
    let all_proved = proved && complete && season.chosen_at.is_empty();
    search.found(&model, bound.max(outside), (proved && all, all_proved))
}

/// No plan with a pairing that was left out of the season is worth more: the lowest of the bounds under the prices at
/// which pairings were chosen.
fn outside(model: &IntegerModel, prices: &[f64]) -> f64 {
    let Some(load) = model.kinship_load().filter(|_| !model.unlike) else {
        return f64::NEG_INFINITY;
    };
    let all = Domain::of(model);
    let bound = |price: &f64| {
        let mut whole = vec![0; model.capacities.len()];
        whole[load] = price_of_kinship(*price, model.scale);
        priced(model, &all, &whole).map(|priced| priced.bound)
    };
    let lowest = prices.iter().filter_map(bound).min();
    lowest.map_or(f64::NEG_INFINITY, |units| {
        (units + model.tie / 2) as f64 / model.scale
    })
}

/// A model with what bounds its plans.
struct Ask<'q> {
    model: &'q IntegerModel,
    /// Where pods take unlike numbers of pots.
    duties: Option<Duties>,
}

impl<'q> Ask<'q> {
    fn of(model: &'q IntegerModel) -> Self {
        Self {
            model,
            duties: model.pots_load().map(|_| Duties::of(model)),
        }
    }

    fn relaxed(&self, domain: &Domain, warm: Option<&Prices>, enough: i64) -> Option<Relaxation> {
        match &self.duties {
            Some(duties) => pack::packing_bound(self.model, duties, (domain, warm), enough),
            None => lagrangian_bound::lagrangian_bound(self.model, domain, enough),
        }
    }

    /// Whether a plan under prices keeps what was priced beside the loads.
    fn allows(&self, sent: &[u32]) -> bool {
        let duties = self.duties.as_ref();
        duties.is_none_or(|duties| duties.room(sent).iter().all(|room| *room >= 0))
    }
}

struct BranchAndBound<'a> {
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

impl<'a> BranchAndBound<'a> {
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
    fn needed(&self, model: &IntegerModel) -> i64 {
        let needed = self.pool.needed(model);
        needed.map_or(self.floor, |needed| needed.max(self.floor))
    }

    fn meet(&mut self, model: &IntegerModel, relaxation: &Relaxation) {
        for sent in &relaxation.fitting {
            self.pool.keep(model, sent);
        }
    }

    /// Makes plans that fit out of the plans under the best prices.
    fn polish(&mut self, model: &IntegerModel, relaxation: &Relaxation) {
        if model.capacities.is_empty() && model.spike_sets.is_empty() {
            return;
        }
        for sent in std::iter::once(&relaxation.best.sent).chain(&relaxation.others) {
            let within = within_uses(model, sent);
            if let Some(sent) = made_to_fit(model, &within) {
                self.try_out(model, &exchanged(model, &sent));
                self.try_out(model, &sent);
            }
        }
    }

    fn try_out(&mut self, model: &IntegerModel, sent: &[u32]) {
        let plan = self.season.plan(model.pods(sent));
        if self.season.allows(&plan) {
            self.pool.keep(model, sent);
        }
    }

    /// While no plan was met: whether each load can be kept in a domain. The plans that keep it best are met on the way.
    fn may_hold_a_plan(&mut self, model: &IntegerModel, domain: &Domain) -> bool {
        if self.pool.best().is_some() {
            return true;
        }
        self.steps += model.capacities.len() as u64;
        let Some(plans) = leanest_plans(model, domain) else {
            return false;
        };
        let fitting = plans.iter().filter(|sent| model.fits(sent));
        fitting.for_each(|sent| self.pool.keep(model, sent));
        true
    }

    /// Searches all plans worth at least `floor` units, with only the choices such a plan could use. True if the search
    /// came to its end.
    fn through(&mut self, model: &IntegerModel, root: &Relaxation, floor: i64) -> bool {
        let fewer = root.without_hopeless(model, floor);
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
            if part.bound < self.needed(model) {
                break;
            }
            self.open_bound = part.bound.min(root.best.bound);
            if self.stop(model) || changes.is_full() {
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
        let model = ask.model;
        let needed = self.needed(model);
        let Some(relaxation) = ask.relaxed(domain, part.prices.as_deref(), needed) else {
            self.steps += 1;
            return Vec::new();
        };
        self.steps += relaxation.steps;
        self.meet(model, &relaxation);
        if relaxation.best.bound < self.needed(model) || !self.may_hold_a_plan(model, domain) {
            return Vec::new();
        }
        let needed = self.needed(model);
        if solved(model, &relaxation.best) && ask.allows(&relaxation.best.sent) {
            return around((part, domain), &relaxation.best, needed, changes);
        }
        self.polish(model, &relaxation);
        let needed = self.needed(model);
        let domain = relaxation.narrowed(domain, needed);
        let parts = halves(model, (part, &domain), &relaxation, changes);
        let wanted = parts.into_iter().filter(|part| part.bound >= needed);
        wanted.collect()
    }

    /// Widens the search until every wanted plan is sure to have been met.
    fn more(&mut self, model: &IntegerModel, root: &Relaxation) -> bool {
        let best = self.pool.best().unwrap_or(0);
        let mut margin = (root.best.bound - best)
            .max(model.tie)
            .max(best.abs() / 4096);
        loop {
            let everything = margin > 1 << 54;
            let floor = if everything { i64::MIN } else { best - margin };
            if !self.through(model, root, floor) {
                return false;
            }
            if everything || self.pool.is_full_above(floor) {
                return true;
            }
            margin *= 8;
        }
    }

    /// Whether no plan can be worth more than the best met by more than counts.
    fn is_at_its_bound(&self, model: &IntegerModel) -> bool {
        let best = self.pool.best();
        best.is_some_and(|best| self.open_bound <= best.saturating_add(model.tie / 2))
    }

    /// Whether no pairing left out of the season could make a plan worth more than the best met by more than counts.
    fn no_better_outside(&self, model: &IntegerModel, outside: f64) -> bool {
        let best = self.pool.best();
        let level = best.map(|best| best.saturating_add(model.tie) as f64 / model.scale);
        level.is_some_and(|level| outside <= level) || outside == f64::NEG_INFINITY
    }

    fn stop(&mut self, model: &IntegerModel) -> bool {
        let progress = Progress {
            steps: self.steps,
            best: self.pool.best().map(|units| units as f64 / model.scale),
            bound: self.bound(model),
        };
        self.steps >= self.asked.steps || !(self.watch)(progress)
    }

    /// No plan is worth more than this; the hair taken off for inbreeding is given back.
    fn bound(&self, model: &IntegerModel) -> f64 {
        match self.open_bound.max(self.pool.best().unwrap_or(i64::MIN)) {
            i64::MIN => f64::NEG_INFINITY,
            i64::MAX => f64::INFINITY,
            units => (units + model.tie / 2) as f64 / model.scale,
        }
    }

    /// The answer; `(best, all)` says what is proved.
    fn found(&self, model: &IntegerModel, bound: f64, (proved, all_proved): (bool, bool)) -> Found {
        let (plans, best, ties) = self.pool.sorted(self.season, model);
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
