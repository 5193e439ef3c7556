//! The thread that holds the registry: reads it anew when a page has changed, and makes pages one at a time.

use super::said::Said;
use crate::check::{all, faults};
use crate::context::Context;
use crate::diagnostic::Severity;
use crate::record::{Day, GoalsPage, read_goals, spelt_out};
use crate::recording::book::{self, HalfWritten};
use crate::recording::voice::Voice;
use crate::registry::{PlantRow, Readers, build};
use crate::report::album::{Album, PageId, Shot, WorkSheet, shots_wanted, work};
use crate::report::unrecorded::half_written;
use crate::report::{CheckReport, Sheet, check};
use crate::text::{Sources, Stamp, read_plain, stamp};
use std::cell::OnceCell;
use std::collections::HashMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::mpsc::Receiver;

/// What is asked of the thread.
pub type Ask = Box<dyn FnOnce(&View) + Send>;

/// The registry as it is.
pub struct View<'a> {
    pub album: &'a Album<'a, 'a, 'a>,
    pub folder: &'a Path,
    /// Pages by their path.
    pub pages: &'a HashMap<String, PageId>,
    /// Photos by their path: the file as recorded, and whether it is the small one.
    pub photos: &'a PhotoFiles,
    /// Faults of the registry: pages leave out what they touch.
    pub faults: usize,
    /// That pages may hold half of a change, and what is in the way of putting it right; empty where they do not.
    pub half: String,
    /// What was put right last.
    pub said: &'a Said,
    sources: &'a Sources,
    season: OnceCell<Vec<WorkSheet>>,
    problems: OnceCell<CheckReport>,
}

impl View<'_> {
    /// The short name of the registry, or that of its folder.
    pub fn name(&self) -> String {
        let folder = || Some(self.folder.file_name()?.to_string_lossy().into_owned());
        let named = self.album.registry().settings.registry.map(str::to_owned);
        named.or_else(folder).unwrap_or_default()
    }

    /// What is open, what is due and the plan; made once, since the plan takes longest of all.
    pub fn season(&self) -> &[WorkSheet] {
        self.season.get_or_init(|| {
            let said = |why: String| {
                vec![WorkSheet {
                    heading: "The season",
                    sheet: Sheet::new(why),
                }]
            };
            let text = read_plain(&self.folder.join("goals.ron")).unwrap_or_default();
            let text = spelt_out(&text).unwrap_or(text);
            let goals = match text.is_empty() {
                true => Ok(GoalsPage::default()),
                false => read_goals(&text),
            };
            match goals {
                Ok(goals) => work(self.album, &goals).unwrap_or_else(said),
                Err(fault) => said(format!(
                    "goals.ron:{}:{}: {}",
                    fault.line, fault.column, fault.words
                )),
            }
        })
    }

    /// What is at fault.
    pub fn problems(&self) -> &CheckReport {
        self.problems.get_or_init(|| {
            let (registry, mut findings) = build(self.sources);
            findings.append(all(&registry, self.album.context.today));
            check(&registry, &findings)
        })
    }
}

/// Holds the registry until nothing more is asked.
pub fn keep(folder: PathBuf, today: impl Fn() -> Day, said: &Said, asks: &Receiver<Ask>) {
    let mut next = asks.recv().ok();
    while let Some(first) = next {
        next = read_once((&folder, said), today(), &today, (first, asks));
    }
}

/// Reads the registry and answers until it has changed; gives what was asked then.
fn read_once(
    (folder, said): (&Path, &Said),
    day: Day,
    today: &impl Fn() -> Day,
    (first, asks): (Ask, &Receiver<Ask>),
) -> Option<Ask> {
    // Taken before the pages are read: what changes meanwhile is read again.
    let read: Stamp = stamp(folder);
    let (sources, found) = book::read(folder);
    let half = match found {
        Ok(found) => {
            said.put_right(&found);
            String::new()
        }
        Err(half) => half_words(folder, &half),
    };
    said.half(&half);
    let (mut registry, findings) = build(&sources);
    let faults = findings.count(Severity::Fault) + faults(&registry, day);
    registry.leave_out_after(day);
    let context = Context::of(&registry, day);
    let album = Album::of(&context, Readers::Grower);
    let (photos, shots) = photos(&album);
    let album = album.with_shots(shots);
    let pages = album.pages().into_iter();
    let pages = pages.map(|page| (page.path(&album), page));
    let view = View {
        album: &album,
        folder,
        pages: &pages.collect(),
        photos: &photos,
        faults,
        half,
        said,
        sources: &sources,
        season: OnceCell::new(),
        problems: OnceCell::new(),
    };
    answer(first, &view);
    while let Ok(ask) = asks.recv() {
        if stamp(folder) != read || today() != day {
            return Some(ask);
        }
        answer(ask, &view);
    }
    None
}

fn half_words(folder: &Path, half: &HalfWritten) -> String {
    half_written(&folder.to_string_lossy(), half, Voice::Page)
}

/// If one page fails, the others go on. Its request gets no answer from here, so the route says that the page failed.
fn answer(ask: Ask, view: &View) {
    let _ = catch_unwind(AssertUnwindSafe(|| ask(view)));
}

/// Photos by path: the file as recorded, and whether it is the small one.
type PhotoFiles = HashMap<String, (String, bool)>;

/// Photos by path, and of each plant.
fn photos(album: &Album) -> (PhotoFiles, HashMap<PlantRow, Vec<Shot>>) {
    let (mut files, mut shots) = (HashMap::new(), HashMap::<_, Vec<Shot>>::new());
    for of in shots_wanted(album.registry()) {
        let of_plant = shots.entry(of.plant).or_default();
        let shot = of.shot(&album.files.photo(of.plant, of_plant.len() + 1), None);
        files.insert(shot.path.clone(), (of.file.clone(), false));
        files.insert(shot.small.clone(), (of.file.clone(), true));
        of_plant.push(shot);
    }
    (files, shots)
}
