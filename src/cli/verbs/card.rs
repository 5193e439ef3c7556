//! `podbook card`: what goes along with a plant that is sold or given.

use super::output::{For, Form, Paper, Picture};
use super::photo::photo;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::context::Context;
use crate::render::Written;
use crate::render::card::{Look, pages, picture};
use crate::render::scene::Photo;
use crate::report::card::{Card as Answer, card, missing};
use clap::Args;
use std::sync::Arc;

/// Write the sale card of a plant
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook card X22-02-5 -o card.pdf --registry registry-demo\n         \
    podbook card X22-02-5 --missing --registry registry-demo\n\
    Suppliers, buyers, prices, places and notes are never on it."
)]
pub struct Card {
    /// A plant, or one of its pieces
    #[arg(value_name = "ID")]
    id: String,
    /// a5 or a4
    #[arg(
        long,
        value_name = "SIZE",
        default_value = "a5",
        hide_possible_values = true
    )]
    paper: Paper,
    /// Lay it out for a phone, 360 points across; a PNG is unless you name a paper
    #[arg(
        long = "for",
        value_name = "phone",
        hide_possible_values = true,
        conflicts_with = "paper"
    )]
    for_what: Option<For>,
    /// List what a buyer would ask and the record cannot answer
    #[arg(long)]
    missing: bool,
    #[command(flatten)]
    picture: Picture,
}

/// Forms of a card.
const FORMS: &[Form] = &[
    Form::Text,
    Form::Json,
    Form::Html,
    Form::Svg,
    Form::Png,
    Form::Pdf,
];
/// Forms of the list of what is missing.
const LISTS: &[Form] = &[Form::Text, Form::Json];

impl Card {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let output = self.picture.output();
        let form = output.form(request, if self.missing { LISTS } else { FORMS })?;
        let sources = request.sources()?;
        let (registry, mut remarks) = request.registry(&sources);
        super::known(&registry, &self.id)?;
        let context = Context::of(&registry, request.today()?);
        let mut answer = card(&context, &self.id).map_err(Refusal::arguments)?;
        let drawn = !self.missing && !matches!(form, Form::Text | Form::Json);
        let (photo, no_photo) = photo(request, &mut answer, drawn)?;
        remarks.push_str(&no_photo);
        let written = match self.missing {
            true => output.written(request, form, &[missing(&answer)])?,
            false => self.written(request, (&answer, photo.as_ref()), form)?,
        };
        output.deliver(request, written, remarks, false)
    }

    fn written(
        &self,
        request: &Request,
        (answer, photo): (&Answer, Option<&Arc<Photo>>),
        form: Form,
    ) -> Result<Written, Refusal> {
        let look = match (self.for_what, self.paper, form) {
            (Some(For::Phone), _, _) => Look::PHONE,
            (None, Paper::A5, Form::Png) => Look::PHONE,
            (None, Paper::A5, _) => Look::A5,
            (None, Paper::A4, _) => Look::A4,
        };
        match form {
            Form::Html => Ok(Written::html(answer, photo.map(|photo| &**photo))),
            Form::Pdf => Ok(Written::pdf(&pages(answer, photo, look))),
            Form::Svg => Ok(Written::svg(&picture(answer, photo, look))),
            Form::Png => self.picture.png(&picture(answer, photo, look)),
            Form::Json => Written::json(std::slice::from_ref(answer)).map_err(Refusal::files),
            // A card is one piece, however long: no screen cuts it.
            _ => Ok(Written::sheets(
                std::slice::from_ref(answer),
                request.width(),
            )),
        }
    }
}
