//! For each line: what it has shown, and when both sexes of it may stand here in flower.

use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::later::answer::{LineAhead, YearAhead};
use crate::analysis::plan::later::first_flowers::FirstFlowers;
use crate::lineage::PlantRow;
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::sex_seen;
use crate::observation::sexes::{NotKnownApart, not_known_apart, sexes};
use crate::planning::intensity::{chance_of_a_sex, chance_of_both_sexes};
use crate::planning::sexes::Wanted;
use crate::record::Sex;
use crate::registry::CrossRow;
use crate::statistics::interval::Confidence;
use crate::statistics::proportion::wilson;

/// Years told.
const YEARS: usize = 4;

impl PlanContext<'_, '_, '_> {
    /// Seedlings of a line here that have not shown their sex: those marked as kept, or all if none is.
    pub(crate) fn held(&self, cross: CrossRow) -> (Vec<PlantRow>, bool) {
        let seedlings = self.registry[cross].seedlings.iter().copied();
        let unsexed: Vec<PlantRow> = seedlings
            .filter(|&plant| sex_seen(self.registry, plant).is_open())
            .filter(|&plant| presence(self.registry, plant, self.context.today) == Presence::Here)
            .collect();
        let kept = unsexed
            .iter()
            .copied()
            .filter(|&plant| self.registry.is_kept(plant));
        let kept: Vec<PlantRow> = kept.collect();
        if kept.is_empty() {
            (unsexed, false)
        } else {
            (kept, true)
        }
    }

    /// Whether a seedling of a page is of that cross and of no other perhaps.
    fn is_of(&self, plant: PlantRow, cross: CrossRow) -> bool {
        self.registry.origin_of(plant) == Some(self.registry[cross].origin)
    }

    /// Whether one of some plants of a line that are not known apart was seen to be of a sex, and surely stands here: more of
    /// them were than are gone.
    fn has_one_here(&self, of: &NotKnownApart, cross: CrossRow, sex: Sex) -> bool {
        let today = self.context.today;
        let is_here = |plant: PlantRow| presence(self.registry, plant, today) == Presence::Here;
        let gone = of.plants.iter().filter(|plant| !is_here(**plant)).count();
        let seen = match sex {
            Sex::Female => of.female,
            Sex::Male => of.male,
        };
        !of.is_with_others && of.plants.iter().all(|&plant| self.is_of(plant, cross)) && seen > gone
    }

    /// The sexes of which no seedling of a line is here; one guessed from buds is no sex to count on years ahead.
    fn sexes_missing(&self, cross: CrossRow) -> Wanted {
        let page = &self.registry[cross];
        let mixed_up = not_known_apart(self.registry, page);
        let is_missing = |sex: Sex| {
            let mut here = page.seedlings.iter();
            let is_known =
                here.any(|&plant| self.is_of(plant, cross) && self.is_surely(plant, sex));
            !is_known && !mixed_up.iter().any(|of| self.has_one_here(of, cross, sex))
        };
        Wanted {
            female: is_missing(Sex::Female),
            male: is_missing(Sex::Male),
        }
    }

    /// A line with seedlings that are held.
    pub(crate) fn line_ahead(&self, cross: CrossRow, ages: &FirstFlowers) -> LineAhead {
        let page = &self.registry[cross];
        let (all, marked) = self.held(cross);
        let held: Vec<PlantRow> = all
            .iter()
            .copied()
            .filter(|&of| self.is_of(of, cross))
            .collect();
        let may_be_elsewhere = all.len() - held.len();
        let seen = sexes(self.registry, page, self.context.today);
        let share = self.share_of(cross);
        let wanted = self.sexes_missing(cross);
        let flowered = held
            .iter()
            .map(|&plant| self.ahead(plant, ages).and_then(|plant| plant.flowered));
        let flowered: Option<Vec<Vec<f64>>> = flowered.collect();
        let by_end_of = |year: usize| {
            if !wanted.female && !wanted.male {
                return Some(1.0);
            }
            let flowered = flowered.as_ref()?.iter().map(|plant| plant[year]);
            Some(share.shown(&flowered.collect::<Vec<f64>>(), wanted))
        };
        let first = self.this_year().unwrap_or(0);
        let year = |at: usize| YearAhead {
            year: first + at as i32,
            chance: by_end_of(at),
        };
        let interval = wilson(
            seen.female as u64,
            (seen.female + seen.male) as u64,
            Confidence::P95,
        );
        let ages = ages.ages(cross);
        LineAhead {
            line: page.page.code.to_owned(),
            once_all: share.holds(held.len(), wanted),
            once_all_one_to_one: one_to_one(held.len() as u32, wanted),
            held: held
                .iter()
                .map(|&plant| self.registry.code(plant))
                .collect(),
            may_be_elsewhere,
            marked,
            both_here: !wanted.female && !wanted.male,
            females: seen.female,
            males: seen.male,
            seen_share: interval.ok().map(|interval| [interval.low, interval.high]),
            female: share.female(),
            first_flower: [ages.range.0, ages.range.1],
            first_flower_of: ages.of,
            by_year: (0..YEARS).map(year).collect(),
        }
    }
}

/// The chance that some plants hold every sex wanted when each is female with chance ½.
fn one_to_one(plants: u32, wanted: Wanted) -> f64 {
    match (wanted.female, wanted.male) {
        (true, true) => chance_of_both_sexes(plants),
        (true, false) | (false, true) => chance_of_a_sex(plants),
        (false, false) => 1.0,
    }
}
