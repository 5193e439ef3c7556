//! `podbook registration`: a draft of the form for a cultivar.

use super::epithet::raised;
use super::output::{Form, Output};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::naming::{Context as EpithetContext, judge, recorded};
use crate::render::Written;
use crate::report::Report;
use crate::report::card::card;
use crate::report::registration::registration;
use clap::Args;

/// Draft the form to register a clone as a cultivar
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook registration X22-02-5 --epithet \"'Ada Fernley'\" -o draft.md --registry registry-demo\n\
    It lists what a registration authority asks for, what of it is on record and what has to be added by hand. Exit code 1 \
    when the epithet cannot be used. Nothing is sent anywhere."
)]
pub struct Registration {
    /// The plant to register
    #[arg(value_name = "PLANT")]
    plant: String,
    /// The epithet you think of [default: the one on record]
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    epithet: Option<String>,
    #[command(flatten)]
    output: Output,
}

/// Forms of the draft.
const FORMS: &[Form] = &[Form::Text, Form::Json, Form::Markdown];

impl Registration {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let form = self.output.form(request, FORMS)?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let Some(plant) = super::known(&registry, &self.plant)?.plant() else {
            return Err(Refusal::arguments(format!(
                "`{}` is not a plant; a cultivar is one clone",
                crate::text::one_line(&self.plant)
            )));
        };
        let context = Context::of(&registry, request.today()?);
        let code = registry.code(plant);
        let card = card(&context, &code).map_err(Refusal::arguments)?;
        let on_record = registry
            .cultivar(plant)
            .map(|of| format!("'{}'", &*of.epithet));
        let vocabulary = recorded::vocabulary(&registry);
        let judged = match self.epithet.or(on_record) {
            None => None,
            Some(epithet) => {
                let raised = raised(&registry, &code, &epithet)?;
                let context = EpithetContext {
                    raised,
                    ..EpithetContext::new(&vocabulary)
                };
                Some(judge(&epithet, &context))
            }
        };
        let report = registration(&context, (plant, &card), judged);
        let written = match form {
            Form::Markdown => Written::registration(&report),
            form => self
                .output
                .written(request, form, std::slice::from_ref(&report))?,
        };
        self.output
            .deliver(request, written, remarks, report.is_bad_news())
    }
}
