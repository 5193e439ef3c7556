//! The tables of a plan.

use super::super::table::Table;
use super::worth::{DECIMALS, LEAST, at_most, difference, figure};
use crate::analysis::plan::{LimitRow, PlanReport, PlannedRow};
use crate::observation::sex::SexSeen;
use crate::report::kinship::may_be_words;
use crate::report::made_before::made_before_words;
use crate::wording::{age_of_days, listed};

impl PlanReport {
    pub(crate) fn plan_table(&self) -> Table {
        Table::of(&self.plan)
            .titled("To be made")
            .figure("pods", |row| row.pods)
            .text("seed parent", PlannedRow::seed_words)
            .text("pollen parent", PlannedRow::pollen_words)
            .text("envelope", PlannedRow::envelope)
            .figure("pots", |row| row.pots)
            .number("parents' mean", 2, |row| row.mean)
            .number("worth of a pod", DECIMALS, |row| row.worth)
            .figure("inbreeding", PlannedRow::inbreeding_words)
            .text("meet", |row| row.meet.to_string())
            .into()
    }

    /// The plan in short rows: what to cross, and what the seedlings' inbreeding would be.
    pub(crate) fn short_table(&self) -> Table {
        Table::of(&self.plan)
            .figure("pods", |row| row.pods)
            .text("seed parent", PlannedRow::seed_words)
            .text("pollen parent", PlannedRow::pollen_words)
            .text("pollen", PlannedRow::envelope)
            .figure("pots", |row| row.pots)
            .figure("inbreeding", PlannedRow::inbreeding_words)
            .when(self.plan.iter().any(PlannedRow::may_not_meet), |table| {
                table.text("meet", |row| match row.may_not_meet() {
                    true => "perhaps",
                    false => "surely",
                })
            })
            .when(self.plan.iter().any(PlannedRow::is_made_before), |table| {
                table.text("made before", |row| {
                    made_before_words(&row.made_before, &row.perhaps_made_before)
                })
            })
            .into()
    }

    pub(crate) fn as_good_table(&self) -> Table {
        Table::of(&self.as_good)
            .titled("As good, worth the same")
            .text("instead", |row| row.instead.to_string())
            .number("mean inbreeding", 4, |row| row.mean_inbreeding)
            .into()
    }

    pub(crate) fn next_best_table(&self) -> Table {
        let title = if self.runners_up_proved {
            "Next best plans"
        } else {
            "Other good plans (not proved the next best)"
        };
        Table::of(&self.runners_up)
            .titled(title)
            .figure("worth less", |row| difference(row.less))
            .text("instead", |row| row.instead.to_string())
            .number("mean inbreeding", 4, |row| row.mean_inbreeding)
            .into()
    }

    pub(crate) fn limit_table(&self) -> Table {
        Table::of(self.limits.iter().filter(|row| row.is_told()))
            .titled("What the limits cost")
            .text("limit, and how it is eased", |row| row.limit.to_string())
            .figure("would gain", LimitRow::gain_words)
            .into()
    }

    /// Among which pairings the frontier was sought, where not among all.
    pub(crate) fn among_pairings(&self) -> String {
        let among = self.frontier_among.map(|pairings| {
            format!(", among the {pairings} pairings that the best plans could use")
        });
        among.unwrap_or_default()
    }

    fn how_sure(&self) -> String {
        match (self.frontier_exact, self.frontier_gap) {
            (true, _) => ", every plan looked at".to_owned(),
            (false, Some(gap)) => {
                let kinship = self.frontier_kinship_gap.unwrap_or(0.0);
                let among = self.among_pairings();
                format!(
                    ", found by weighing kinship{among} (at the same kinship none is worth over {} more, at the same worth none has over {kinship:.4} less kinship)",
                    at_most(gap)
                )
            }
            (false, None) => ", not looked at".to_owned(),
        }
    }

    pub(crate) fn frontier_table(&self) -> Table {
        let (pods, how_sure) = (self.pods, self.how_sure());
        Table::of(&self.frontier)
            .titled(format!("Gain against kinship, {pods} pods{how_sure}"))
            .number("kinship among the parents", 4, |plan| plan.kinship)
            .number("mean worth of a pod", DECIMALS, |plan| plan.gain)
            .text("", |plan| plan.label.to_string())
            .into()
    }
}

/// `Max1`, `Max1 (male by buds only)`.
fn with_guess(code: &str, sex: SexSeen) -> String {
    match sex {
        SexSeen::Guess(..) | SexSeen::MixedUp => format!("{code} ({sex})"),
        _ => code.to_owned(),
    }
}

impl PlannedRow {
    /// The seed parent, with its sex where that was only guessed.
    pub(super) fn seed_words(&self) -> String {
        with_guess(&self.seed, self.seed_sex)
    }

    /// The pollen parent, with its sex where that was only guessed.
    pub(super) fn pollen_words(&self) -> String {
        with_guess(&self.pollen, self.pollen_sex)
    }

    /// What to know of this row before acting on it, a line each.
    pub(crate) fn remarks(&self) -> Vec<String> {
        let pair = format!("{} × {}", self.seed, self.pollen);
        let pollen = self.pollen_remark.as_ref().map(|remark| {
            let lot = self.lot.as_deref().unwrap_or("fresh");
            format!("{pair} with {lot}: {remark}")
        });
        let made = (!self.made_before.is_empty())
            .then(|| format!("{pair} was made before: {}", listed(&self.made_before)));
        let perhaps = (!self.perhaps_made_before.is_empty()).then(|| {
            format!(
                "{pair} was perhaps made before: {}",
                listed(&self.perhaps_made_before)
            )
        });
        pollen.into_iter().chain(made).chain(perhaps).collect()
    }

    /// What it may be, where parents further back are one of several.
    fn inbreeding_words(&self) -> String {
        may_be_words(self.inbreeding, &self.inbreeding_may_be, self.ways_known)
    }

    /// The envelope with the age of its pollen today.
    fn envelope(&self) -> String {
        let Some(lot) = &self.lot else {
            return "fresh".to_owned();
        };
        match self.age_days {
            Some(age) => format!("{lot}, {}", age_of_days(age)),
            None => format!("{lot}, age not known"),
        }
    }
}

impl LimitRow {
    /// Whether the row says anything that shows; a limit that is known to cost nothing is only told in JSON.
    fn is_told(&self) -> bool {
        self.at_most.is_none_or(|most| most >= LEAST)
    }

    fn gain_words(&self) -> String {
        match (self.gain, self.at_most) {
            (Some(gain), _) if self.proved => figure(gain),
            (Some(gain), Some(most)) if most.is_finite() => {
                format!("{} to {}", figure(gain), at_most(most))
            }
            (Some(gain), _) => format!("at least {}", figure(gain)),
            (None, _) => "not reached".to_owned(),
        }
    }
}
