//! What a code names, and the words every screen needs.

use super::answer::{ShowReport, Stage};
use crate::analysis::evidence::evidence_row;
use crate::analysis::show::{History, Step, StepKind};
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::{Names, TopOf};
use crate::record::{Fate, When};
use crate::registry::{Registry, Target};
use crate::report::fact::fact;
use crate::report::plants::typed;
use crate::wording::{age, at_date, days, joined, span_of_days};

/// Shows whatever a code names.
pub fn show(context: &Context, id: &str) -> Option<ShowReport> {
    let registry = context.registry;
    let screen = Screen {
        context,
        registry,
        names: context.names(),
    };
    let target = registry.target(id)?;
    let mut report = match target {
        Target::Plant(plant) => screen.plant(plant),
        Target::Ramet(plant, piece) => screen.piece(plant, piece),
        Target::Cross(cross) => screen.cross(cross),
        Target::Pod(pod) => screen.pod(pod, id),
        Target::Sowing(sowing) => screen.sowing(sowing, id),
        Target::Zone(zone) => screen.zone(zone, id),
        Target::SeedLot(lot) => screen.seed_lot(lot, id),
        Target::CommunityPot(pot) => screen.community_pot(pot, id),
        Target::Pollen(lot) => screen.pollen(lot),
        Target::Species(epithet) => screen.species(epithet),
    };
    // One value, told first of all facts but the piece that was asked for.
    if let Some(unit) = Unit::of(target) {
        let row = evidence_row(context.evidence(), unit);
        let first = report.facts.first();
        let at = usize::from(first.is_some_and(|fact| fact.label == "piece"));
        report
            .facts
            .splice(at..at, fact("evidence", Some(row.words.clone())));
        report.evidence = Some(row);
    }
    Some(report)
}

/// Everything a screen is filled from.
pub struct Screen<'s, 'r, 't> {
    pub context: &'s Context<'r, 't>,
    pub registry: &'r Registry<'t>,
    pub names: &'s Names<'r, 't>,
}

/// Who has what was sold or given away, its price and its tag.
pub fn handed_on(fate: Option<&Fate>) -> Option<String> {
    fate?.handed_on()?.words()
}

impl Screen<'_, '_, '_> {
    /// The name in breeder order with its basis.
    pub fn name(&self, top: TopOf) -> String {
        let name = self.names.in_full(top);
        name.unwrap_or_else(|long| long.to_string())
    }

    /// The formula alone.
    pub fn short(&self, top: TopOf) -> String {
        let name = self.names.formula_alone(top);
        name.unwrap_or_else(|long| long.to_string())
    }

    /// The same with the word that belongs before it: `in spring 2024 (2024-03-01 to 2024-05-31)`.
    pub fn at_typed(&self, text: &str) -> String {
        match self.registry.when(text) {
            When::UNKNOWN => at_date(text),
            when if when.is_exact() => at_date(&when.first.to_string()),
            _ => typed(self.registry, text).replacen(text, &at_date(text), 1),
        }
    }
}

/// Days of which one is the true one.
fn alternatives(one_of: &[When]) -> String {
    if let [] | [_] = one_of {
        return joined(one_of.iter().map(|when| days(*when)), "");
    }
    if one_of.iter().all(|when| when.is_exact()) {
        return joined(one_of.iter().map(|when| when.first), " or ");
    }
    // Behind "by" or a range a bare day would read as another end of it.
    let each = one_of.iter().map(|when| match *when {
        When::UNKNOWN => "on a day not known".to_owned(),
        when => at_date(&days(when)),
    });
    joined(each, ", or ")
}

/// The history with the time between its stages, and the age today or on the day it ended.
pub fn stages(history: &History) -> Vec<Stage> {
    let stage = |step: &Step| Stage {
        stage: match step.what {
            StepKind::Pollinated => "pollinated",
            StepKind::Harvested => "harvested",
            StepKind::Sown => "sown",
            StepKind::Germinated => "germinated",
        },
        when: alternatives(&step.one_of),
        took: step
            .took
            .map(|took| format!("after {}", span_of_days(took))),
    };
    let (sowing, germination) = match history.ended {
        false => ("age from sowing", "age from germination"),
        true => (
            "age from sowing at the end",
            "age from germination at the end",
        ),
    };
    let ages = [
        (sowing, history.from_sowing),
        (germination, history.from_germination),
    ];
    let ages = ages.into_iter().filter_map(|(stage, months)| {
        Some(Stage {
            stage,
            when: age(months?),
            took: None,
        })
    });
    history.steps.iter().map(stage).chain(ages).collect()
}
