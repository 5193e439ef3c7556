//! `podbook sheet`: paper to measure by, or to tick plants off by.

use crate::analysis::bench_sheet::{BenchSheet, measuring_sheet, stocktake_sheet};
use crate::cli::request::{Outcome, Refusal, Request};
use crate::cli::verbs::output::{CHARTED, Form, Paper, Picture};
use crate::observation::seedling_trays::trays_at;
use crate::recording::rows_asked::{columns_asked, rows_asked};
use crate::render::Written;
use crate::render::bench_sheet::{Paper as Size, pages, stacked};
use clap::Args;

/// Print a sheet to measure plants by, or to take stock by
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook sheet X22-02 --traits span,banding,teeth -o sheet.pdf --registry registry-demo\n         \
    podbook sheet --place \"shelf 1\" --stocktake -o stock.pdf --registry registry-demo\n\
    Plants that are gone are not on it. `podbook measure` takes the filled sheet in."
)]
pub struct Sheet {
    /// Crosses, pods, sowings or plants
    #[arg(value_name = "ID")]
    ids: Vec<String>,
    /// What to read, such as span,banding [default: as at the last sitting]
    #[arg(long, value_name = "TRAITS", value_delimiter = ',')]
    traits: Vec<String>,
    /// Only plants that stand here
    #[arg(long, value_name = "PLACE")]
    place: Option<String>,
    /// Boxes to tick instead of traits
    #[arg(long, conflicts_with = "traits")]
    stocktake: bool,
    /// a4 or a5
    #[arg(
        long,
        value_name = "SIZE",
        default_value = "a4",
        hide_possible_values = true
    )]
    paper: Paper,
    #[command(flatten)]
    picture: Picture,
}

impl Sheet {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let form = self.picture.output().form(request, CHARTED)?;
        let sources = request.sources()?;
        let (registry, remarks) = request.registry(&sources);
        let today = request.today()?;
        let place = self.place.as_deref();
        // A sheet of a place has its trays too; one of codes has what they name.
        let trays = match place.filter(|_| self.stocktake && self.ids.is_empty()) {
            Some(place) => trays_at(&registry, place, today),
            None => Vec::new(),
        };
        let plants = match rows_asked(&registry, &self.ids, place, today) {
            Err(_) if !trays.is_empty() => Vec::new(),
            plants => plants.map_err(Refusal::arguments)?,
        };
        let sheet = if self.stocktake {
            stocktake_sheet(&registry, (&plants, &trays), place, today)
        } else {
            let columns =
                columns_asked(&registry, &self.traits, &plants).map_err(Refusal::arguments)?;
            measuring_sheet(&registry, &plants, &columns, (place, today))
        };
        let sheet = BenchSheet {
            of: self.ids.clone(),
            place: self.place.clone(),
            ..sheet
        };
        let answer = self.written(request, &sheet, form)?;
        self.picture
            .output()
            .deliver(request, answer, remarks, false)
    }

    fn written(
        &self,
        request: &Request,
        sheet: &BenchSheet,
        form: Form,
    ) -> Result<Written, Refusal> {
        let paper = match self.paper {
            Paper::A4 => Size::A4,
            Paper::A5 => Size::A5,
        };
        let scene = || stacked(sheet, paper).map_err(Refusal::arguments);
        match form {
            Form::Pdf => {
                let pages = pages(sheet, paper).map_err(Refusal::arguments)?;
                Ok(Written::pdf(&pages))
            }
            Form::Svg => Ok(Written::svg(&scene()?)),
            Form::Png => self.picture.png(&scene()?),
            form => self
                .picture
                .output()
                .written(request, form, std::slice::from_ref(sheet)),
        }
    }
}
