//! `podbook due`: what is due, and until when.

use super::charted::Charted;
use super::goals::{goals_page, goals_text};
use super::output::{CHARTED_CALENDAR, Form};
use crate::analysis::due::{DueOptions, due};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render::{self, Written};
use crate::report::due::{entries, season_chart};
use clap::Args;

/// Show what is due: pods, dusting, seed, seedlings, readings, room
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook due --registry registry-demo\n         \
    podbook due --within 12w -o due.ics --registry registry-demo\n         \
    podbook due --within 6m --paper a5 -o season.pdf --registry registry-demo\n\
    An .ics file is a calendar that a phone takes in; a later one replaces the entries of the one before.\n\
    Ranges come from your own records, else from `intervals` in registry.ron, else from common practice."
)]
pub struct Due {
    /// How far ahead to look: days, or weeks or months as 12w or 3m
    #[arg(long, value_name = "DAYS", default_value = "30d")]
    within: String,
    #[command(flatten)]
    picture: Charted,
}

impl Due {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let form = self.picture.form_of(request, CHARTED_CALENDAR)?;
        let within = days(&self.within).ok_or_else(|| {
            Refusal::arguments(format!(
                "--within needs a whole number of days, weeks or months such as 30d, 12w or 3m; found `{}`",
                self.within
            ))
        })?;
        let sources = request.sources()?;
        let (registry, mut remarks) = request.registry(&sources);
        let text = goals_text(request, None)?;
        let context = Context::of(&registry, request.today()?);
        let options = DueOptions {
            within,
            pollen_lasts: goals_page(&text)?.pollen_lasts,
        };
        let report = due(&context, options);
        let draw = |look| render::chart::calendar(&season_chart(&report, context.today), look);
        let output = self.picture.output();
        let answer = match self.picture.drawn(form, draw)? {
            Some(picture) => picture,
            None if form == Form::Ics => {
                let entries = entries(&report, context.today);
                if entries.is_empty() {
                    remarks.push_str("nothing with a day is due: the calendar is empty\n");
                }
                Written::calendar(&entries, context.today)
            }
            None => output.written(request, form, std::slice::from_ref(&report))?,
        };
        output.deliver(request, answer, remarks, false)
    }
}

/// Days of `30`, `30d`, `12w` or `3m`, ten years at most; a month counts as 31 days, so that none is cut short.
fn days(text: &str) -> Option<u32> {
    let (number, each) = match text.strip_suffix(['d', 'w', 'm']) {
        Some(number) => (
            number,
            match text.as_bytes()[number.len()] {
                b'w' => 7,
                b'm' => 31,
                _ => 1,
            },
        ),
        None => (text, 1),
    };
    let plain = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    let number: u32 = number.parse().ok().filter(|_| plain)?;
    Some(number.saturating_mul(each).min(3_650))
}
