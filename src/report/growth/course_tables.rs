//! Tables of what happened over time: rates, curves, survival, germination.

use super::beside::percent_a_month;
use crate::analysis::growth::CurveRow;
use crate::analysis::growth::GrowthReport;
use crate::report::sheet::Sheet;
use crate::report::table::Table;
use crate::statistics::Scale;
use crate::wording::{bare_age, joined};

/// Heading of the counts of the living and the dead.
pub(super) const SURVIVAL: &str = "survival of numbered plants";

/// Heading of the counts of what came up.
pub(super) const GERMINATION: &str =
    "germination; days by which half were up, by (N + 1)/2, by N/2 and fitted";

impl GrowthReport {
    pub(crate) fn rate_table(&self, sheet: &mut Sheet) {
        let of_groups = self.groups.iter();
        let rows = of_groups.filter_map(|group| Some((group, group.rate.as_ref()?)));
        let percent = |mean: f64| match self.scale {
            Scale::Log => Some(percent_a_month(mean)),
            Scale::Plain => None,
        };
        sheet.table_if_any(
            Table::of(rows)
                .titled(match self.scale {
                    Scale::Log => {
                        "growth rate a month (of the logarithm), each group over its own ages"
                    }
                    Scale::Plain => "change a month, each group over its own ages",
                })
                .text("group", |(group, _)| &group.id)
                .figure("n", |(_, rate)| rate.n)
                .number("rate", 3, |(_, rate)| rate.mean)
                .number("SE", 3, |(_, rate)| rate.standard_error)
                .beside()
                .limits(["95 % from", "to"], 3, |(_, rate)| rate.interval)
                .number("% a month", 1, |(_, rate)| percent(rate.mean))
                .figure("from months", |(_, rate)| {
                    rate.between_ages.map(|[first, _]| bare_age(first))
                })
                .figure("to months", |(_, rate)| {
                    rate.between_ages.map(|[_, last]| bare_age(last))
                })
                .beside(),
        );
    }

    pub(crate) fn curve_table(&self, sheet: &mut Sheet) {
        let of_groups = self.groups.iter();
        let rows = of_groups.flat_map(|group| group.curves.iter().map(move |of| (group, of)));
        sheet.table_if_any(
            Table::of(rows)
                .titled(
                    match self.groups.iter().any(|group| group.curves.len() > 1) {
                        true => "curves, the chosen one first",
                        false => "curve",
                    },
                )
                .text("group", |(group, _)| &group.id)
                .text("curve", |(_, curve)| curve.shape.to_string())
                .text("parameters ± SE", |(_, curve)| parameters(curve))
                .number("AICc", 1, |(_, curve)| curve.aicc)
                .text("supported", |(_, curve)| match curve.identified {
                    true => "yes",
                    false => "no",
                }),
        );
    }

    pub(crate) fn survival_tables(&self, sheet: &mut Sheet) {
        let of_groups = self.groups.iter();
        let rows = of_groups.filter_map(|group| Some((group, group.survival.as_ref()?)));
        let rows: Vec<_> = rows.collect();
        sheet.table_if_any(
            Table::of(rows.iter().copied())
                .titled(SURVIVAL)
                .text("group", |(group, _)| &group.id)
                .figure("followed", |(_, row)| row.followed)
                .figure("alive today", |(_, row)| row.alive)
                .figure("died", |(_, row)| row.died)
                .figure("culled, sold or lost", |(_, row)| row.left)
                .count_if_any("not found", |(_, row)| row.not_found)
                .figure("not dated", |(_, row)| row.undated)
                .count_if_any("date too vague", |(_, row)| row.too_vague)
                .number("half dead by months", 1, |(_, row)| row.median_age),
        );
        let steps = rows
            .iter()
            .flat_map(|&(group, row)| row.steps.iter().map(move |of| (group, of)));
        let percent = |(low, high): (f64, f64)| (100.0 * low, 100.0 * high);
        sheet.table_if_any(
            Table::of(steps)
                .text("group", |(group, _)| &group.id)
                .number("age months", 1, |(_, step)| step.age)
                .figure("at risk", |(_, step)| step.at_risk)
                .figure("deaths", |(_, step)| step.deaths)
                .number("alive %", 0, |(_, step)| 100.0 * step.survival)
                .limits(["95 % from", "to"], 0, |(_, step)| {
                    step.interval.map(percent)
                }),
        );
    }

    pub(crate) fn germination_table(&self, sheet: &mut Sheet) {
        sheet.table_if_any(
            Table::of(self.groups.iter().flat_map(|group| &group.germination))
                .titled(GERMINATION)
                .text("sowing", |row| &row.id)
                .figure("sown", |row| row.sown)
                .figure("up", |row| row.germinated)
                .number("%", 0, |row| row.percent)
                .limits(["95 % from", "to"], 0, |row| row.interval)
                .figure("counts", |row| row.counts)
                .number("T50 days", 0, |row| row.t50_coolbear)
                .number("N/2", 0, |row| row.t50_farooq)
                .number("mean", 0, |row| row.mean_days)
                .figure("fit % (95 %)", |row| {
                    let between = row.fitted_percent_between.map(both);
                    row.fitted_percent
                        .map(|percent| with_limits(percent, between))
                })
                .figure("fit T50 (95 %)", |row| {
                    let between = row.fitted_t50_between;
                    row.fitted_t50.map(|day| with_limits(day, between))
                }),
        );
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
    joined(told, ", ")
}
