//! `podbook merit`: who is the better parent.

use super::charted::Charted;
use crate::analysis::merit::{MeritOptions, Parts, merit};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render;
use crate::report::merit::merit_chart;
use clap::Args;

/// Rank plants as parents by predicted breeding value
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook merit --trait span --registry registry-demo\n         \
    podbook merit --trait banding=2 --trait span=1 --heritability 0.3 --registry registry-demo\n         \
    podbook merit X22-02-1 X22-02-17 --trait span --registry registry-demo\n         \
    podbook merit --trait span -o merit.svg --registry registry-demo"
)]
pub struct Merit {
    /// Codes of plants to compare with each other [default: all that are here]
    #[arg(value_name = "ID")]
    ids: Vec<String>,
    /// Trait by code or name, with its weight if there are several (banding=2)
    #[arg(long = "trait", value_name = "TRAIT[=WEIGHT]", required = true)]
    traits: Vec<String>,
    /// Heritability you believe in, 0 to 1
    #[arg(long, value_name = "H2", default_value_t = Parts::default().heritability)]
    heritability: f64,
    /// Part that is permanent in a plant but not inherited [default: 0.2, or less above a heritability of 0.4]
    #[arg(long, value_name = "PART")]
    permanent: Option<f64>,
    /// Part that differs between sittings [default: 0.05, or less above a heritability of 0.4]
    #[arg(long, value_name = "PART")]
    sitting: Option<f64>,
    /// Part shared by a pod beyond what is inherited [default: 0.05, or less above a heritability of 0.4]
    #[arg(long, value_name = "PART")]
    pod: Option<f64>,
    /// Estimate the parts from the readings; refused when they are too few or show no heritability
    #[arg(long)]
    estimate: bool,
    /// List plants that are not here any more too; the mean is still that of the plants here
    #[arg(long)]
    all: bool,
    #[command(flatten)]
    picture: Charted,
}

impl Merit {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let unstated = Parts::with_heritability(self.heritability);
        let parts = Parts {
            permanent: self.permanent.unwrap_or(unstated.permanent),
            sitting: self.sitting.unwrap_or(unstated.sitting),
            pod: self.pod.unwrap_or(unstated.pod),
            ..unstated
        };
        check(&parts)?;
        let traits = self
            .traits
            .iter()
            .map(|text| weighted(text))
            .collect::<Result<Vec<_>, _>>()?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        let plant = |id: &String| super::kinship::plant(&registry, id);
        let options = MeritOptions {
            compare: self.ids.iter().map(plant).collect::<Result<_, _>>()?,
            traits,
            parts,
            estimate: self.estimate,
            all: self.all,
        };
        let report = merit(&context, &options).map_err(Refusal::arguments)?;
        let draw = |look| render::chart::merit(&merit_chart(&report), look);
        let reports = std::slice::from_ref(&report);
        self.picture.answer(request, reports, draw, remarks)
    }
}

fn check(parts: &Parts) -> Result<(), Refusal> {
    let each = [
        parts.heritability,
        parts.permanent,
        parts.sitting,
        parts.pod,
    ];
    let sound = each.iter().all(|part| (0.0..1.0).contains(part));
    let sum: f64 = each.iter().sum();
    if sound && parts.heritability > 0.0 && sum < 1.0 {
        return Ok(());
    }
    Err(Refusal::arguments(format!(
        "heritability must lie above 0, no other part below 0, and all together below 1: they sum to {sum:.2}"
    )))
}

/// `banding=2` as a trait and its weight; 1 when none is given.
pub(super) fn weighted(text: &str) -> Result<(String, f64), Refusal> {
    let Some((name, weight)) = text.rsplit_once('=') else {
        return Ok((text.to_owned(), 1.0));
    };
    match weight.trim().parse::<f64>() {
        Ok(weight) if weight.is_finite() => Ok((name.trim().to_owned(), weight)),
        _ => Err(Refusal::arguments(format!(
            "the weight in `{text}` is no number; write for example banding=2"
        ))),
    }
}
