//! `podbook promised`: what was said of plants that left, and what would be said now.

use super::output::{Form, Output};
use crate::analysis::promised;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::registry::{PlantOrRamet, Registry};
use crate::render::{Written, slips};
use crate::report::Report;
use crate::report::promised as report;
use clap::Args;

/// List plants sold or given whose description has changed
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook promised --registry registry-demo\n\
    `podbook gone --sold` and `--given` keep the name and the evidence of that day.\n\
    When a name, a parent or a doubt changes later, this shows old and new.\n\
    -o slips.pdf writes a correction slip for each to print, .md one to send.\n\
    Exit code 1 when there is one.")]
pub struct Promised {
    /// Plants or pieces [default: all that left]
    #[arg(value_name = "PLANT")]
    plants: Vec<String>,
    #[command(flatten)]
    output: Output,
}

/// Forms of the answer.
const FORMS: &[Form] = &[Form::Text, Form::Json, Form::Csv, Form::Markdown, Form::Pdf];

impl Promised {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let form = self.output.form(request, FORMS)?;
        let sources = request.sources()?;
        let (registry, mut remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        let mut found = promised::promised(&context);
        if !self.plants.is_empty() {
            found.only(&self.asked(&registry)?);
        }
        let report = report::promised(&registry, &found);
        if !report.is_bad_news() && matches!(form, Form::Markdown | Form::Pdf) {
            remarks.push_str("no text has to be corrected: there is no slip to send\n");
        }
        let written = match form {
            Form::Markdown => Written::slips(&report, context.today),
            Form::Pdf => Written::pdf(&slips::pages(&report, context.today)),
            form => self
                .output
                .written(request, form, std::slice::from_ref(&report))?,
        };
        self.output
            .deliver(request, written, remarks, report.is_bad_news())
    }

    fn asked(&self, registry: &Registry) -> Result<Vec<PlantOrRamet>, Refusal> {
        let asked = self.plants.iter().map(|typed| {
            let of = super::known(registry, typed)?.plant_or_ramet();
            of.ok_or_else(|| {
                Refusal::arguments(format!(
                    "`{}` is neither a plant nor a piece of one",
                    crate::text::one_line(typed)
                ))
            })
        });
        asked.collect()
    }
}
