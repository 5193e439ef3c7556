//! Tables of what happened over time: rates, curves, survival, germination.

use super::beside::percent_a_month;
use crate::analysis::growth::CurveRow;
use crate::analysis::growth::GrowthReport;
use crate::report::sheet::{Cell, Sheet, Table};
use crate::statistics::Scale;

impl GrowthReport {
    pub(crate) fn rate_table(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&[
            "group",
            ">n",
            ">rate",
            "+>SE",
            ">95 % from",
            "+>to",
            ">% a month",
            ">from months",
            "+>to months",
        ])
        .titled(match self.scale {
            Scale::Log => "growth rate a month (of the logarithm), each group over its own ages",
            Scale::Plain => "change a month, each group over its own ages",
        });
        for group in &self.groups {
            let Some(rate) = &group.rate else { continue };
            let number = |value: Option<f64>, decimals: u8| {
                value.map_or(Cell::Missing, |value| Cell::Number(value, decimals))
            };
            table.row(vec![
                group.id.clone().into(),
                rate.n.into(),
                Cell::Number(rate.mean, 3),
                number(rate.standard_error, 3),
                number(rate.interval.map(|i| i.0), 3),
                number(rate.interval.map(|i| i.1), 3),
                match self.scale {
                    Scale::Log => Cell::Number(percent_a_month(rate.mean), 1),
                    Scale::Plain => Cell::Missing,
                },
                number(rate.between_ages.map(|ages| ages.0), 1),
                number(rate.between_ages.map(|ages| ages.1), 1),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    pub(crate) fn curve_table(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&["group", "curve", "parameters ± SE", ">AICc", "supported"])
            .titled(
                match self.groups.iter().any(|group| group.curves.len() > 1) {
                    true => "curves, the chosen one first",
                    false => "curve",
                },
            );
        for group in &self.groups {
            for curve in &group.curves {
                table.row(vec![
                    group.id.clone().into(),
                    curve.shape.to_string().into(),
                    parameters(curve).into(),
                    curve
                        .aicc
                        .map_or(Cell::Missing, |aicc| Cell::Number(aicc, 1)),
                    if curve.identified { "yes" } else { "no" }.into(),
                ]);
            }
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }

    pub(crate) fn survival_tables(&self, sheet: &mut Sheet) {
        let rows = || {
            let all = self.groups.iter();
            all.filter_map(|group| Some((group, group.survival.as_ref()?)))
        };
        if rows().next().is_none() {
            return;
        }
        let mut counts = Table::new(&[
            "group",
            ">followed",
            ">alive today",
            ">died",
            ">culled, sold or lost",
            ">not dated",
            ">half dead by months",
        ])
        .titled("survival of numbered plants");
        let mut steps = Table::new(&[
            "group",
            ">age months",
            ">at risk",
            ">deaths",
            ">alive %",
            ">95 % from",
            "+>to",
        ]);
        for (group, row) in rows() {
            counts.row(vec![
                group.id.clone().into(),
                row.followed.into(),
                row.alive.into(),
                row.deaths.into(),
                row.left.into(),
                row.undated.into(),
                row.median_age
                    .map_or(Cell::Missing, |age| Cell::Number(age, 1)),
            ]);
            for step in &row.steps {
                let limit = |value: Option<f64>| {
                    value.map_or(Cell::Missing, |share| Cell::Number(100.0 * share, 0))
                };
                steps.row(vec![
                    group.id.clone().into(),
                    Cell::Number(step.age, 1),
                    step.at_risk.into(),
                    step.deaths.into(),
                    Cell::Number(100.0 * step.survival, 0),
                    limit(step.interval.map(|i| i.0)),
                    limit(step.interval.map(|i| i.1)),
                ]);
            }
        }
        sheet.table(counts);
        if !steps.rows.is_empty() {
            sheet.table(steps);
        }
    }

    pub(crate) fn germination_table(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&[
            "sowing",
            ">sown",
            ">up",
            ">%",
            ">95 % from",
            "+>to",
            ">counts",
            ">T50 days",
            ">N/2",
            ">mean",
            ">fit % (95 %)",
            ">fit T50 (95 %)",
        ])
        .titled("germination; days by which half were up, by (N + 1)/2, by N/2 and fitted");
        for row in self.groups.iter().flat_map(|group| &group.germination) {
            let number = |value: Option<f64>, decimals: u8| {
                value.map_or(Cell::Missing, |value| Cell::Number(value, decimals))
            };
            table.row(vec![
                row.id.clone().into(),
                row.sown.into(),
                row.germinated.into(),
                number(row.percent, 0),
                number(row.interval.map(|i| i.0), 0),
                number(row.interval.map(|i| i.1), 0),
                row.counts.into(),
                number(row.t50_coolbear, 0),
                number(row.t50_farooq, 0),
                number(row.mean_days, 0),
                row.fitted_percent
                    .map(|percent| with_limits(percent, row.fitted_percent_between.map(both)))
                    .into(),
                row.fitted_t50
                    .map(|day| with_limits(day, row.fitted_t50_between))
                    .into(),
            ]);
        }
        if !table.rows.is_empty() {
            sheet.table(table);
        }
    }
}

fn both((low, high): (f64, f64)) -> (Option<f64>, Option<f64>) {
    (Some(low), Some(high))
}

/// A fitted figure with its limits: `62 (55–71)`; where one is lacking `62 (from 55)`, `62 (to 71)`, `62 (no limits)`.
fn with_limits(figure: f64, between: Option<(Option<f64>, Option<f64>)>) -> String {
    match between {
        None => format!("{figure:.0}"),
        Some((Some(low), Some(high))) => format!("{figure:.0} ({low:.0}–{high:.0})"),
        Some((Some(low), None)) => format!("{figure:.0} (from {low:.0})"),
        Some((None, Some(high))) => format!("{figure:.0} (to {high:.0})"),
        Some((None, None)) => format!("{figure:.0} (no limits)"),
    }
}

fn parameters(curve: &CurveRow) -> String {
    let told = curve.parameters.iter().map(|p| match p.standard_error {
        Some(error) => format!("{} {:.3} ± {:.3}", p.name, p.value, error),
        None => format!("{} {:.3} ± not known", p.name, p.value),
    });
    told.collect::<Vec<_>>().join(", ")
}
