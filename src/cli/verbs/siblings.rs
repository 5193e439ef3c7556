//! `podbook siblings`: how the seedlings of one cross, pod or sowing differ.

use super::charted::Charted;
use crate::analysis::siblings::RatioWish;
use crate::analysis::siblings::{SiblingsWish, siblings};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render;
use crate::report::siblings::siblings_chart;
use clap::Args;

/// Show how the siblings of a cross, pod or sowing differ
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook siblings X18-01 --registry registry-demo\n         \
    podbook siblings X18-01 --trait banding --ratio 3:1 --class 1,2 --class 3,4,5 --registry registry-demo\n         \
    podbook siblings X18-01 -o siblings.svg --registry registry-demo"
)]
pub struct Siblings {
    /// Code of a cross, a pod (X22-07.P1) or a sowing (X22-07.S1)
    #[arg(value_name = "ID")]
    id: String,
    /// Only this trait, by code or name; may be given several times
    #[arg(long = "trait", value_name = "TRAIT")]
    traits: Vec<String>,
    /// Test the kinds of the trait against this ratio, such as 3:1 or 9:3:3:1
    #[arg(long, value_name = "RATIO", requires = "traits")]
    ratio: Option<String>,
    /// What a part of the ratio counts, such as 1,2 or red,maroon; once for each part, in order
    #[arg(long = "class", value_name = "KINDS", requires = "ratio")]
    classes: Vec<String>,
    #[command(flatten)]
    picture: Charted,
}

impl Siblings {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        super::known(&registry, &self.id)?;
        let context = Context::of(&registry, request.today()?);
        let wish = SiblingsWish {
            ratio: self.ratio()?,
            traits: self.traits,
        };
        let report = siblings(&context, &self.id, &wish).map_err(Refusal::arguments)?;
        let draw = |look| render::chart::siblings(&siblings_chart(&report), look);
        let reports = std::slice::from_ref(&report);
        self.picture.answer(request, reports, draw, remarks)
    }

    fn ratio(&self) -> Result<Option<RatioWish>, Refusal> {
        let Some(text) = &self.ratio else {
            return Ok(None);
        };
        let parts: Option<Vec<u64>> = text
            .split(':')
            .map(|part| {
                part.trim()
                    .parse()
                    .ok()
                    .filter(|part| (1..=1000).contains(part))
            })
            .collect();
        let parts = parts.filter(|parts| parts.len() > 1).ok_or_else(|| {
            Refusal::arguments(format!(
                "--ratio needs whole parts from 1 to 1000 with colons between, such as 3:1; found `{text}`"
            ))
        })?;
        let [of] = &self.traits[..] else {
            return Err(Refusal::arguments(
                "--ratio tests one trait: give --trait once",
            ));
        };
        let kinds = |class: &String| {
            class
                .split(',')
                .map(|kind| kind.trim().to_owned())
                .collect()
        };
        Ok(Some(RatioWish {
            parts,
            of: of.clone(),
            classes: self.classes.iter().map(kinds).collect(),
        }))
    }
}
