//! `--format` and `-o FILE`: where an answer goes and in which form, by one rule for every verb.
//!
//! The form is what `--json`, `--format` or the ending of FILE says; two that disagree are refused, and so is a form the
//! answer does not have. Without any of them the answer is text, on standard output.

use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::render::{Written, scene::Scene};
use crate::report::Report;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// Forms of an answer.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Form {
    /// Text to read
    Text,
    /// All fields, for programs
    Json,
    /// The tables, for a spreadsheet
    Csv,
    /// A workbook, for a spreadsheet
    Xlsx,
    /// A picture that stays sharp
    Svg,
    /// A picture made of dots
    Png,
    /// Pages to print
    Pdf,
    /// A page for a browser
    Html,
    /// A form to finish by hand
    Markdown,
    /// Graphviz text
    Dot,
    /// A calendar
    Ics,
}

/// Forms of an answer without a picture.
pub(super) const TABLES: &[Form] = &[Form::Text, Form::Json, Form::Csv];
/// Forms of an answer that can be drawn and go into a calendar.
pub(super) const CHARTED_CALENDAR: &[Form] = &[
    Form::Text,
    Form::Json,
    Form::Csv,
    Form::Ics,
    Form::Svg,
    Form::Png,
    Form::Pdf,
];
/// Forms of an answer that can be drawn or printed.
pub(super) const CHARTED: &[Form] = &[
    Form::Text,
    Form::Json,
    Form::Csv,
    Form::Svg,
    Form::Png,
    Form::Pdf,
];

/// Where an answer goes.
#[derive(Args, Debug)]
pub(super) struct Output {
    /// Write text, json or another format that this command has, such as csv, html, svg, png or pdf
    #[arg(long, value_name = "FORMAT", hide_possible_values = true)]
    format: Option<Form>,
    /// Write to this file; its ending, such as .json, .csv or .svg, chooses the format
    #[arg(long, short, value_name = "FILE")]
    output: Option<PathBuf>,
}

/// Where an answer goes that can be drawn.
#[derive(Args, Debug)]
pub(super) struct Picture {
    #[command(flatten)]
    output: Output,
    /// Dots in a PNG for each point of the picture
    #[arg(long, value_name = "DOTS", default_value_t = 2.0)]
    scale: f64,
}

/// Paper sizes (ISO 216), upright.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Paper {
    /// 148 × 210 mm.
    A5,
    /// 210 × 297 mm.
    A4,
}

/// What a picture is laid out for.
#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum For {
    /// A phone held upright.
    Phone,
}

impl Form {
    fn word(self) -> String {
        let value = self.to_possible_value();
        value.map_or_else(String::new, |of| of.get_name().to_owned())
    }

    fn ending(self) -> String {
        match self {
            Form::Text => ".txt".to_owned(),
            Form::Markdown => ".md".to_owned(),
            form => format!(".{}", form.word()),
        }
    }

    /// The form a file's ending tells.
    fn of_ending(file: &Path) -> Option<Form> {
        let ending = file.extension()?.to_str()?.to_lowercase();
        match ending.as_str() {
            "htm" => Some(Form::Html),
            "markdown" => Some(Form::Markdown),
            "gv" => Some(Form::Dot),
            ending => {
                let mut all = Form::value_variants().iter().copied();
                all.find(|form| form.ending()[1..] == *ending)
            }
        }
    }
}

impl Output {
    /// The form asked for.
    ///
    /// # Errors
    /// If the file may not be written, two forms are asked for, the file's ending tells none, or the answer has no such
    /// form.
    pub(super) fn form(&self, request: &Request, forms: &[Form]) -> Result<Form, Refusal> {
        let file = self.output.as_deref();
        file.map(|file| request.outlet(file)).transpose()?;
        let by_ending = file.and_then(Form::of_ending);
        let ending = || format!("the ending of {}", shown(file.unwrap_or(Path::new(""))));
        let asked = [
            request.json().then(|| ("--json".to_owned(), Form::Json)),
            self.format
                .map(|form| (format!("--format {}", form.word()), form)),
            by_ending.map(|form| (ending(), form)),
        ];
        let asked: Vec<(String, Form)> = asked.into_iter().flatten().collect();
        if let Some(other) = asked.iter().find(|(_, form)| *form != asked[0].1) {
            return Err(Refusal::arguments(format!(
                "{} and {} ask for two formats\nleave one out, or make them agree",
                asked[0].0, other.0
            )));
        }
        match asked.first() {
            Some((_, form)) if forms.contains(form) => Ok(*form),
            Some((by, form)) => Err(Refusal::arguments(format!(
                "{by} asks for {}, which this command cannot write\n{}",
                form.word(),
                choices(forms)
            ))),
            None if file.is_some() => Err(Refusal::arguments(format!(
                "{} is not a format podbook knows\n{}",
                ending(),
                choices(forms)
            ))),
            None => Ok(Form::Text),
        }
    }

    /// Answers a report that has no picture.
    ///
    /// # Errors
    /// As [`Output::form`], or if the file cannot be written.
    pub(super) fn answer(
        &self,
        request: &Request,
        report: &impl Report,
        remarks: String,
    ) -> Result<Outcome, Refusal> {
        let reports = std::slice::from_ref(report);
        let answer = self.written(request, self.form(request, TABLES)?, reports)?;
        self.deliver(request, answer, remarks, report.is_bad_news())
    }

    /// Reports of one kind, as text, JSON or CSV, one after the other; a single one stands alone. A file holds all of the
    /// answer, a screen what fits.
    ///
    /// # Errors
    /// If it cannot be written as JSON.
    pub(super) fn written<R: Report>(
        &self,
        request: &Request,
        form: Form,
        reports: &[R],
    ) -> Result<Written, Refusal> {
        match form {
            Form::Csv => Ok(Written::csv(reports)),
            Form::Json => Written::json(reports).map_err(Refusal::files),
            _ if self.output.is_some() => Ok(Written::sheets(reports, request.width())),
            _ => Ok(request.text(reports)),
        }
    }

    /// An answer to the file, or to standard output.
    pub(super) fn deliver(
        &self,
        request: &Request,
        answer: Written,
        remarks: String,
        bad_news: bool,
    ) -> Result<Outcome, Refusal> {
        let outcome = request.deliver(answer, self.output.as_deref(), remarks)?;
        Ok(Outcome {
            bad_news,
            ..outcome
        })
    }
}

impl Picture {
    /// Where it goes.
    pub(super) fn output(&self) -> &Output {
        &self.output
    }

    /// A scene as PNG.
    ///
    /// # Errors
    /// If it would be too large.
    pub(super) fn png(&self, scene: &Scene) -> Result<Written, Refusal> {
        Written::png(scene, self.scale).map_err(|refusal| Refusal::arguments(refusal.to_string()))
    }
}

/// What may be asked for instead.
fn choices(forms: &[Form]) -> String {
    let [first @ .., last] = forms else {
        return String::new();
    };
    if first.is_empty() {
        return format!(
            "end FILE with {}, or use --format {}",
            last.ending(),
            last.word()
        );
    }
    let endings: Vec<String> = first.iter().map(|form| form.ending()).collect();
    format!(
        "end FILE with {} or {}, or use --format",
        endings.join(", "),
        last.ending()
    )
}
