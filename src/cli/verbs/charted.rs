//! `--for` and `-o FILE` of the verbs whose answer can be drawn as a chart: for a page, for a phone, or on A4.

use super::output::{CHARTED, For, Form, Output, Paper, Picture};
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
    /// Lay it out for this paper, a4 or a5 [default: a4 for a PDF]
    #[arg(
        long,
        value_name = "SIZE",
        hide_possible_values = true,
        conflicts_with = "for_what"
    )]
    paper: Option<Paper>,
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
        match self.drawn(self.form(request)?, draw)? {
            Some(picture) => {
                let bad_news = reports.iter().any(Report::is_bad_news);
                self.output().deliver(request, picture, remarks, bad_news)
            }
            None => self.reports(request, reports, remarks),
        }
    }

    /// Answers with reports; without a picture of them.
    ///
    /// # Errors
    /// As [`Output::form`], or if the file cannot be written.
    pub(super) fn reports<R: Report>(
        &self,
        request: &Request,
        reports: &[R],
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        let answer = self
            .output()
            .written(request, self.form(request)?, reports)?;
        let bad_news = reports.iter().any(Report::is_bad_news);
        self.output().deliver(request, answer, remarks, bad_news)
    }

    /// Answers with a picture where one is asked for, and with nothing else.
    ///
    /// # Errors
    /// As [`Charted::answer`].
    pub(super) fn picture(
        &self,
        request: &Request,
        draw: impl FnOnce(Look) -> Sheet,
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        let picture = self.drawn(self.form(request)?, draw)?.unwrap_or_default();
        self.output().deliver(request, picture, remarks, false)
    }

    /// A chart in a form; `None` where that is no picture.
    ///
    /// # Errors
    /// If the picture would be too large.
    pub(super) fn drawn(
        &self,
        form: Form,
        draw: impl FnOnce(Look) -> Sheet,
    ) -> Result<Option<Written>, Refusal> {
        Ok(match form {
            Form::Svg => Some(Written::svg(&draw(self.look(Look::SCREEN)))),
            Form::Png => Some(self.picture.png(&draw(self.look(Look::SCREEN)))?),
            Form::Pdf => Some(Written::pdf(&draw(self.look(Look::A4)).pages())),
            _ => None,
        })
    }

    fn look(&self, otherwise: Look) -> Look {
        match (self.for_what, self.paper) {
            (Some(For::Phone), _) => Look::PHONE,
            (None, Some(Paper::A5)) => Look::A5,
            (None, Some(Paper::A4)) => Look::A4,
            (None, None) => otherwise,
        }
    }

    /// Answers with a report of the same verb that has no picture.
    ///
    /// # Errors
    /// As [`Charted::form`], or if a picture is asked for.
    pub(super) fn tables(
        &self,
        request: &Request,
        report: &impl Report,
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        self.form(request)?;
        self.output().answer(request, report, remarks)
    }

    /// The form asked for.
    ///
    /// # Errors
    /// As [`Output::form`].
    pub(super) fn form(&self, request: &Request) -> Result<Form, Refusal> {
        self.form_of(request, CHARTED)
    }

    /// The form asked for among those of a verb.
    ///
    /// # Errors
    /// As [`Output::form`].
    pub(super) fn form_of(&self, request: &Request, forms: &[Form]) -> Result<Form, Refusal> {
        let form = self.output().form(request, forms)?;
        let lays_out = match (self.for_what, self.paper) {
            _ if is_picture(form) => return Ok(form),
            (None, None) => return Ok(form),
            (Some(_), _) => ("--for phone", "--for"),
            (None, Some(_)) => ("--paper", "it"),
        };
        Err(Refusal::arguments(format!(
            "{} lays out a picture\nend the file of -o with .png, .svg or .pdf, or leave {} out",
            lays_out.0, lays_out.1
        )))
    }

    /// Whether a picture is asked for.
    ///
    /// # Errors
    /// As [`Output::form`].
    pub(super) fn is_drawn(&self, request: &Request) -> Result<bool, Refusal> {
        self.form(request).map(is_picture)
    }

    pub(super) fn output(&self) -> &Output {
        self.picture.output()
    }
}

fn is_picture(form: Form) -> bool {
    matches!(form, Form::Svg | Form::Png | Form::Pdf)
}
