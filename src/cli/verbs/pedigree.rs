//! `podbook pedigree`: who a plant comes from, or what came from it, as a picture.

use crate::cli::request::{Outcome, Refusal, Request};
use crate::lineage::Lineage;
use crate::naming::recorded::Names;
use crate::render;
use crate::report::pedigree_of::{PedigreeWishes, pedigree_of};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

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
        let by_ending = self.output.as_deref().map(|file| (file, of_ending(file)));
        match (self.format, by_ending) {
            (None, None) => Ok(Format::Text),
            (Some(format), None | Some((_, None))) => Ok(format),
            (Some(format), Some((_, Some(ending)))) if format == ending => Ok(format),
            (Some(_), Some((file, Some(_)))) => Err(Refusal::arguments(format!(
                "--format and the ending of {} tell different forms\nleave one out, or make them agree",
                file.display()
            ))),
            (None, Some((_, Some(ending)))) => Ok(ending),
            (None, Some((file, None))) => Err(Refusal::arguments(format!(
                "the ending of {} tells no format\nend it with .svg, .png, .dot or .txt, or say --format",
                file.display()
            ))),
        }
    }
}

/// The form a file's ending tells.
fn of_ending(file: &Path) -> Option<Format> {
    let ending = file.extension()?.to_str()?.to_lowercase();
    match ending.as_str() {
        "svg" => Some(Format::Svg),
        "png" => Some(Format::Png),
        "dot" | "gv" => Some(Format::Dot),
        "txt" => Some(Format::Text),
        _ => None,
    }
}
