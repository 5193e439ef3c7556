//! `podbook photos`: pictures a phone made, placed by the tags in them, reported on first and taken in when told to.

use super::shell_words::{quoted, registry_words};
use crate::analysis::photos::{PictureRead, Placed, Placing, accepted, place};
use crate::cli::recording::{Book, Change};
use crate::cli::request::{Outcome, Refusal, Request, shown};
use crate::picture::{Picture, mark, taken};
use crate::recording::events::photos::{NewPhoto, copy_of, photos};
use crate::registry::{Registry, build};
use crate::report::photos::{ALL, PhotosReport, photo_of, photos_report};
use crate::text::{files_below, keep_beside, on_cores, read_beside, visible};
use clap::Args;
use std::path::{Path, PathBuf};

/// Take in pictures from a phone, each placed by the tag it shows
#[derive(Args, Debug)]
#[command(after_help = "Example: podbook photos ~/phone --apply\n\
    Photograph the tag first, then its plant. A picture is placed by its own tag, \
    or by the tag in the picture just before it. Of further pictures without a tag \
    the likely plant is named; --likely takes them in.\n\
    First it only reports. With --apply, copies go into photos/ of the registry, \
    without the place they were taken at. Your own pictures stay as they are.")]
pub struct Photos {
    /// Folder that holds the pictures, also in folders inside it: .jpg, .jpeg or .png
    #[arg(value_name = "FOLDER")]
    folder: PathBuf,
    /// Longest pause between pictures after which the last tag still counts
    #[arg(long, value_name = "MINUTES", default_value_t = 5)]
    gap: u32,
    /// Picture in question that shows the plant named; `all` for all of them
    #[arg(long, value_name = "PICTURE")]
    likely: Vec<String>,
    /// Light all of them were taken in, such as LED or daylight
    #[arg(long, value_name = "LIGHT")]
    light: Option<String>,
    /// Take the pictures in
    #[arg(long)]
    apply: bool,
}

/// The largest picture that is opened, bytes.
const MOST: u64 = 64 << 20;
/// How names of pictures end. The last two are named as pictures and not read.
const ENDINGS: [&str; 5] = ["jpg", "jpeg", "png", "heic", "heif"];

impl Photos {
    /// Runs the command.
    pub fn run(self, request: &Request) -> Result<Outcome, Refusal> {
        let (names, others) = self.names()?;
        let book = Book::open(request, !self.apply)?;
        let (registry, _) = build(&book.sources);
        let read = on_cores(&names, true, |name| self.read(name));
        let placed = place(&registry, &read, self.gap, book.today);
        self.are_in_question(&placed)?;
        let placed = accepted(placed, |file| self.accepts(file));
        let mut report = photos_report(&registry, &placed, others);
        let mut written = Vec::new();
        if self.apply && report.new > 0 {
            written = self.applied(request, &book, &registry, (&placed, &mut report))?;
        } else if report.new > 0 {
            report.next = Some(self.to_apply(request));
        }
        request.answer_after(&report, book.remarks.clone(), written)
    }

    fn to_apply(&self, request: &Request) -> String {
        let gap = match self.gap {
            5 => String::new(),
            gap => format!(" --gap {gap}"),
        };
        let likely: String = self
            .likely
            .iter()
            .map(|file| format!(" --likely {}", quoted(file)))
            .collect();
        let light = self.light.as_deref();
        let light = light.map_or_else(String::new, |light| format!(" --light {}", quoted(light)));
        format!(
            "podbook photos {}{gap}{likely}{light}{} --apply",
            quoted(&shown(&self.folder)),
            registry_words(request)
        )
    }

    fn accepts(&self, file: &str) -> bool {
        self.likely.iter().any(|of| of == ALL || of == file)
    }

    /// Whether every picture that `--likely` names is in question.
    fn are_in_question(&self, placed: &[Placed]) -> Result<(), Refusal> {
        let asked = |file: &str| {
            let is_asked =
                |of: &Placed| of.file == file && matches!(of.placing, Placing::Likely(..));
            file == ALL || placed.iter().any(is_asked)
        };
        match self.likely.iter().find(|file| !asked(file)) {
            None => Ok(()),
            Some(file) => Err(Refusal::arguments(format!(
                "{} is not in question\nrun it without --likely to see which pictures are",
                visible(file)
            ))),
        }
    }

