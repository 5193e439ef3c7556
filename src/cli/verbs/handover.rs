//! `podbook handover`: a lineage for the buyer of a plant.

use super::no_folder::no_folder;
use super::photo::photo;
use crate::analysis::pedigree::PedigreeWishes;
use crate::cli::request::{Outcome, Refusal, Request, boxes_words, shown};
use crate::context::Context;
use crate::evidence::{Doubt, Evidence, Unit};
use crate::observation::pieces::only_copy_left;
use crate::observation::standing::departed;
use crate::record::Day;
use crate::recording::handover::{
    Lineage, SHEET, contradictions, fingerprint, lines, pages, with_piece, written,
};
use crate::recording::plants::single;
use crate::registry::{PlantKind, PlantRow, Registry};
use crate::render::Written;
use crate::render::card::{Look, pages as card_pages, picture};
use crate::render::pedigree::draw;
use crate::report::card::card;
use crate::report::handover::HandoverReport;
use crate::report::pedigree_of::pedigree_of;
use crate::text::{Outlet, folders_left_behind, new_folder, packed};
use clap::Args;
use std::path::{Path, PathBuf};

/// Width of the card's text, columns.
const COLUMNS: usize = 80;
/// Dots of a PNG for each point.
const DOTS: f64 = 2.0;
/// The card as a picture.
const PICTURE: &str = "card.png";
/// Crosses upward in the pedigree.
const GENERATIONS: u32 = 8;

/// Write a plant's lineage as a small registry to hand over, with its card and pedigree
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook handover X22-02-5 -o X22-02-5-lineage --zip --registry registry-demo\n\
    The folder holds the plant and its ancestors, without suppliers, buyers, prices, places, photos and notes, and passes \
    `podbook check`; beside them its sale card and pedigree. Its fingerprint is on the card; `podbook verify` compares the \
    two, and `podbook merge` takes the lineage into another registry."
)]
pub struct Handover {
    /// The plant
    #[arg(value_name = "PLANT")]
    plant: String,
    /// Folder to make, or an empty one to fill [default: PLANT-lineage]
    #[arg(short = 'o', long = "output", value_name = "DIR")]
    folder: Option<PathBuf>,
    /// Pack the folder into DIR.zip as well, which must not be there yet
    #[arg(long)]
    zip: bool,
}

/// Files by their paths in the folder.
type Files = Vec<(String, Vec<u8>)>;

impl Handover {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (registry, mut remarks) = request.registry(&sources);
        let named = single(&registry, &self.plant).map_err(Refusal::arguments)?;
        let plant = registry.code(named.plant);
        let lineage = Lineage::of(&registry, named.plant);
        not_against_itself(&registry, &lineage, (&plant, request.today()?))?;
        every_doubt_is_read(
            Context::of(&registry, request.today()?).evidence(),
            &lineage,
        )?;
        // Under the code of the plant a buyer gets what is left of it, as its card says.
        let piece = registry
            .ramet(named)
            .or_else(|| only_copy_left(&registry, named.plant));
        let piece = piece.map(|piece| piece.code);
        let lines = with_piece(lines(&registry, &lineage), piece);
        let code = piece.map_or_else(|| plant.clone(), |piece| format!("{plant}-{piece}"));
        let shown_to_the_buyer = shown_to_the_buyer(request, &registry, &code)?;
        remarks.push_str(&not_drawn(&shown_to_the_buyer));
        let sheet = written(&code, &lines);
        let mut files: Files = vec![(SHEET.to_owned(), sheet.into_bytes())];
        let shown_files = shown_to_the_buyer.iter();
        files.extend(shown_files.map(|(path, of)| ((*path).to_owned(), of.bytes().to_vec())));
        // What makes a folder a registry comes last.
        let handed = pages(&registry, &lineage).into_iter();
        files.extend(handed.map(|page| (page.path, page.text.into_bytes())));
        let folder = self.folder;
        let folder = folder.unwrap_or_else(|| PathBuf::from(format!("{plant}-lineage")));
        let written = write(request, &folder, self.zip, &files)?;
        remarks.push_str(&never_finished(&folder));
        let kinds = |kind| {
            let plants = lineage.plants.iter();
            plants
                .filter(|plant| registry.kind(**plant) == kind)
                .count()
        };
        let gone = departed(
            &registry,
            named.plant,
            registry.ramet(named),
            request.today()?,
        );
        let report = HandoverReport {
            named: code,
            gone,
            plant,
            folder: shown(&folder),
            zip: written.get(1).cloned(),
            fingerprint: fingerprint(&lines),
            founders: kinds(PlantKind::Founder),
            seedlings: kinds(PlantKind::Seedling),
            crosses: lineage.crosses.len(),
            files: files.into_iter().map(|(path, _)| path).collect(),
        };
        request.answer_after(&report, remarks, written)
    }
}

/// Refuses a record that contradicts itself.
fn not_against_itself(
    registry: &Registry,
    lineage: &Lineage,
    (plant, today): (&str, Day),
) -> Result<(), Refusal> {
    let against = contradictions(registry, lineage, today);
    if against.is_empty() {
        return Ok(());
    }
    Err(Refusal::arguments(format!(
        "nothing was written: the record of {plant} and its ancestors contradicts itself\n{}\n`podbook check` shows the places; mend them, then hand the plant over",
        against.join("\n")
    )))
}

