//! `podbook check`: every fault in one run.

use crate::check::all;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::diagnostic::Drawing;
use crate::registry::build;
use crate::render::{self, Written};
use crate::report::{Report, check};
use clap::Args;

/// Find every fault in the registry
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook check --registry registry-demo\n\
    Exit code 1 when there is a fault; warnings and notes alone exit with 0.")]
pub struct Check {}

impl Check {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, mut findings) = build(&sources);
        findings.append(all(&registry, request.today()?));
        let report = check(&registry, &findings);
        if request.json() {
            return request.answer(&report, String::new());
        }
        let drawing = Drawing {
            width: request.width(),
            paint: request.paint(),
        };
        let mut text = drawing.findings(&findings, &sources);
        if !text.is_empty() {
            text.say("\n");
        }
        text.say(&render::text::sheet(&report.sheet(), request.width()));
        Ok(Outcome {
            answer: Written::text(&text),
            bad_news: report.is_bad_news(),
            ..Outcome::default()
        })
    }
}
