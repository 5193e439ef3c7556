//! What a reader of the plan must know before acting on it.

use crate::analysis::evidence::is_less_than_a_tag;
use crate::analysis::plan::answer::PlanReport;
use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::caution::Caution;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::made::Made;
use crate::analysis::plan::pods::MOST_PODS;
use crate::ancestry::heterozygosity_of_each;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::tags_in_doubt;
use crate::observation::sex::sex_seen;
use crate::planning::season::Plan;
use crate::record::PollenSource;
use crate::registry::{Origin, Target};
use std::collections::BTreeSet;

impl PlanContext<'_, '_, '_> {
    /// All of them, in the order in which they are read.
    pub fn cautions(
        &self,
        candidates: &SeasonCandidates,
        (report, best): (&PlanReport, Option<&Plan>),
    ) -> Vec<Caution> {
        let mut told = Vec::new();
        if best.is_none() && report.proved {
            told.push(Caution::NoPlan);
        }
        told.extend(self.made_before(&candidates.made));
        told.extend(stopped(report));
        told.extend(left_out(candidates, report));
        told.extend(self.may_exceed_the_cap(report));
        let parents = best.map_or(Vec::new(), |plan| candidates.parents_of(plan));
        told.extend(self.doubts(candidates, report, &parents));
        let mixed_up = tags_in_doubt(self.context.registry, parents.iter().copied());
        told.extend(mixed_up.into_iter().map(|doubt| Caution::Name {
            doubt,
            of_the_plan: true,
        }));
        told.extend(self.guessed(&parents));
        told.extend(self.pollen_of_unsexed(report, &parents));
        told.extend(self.less_than_a_tag(&parents));
        told.extend(self.least_spread(&parents));
        if best.is_some_and(|plan| candidates.season.pods_that_may_not_meet(plan) > 0) {
            told.push(Caution::MayNotMeet);
        }
        told.extend(self.what_was_planned_with());
        told.extend(report.later.cautions());
        let mut origins = self.context.lineage().pedigree.origins().iter();
        told.push(Caution::KinshipIsAMinimum {
            expected: origins.any(Origin::is_one_of_several),
        });
        told.push(Caution::NoPromise);
        told.extend_from_slice(self.merit.cautions());
        told
    }

    /// What was pollinated before and counts against the limits; `None` without any.
    fn made_before(&self, made: &Made) -> Option<Caution> {
        let zones = made.zones.clone();
        let of_each = self.goals.seedlings_per_pod;
        let pots = self.goals.pots.map(|_| made.pots(of_each));
        (!zones.is_empty()).then_some(Caution::Made { zones, pots })
    }

    /// The cap is kept on average over parents that are one of several; a pollination may exceed it all the same.
    fn may_exceed_the_cap(&self, report: &PlanReport) -> Vec<Caution> {
        let Some(cap) = self.goals.most_inbreeding else {
            return Vec::new();
        };
        let over = report.plan.iter().filter(|row| row.over_the_cap > 0.0);
        let told = over.map(|row| Caution::MayExceedTheCap {
            pair: [row.seed.clone(), row.pollen.clone()],
            cap,
            chance: row.over_the_cap,
            may_be: row.inbreeding_may_be.clone(),
        });
        told.collect()
    }

    /// Species whose names are in doubt, behind all plants that may be pollinated now or are to be held for later.
    fn doubts(
        &self,
        candidates: &SeasonCandidates,
        report: &PlanReport,
        parents: &[PlantRow],
    ) -> Vec<Caution> {
        let names = self.context.evidence().names();
        let behind = |plants: &mut dyn Iterator<Item = &PlantRow>| {
            names.doubts(plants.copied().map(TopOf::Plant))
        };
        let holds = report.later.holds.iter();
        let later = holds.flat_map(|of| of.held.iter().chain(&of.partner));
        // Where nothing is pollinated now, what is held for later is the answer.
        let own = match parents.is_empty() {
            true => behind(&mut later.clone()),
            false => behind(&mut parents.iter()),
        };
        let now = candidates.seeds.iter().chain(&candidates.donors);
        let all = behind(&mut now.chain(later));
        all.into_iter()
            .map(|doubt| Caution::Name {
                of_the_plan: own.contains(&doubt),
                doubt,
            })
            .collect()
    }

    /// Plants whose pods count with the least spread that their descent leaves possible.
    fn least_spread(&self, parents: &[PlantRow]) -> Option<Caution> {
        let (lineage, descent) = (self.context.lineage(), self.context.descent());
        // Too complex, and there is no plan whose worth goes by it.
        let each = heterozygosity_of_each(&lineage.pedigree, &descent.founders, parents).ok()?;
        let open = parents.iter().zip(each).filter(|(_, of)| !of.is_known());
        let codes: Vec<String> = open.map(|(&plant, _)| self.registry.code(plant)).collect();
        (!codes.is_empty() && !self.goals.traits.is_empty()).then_some(Caution::LeastSpread(codes))
    }

    /// Plants of the plan whose sex was not seen on open flowers.
    fn guessed(&self, parents: &[PlantRow]) -> Option<Caution> {
        let guessed = parents.iter().filter(|plant| self.is_guessed(**plant));
        let codes: Vec<String> = guessed.map(|&plant| self.registry.code(plant)).collect();
        (!codes.is_empty()).then_some(Caution::SexGuessed(codes))
    }

    /// Plants that gave pollen and whose sex is not on record: those of the plan, and those it holds for their sex.
    fn pollen_of_unsexed(&self, report: &PlanReport, parents: &[PlantRow]) -> Option<Caution> {
        let gave = |plant: &PlantRow| {
            let mut lots = self.registry.pollen.iter();
            lots.any(|lot| match lot.from {
                PollenSource::Plant(code) => {
                    self.registry.target(code).and_then(Target::plant) == Some(*plant)
                }
                _ => false,
            })
        };
        let held = report.later.holds.iter().flat_map(|hold| &hold.held);
        let unsexed = parents
            .iter()
            .chain(held)
            .filter(|plant| sex_seen(self.registry, **plant).is_open() && gave(plant));
        let plants: BTreeSet<PlantRow> = unsexed.copied().collect();
        let codes: Vec<String> = plants
            .into_iter()
            .map(|plant| self.registry.code(plant))
            .collect();
        (!codes.is_empty()).then_some(Caution::PollenOfUnsexed(codes))
    }

    /// Parents of the plan of whose descent something is less sure than a tag.
    fn less_than_a_tag(&self, parents: &[PlantRow]) -> Vec<Caution> {
        let unsure =
            |plant: &&PlantRow| is_less_than_a_tag(self.context.evidence(), Unit::Plant(**plant));
        let told = parents
            .iter()
            .filter(unsure)
            .map(|&plant| Caution::Descent {
                plant: self.registry.code(plant),
                evidence: self.context.evidence().sentence(Unit::Plant(plant)),
            });
        told.collect()
    }

    fn what_was_planned_with(&self) -> Vec<Caution> {
        let goals = self.goals;
        let worth = Caution::Worth {
            seedlings: goals.seedlings_per_pod,
            heritability: goals.heritability,
            species_differ: goals.species_differ,
        };
        let mut told = match goals.traits.is_empty() {
            true => Vec::new(),
            false => vec![worth, Caution::WorthNothing],
        };
        told.push(Caution::PlannedWith {
            pods_per_spike: goals.pods_per_spike,
            uses_per_pollen: goals.uses_per_pollen,
            inbreeding_is_free: goals.weight_on_inbreeding == 0.0,
        });
        told
    }
}

/// What was left out of a season too large to be planned whole.
fn left_out(candidates: &SeasonCandidates, report: &PlanReport) -> Vec<Caution> {
    let season = &candidates.season;
    let whole = season.limits.most_pods == Some(report.pods);
    let pods = whole.then_some(Caution::MostPods(MOST_PODS));
    let chosen = !season.chosen_at.is_empty();
    let pairings = chosen.then_some(Caution::MostPromising(season.pairings.len()));
    pods.into_iter().chain(pairings).collect()
}

/// What the work did not reach before it was stopped.
fn stopped(report: &PlanReport) -> Option<Caution> {
    let other_plans = report.worth.is_some() && !report.runners_up_proved;
    let unpriced = report.limits.iter().filter(|row| row.gain.is_none());
    let (limits, weights) = (unpriced.count(), report.frontier_unreached);
    (other_plans || limits > 0 || weights > 0).then_some(Caution::Stopped {
        other_plans,
        limits,
        weights,
    })
}
