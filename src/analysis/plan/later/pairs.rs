//! Which plants to hold for which pollination: what may be expected of every pair of which one has not flowered.

use crate::analysis::kinship::outcomes;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::later::answer::{Hold, Later};
use crate::analysis::plan::later::first_flowers::FirstFlowers;
use crate::analysis::plan::later::waiting::Ahead;
use crate::analysis::plan::worth::Worth;
use crate::kinship::KinshipTable;
use crate::lineage::{PedigreeTooComplex, PlantRow};
use crate::observation::sex::sex_seen;
use crate::record::Sex;
use crate::registry::CrossRow;

/// Pollinations and lines told.
const TOLD: usize = 8;
/// Plants looked at; of more, those with the highest merit.
const LOOKED_AT: usize = 400;

impl PlanContext<'_, '_, '_> {
    /// Kept plants here without a known sex.
    pub fn unsexed(&self, kept: &[PlantRow]) -> Vec<PlantRow> {
        let unsexed = |plant: &&PlantRow| sex_seen(self.registry, **plant).is_open();
        kept.iter().filter(unsexed).copied().collect()
    }

    /// The seasons ahead of the kept plants, and of all seedlings here of lines of which none is marked as kept.
    pub fn later(&self, kept: &[PlantRow]) -> Result<Later, PedigreeTooComplex> {
        let ages = FirstFlowers::of(self.registry);
        let crosses = self.registry.cross_rows();
        let lines: Vec<CrossRow> = crosses
            .filter(|&cross| !self.held(cross).0.is_empty())
            .collect();
        let held = lines.iter().flat_map(|&cross| self.held(cross).0);
        let plants = self.most_worth(kept.iter().copied().chain(held).collect());
        let holds = self.holds(&plants, &ages)?;
        let expected = |cross: CrossRow| {
            let of_line = |&plant: &PlantRow| self.registry.cross_of(plant) == Some(cross);
            holds.iter().position(|hold| hold.held.iter().any(of_line))
        };
        let mut ordered = lines.clone();
        // Stable: lines that no pollination told waits for stay in their order.
        ordered.sort_by_key(|&cross| expected(cross).unwrap_or(usize::MAX));
        let told = ordered.iter().take(TOLD);
        Ok(Later {
            lines: told.map(|&cross| self.line_ahead(cross, &ages)).collect(),
            lines_untold: lines.len().saturating_sub(TOLD),
            holds,
        })
    }

    /// Some plants, each once, in their order; of very many those with the highest merit.
    fn most_worth(&self, mut plants: Vec<PlantRow>) -> Vec<PlantRow> {
        let merit = |plant: PlantRow| self.merit.of_plant(plant).unwrap_or(0.0);
        plants.sort_unstable();
        plants.dedup();
        plants.sort_by(|&a, &b| merit(b).total_cmp(&merit(a)));
        plants.truncate(LOOKED_AT);
        plants.sort_unstable();
        plants
    }

    fn holds(
        &self,
        plants: &[PlantRow],
        ages: &FirstFlowers,
    ) -> Result<Vec<Hold>, PedigreeTooComplex> {
        let ahead: Vec<Option<Ahead>> = plants
            .iter()
            .map(|&plant| self.ahead(plant, ages))
            .collect();
        let among = Among {
            worth: self.worth(plants)?,
            kinship: self.kinship.table(plants),
        };
        let cap = self.goals.most_inbreeding.unwrap_or(1.0);
        let expected = |one: usize, other: usize| {
            let (a, b) = (ahead[one].as_ref()?, ahead[other].as_ref()?);
            let (value, inbreeding) = among.pair(one, other);
            (inbreeding <= cap && value > 0.0).then(|| value * chance(a, b).1)
        };
        let unsexed = |at: usize| ahead[at].as_ref().is_some_and(|plant| plant.sex.is_none());
        let mut pairs: Vec<(usize, usize, f64)> = Vec::new();
        for one in 0..plants.len() {
            let others = (one + 1..plants.len()).filter(|&other| unsexed(one) || unsexed(other));
            pairs.extend(others.filter_map(|other| Some((one, other, expected(one, other)?))));
        }
        // Stable: pairs that promise the same stay in the order of their plants.
        pairs.sort_by(|a, b| b.2.total_cmp(&a.2));
        let mut told = vec![false; plants.len()];
        let mut holds = Vec::new();
        for (one, other, _) in pairs {
            let (Some(a), Some(b)) = (&ahead[one], &ahead[other]) else {
                continue;
            };
            let waiting = [one, other].into_iter().filter(|&at| unsexed(at));
            if waiting.clone().any(|at| told[at]) {
                continue;
            }
            waiting.for_each(|at| told[at] = true);
            holds.push(self.hold(
                [(plants[one], a), (plants[other], b)],
                among.pair(one, other),
            ));
        }
        let mut told = self.alike(holds);
        told.iter_mut().for_each(|hold| self.may_be_inbred(hold));
        Ok(told)
    }

    /// Seedlings of one origin that promise the same with the same plant put together, in order.
    fn alike(&self, holds: Vec<Hold>) -> Vec<Hold> {
        let origin = |of: &Hold| {
            let plant = of.held.first();
            plant.and_then(|&plant| self.registry.origin_of(plant))
        };
        let mut apart: Vec<Hold> = Vec::new();
        for hold in holds {
            let same = |known: &&mut Hold| {
                hold.partner.is_some()
                    && (known.partner, known.year) == (hold.partner, hold.year)
                    && (known.expected, known.worth) == (hold.expected, hold.worth)
                    && (known.inbreeding, origin(known)) == (hold.inbreeding, origin(&hold))
            };
            match apart.iter_mut().find(same) {
                Some(known) => {
                    known.hold.extend(hold.hold);
                    known.held.extend(hold.held);
                }
                None => apart.push(hold),
            }
        }
        apart.truncate(TOLD);
        apart
    }

    /// What the inbreeding of its seedlings may be; siblings held for one plant are alike in that.
    fn may_be_inbred(&self, hold: &mut Hold) {
        let mut pair = hold.partner.iter().chain(&hold.held).copied();
        // A mean of 0 is a mean of nothing but 0.
        if let (Some(one), Some(other), true) = (pair.next(), pair.next(), hold.inbreeding > 0.0) {
            let possible = self.possible([one, other]);
            hold.ways_known = possible.is_some();
            hold.inbreeding_may_be = possible.as_ref().map(outcomes).unwrap_or_default();
        }
    }

    fn hold(&self, pair: [(PlantRow, &Ahead); 2], (value, inbreeding): (f64, f64)) -> Hold {
        let [(_, a), (_, b)] = pair;
        let (years, chance) = chance(a, b);
        let code = |plant: &PlantRow| self.registry.code(*plant);
        let known = pair.iter().find(|(_, plant)| plant.sex.is_some());
        let partner = known.map(|(plant, _)| *plant);
        let unknown = pair.iter().filter(|(_, plant)| plant.sex.is_none());
        let held: Vec<PlantRow> = unknown.map(|(plant, _)| *plant).collect();
        Hold {
            hold: held.iter().map(code).collect(),
            with: partner.as_ref().map(code),
            year: years.and_then(|years| Some(self.this_year()? + years as i32)),
            chance,
            worth: value,
            expected: chance * value,
            inbreeding,
            inbreeding_may_be: Vec::new(),
            ways_known: true,
            held,
            partner,
        }
    }
}

