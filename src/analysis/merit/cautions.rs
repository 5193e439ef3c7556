//! What merit assumes, what was left out, and how to read it.

use crate::analysis::merit::answer::{MeritReport, MeritRow, TraitOfMerit};
use crate::wording::counted;

impl TraitOfMerit {
    /// What its figures rest on, and what was left out.
    pub fn rests_on(&self) -> String {
        let p = &self.parts;
        let rest = 1.0 - p.heritability - p.permanent - p.sitting - p.pod;
        let basis = match self.heritability_limits {
            Some((low, high)) => format!("estimated, 95 % limits {low:.2} to {high:.2}"),
            None => "stated, not measured".to_owned(),
        };
        let age = match self.ages {
            Some(_) => "",
            None => "; plants of all ages together, since most of these readings have no age",
        };
        let left = match self.left_out.total() {
            0 => String::new(),
            _ => format!("; left out {}", self.left_out.words()),
        };
        format!(
            "{}: heritability {:.2} ({basis}), permanent {:.2}, sitting {:.2}, pod {:.2}, error of a reading {rest:.2}{age}{left}",
            self.name, p.heritability, p.permanent, p.sitting, p.pod
        )
    }
}

pub(crate) fn cautions(
    traits: &[TraitOfMerit],
    rows: &[MeritRow],
    (without_news, by_mean_alone): (usize, usize),
) -> Vec<String> {
    let mut lines: Vec<String> = traits.iter().map(TraitOfMerit::rests_on).collect();
    let by_mean = |row: &&MeritRow| row.of_traits.iter().all(|of| !of.beyond_its_pod);
    match rows.iter().filter(by_mean).count() {
        0 => {}
        n => lines.push(format!(
            "{} no better known than by the mean of the pod or the species (last column): choose among them by reading them, not by this table",
            counted(n, "plant is", "plants are")
        )),
    }
    let crosses = traits.iter().map(|of| of.crosses).max().unwrap_or(0);
    let left = left_out(without_news, by_mean_alone, crosses);
    lines.extend(left.into_iter().map(|line| format!("left out: {line}")));
    lines.push(
        match traits.iter().any(|of| of.unit == "percent") {
            true => "± is one standard error of the difference from the mean of the plants here; for a length it is computed on the log scale, so its two limits are not equally far from the merit",
            false => "± is one standard error of the difference from the mean of the plants here",
        }
        .into(),
    );
    if rows.len() > 1 {
        lines.push("the chance to be better than another plant comes from the error of the difference of the two, not from their two errors: what they share cancels".into());
    }
    if traits.len() > 1 {
        lines.push("errors of the index and chances take the traits as independent".into());
    }
    lines.push("merit is what a plant is expected to pass on, twice over: its seedlings get half of it from each parent, and differ among themselves".into());
    lines
}

/// Why plants are left out, a line for each reason.
pub(crate) fn left_out(without_news: usize, by_mean_alone: usize, crosses: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if by_mean_alone > 0 {
        let why = if crosses <= 1 {
            "one cross only was read, and its parents cannot be told apart from its mean"
        } else {
            "what was read of their relatives cannot be told apart from the mean of all"
        };
        lines.push(format!(
            "{}: {why}",
            counted(by_mean_alone, "plant", "plants")
        ));
    }
    if without_news > by_mean_alone {
        lines.push(format!(
            "{} without any read relative: nothing is known of them",
            counted(without_news - by_mean_alone, "plant", "plants")
        ));
    }
    lines
}

impl MeritReport {
    /// Why plants are left out, a line for each reason.
    pub fn why_left_out(&self) -> Vec<String> {
        let crosses = self.traits.iter().map(|of| of.crosses).max().unwrap_or(0);
        left_out(self.without_news, self.told_by_the_mean_alone, crosses)
    }
}
