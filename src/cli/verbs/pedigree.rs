//! `podbook pedigree`: who a plant comes from, or what came from it, as a picture.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::lineage::Lineage;
use crate::naming::recorded::Names;
use crate::render;
use crate::report::pedigree_of::{PedigreeWishes, pedigree_of};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Draw the pedigree of a plant, pod or cross
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook pedigree X22-02-5 -o offer.svg --registry registry-demo\n         \
    podbook pedigree Ven1 --down --format dot --registry registry-demo | dot -Tpdf -o ven1.pdf\n\
    Without --format the ending of FILE decides (.svg, .png, .dot, .txt); without a file it is text."
)]
pub struct Pedigree {
    /// Code of a plant, pod or cross
    #[arg(value_name = "ID")]
    id: String,
    /// Crosses upward, or downward with --down
    #[arg(long, short = 'n', value_name = "N", default_value_t = 8)]
    generations: u32,
    /// Draw descendants instead of ancestors
    #[arg(long)]
    down: bool,
    /// Form of the picture
    #[arg(long, value_name = "FORMAT")]
    format: Option<Format>,
    /// File to write instead of standard output
    #[arg(long, short, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Dots of a PNG for each point of the picture
    #[arg(long, value_name = "DOTS", default_value_t = 2.0)]
    scale: f64,
}

#[derive(ValueEnum, Clone, Copy, PartialEq, Eq, Debug)]
enum Format {
    Dot,
    Svg,
    Png,
    Text,
}

impl Pedigree {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        super::known(&registry, &self.id)?;
        let lineage = Lineage::of(&registry);
        let names = Names::of(&registry, &lineage);
        let wishes = PedigreeWishes {
            generations: self.generations,
            down: self.down,
            today: request.today()?,
        };
        let drawing = pedigree_of(&registry, &lineage, &names, &self.id, wishes)
            .map_err(Refusal::arguments)?;
        let bytes = if request.json() {
            render::json::value(&drawing)
                .map_err(|error| Refusal::files(error.to_string()))?
                .into_bytes()
        } else {
            match self.format()? {
                Format::Svg => render::svg(&render::pedigree::draw(&drawing)).into_bytes(),
                Format::Png => render::png(&render::pedigree::draw(&drawing), self.scale)
                    .map_err(|refusal| Refusal::arguments(refusal.to_string()))?,
                Format::Dot => render::dot(&drawing).into_bytes(),
                Format::Text => {
                    render::pedigree_text::pedigree_text(&drawing, request.width()).into_bytes()
                }
            }
        };
        request.deliver(bytes, self.output.as_deref(), remarks)
    }

    fn format(&self) -> Result<Format, Refusal> {
        if let Some(format) = self.format {
            return Ok(format);
        }
        let Some(file) = &self.output else {
            return Ok(Format::Text);
        };
        let ending = file
            .extension()
            .and_then(|ending| ending.to_str())
            .unwrap_or("")
            .to_lowercase();
        match ending.as_str() {
            "svg" => Ok(Format::Svg),
            "png" => Ok(Format::Png),
            "dot" | "gv" => Ok(Format::Dot),
            "txt" => Ok(Format::Text),
            _ => Err(Refusal::arguments(format!(
                "the ending of {} tells no format\nend it with .svg, .png, .dot or .txt, or say --format",
                file.display()
            ))),
        }
    }
}