/// What pods of some plants would be worth among each other.
struct Among<'w> {
    worth: Worth<'w>,
    kinship: KinshipTable,
}

impl Among<'_> {
    /// Worth of a pod of two of them, and the expected inbreeding of its seedlings.
    fn pair(&self, one: usize, other: usize) -> (f64, f64) {
        let kinship = self.kinship.get(one, other);
        (self.worth.of(one, other, kinship), kinship)
    }
}

/// The years until two plants have more likely flowered than not, and the chance that they have by then and that their
/// sexes fit; without a year the chance that the sexes fit.
fn chance(one: &Ahead, other: &Ahead) -> (Option<usize>, f64) {
    let fit = fit(one, other);
    let (Some(a), Some(b)) = (&one.flowered, &other.flowered) else {
        return (None, fit);
    };
    let both: Vec<f64> = a.iter().zip(b).map(|(a, b)| a * b).collect();
    let year = both.iter().position(|chance| *chance >= 0.5);
    (year, fit * year.map_or(1.0, |year| both[year]))
}

/// The chance that one of two plants is or will be female and the other male.
fn fit(one: &Ahead, other: &Ahead) -> f64 {
    let against = |sex: Sex, other: &Ahead| match sex {
        Sex::Male => other.share.female(),
        Sex::Female => 1.0 - other.share.female(),
    };
    match (one.sex, other.sex) {
        (Some(one), Some(other)) => f64::from(u8::from(one != other)),
        (Some(sex), None) => against(sex, other),
        (None, Some(sex)) => against(sex, one),
        (None, None) if one.cross.is_some() && one.cross == other.cross => one.share.unlike(),
        (None, None) => {
            let (p, q) = (one.share.female(), other.share.female());
            p * (1.0 - q) + q * (1.0 - p)
        }
    }
}
