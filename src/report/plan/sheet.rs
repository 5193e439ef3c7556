//! The plan as a person reads it.

use super::super::rests_on::probability;
use super::super::sheet::{Cell, Report, Sheet, Table};
use super::super::words::{counted, span_of_days};
use super::answer::{LimitRow, PlanReport, PlannedRow};

impl Report for PlanReport {
    fn is_bad_news(&self) -> bool {
        self.worth.is_none()
    }

    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        if !self.plan.is_empty() {
            sheet.table(self.plan_table());
            sheet.facts(None, self.facts());
        }
        if !self.runners_up.is_empty() {
            sheet.table(self.runner_table());
        }
        if self.limits.iter().any(LimitRow::costs) {
            sheet.table(self.limit_table());
        }
        if self.frontier.len() > 1 {
            sheet.table(self.frontier_table());
        }
        if !self.later.is_empty() {
            sheet.table(self.later_table());
        }
        sheet.cautions = self.cautions.clone();
        sheet
    }
}

impl PlanReport {
    fn answer(&self) -> String {
        let Some(worth) = self.worth else {
            return if self.proved {
                "no plan keeps every limit".to_owned()
            } else {
                "stopped before a plan was found that keeps every limit".to_owned()
            };
        };
        if self.plan.is_empty() {
            return "nothing to pollinate: no flowers meet pollen, or nothing would be gained; --any-time plans as though every plant of known sex flowered"
                .to_owned();
        }
        let pots = match self.goals.pots {
            Some(pots) => format!("{} of {pots} pots", self.pots),
            None => counted(self.pots as usize, "pot", "pots"),
        };
        let proof = match (self.proved, self.bound) {
            (true, _) => format!("worth {worth:.3}, proved the best (no plan exceeds {worth:.3})"),
            (false, Some(bound)) => {
                format!(
                    "worth {worth:.3}, stopped early: no plan exceeds {bound:.3}, so at most {:.3} is missed",
                    bound - worth
                )
            }
            (false, None) => format!("worth {worth:.3}, stopped before a bound was known"),
        };
        format!(
            "{} in {pots}, {proof}",
            counted(self.pods as usize, "pod", "pods")
        )
    }

    fn plan_table(&self) -> Table {
        let headings = [
            ">pods",
            "seed parent",
            "pollen parent",
            "envelope",
            ">pots",
            ">parents' mean",
            ">worth of a pod",
            ">inbreeding",
            "meet",
        ];
        let mut table = Table::new(&headings).titled("To be made");
        for row in &self.plan {
            table.row(vec![
                row.pods.into(),
                row.seed.clone().into(),
                row.pollen.clone().into(),
                row.envelope().into(),
                row.pots.into(),
                Cell::Number(row.mean, 2),
                Cell::Number(row.worth, 3),
                probability(row.inbreeding).into(),
                row.meet.clone().into(),
            ]);
        }
        table
    }

    fn facts(&self) -> Vec<(&'static str, Option<String>)> {
        let at_least = if self.ties_counted { "" } else { "at least " };
        let ties = match self.ties {
            0 | 1 if self.ties_counted => "none".to_owned(),
            n => format!(
                "{at_least}{} worth the same; the least inbred is shown",
                counted(n, "plan", "plans")
            ),
        };
        let sexes = (self.unsexed > 0).then(|| {
            format!(
                "{}, both sexes among them with a chance of {:.1} %",
                counted(self.unsexed, "kept plant", "kept plants"),
                100.0 * self.unsexed_both
            )
        });
        vec![
            (
                "mean inbreeding of the seedlings",
                Some(format!("at least {:.4}", self.mean_inbreeding)),
            ),
            (
                "mean kinship with what is kept",
                Some(format!(
                    "at least {:.4} ({})",
                    self.mean_kinship,
                    counted(self.kept, "plant", "plants")
                )),
            ),
            ("ties", Some(ties)),
            ("not yet sexed", sexes),
        ]
    }

    fn runner_table(&self) -> Table {
        let title = if self.runners_up_proved {
            "Next best plans"
        } else {
            "Other good plans (not proved the next best)"
        };
        let mut table = Table::new(&[">worth less", "instead", ">mean inbreeding"]).titled(title);
        for row in &self.runners_up {
            table.row(vec![
                Cell::Number(row.less, 3),
                row.instead.clone().into(),
                Cell::Number(row.mean_inbreeding, 4),
            ]);
        }
        table
    }

    fn limit_table(&self) -> Table {
        let mut table = Table::new(&["limit, and how it is eased", ">would gain"])
            .titled("What the limits cost");
        for row in self.limits.iter().filter(|row| row.costs()) {
            let gain = if row.proved {
                format!("{:.3}", row.gain)
            } else {
                format!("at least {:.3}", row.gain)
            };
            table.row(vec![row.limit.clone().into(), gain.into()]);
        }
        table
    }

    fn frontier_table(&self) -> Table {
        let title = if self.frontier_exact {
            format!(
                "Gain against kinship, {} pods, every plan looked at",
                self.pods
            )
        } else {
            format!(
                "Gain against kinship, {} pods, within {:.3} of the best under each weight",
                self.pods, self.frontier_gap
            )
        };
        let mut table =
            Table::new(&[">kinship among the parents", ">mean worth of a pod", ""]).titled(title);
        for plan in &self.frontier {
            table.row(vec![
                Cell::Number(plan.kinship, 4),
                Cell::Number(plan.gain, 3),
                plan.label.clone().into(),
            ]);
        }
        table
    }

    fn later_table(&self) -> Table {
        let headings = [
            "one",
            "other",
            "waits for the sex of",
            ">chance it fits",
            ">worth of a pod",
            ">inbreeding",
        ];
        let mut table = Table::new(&headings).titled("Seasons ahead, sexes taken as one to one");
        for row in &self.later {
            table.row(vec![
                row.one.clone().into(),
                row.other.clone().into(),
                row.waits_for.join(", ").into(),
                format!("{:.0} %", 100.0 * row.chance).into(),
                Cell::Number(row.worth, 3),
                probability(row.inbreeding).into(),
            ]);
        }
        table
    }
}

impl PlannedRow {
    /// The envelope with the age of its pollen today.
    fn envelope(&self) -> String {
        let Some(lot) = &self.lot else {
            return "as shed".to_owned();
        };
        match self.age_days {
            Some(age) => format!("{lot}, {}", span_of_days(age)),
            None => format!("{lot}, age not known"),
        }
    }
}

impl LimitRow {
    /// Whether easing the limit gains anything that shows; one that costs nothing is only told in JSON.
    fn costs(&self) -> bool {
        self.gain >= 0.0005 || !self.proved
    }
}
