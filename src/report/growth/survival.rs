//! Who lives on, in words: alone as the answer of `--survival`, and on one line beside sizes.

use super::beside::difference_words;
use crate::analysis::growth::{GrowthReport, SurvivalRow};
use crate::report::sheet::{Report, Sheet};
use crate::wording::{listed, share_words};
use serde::Serialize;

const LOG_RANK: &str = "log-rank test, ages allowed for";

/// An answer on growth of which survival is asked: the same fields for machines, survival alone for people.
#[derive(Serialize)]
#[serde(transparent)]
pub struct Survival<'g>(pub &'g GrowthReport);

impl Report for Survival<'_> {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.0.survival_answer());
        if self.0.groups.len() > 1 {
            sheet.lines(Some("alive today"), self.0.alive_today());
        }
        self.0.survival_tables(&mut sheet);
        self.0.cautions_on_survival(&mut sheet);
        sheet
    }
}

impl GrowthReport {
    /// Who is alive today, group against group, on one line.
    pub(crate) fn survival_line(&self) -> Option<String> {
        let told = self.alive_today();
        let tested = match self.alike_in_deaths {
            Some(p) => difference_words(p, LOG_RANK),
            None => self.why_deaths_are_untested().to_owned(),
        };
        (told.len() > 1).then(|| format!("alive today: {}; {tested}", told.join("; ")))
    }

    /// Survival as the answer: what the test of the groups says; of one group, or where nothing was tested, who is alive.
    pub(crate) fn survival_answer(&self) -> String {
        let told = self.alive_today();
        let of = listed(self.groups.iter().map(|group| group.id.as_str()));
        match (self.alike_in_deaths, &told[..]) {
            (Some(p), _) => format!("Survival of {of}: {}", difference_words(p, LOG_RANK)),
            (None, []) => format!("No numbered plant of {of} is known to be alive or dead"),
            (None, [one]) => format!("Alive today: {one}"),
            (None, _) => format!("Survival of {of}, {}", self.why_deaths_are_untested()),
        }
    }

    /// Of each group how many of those judged are alive, and who counts neither way.
    pub(crate) fn alive_today(&self) -> Vec<String> {
        let rows = self.groups.iter().filter_map(|group| {
            let row = group.survival.as_ref()?;
            let judged = (row.alive + row.died) as u64;
            let (_, limits) = row.alive_share?;
            let share = share_words(row.alive as u64, judged, limits);
            let beside = neither_way(row);
            Some(format!(
                "{} {} of {judged}, {share}{beside}",
                group.id, row.alive
            ))
        });
        rows.collect()
    }

    fn why_deaths_are_untested(&self) -> &'static str {
        let mut rows = self.groups.iter().flat_map(|group| &group.survival);
        match rows.any(|row| row.too_vague > 0) {
            true => "not tested: too few deaths, or no plants of a group, at ages known to a month",
            false => "not tested: too few deaths",
        }
    }
}

/// Those alive that were not seen for a year, and those that count neither as alive nor as dead.
fn neither_way(row: &SurvivalRow) -> String {
    let alive = row.alive;
    let all = alive + row.died + row.left + row.not_found;
    let unseen = match row.long_unseen {
        0 => String::new(),
        n if n == alive => "; none of these has an entry of the last year".to_owned(),
        1 => format!("; 1 of these {alive} has no entry of the last year"),
        n => format!("; {n} of these {alive} have no entry of the last year"),
    };
    let others = match row.left {
        0 => String::new(),
        1 => format!("; 1 of its {all} was culled, sold or lost and counts neither way"),
        left => {
            format!("; {left} of its {all} were culled, sold or lost and count neither way")
        }
    };
    let missed = match row.not_found {
        0 => String::new(),
        1 => "; 1 not found by the last stock-take counts neither way".to_owned(),
        n => format!("; {n} not found by the last stock-take count neither way"),
    };
    format!("{unseen}{others}{missed}")
}
