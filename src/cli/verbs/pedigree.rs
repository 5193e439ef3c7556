//! `podbook pedigree`: who a plant comes from, or what came from it, as a picture.

use super::output::{For, Form, Picture};
use crate::analysis::pedigree::PedigreeWishes;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render::{self, Written};
use crate::report::pedigree_of::pedigree_of;
use clap::Args;

/// Draw the pedigree of a plant, pod or cross
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook pedigree X22-02-5 -o offer.svg --registry registry-demo\n         \
    podbook pedigree Ven1 --down --format dot --registry registry-demo | dot -Tpdf -o ven1.pdf"
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
    /// Lay the picture out for a phone, 360 points across
    #[arg(long = "for", value_name = "phone", hide_possible_values = true)]
    for_what: Option<For>,
    #[command(flatten)]
    picture: Picture,
}

/// Forms of a pedigree.
const FORMS: &[Form] = &[
    Form::Text,
    Form::Json,
    Form::Svg,
    Form::Png,
    Form::Pdf,
    Form::Dot,
];

impl Pedigree {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        super::known(&registry, &self.id)?;
        let context = Context::of(&registry, request.today()?);
        let output = self.picture.output();
        let form = output.form(request, FORMS)?;
        let wishes = PedigreeWishes {
            generations: self.generations,
            down: self.down,
        };
        let drawing = pedigree_of(&context, &self.id, wishes, form == Form::Json);
        let drawing = drawing.map_err(Refusal::arguments)?;
        let scene = || match (self.for_what, form) {
            (Some(For::Phone), _) => render::pedigree::on_phone(&drawing),
            (None, Form::Pdf) => render::pedigree::on_paper(&drawing),
            (None, _) => render::pedigree::draw(&drawing),
        };
        if let (Form::Svg | Form::Png | Form::Pdf, Some(why)) = (form, drawing.beyond_a_picture()) {
            return Err(Refusal::arguments(why));
        }
        let answer = match form {
            Form::Json => Written::json_value(&drawing).map_err(Refusal::files)?,
            Form::Svg => Written::svg(&scene()),
            Form::Pdf => Written::pdf(&[scene()]),
            Form::Png => self.picture.png(&scene())?,
            Form::Dot => Written::dot(&drawing),
            Form::Text | Form::Csv | Form::Xlsx | Form::Ics | Form::Html | Form::Markdown => {
                Written::pedigree(&drawing, request.width())
            }
        };
        output.deliver(request, answer, remarks, false)
    }
}