/// Refuses a lineage that would leave without a doubt of its record, since that could not be read.
fn every_doubt_is_read(evidence: &Evidence, lineage: &Lineage) -> Result<(), Refusal> {
    let unread = |plant: &PlantRow| {
        let own = evidence.statement(Unit::Plant(*plant))?;
        let is_unread = |(_, doubt): &(_, Doubt)| matches!(doubt, Doubt::Unread(_));
        own.doubts.iter().any(is_unread).then_some(*plant)
    };
    let Some(plant) = lineage.plants.iter().find_map(unread) else {
        return Ok(());
    };
    Err(Refusal::files(format!(
        "nothing was written: {}: {}\n`podbook check` shows the place; mend it, then hand the plant over",
        evidence.registry().code(plant),
        evidence.own(Unit::Plant(plant)).unwrap_or_default()
    )))
}

/// What the pictures lack, in words.
fn not_drawn(shown: &[(&str, Written)]) -> String {
    let boxes = shown.iter().flat_map(|(_, written)| written.not_drawn());
    let mut remarks = boxes_words(&boxes.copied().collect());
    if !shown.iter().any(|(path, _)| *path == PICTURE) {
        remarks +=
            "card.png was left out: the card is too long for a picture; card.pdf holds all of it\n";
    }
    remarks
}

/// Hidden folders beside one, which podbooks that were stopped left: what is not of this lineage is not removed for the grower.
fn never_finished(folder: &Path) -> String {
    let above = folder.parent().filter(|of| !of.as_os_str().is_empty());
    let left = folders_left_behind(above.unwrap_or(Path::new("."))).into_iter();
    let left = left.map(|path| {
        let words = "was left by a podbook that was stopped, and is not finished; remove it if you need nothing in it";
        format!("{} {words}\n", shown(&path))
    });
    left.collect()
}

/// Writes the folder, and packs it where that is asked for; what was written.
fn write(
    request: &Request,
    folder: &Path,
    zip: bool,
    files: &Files,
) -> Result<Vec<String>, Refusal> {
    let files = files.iter();
    let files = files.map(|(path, bytes)| (path.as_str(), bytes.as_slice()));
    let files: Vec<(&str, &[u8])> = files.collect();
    let zip = zip.then(|| new_zip(request, zip_beside(folder)));
    let zip = zip.transpose()?;
    new_folder(folder, &files).map_err(|why| no_folder(folder, why, ", with -o DIR"))?;
    let mut written = vec![shown(folder)];
    if let Some((path, outlet)) = zip {
        let name = folder.file_name().unwrap_or(folder.as_os_str());
        let saved = packed(&name.to_string_lossy(), &files)
            .and_then(|bytes| outlet.save(&bytes).map_err(|fault| fault.why.to_string()));
        saved.map_err(|why| {
            Refusal::files(format!("{} could not be written: {why}", shown(&path))).after(&written)
        })?;
        written.push(shown(&path));
    }
    Ok(written)
}

/// `X22-02-5-lineage.zip` beside the folder, also where a slash ends its path or it is the one the grower stands in.
fn zip_beside(folder: &Path) -> PathBuf {
    let real = folder.canonicalize().ok();
    let named = match (folder.file_name(), &real) {
        (None, Some(real)) => real,
        _ => folder,
    };
    let mut name = named.file_name().unwrap_or_default().to_owned();
    name.push(".zip");
    named.with_file_name(name)
}

/// A place for an archive that is not there yet.
fn new_zip(request: &Request, zip: PathBuf) -> Result<(PathBuf, Outlet), Refusal> {
    let outlet = request.outlet(&zip)?;
    match outlet.is_there() {
        false => Ok((zip, outlet)),
        true => Err(Refusal::arguments(format!(
            "{} is there already\nmove it away, or name another folder with -o DIR; nothing was written",
            shown(&zip)
        ))),
    }
}

/// The card and the pedigree, each as a page to print and as one for a screen.
fn shown_to_the_buyer(
    request: &Request,
    registry: &Registry,
    id: &str,
) -> Result<Vec<(&'static str, Written)>, Refusal> {
    let context = Context::of(registry, request.today()?);
    let mut card = card(&context, id).map_err(Refusal::arguments)?;
    let (photo, _) = photo(request, &mut card, true)?;
    let of_plant = photo.as_ref();
    let of_one = std::slice::from_ref(&card);
    let mut shown = vec![
        (
            "card.pdf",
            Written::pdf(&card_pages(&card, of_plant, Look::A5)),
        ),
        (
            "card.html",
            Written::html(&card, of_plant.map(|photo| &**photo)),
        ),
        ("card.txt", Written::sheets(of_one, COLUMNS)),
    ];
    // The other forms say the same where it is too large.
    let screen = Written::png(&picture(&card, of_plant, Look::PHONE), DOTS);
    shown.extend(screen.ok().map(|screen| (PICTURE, screen)));
    let wishes = PedigreeWishes {
        generations: GENERATIONS,
        down: false,
    };
    let drawing = pedigree_of(&context, id, wishes, false).map_err(Refusal::arguments)?;
    // One that is too large for a picture can still be asked of the folder itself.
    if drawing.beyond_a_picture().is_none() {
        let scene = draw(&drawing);
        shown.push(("pedigree.svg", Written::svg(&scene)));
        shown.push(("pedigree.pdf", Written::pdf(&[scene])));
    }
    Ok(shown)
}
