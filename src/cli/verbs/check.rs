//! `podbook check`: every fault in one run.

use crate::check::all;
use crate::cli::request::{Outcome, Refusal, Request};
use crate::diagnostic::{Drawing, Severity};
use crate::observation::photos::photos;
use crate::registry::{Registry, build};
use crate::render::{self, Written};
use crate::report::{Report, check};
use crate::text::{Terminal, beside, visible};
use crate::wording::counted;
use clap::Args;
use std::path::Path;

/// Lines of one screen that findings may fill: the rest is the count above them and what is not shown below.
const FINDING_LINES: usize = 17;

/// As many more where notes are among them: then no line below counts them.
const WITHOUT_FOLDED: usize = 2;

/// Find every fault in the registry
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook check --registry registry-demo\n\
    Faults come first, then warnings; notes are only counted unless --notes is given.\n\
    A screen shows as many as fit and counts the rest, --full shows all of them. JSON holds all of them.\n\
    Exit code 1 when there is a fault; warnings and notes alone exit with 0.")]
pub struct Check {
    /// Show the notes too: worth knowing, nothing to mend
    #[arg(long)]
    notes: bool,
}

impl Check {
    /// Runs the verb.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, mut findings) = build(&sources);
        findings.append(all(&registry, request.today()?));
        let report = check(&registry, &findings);
        let remarks = lost_photos(&registry, &request.registry_folder()?);
        if request.json() {
            return request.answer(&report, remarks);
        }
        let drawing = Drawing {
            width: request.width(),
            paint: request.paint(),
        };
        let (least, lines) = match self.notes {
            true => (Severity::Note, FINDING_LINES + WITHOUT_FOLDED),
            false => (Severity::Warning, FINDING_LINES),
        };
        let mut text = Terminal::lines(&render::text::sheet(&report.sheet(), request.width()));
        let (drawn, left) = match request.full() {
            true => (drawing.findings_from(least, &findings, &sources), 0),
            false => drawing.first_findings((least, lines), &findings, &sources),
        };
        if !drawn.is_empty() {
            text.say("\n");
            text.push(&drawn);
        }
        if left > 0 {
            let more = counted(left, "more finding", "more findings");
            text.say(&format!("\n{more}: --full\n"));
        }
        let folded = report.folded_notes().filter(|_| !self.notes);
        if let Some(folded) = folded {
            let mut lines = "\n".to_owned();
            render::folding::fold(&folded, "", request.width(), &mut lines);
            text.say(&lines);
        }
        Ok(Outcome {
            answer: Written::text(&text),
            bad_news: report.is_bad_news(),
            remarks,
            ..Outcome::default()
        })
    }
}

/// How many photos are named whose files cannot be read.
const PHOTOS_NAMED: usize = 3;

/// Photos that plants name and whose files cannot be read, a line each, the first of them by name.
fn lost_photos(registry: &Registry, folder: &Path) -> String {
    let named = registry.plants().flat_map(|plant| {
        let of_plant = photos(registry, plant).into_iter();
        of_plant.map(move |photo| (plant, photo))
    });
    let lost = named.filter_map(|(plant, photo)| {
        let why = beside(folder, &photo.file).err()?;
        let (code, file) = (registry.code(plant), visible(&photo.file));
        Some(format!("photo {file} of {code}: {why}\n"))
    });
    let lost: Vec<String> = lost.collect();
    let more = match lost.len().saturating_sub(PHOTOS_NAMED) {
        0 => String::new(),
        more => format!("and {more} more\n"),
    };
    lost.iter()
        .take(PHOTOS_NAMED)
        .map(String::as_str)
        .collect::<String>()
        + &more
}
