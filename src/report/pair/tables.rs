//! The traits of an intended pollination as tables.

use super::super::sheet::{Cell, Table};
use crate::analysis::merit::{MeritOfTrait, MeritUnit};
use crate::analysis::pair::{DeviationFrom, PairReport, PairTrait, ParentRead};
use crate::report::merit::limits;
use crate::wording::{chance, counted};

impl PairTrait {
    fn heading(&self) -> String {
        match self.unit {
            "" => self.name.clone(),
            unit => format!("{}, {unit}", self.name),
        }
    }
}

impl PairTrait {
    /// What the spread comes from, or why there is none.
    fn deviation_from_cell(&self) -> Cell {
        let apart = self.midparent.is_none() && self.seed.and(self.pollen).is_some();
        match self.deviation_from {
            Some(from) => from.words().into(),
            None if apart => Cell::Missing,
            None if self.set_aside.readings > 0 => "no pod with certain parents".into(),
            None => "no pod read at that age".into(),
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
    /// `24 readings in 3 pods`.
    fn words(self) -> String {
        format!(
            "{} in {}",
            counted(self.readings, "reading", "readings"),
            counted(self.pods, "pod", "pods")
        )
    }
}

impl ParentRead {
    /// `20.0 at 30.0 months`; how many readings, when it is not one.
    fn words(self) -> String {
        let age = match self.age_months {
            None => "age not known".to_owned(),
            Some((least, most)) => {
                let (least, most) = (format!("{least:.1}"), format!("{most:.1}"));
                match least == most {
                    true => format!("at {least} months"),
                    false => format!("at {least}–{most} months"),
                }
            }
        };
        match self.readings {
            1 => format!("{:.1} ({age})", self.mean),
            n => format!("{:.1} ({age}, n = {n})", self.mean),
        }
    }
}

impl PairReport {
    pub(crate) fn trait_table(&self) -> Table {
        let best = format!(">best of {}, above them", self.seedlings);
        let headings = [
            "trait",
            ">seed parent",
            ">pollen parent",
            ">midparent",
            ">spread (SD)",
            "+from",
            &best,
        ];
        let title = "Readings of the two, and the spread to expect at that age";
        let mut table = Table::new(&headings).titled(title);
        let read = |of: Option<ParentRead>| Cell::from(of.map(ParentRead::words));
        let span = |of: Option<(f64, f64)>| {
            Cell::from(of.map(|(least, most)| {
                let (least, most) = (format!("{least:.1}"), format!("{most:.1}"));
                if least == most {
                    least
                } else {
                    format!("{least}–{most}")
                }
            }))
        };
        for row in &self.traits {
            table.row(vec![
                row.heading().into(),
                read(row.seed),
                read(row.pollen),
                row.midparent_cell(),
                span(row.deviation),
                row.deviation_from_cell(),
                span(row.best_above),
            ]);
        }
        table
    }

    pub(crate) fn merit_table(&self) -> Table {
        let headings = [
            "trait",
            ">seed parent",
            ">pollen parent",
            ">seed parent the better",
            ">seedlings, genetic SD",
            ">usefulness",
        ];
        let mut table = Table::new(&headings)
            .titled("Predicted merit, from all relatives, against the mean of the plants here; ± or limits: one standard error either way");
        for row in &self.traits {
            let Some(merit) = &row.merit else { continue };
            let side = |of: &MeritOfTrait| match (of.reliability < 1e-9, merit.unit) {
                (true, _) => "not known".to_owned(),
                (_, MeritUnit::Percent) => {
                    format!("{:+.0} % ({}; {})", of.merit, limits(of), of.known_by)
                }
                _ => format!("{:+.2} ± {:.2} ({})", of.merit, of.error, of.known_by),
            };
            // A parent that nothing is known of is neither better nor worse, and gives no forecast.
            let known = [&merit.seed, &merit.pollen]
                .iter()
                .all(|of| of.reliability >= 1e-9);
            let (least, most) = merit.usefulness;
            let (least, most) = (format!("{least:+.2}"), format!("{most:+.2}"));
            table.row(vec![
                row.name.clone().into(),
                side(&merit.seed).replace('-', "−").into(),
                side(&merit.pollen).replace('-', "−").into(),
                known.then(|| chance(merit.seed_is_better)).into(),
                known
                    .then(|| {
                        format!("{:+.2} ± {:.2}", merit.mean, merit.mean_error).replace('-', "−")
                    })
                    .into(),
                known
                    .then(|| match least == most {
                        true => least.replace('-', "−"),
                        false => format!("{least} to {most}").replace('-', "−"),
                    })
                    .into(),
            ]);
        }
        table
    }
}
