//! The traits of an intended pollination as tables.

use super::super::cell::Cell;
use super::super::table::Table;
use crate::analysis::merit::{MeritOfTrait, MeritUnit};
use crate::analysis::pair::{DeviationFrom, PairMerit, PairReport, PairTrait, ParentRead};
use crate::report::merit::limits;
use crate::wording::{age, chance, counted, from_to, with_its_unit};

impl PairTrait {
    fn heading(&self) -> String {
        with_its_unit(&self.name, self.unit)
    }

    /// What the spread comes from, or why there is none.
    fn deviation_from_cell(&self) -> Cell {
        let apart = self.midparent.is_none() && self.seed.and(self.pollen).is_some();
        match self.deviation_from {
            Some(from) => from.words().into(),
            None if apart => Cell::Missing,
            None if self.set_aside.readings > 0 => "no pod with certain parents".into(),
            None if self.age_months.is_none() => "no one age to go by".into(),
            None => "too few read at that age".into(),
        }
    }

    /// Plants of different ages have no mean.
    fn midparent_cell(&self) -> Cell {
        match (self.midparent, self.seed.and(self.pollen)) {
            (Some(mean), _) => Cell::Number(mean, 1),
            (None, Some(_)) => "not at one age".into(),
            (None, None) => Cell::Missing,
        }
    }
}

impl DeviationFrom {
    /// `24 plants in 3 pods`.
    fn words(self) -> String {
        format!(
            "{} in {}",
            counted(self.plants, "plant", "plants"),
            counted(self.pods, "pod", "pods")
        )
    }
}

impl ParentRead {
    /// `20.0 (at 30.0 months)`.
    fn words(self) -> String {
        let age = self.age_months.map(|months| format!("at {}", age(months)));
        let age = age.unwrap_or_else(|| "age not known".to_owned());
        format!("{:.1} ({age})", self.mean)
    }
}

impl PairReport {
    pub(crate) fn trait_table(&self) -> Table {
        Table::of(&self.traits)
            .titled("Readings of the two, and the spread to expect at that age")
            .text("trait", PairTrait::heading)
            .figure("seed parent", |row| row.seed.map(ParentRead::words))
            .figure("pollen parent", |row| row.pollen.map(ParentRead::words))
            .figure("midparent", PairTrait::midparent_cell)
            .figure("spread (SD)", |row| row.deviation.map(span))
            .text("from", PairTrait::deviation_from_cell)
            .beside()
            .figure(format!("best of {}, above them", self.seedlings), |row| {
                row.best_above.map(span)
            })
            .into()
    }

    pub(crate) fn merit_table(&self) -> Table {
        let rows = self.traits.iter();
        let rows = rows.filter_map(|row| Some((&row.name, row.merit.as_ref()?)));
        Table::of(rows)
            .titled("Predicted merit, from all relatives, against the mean of the plants here; ± or limits: one standard error either way")
            .text("trait", |(name, _)| name)
            .figure("seed parent", |(_, merit)| merit.words_of(&merit.seed))
            .figure("pollen parent", |(_, merit)| merit.words_of(&merit.pollen))
            .figure("seed parent the better", |(_, merit)| {
                let words = || chance(merit.seed_is_better);
                merit.both_known().then(words)
            })
            .figure("seedlings, genetic SD", |(_, merit)| {
                let words = || minus(format!("{:+.2} ± {:.2}", merit.mean, merit.mean_error));
                merit.both_known().then(words)
            })
            .figure("usefulness", |(_, merit)| {
                let (least, most) = merit.usefulness;
                let words = || minus(from_to(format!("{least:+.2}"), format!("{most:+.2}"), " to "));
                merit.both_known().then(words)
            })
            .into()
    }
}

impl PairMerit {
    /// A parent that nothing is known of is neither better nor worse, and gives no forecast.
    fn both_known(&self) -> bool {
        let both = [&self.seed, &self.pollen];
        both.iter().all(|of| of.reliability >= NOTHING_KNOWN)
    }

    /// The merit of one of the two and how it is known.
    fn words_of(&self, of: &MeritOfTrait) -> String {
        let known_by = &of.known_by;
        minus(match self.unit {
            _ if of.reliability < NOTHING_KNOWN => "not known".to_owned(),
            MeritUnit::Percent => format!("{:+.0} % ({}; {known_by})", of.merit, limits(of)),
            _ => format!("{:+.2} ± {:.2} ({known_by})", of.merit, of.error),
        })
    }
}

/// Reliability below which nothing is known of a plant.
const NOTHING_KNOWN: f64 = 1e-9;

/// `2.1–3.4`, or one figure where both are written alike.
fn span((least, most): (f64, f64)) -> String {
    from_to(format!("{least:.1}"), format!("{most:.1}"), "–")
}

/// With minus signs for hyphens.
fn minus(figures: String) -> String {
    figures.replace('-', "−")
}
