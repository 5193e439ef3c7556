//! What a reader of the plan must know before acting on it.

use crate::analysis::evidence::is_less_than_a_tag;
use crate::analysis::kinship::{odds, outcome_words};
use crate::analysis::plan::answer::PlanReport;
use crate::analysis::plan::bench::Bench;
use crate::analysis::plan::ground::Ground;
use crate::analysis::plan::pods::MOST_PODS;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::sex::{SexSeen, sex_seen};
use crate::planning::season::Plan;
use crate::planning::windows::Meeting;
use crate::wording::counted;

impl Ground<'_, '_, '_> {
    /// One line each.
    pub fn cautions(
        &self,
        bench: &Bench,
        (report, best): (&PlanReport, Option<&Plan>),
    ) -> Vec<String> {
        let mut told = Vec::new();
        if best.is_none() && report.proved {
            told.push("no plan keeps every limit: ease a cap, a must or a line to keep".to_owned());
        }
        told.extend(stopped(report));
        told.extend(left_out(bench, report));
        told.extend(self.may_exceed_the_cap(report));
        told.extend(self.doubts(bench, report));
        told.extend(best.and_then(|plan| self.guessed(bench, plan)));
        told.extend(
            best.into_iter()
                .flat_map(|plan| self.less_than_a_tag(bench, plan)),
        );
        let perhaps = |&(at, _): &(usize, u32)| matches!(bench.meets[at], Meeting::Perhaps(..));
        if best.is_some_and(|plan| plan.pods.iter().any(perhaps)) {
            told.push("some flowers and pollen only perhaps meet: keep back pollen".to_owned());
        }
        told.extend(self.what_worth_is());
        told.push(self.what_was_planned_with());
        told.extend(report.later.cautions());
        told.push(self.what_kinship_is());
        told.push(
            "arithmetic on what is recorded, no promise of set; the choice is yours".to_owned(),
        );
        told
    }

    fn what_kinship_is(&self) -> String {
        let mut origins = self.lineage.pedigree.origins().iter();
        let expected = match origins.any(|origin| origin.pairs.len() > 1) {
            true => "; where parents are one of several they are expected values",
            false => "",
        };
        format!(
            "kinship and inbreeding are a minimum: founders are assumed unrelated unless a batch is recorded{expected}"
        )
    }

    /// The cap is kept on average over parents that are one of several; a pollination may exceed it all the same.
    fn may_exceed_the_cap(&self, report: &PlanReport) -> Vec<String> {
        let Some(cap) = self.goals.most_inbreeding else {
            return Vec::new();
        };
        let over = report.plan.iter().filter(|row| row.over_the_cap > 0.0);
        let told = over.map(|row| {
            format!(
                "{} × {} may exceed the cap on inbreeding of {cap}, with a chance of {}: its seedlings are inbred by at least {}",
                row.seed,
                row.pollen,
                odds(row.over_the_cap),
                outcome_words(&row.inbreeding_may_be)
            )
        });
        told.collect()
    }

    /// Species whose names are in doubt, behind all plants that may be pollinated now or are to be held for later.
    fn doubts(&self, bench: &Bench, report: &PlanReport) -> Vec<String> {
        let later = report
            .later
            .holds
            .iter()
            .flat_map(|of| of.hold.iter().chain(&of.with));
        let later = later.filter_map(|code| self.registry.plant(code));
        let now = bench.seeds.iter().chain(&bench.donors).copied();
        self.evidence
            .names()
            .doubts(now.chain(later).map(TopOf::Plant))
    }

    /// Plants of the plan whose sex nobody saw on open flowers.
    fn guessed(&self, bench: &Bench, plan: &Plan) -> Option<String> {
        let parents = |&(at, _): &(usize, u32)| {
            let pairing = &bench.season.pairings[at];
            [bench.seeds[pairing.seed], bench.pollen[pairing.lot].plant]
        };
        let guess =
            |plant: &PlantRow| matches!(sex_seen(self.registry, *plant), SexSeen::Guess(..));
        let mut codes: Vec<String> = Vec::new();
        for plant in plan.pods.iter().flat_map(parents).filter(guess) {
            let code = self.registry.code(plant);
            if !codes.contains(&code) {
                codes.push(code);
            }
        }
        (!codes.is_empty()).then(|| format!("sex only guessed: {}", codes.join(", ")))
    }

    /// Parents of the plan of whose descent something is less sure than a tag.
    fn less_than_a_tag(&self, bench: &Bench, plan: &Plan) -> Vec<String> {
        let parents = |&(at, _): &(usize, u32)| {
            let pairing = &bench.season.pairings[at];
            [bench.seeds[pairing.seed], bench.pollen[pairing.lot].plant]
        };
        let mut told: Vec<String> = Vec::new();
        for plant in plan.pods.iter().flat_map(parents) {
            let unit = Unit::Plant(plant);
            if is_less_than_a_tag(self.evidence, unit) {
                let line = format!(
                    "{}: {}",
                    self.registry.code(plant),
                    self.evidence.sentence(unit)
                );
                if !told.contains(&line) {
                    told.push(line);
                }
            }
        }
        told
    }

    fn what_worth_is(&self) -> Vec<String> {
        let goals = self.goals;
        if goals.traits.is_empty() {
            return Vec::new();
        }
        vec![
            format!(
                "worth is in genetic standard deviations: mean merit of the parents plus what the best of {} seedlings stands above it; assumed are a heritability of {} and S = {} V between species",
                goals.seedlings_per_pod, goals.heritability, goals.species_differ
            ),
            "a pod worth less than nothing, below the mean of your plants, is not planned"
                .to_owned(),
        ]
    }

    fn what_was_planned_with(&self) -> String {
        let goals = self.goals;
        let free = if goals.weight_on_inbreeding == 0.0 {
            "; inbreeding costs nothing unless the goals give it a weight or a cap"
        } else {
            ""
        };
        format!(
            "planned with {} pods to a spike and {} to one pollen{free}",
            goals.pods_per_spike, goals.uses_per_pollen
        )
    }
}

/// What was left out of a season too large to be planned whole.
fn left_out(bench: &Bench, report: &PlanReport) -> Vec<String> {
    let mut told = Vec::new();
    if bench.season.limits.most_pods == Some(report.pods) {
        told.push(format!(
            "only the best {MOST_PODS} pods were planned; --pots plans for the pots you have"
        ));
    }
    if !bench.season.chosen_at.is_empty() {
        told.push(format!(
            "under the cap on kinship only the {} most promising pairings were looked at; other plans may be as good",
            bench.season.pairings.len()
        ));
    }
    told
}

/// What the work did not reach before it was stopped.
fn stopped(report: &PlanReport) -> Option<String> {
    let limits = report
        .limits
        .iter()
        .filter(|row| row.gain.is_none())
        .count();
    let mut missed = Vec::new();
    if report.worth.is_some() && !report.runners_up_proved {
        missed.push("other plans may be as good as those told, or better".to_owned());
    }
    if limits > 0 {
        missed.push(format!(
            "the cost of {} was not reached",
            counted(limits, "limit", "limits")
        ));
    }
    if report.frontier_unreached > 0 {
        missed.push(format!(
            "gain against kinship was not looked at under {}",
            counted(report.frontier_unreached, "weight", "weights")
        ));
    }
    (!missed.is_empty()).then(|| format!("stopped early: {}", missed.join("; ")))
}