    /// The pictures of the folder and of folders in it by name, and how many other files there are.
    fn names(&self) -> Result<(Vec<String>, usize), Refusal> {
        if !self.folder.is_dir() {
            return Err(Refusal::files(format!(
                "{} is not a folder\nname the folder that holds the pictures",
                shown(&self.folder)
            )));
        }
        let is_picture = |name: &String| {
            let ending = Path::new(name).extension().unwrap_or_default();
            ENDINGS.iter().any(|of| ending.eq_ignore_ascii_case(of))
        };
        let (names, others): (Vec<_>, Vec<_>) =
            files_below(&self.folder).into_iter().partition(is_picture);
        Ok((names, others.len()))
    }

    fn read(&self, name: &str) -> PictureRead {
        let bytes = read_beside(&self.folder, name, MOST);
        let (mark, taken, seen) = match &bytes {
            Ok(bytes) => (mark(bytes), taken(bytes), seen(name, bytes)),
            Err(why) => (format!("unread {name}"), None, Err(why.to_string())),
        };
        PictureRead {
            file: name.to_owned(),
            mark,
            taken,
            seen,
        }
    }

    /// Records the pictures that are placed and writes their copies; the files that were written.
    fn applied(
        &self,
        request: &Request,
        book: &Book,
        registry: &Registry,
        (placed, report): (&[Placed], &mut PhotosReport),
    ) -> Result<Vec<String>, Refusal> {
        let new: Vec<(&Placed, NewPhoto)> = placed
            .iter()
            .filter_map(|of| Some((of, self.new_photo(registry, of)?)))
            .collect();
        let photographed: Vec<NewPhoto> = new.iter().map(|(_, photo)| photo.clone()).collect();
        let change = Change::of(registry, book.today, |draft| photos(draft, &photographed))
            .map_err(|slip| Refusal::slip(&slip))?;
        let recorded = book.record_after(request, registry, change, |folder| {
            self.copies(folder, &new)
        })?;
        report.recorded = Some(recorded.recorded);
        report.change = recorded.change;
        report.cautions.extend(recorded.warnings);
        Ok(recorded.pages)
    }

    /// Writes the copies into the registry, one at a time.
    fn copies(&self, folder: &Path, new: &[(&Placed, NewPhoto)]) -> Result<(), Refusal> {
        let mut written = Vec::new();
        for (of, photo) in new {
            match self.copy(folder, of, photo) {
                Ok(true) => written.push(photo.file.clone()),
                Ok(false) => {}
                Err(why) => {
                    let words = format!("{why}\nnothing was recorded");
                    return Err(Refusal::files(words).after(&written));
                }
            }
        }
        Ok(())
    }

    /// Writes one copy, unless it is there already.
    fn copy(&self, folder: &Path, of: &Placed, photo: &NewPhoto) -> Result<bool, String> {
        let name = visible(&of.file);
        let refused = |why: &dyn std::fmt::Display| format!("{name} could not be copied: {why}");
        let bytes = read_beside(&self.folder, &of.file, MOST).map_err(|why| refused(&why))?;
        if mark(&bytes) != of.mark {
            return Err(refused(&"it was changed while it was read"));
        }
        let copy = copy_of(&bytes).map_err(|why| refused(&why))?;
        keep_beside(folder, &photo.file, &copy)
            .map_err(|why| format!("{} could not be written: {}", photo.file, why.why))
    }

    /// The record of a picture that is placed and new.
    fn new_photo(&self, registry: &Registry, of: &Placed) -> Option<NewPhoto> {
        let shows = photo_of(&of.placing)?;
        let (on, ..) = of.taken?;
        let taken = (on, of.mark.as_str());
        Some(NewPhoto::of(registry, shows, taken, self.light.clone()))
    }
}

/// The tags in a picture, or why it cannot be read.
fn seen(name: &str, bytes: &[u8]) -> Result<crate::picture::TagSeen, String> {
    match Picture::read(bytes) {
        Ok(picture) => Ok(picture.tag()),
        Err(_) if is_heif(name) => {
            Err("HEIC is a format podbook does not read; send it from the phone as JPEG".to_owned())
        }
        Err(why) => Err(why.to_string()),
    }
}

fn is_heif(name: &str) -> bool {
    let ending = Path::new(name).extension().unwrap_or_default();
    ENDINGS[3..]
        .iter()
        .any(|of| ending.eq_ignore_ascii_case(of))
}
