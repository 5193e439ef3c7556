//! The plan as a person reads it.

use super::super::sheet::{Report, Sheet};
use super::worth::{LEAST, at_most, figure};
use crate::analysis::expected_spread::LEAST_AND_MOST;
use crate::analysis::plan::{Caution, Idle, PlanReport, PlannedRow};
use crate::report::kinship::{decimal, four_decimals};
use crate::wording::counted;

/// Which of plans worth the same is shown.
const TIES_GO_TO: &str = "the least inbred, then the one with the fewest pods that only perhaps meet, then the fewest sexes only guessed, then the freshest pollen, then the least kinship among the parents (of those looked at), then the first by code";

impl Report for PlanReport {
    fn is_bad_news(&self) -> bool {
        self.worth.is_none()
    }

    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        sheet.next = self.idle.as_ref().and_then(Idle::next);
        if !self.plan.is_empty() {
            sheet.table(self.plan_table());
            sheet.brief_table(self.short_table());
            let remarks = self.plan.iter().flat_map(PlannedRow::remarks);
            sheet.lines(None, remarks);
            sheet.facts(None, self.facts());
            sheet.table_if_any(self.as_good_table());
            sheet.table_if_any(self.next_best_table());
        }
        sheet.table_if_any(self.limit_table());
        if self.frontier.len() > 1 {
            sheet.table(self.frontier_table());
        }
        sheet.table_if_any(self.later.line_table());
        sheet.table_if_any(self.later.hold_table());
        sheet.cautions_of(&self.cautions);
        sheet
    }
}

impl PlanReport {
    fn answer(&self) -> String {
        let Some(worth) = self.worth else {
            return if self.proved {
                "No plan keeps every limit".to_owned()
            } else {
                "Stopped before a plan was found that keeps every limit".to_owned()
            };
        };
        if let Some(why) = &self.idle {
            return format!("Nothing to pollinate: {why}");
        }
        let taken = self.cautions.iter().find_map(|caution| match caution {
            Caution::Made { pots, .. } => *pots,
            _ => None,
        });
        let pots = match (self.goals.pots, taken) {
            (Some(pots), Some(taken)) => {
                let left = counted(pots.saturating_sub(taken) as usize, "pot", "pots");
                format!("{} of the {left} left", self.pots)
            }
            (Some(pots), None) => format!("{} of {pots} pots", self.pots),
            (None, _) => counted(self.pots as usize, "pot", "pots"),
        };
        format!(
            "{}{} in {pots}, {}",
            self.one_of_many(),
            counted(self.pods as usize, "pod", "pods"),
            self.proof(worth)
        )
    }

    /// That the plan is not the only one as good, before anything else is said of it.
    fn one_of_many(&self) -> String {
        let at_least = if self.ties_counted { "" } else { "at least " };
        match self.ties {
            0 | 1 => String::new(),
            n => format!("One of {at_least}{n} equally good plans: "),
        }
    }

    fn proof(&self, worth: f64) -> String {
        let counts = match self.cautions.contains(&Caution::NoTraits) {
            true => " (no trait has a weight: each pod counts 1)",
            false => "",
        };
        let told = format!("{}{counts}", self.worth_words(worth));
        // What is proved of a worth that may be off is proved of the estimates it is counted from.
        let by = match self.worth_give_or_take {
            Some(_) => " by these estimates",
            None => "",
        };
        match (self.proved, self.bound) {
            (true, _) if self.ties > 1 => format!("{told}; no plan is better (proved{by})"),
            (true, _) if !self.ties_counted => {
                format!("{told}; no plan is better (proved{by}), others may be as good")
            }
            (true, _) => format!(
                "{told}, proved the best{by} (no plan exceeds {})",
                figure(worth)
            ),
            (false, Some(bound)) => {
                let missed = match bound - worth {
                    little if little < LEAST => "less than 0.01".to_owned(),
                    missed => format!("at most {}", at_most(missed)),
                };
                let bound = at_most(bound);
                format!("{told}, stopped early: no plan exceeds {bound}, so {missed} is missed")
            }
            (false, None) => format!("{told}, stopped before a bound was known"),
        }
    }

    /// `expected, ` where parents further back are one of several.
    fn expected(&self) -> &'static str {
        let uncertain = self
            .plan
            .iter()
            .any(|row| !row.inbreeding_may_be.is_empty());
        if uncertain { "expected, " } else { "" }
    }

    /// The mean inbreeding of the plan's seedlings, the same on the screen and in the picture.
    pub(super) fn mean_inbreeding_words(&self) -> String {
        format!(
            "{}at least {}",
            self.expected(),
            decimal(self.mean_inbreeding)
        )
    }

    /// The worth with its give or take, the same on the screen and in the picture.
    pub(super) fn worth_words(&self, worth: f64) -> String {
        match &self.worth_give_or_take {
            Some(of) => format!("worth {} ± {}", figure(worth), figure(of.error)),
            None => format!("worth {}", figure(worth)),
        }
    }

    fn facts(&self) -> Vec<(&'static str, Option<String>)> {
        let at_least = if self.ties_counted { "" } else { "at least " };
        let ties = match self.ties {
            0 | 1 if self.ties_counted => "none".to_owned(),
            0 | 1 => "not counted".to_owned(),
            n => format!(
                "{at_least}{} worth the same; shown is {TIES_GO_TO}",
                counted(n, "plan", "plans")
            ),
        };
        let sexes = (self.unsexed > 0).then(|| {
            let plants = counted(self.unsexed, "kept plant", "kept plants");
            format!("{plants}; see seasons ahead")
        });
        let give_or_take = self.worth_give_or_take.as_ref();
        let error = give_or_take.map(|_| "one standard error of the parents' merits".to_owned());
        let differ = give_or_take.and_then(|of| of.if_species_differ);
        let differ = differ.map(|worth| {
            let [least, most] = LEAST_AND_MOST;
            let [low, high] = worth.map(figure);
            format!("worth {low} or {high} (S = {least} V or {most} V)")
        });
        let inbreeding = self.mean_inbreeding_words();
        let kept = counted(self.kept, "plant", "plants");
        let kinship = format!("at least {} ({kept})", four_decimals(self.mean_kinship));
        vec![
            ("± of the worth", error),
            ("if species differ less or more", differ),
            ("mean inbreeding of the seedlings", Some(inbreeding)),
            ("mean kinship with what is kept", Some(kinship)),
            ("ties", Some(ties)),
            ("not yet sexed", sexes),
        ]
    }
}
