//! `podbook growth`: who grows, group against group at a common age.

use crate::cli::arguments::Format;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::render;
use crate::report::growth::{GrowthReport, GrowthWishes, growth, growth_chart, survival_chart};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Compare how plants, pods, crosses or species grow, at a common age
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook growth X22-02 --pods --registry registry-demo\n         \
    podbook growth X22-02-5 -o growth.svg --registry registry-demo\n\
    Several codes are compared with each other. Without --format the ending of FILE decides (.svg, .png, .json, .csv, .txt)."
)]
pub struct Growth {
    /// Codes of crosses, pods, sowings, species or plants
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    /// Compare at this age from sowing in months instead of the best common age
    #[arg(long, value_name = "MONTHS")]
    at: Option<f64>,
    /// What is compared: a length, a count or a number [default: the leaf span]
    #[arg(long = "trait", value_name = "TRAIT")]
    of_trait: Option<String>,
    /// Take each cross apart into its pods
    #[arg(long)]
    pods: bool,
    /// Draw survival instead of sizes
    #[arg(long)]
    survival: bool,
    /// Form of the answer
    #[arg(long, value_name = "FORMAT")]
    format: Option<Form>,
    /// File to write instead of standard output
    #[arg(long, short, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Dots of a PNG for each point of the picture
    #[arg(long, value_name = "DOTS", default_value_t = 2.0)]
    scale: f64,
}

#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
enum Form {
    Text,
    Json,
    Csv,
    Svg,
    Png,
}

impl Growth {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        for id in &self.ids {
            super::known(&registry, id)?;
        }
        let wishes = GrowthWishes {
            at: self.at,
            of_trait: self.of_trait.clone(),
            by_pod: self.pods,
            today: request.today()?,
        };
        let report = growth(&registry, &self.ids, &wishes).map_err(Refusal::arguments)?;
        let answer = |format: Option<Format>| request.answer_as(&report, format, remarks.clone());
        let outcome = match self.form()? {
            Some(Form::Svg) => self.drawn(&report, |scene| Ok(render::svg(scene).into_bytes()))?,
            Some(Form::Png) => self.drawn(&report, |scene| {
                render::png(scene, self.scale)
                    .map_err(|refusal| Refusal::arguments(refusal.to_string()))
            })?,
            Some(Form::Json) => answer(Some(Format::Json))?,
            Some(Form::Csv) => answer(Some(Format::Csv))?,
            Some(Form::Text) => answer(Some(Format::Text))?,
            None => answer(None)?,
        };
        request.deliver(outcome.bytes, self.output.as_deref(), remarks)
    }

    fn drawn(
        &self,
        report: &GrowthReport,
        into_bytes: impl Fn(&render::scene::Scene) -> Result<Vec<u8>, Refusal>,
    ) -> Result<Outcome, Refusal> {
        let chart = match self.survival {
            true => survival_chart(report),
            false => growth_chart(report),
        };
        let scene = render::chart::growth(&chart);
        Ok(Outcome {
            bytes: into_bytes(&scene)?,
            ..Outcome::default()
        })
    }

    fn form(&self) -> Result<Option<Form>, Refusal> {
        if self.format.is_some() {
            return Ok(self.format);
        }
        let Some(file) = &self.output else {
            return Ok(None);
        };
        let ending = file.extension().and_then(|ending| ending.to_str());
        match ending.unwrap_or("").to_lowercase().as_str() {
            "svg" => Ok(Some(Form::Svg)),
            "png" => Ok(Some(Form::Png)),
            "json" => Ok(Some(Form::Json)),
            "csv" => Ok(Some(Form::Csv)),
            "txt" => Ok(Some(Form::Text)),
            _ => Err(Refusal::arguments(format!(
                "the ending of {} tells no format\nend it with .svg, .png, .json, .csv or .txt, or say --format",
                file.display()
            ))),
        }
    }
}
