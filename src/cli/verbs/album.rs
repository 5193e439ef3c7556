//! `podbook album`: the registry as pages to look at.

use super::goals::{goals_page, goals_text};
use crate::check::all;
use crate::cli::request::{INTERRUPTED, Outcome, Refusal, Request, kept_words, shown};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::record::Day;
use crate::registry::{PlantKind, Readers, build, build_for};
use crate::render::album::{
    PROBLEMS, SCRIPT, SEASON, STYLE, pages as page_files, problems, season,
};
use crate::render::scene::Photo;
use crate::report::album::{
    Album as Pages, AlbumReport, LEFT_OUT, Shot, ShotWanted, shots_wanted, work,
};
use crate::report::check;
use crate::text::{NoFolder, Sources, mark, read_beside, renewed_folder, visible};
use clap::Args;
use rayon::prelude::*;
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};

/// The file by which a later run knows what an earlier one made.
const MARK: &str = "podbook-album.txt";
const ABOUT: &str =
    "podbook made this folder. The next run takes away the files listed here and makes them anew.";
/// The largest photo that is opened, bytes.
const MOST: u64 = 64 << 20;

/// Write the registry as pages to look at, for yourself or to publish
#[derive(Args, Debug)]
#[command(
    after_help = "Example: podbook album -o album --registry registry-demo\n         \
    podbook album -o for-others --public --registry registry-demo\n\
    Open index.html in the folder with a browser. It needs no network.\n\
    A later run replaces only the pages that an earlier run made."
)]
pub struct Album {
    /// Folder to make, an empty one to fill, or one that `album` made before
    #[arg(short = 'o', long = "output", value_name = "DIR", required = true)]
    folder: PathBuf,
    /// Leave out what is private, so that others may read it
    #[arg(long)]
    public: bool,
}

/// Files by their paths in the folder.
type Files = Vec<(String, Vec<u8>)>;

impl Album {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let sources = request.sources()?;
        let (own, mut remarks) = request.registry(&sources);
        let today = request.today()?;
        let (registry, readers) = match self.public {
            true => {
                let mut registry = build_for(&sources, Readers::Anybody).0;
                registry.leave_out_after(today);
                (registry, Readers::Anybody)
            }
            false => (own, Readers::Grower),
        };
        let context = Context::of(&registry, today);
        let pages = Pages::of(&context, readers);
        let registry_folder = request.registry_folder()?;
        let (photos, shots) = photos(&pages, &registry_folder, &mut remarks);
        let pages = pages.with_shots(shots);
        let made = page_files(&pages).into_iter();
        let mut files: Files = made.map(|(path, text)| (path, text.into_bytes())).collect();
        if !self.public {
            let text = goals_text(request, None)?;
            let work = work(&pages, &goals_page(&text)?).map_err(Refusal::arguments)?;
            files.push((SEASON.to_owned(), season(&pages, &work, None).into_bytes()));
            files.push((PROBLEMS.to_owned(), found(&sources, &pages, today)));
        }
        let pages_written = files.len();
        let shown_photos = photos.len() / 2;
        files.extend(photos);
        files.push(("album.css".to_owned(), STYLE.as_bytes().to_vec()));
        files.push(("album.js".to_owned(), SCRIPT.as_bytes().to_vec()));
        save(&self.folder, files)?;
        let seen = |plant: &PlantRow| registry.kind(*plant) != PlantKind::Unseen;
        let report = AlbumReport {
            folder: shown(&self.folder),
            pages: pages_written,
            plants: registry.plants().filter(seen).count(),
            crosses: registry.crosses.len(),
            photos: shown_photos,
            left_out: match self.public {
                true => LEFT_OUT.to_vec(),
                false => Vec::new(),
            },
        };
        let written = vec![shown(&self.folder)];
        request.answer_after(&report, remarks, written)
    }
}

/// The page of what `check` finds.
fn found(sources: &Sources, pages: &Pages, today: Day) -> Vec<u8> {
    let (registry, mut findings) = build(sources);
    findings.append(all(&registry, today));
    problems(pages, &check(&registry, &findings), None).into_bytes()
}

/// A photo that was read, or why it was not.
type Read = Result<(Shot, Files), String>;

