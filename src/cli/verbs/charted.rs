//! `--for` and `-o FILE` of the verbs whose answer can be drawn as a chart: for a page, for a phone, or on A4.

use super::output::{CHARTED, For, Form, Output, Picture};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::render::Written;
use crate::render::chart::{Look, Sheet};
use crate::report::Report;
use clap::Args;

/// Where an answer goes that can be drawn as a chart.
#[derive(Args, Debug)]
pub(super) struct Charted {
    #[command(flatten)]
    picture: Picture,
    /// Lay the picture out for a phone, 360 points across; a PDF is laid out for A4 without it
    #[arg(long = "for", value_name = "phone", hide_possible_values = true)]
    for_what: Option<For>,
}

impl Charted {
    /// Answers with a report, or with the chart of it.
    ///
    /// # Errors
    /// As [`Output::form`], or if the picture would be too large or the file cannot be written.
    pub(super) fn answer<R: Report>(
        &self,
        request: &Request,
        reports: &[R],
        draw: impl FnOnce(Look) -> Sheet,
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        let form = self.form(request)?;
        let answer = match (form, self.for_what) {
            (Form::Svg, for_what) => Written::svg(&draw(look(for_what))),
            (Form::Png, for_what) => self.picture.png(&draw(look(for_what)))?,
            (Form::Pdf, Some(For::Phone)) => Written::pdf(&draw(Look::PHONE).pages()),
            (Form::Pdf, None) => Written::pdf(&draw(Look::A4).pages()),
            (form, _) => self.output().written(request, form, reports)?,
        };
        let bad_news = reports.iter().any(Report::is_bad_news);
        self.output().deliver(request, answer, remarks, bad_news)
    }

    /// The form asked for.
    ///
    /// # Errors
    /// As [`Output::form`].
    pub(super) fn form(&self, request: &Request) -> Result<Form, Refusal> {
        let form = self.output().form(request, CHARTED)?;
        match (self.for_what, is_picture(form)) {
            (Some(_), false) => Err(Refusal::arguments(
                "--for phone lays out a picture\nend the file of -o with .png, .svg or .pdf, or leave --for out",
            )),
            _ => Ok(form),
        }
    }

    /// Whether a picture is asked for.
    ///
    /// # Errors
    /// As [`Output::form`].
    pub(super) fn is_drawn(&self, request: &Request) -> Result<bool, Refusal> {
        self.form(request).map(is_picture)
    }

    fn output(&self) -> &Output {
        self.picture.output()
    }
}

fn is_picture(form: Form) -> bool {
    matches!(form, Form::Svg | Form::Png | Form::Pdf)
}

fn look(for_what: Option<For>) -> Look {
    match for_what {
        Some(For::Phone) => Look::PHONE,
        None => Look::SCREEN,
    }
}
