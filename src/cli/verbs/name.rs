//! `podbook name`: what plants and crosses are truthfully called.

use crate::analysis::name::NameWishes;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::naming::Style;
use crate::render::Written;
use crate::report::name::name;
use crate::text::Terminal;
use clap::{Args, ValueEnum};

/// Name a plant, pod or cross from its recorded parents
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook name X22-02-5 --registry registry-demo\n         podbook name X22-02 --fit 40"
)]
pub struct Name {
    /// Codes of plants, pods or crosses
    #[arg(value_name = "ID", required = true)]
    ids: Vec<String>,
    /// Longest text for a tag, in characters
    #[arg(long, value_name = "N")]
    fit: Option<usize>,
    /// How the text is marked up
    #[arg(long, value_name = "STYLE", default_value = "text")]
    style: StyleWord,
    /// Write each parent's own code beside it
    #[arg(long)]
    codes: bool,
    /// Mark seed and pollen parents with ♀ and ♂
    #[arg(long)]
    sexes: bool,
    /// Put the code in front of the text for a tag
    #[arg(long, requires = "fit")]
    with_code: bool,
    /// Print the name alone, on one line, for pasting
    #[arg(long)]
    plain: bool,
}

#[derive(ValueEnum, Clone, Copy, Debug)]
enum StyleWord {
    Text,
    Html,
    Markdown,
    Ascii,
}

impl From<StyleWord> for Style {
    fn from(word: StyleWord) -> Style {
        match word {
            StyleWord::Text => Style::Text,
            StyleWord::Html => Style::Html,
            StyleWord::Markdown => Style::Markdown,
            StyleWord::Ascii => Style::Ascii,
        }
    }
}

impl Name {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let context = Context::of(&registry, request.today()?);
        let wishes = NameWishes {
            style: self.style.into(),
            fit: self.fit,
            codes: self.codes,
            sexes: self.sexes,
            coded_tag: self.with_code,
        };
        let reports = super::each(&registry, &self.ids, |id| {
            name(&context, id, wishes).map_err(Refusal::arguments)
        })?;
        if self.plain && !request.json() {
            let names = reports.iter().map(|report| format!("{}\n", report.alone()));
            return Ok(Outcome {
                answer: Written::text(&Terminal::lines(&names.collect::<String>())),
                remarks,
                ..Outcome::default()
            });
        }
        request.answers(&reports, remarks)
    }
}