/// The photos as files, and by plant; a remark for each that cannot be shown.
fn photos(
    pages: &Pages,
    folder: &Path,
    remarks: &mut String,
) -> (Files, HashMap<PlantRow, Vec<Shot>>) {
    let wanted = shots_wanted(pages.registry());
    let mut numbers: HashMap<PlantRow, usize> = HashMap::new();
    let named: Vec<(&ShotWanted, String)> = wanted
        .iter()
        .map(|of| {
            let number = numbers.entry(of.plant).or_default();
            *number += 1;
            (of, pages.files.photo(of.plant, *number))
        })
        .collect();
    let read: Vec<Read> = named
        .par_iter()
        .map(|(of, stem)| read_photo(folder, of, stem))
        .collect();
    let (mut files, mut shots) = (Files::new(), HashMap::<PlantRow, Vec<Shot>>::new());
    for (of, read) in wanted.iter().zip(read) {
        match read {
            Ok((shot, both)) => {
                files.extend(both);
                shots.entry(of.plant).or_default().push(shot);
            }
            Err(why) => {
                *remarks += &format!("no picture in the album: {}: {why}\n", visible(&of.file))
            }
        }
    }
    (files, shots)
}

fn read_photo(folder: &Path, of: &ShotWanted, stem: &str) -> Read {
    let bytes = read_beside(folder, &of.file, MOST).map_err(|why| why.to_string())?;
    let photo = Photo::read(&bytes).map_err(|why| why.to_string())?;
    let (small, small_size) = photo.small().map_err(|why| why.to_string())?;
    let shot = of.shot(stem, Some([(photo.width, photo.height), small_size]));
    let files = vec![(shot.path.clone(), photo.jpeg), (shot.small.clone(), small)];
    Ok((shot, files))
}

/// Writes the files with their mark, the first page last.
fn save(folder: &Path, mut files: Files) -> Result<(), Refusal> {
    let listed = mark(ABOUT, files.iter().map(|(path, _)| path.as_str()));
    files.push((MARK.to_owned(), listed.into_bytes()));
    let files: Vec<(&str, &[u8])> = files
        .iter()
        .map(|(path, bytes)| (path.as_str(), bytes.as_slice()))
        .collect();
    finish_in_spite_of_ctrl_c();
    let stays = renewed_folder(folder, MARK, &files).map_err(|why| refused(folder, why))?;
    match stays.first() {
        None => Ok(()),
        Some(stays) => {
            let refusal = Refusal::files(format!(
                "{} of an earlier run that was stopped could not be removed\nit may hold what is private: remove it before others get the folder",
                visible(stays)
            ));
            Err(refusal.after(&[shown(folder)]))
        }
    }
}

/// A run that is stopped while it moves the files leaves what it had written hidden in the folder; pressed again, Ctrl-C ends it.
fn finish_in_spite_of_ctrl_c() {
    let pressed = AtomicBool::new(false);
    // Where no signal can be caught, the next run removes what is left.
    let _ = ctrlc::set_handler(move || {
        if pressed.swap(true, Ordering::SeqCst) {
            std::process::exit(i32::from(INTERRUPTED));
        }
    });
}

const ELSEWHERE: &str = "name a folder that is not there yet, an empty one, or one that `podbook album` made, with -o DIR";

fn refused(folder: &Path, why: NoFolder) -> Refusal {
    let folder = shown(folder);
    match why {
        NoFolder::NotEmpty(entry) => Refusal::arguments(format!(
            "{folder} holds {}, which `podbook album` did not make\n{ELSEWHERE}; nothing was written",
            visible(&entry)
        )),
        NoFolder::AFile => Refusal::arguments(format!("{folder} is a file\n{ELSEWHERE}")),
        NoFolder::LinkBroken => {
            Refusal::arguments(format!("{folder} is a link to nothing\n{ELSEWHERE}"))
        }
        NoFolder::Kept(why) => Refusal::arguments(format!(
            "{}\n{ELSEWHERE}; nothing was written",
            kept_words(&folder, &why)
        )),
        NoFolder::System(words) => Refusal::files(format!(
            "{folder} could not be written: {words}\n{ELSEWHERE}"
        )),
    }
}
