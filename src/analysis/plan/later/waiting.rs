//! A plant in the seasons ahead: its sex, or how likely each sex is and when it may show.

use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::later::first_flowers::{FirstFlowers, YEAR};
use crate::lineage::PlantRow;
use crate::observation::moment::is_within_a_month;
use crate::observation::months::MONTH;
use crate::observation::provenance::sown;
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::sexes::sexes;
use crate::planning::sexes::{ShareOfFemales, flowered_by};
use crate::record::{Day, Sex, When};
use crate::registry::CrossRow;

/// Years looked ahead, this one included.
const YEARS: i32 = 13;

/// What is known of one plant.
pub(crate) struct Ahead {
    /// The sex it has shown; `None` for a plant that has not.
    pub sex: Option<Sex>,
    /// Chance of being female, and what is known of its line.
    pub share: ShareOfFemales,
    pub cross: Option<CrossRow>,
    /// For each year from this one the chance to have flowered by its end; `None` without a sowing dated to a month, or for a plant
    /// older than any first flower known.
    pub flowered: Option<Vec<f64>>,
}

impl PlanContext<'_, '_, '_> {
    /// What is known of a plant; `None` when both sexes are on record.
    pub(crate) fn ahead(&self, plant: PlantRow, ages: &FirstFlowers) -> Option<Ahead> {
        let sex = match sex_seen(self.registry, plant) {
            SexSeen::Certain(sex) | SexSeen::Guess(sex, _) => Some(sex),
            SexSeen::Unsexed | SexSeen::MixedUp => None,
            SexSeen::Contradicted => return None,
        };
        let cross = self.registry.cross_of(plant);
        let share = cross.map_or(ShareOfFemales::seen(0, 0), |cross| self.share_of(cross));
        let flowered = match (sex, cross) {
            (Some(_), _) => Some(vec![1.0; YEARS as usize]),
            (None, Some(cross)) => self.flowered(plant, ages.ages(cross).range),
            (None, None) => None,
        };
        Some(Ahead {
            sex,
            share,
            cross,
            flowered,
        })
    }

    /// What the sexes of a line say.
    pub(crate) fn share_of(&self, cross: CrossRow) -> ShareOfFemales {
        let seen = sexes(self.registry, &self.registry[cross], self.context.today);
        ShareOfFemales::seen(seen.female as u64, seen.male as u64)
    }

    /// Chances to have flowered by the end of each year, by the middle of an age that is known to a month.
    fn flowered(&self, plant: PlantRow, ages: (f64, f64)) -> Option<Vec<f64>> {
        let (least, most) = sown(self.registry, plant).days_until(When::on(self.context.today))?;
        if !is_within_a_month(f64::from(most - least) / MONTH) {
            return None;
        }
        let now = 0.5 * (f64::from(least) + f64::from(most)) / YEAR;
        // Older than any first flower known: there is nothing to say when it will come.
        if now >= ages.1 {
            return None;
        }
        let by = |end: Day| {
            let passed = f64::from(end.0 - self.context.today.0) / YEAR;
            flowered_by((now, now + passed), ages)
        };
        Some(self.year_ends()?.into_iter().map(by).collect())
    }

    /// The last days of the years ahead.
    fn year_ends(&self) -> Option<Vec<Day>> {
        let first = self.this_year()?;
        (first..first + YEARS)
            .map(|year| Day::new(year, 12, 31))
            .collect()
    }

    /// The year of today.
    pub(crate) fn this_year(&self) -> Option<i32> {
        self.context.today.ymd().map(|(year, ..)| year)
    }
}
