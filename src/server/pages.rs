//! Pages as a server shows them, made of the registry as it is.

use super::phone_words::{found_dead, of_change};
use super::shelf::View;
use crate::analysis::find::find;
use crate::lineage::PlantRow;
use crate::observation::pieces::{awaits_roots, pieces_left};
use crate::observation::presence::{Presence, presence};
use crate::record::{Fate, JournalEntry};
use crate::recording::dates::dated;
use crate::recording::events::sitting_page::Circumstances;
use crate::recording::journal::{Journal, standing};
use crate::recording::measuring::Start;
use crate::recording::rows_asked::{columns_asked, rows_asked};
use crate::recording::slip::Slip;
use crate::recording::voice::Voice;
use crate::registry::{PlantOrRamet, Registry, Target};
use crate::render::album::live::{self, DeviceLine, RecentChange};
use crate::render::album::{Left, Live, PROBLEMS, SEASON, page, problems, season};
use crate::report::album::PageId;
use crate::report::sitting::{SittingPage, sitting};

/// Changes shown to be undone.
const RECENT: usize = 10;

/// What a device is given along with a page.
#[derive(Clone, Debug)]
pub struct Given {
    /// What it must send along to record.
    pub token: String,
    /// Whether it may record.
    pub writes: bool,
    /// The mark of the registry.
    pub registry: String,
    /// Today, see [`Options::now`](super::house::Options::now).
    pub now: String,
}

/// The sitting that was asked for.
#[derive(Clone, Debug, Default)]
pub struct SittingAsked {
    /// Crosses, pods, sowings or plants, with blanks between them.
    pub of: String,
    /// Where the plants stand.
    pub place: String,
    /// Traits, with commas between them.
    pub traits: String,
    /// The day; today if empty.
    pub on: String,
}

impl Given {
    fn live<'l>(&'l self, view: &'l View) -> Live<'l> {
        Live {
            token: &self.token,
            writes: self.writes,
            registry: &self.registry,
            now: &self.now,
            faults: view.faults,
            notes: [view.said.on_page(), view.half.clone()],
            left: None,
            founder: false,
            returns: false,
            roots: false,
            lost: false,
        }
    }
}

/// A page of the album by its path; `None` if there is none.
pub fn album_page(view: &View, path: &str, given: &Given) -> Option<String> {
    let (album, mut live) = (view.album, Some(given.live(view)));
    match path {
        SEASON => Some(season(album, view.season(), live)),
        PROBLEMS => Some(problems(album, view.problems(), live)),
        path => {
            let id = view.pages.get(path)?;
            if let (PageId::Plant(plant), Some(live)) = (id, &mut live) {
                live.left = left(view, *plant);
                live.founder = view.album.registry().founder(*plant).is_some();
                live.returns = returns(view.album.registry(), *plant);
                live.roots = roots(view.album.registry(), *plant);
                let fate = view.album.registry().fate(*plant);
                live.lost = matches!(fate, Some(Fate::Lost { .. }));
            }
            Some(page(album, &album.page(id, None), live))
        }
    }
}

/// Whether a plant died or left, and which change says so.
fn left(view: &View, plant: PlantRow) -> Option<Left> {
    let (registry, today) = (view.album.registry(), view.album.context.today);
    if !matches!(
        presence(registry, plant, today),
        Presence::Gone | Presence::LetGo
    ) {
        return None;
    }
    let last = |entries: &[JournalEntry]| end_or_return(registry, plant, entries);
    let entries = Journal::latest(view.folder, |entries| last(entries).is_some());
    Some(Left {
        undo: last(&entries).flatten(),
        mixes: registry.cross_of(plant).is_some(),
    })
}

/// The last change that says of a plant, or of a piece of it, that it died or left, or that it was found or came back since: then
/// its end is in no change of the journal, and there is no number inside.
fn end_or_return(
    registry: &Registry,
    plant: PlantRow,
    entries: &[JournalEntry],
) -> Option<Option<u32>> {
    let pieces = registry.each_ramet(plant).map(|(of, _)| of);
    let codes = [PlantOrRamet::whole(plant)].into_iter().chain(pieces);
    let codes: Vec<String> = codes.map(|of| registry.code_of(of)).collect();
    let is_end =
        |entry: &JournalEntry| entry.asked.starts_with("gone ") || found_dead(&entry.asked);
    let is_return =
        |entry: &JournalEntry| entry.asked.starts_with("back ") || entry.asked.starts_with("seen ");
    let mut of_it = standing(entries)
        .into_iter()
        .filter(|entry| entry.about.iter().any(|code| codes.contains(code)));
    let last = of_it.find(|entry| is_end(entry) || is_return(entry))?;
    Some(is_end(last).then_some(last.change))
}

/// Whether a plant, or a piece of it, was sold or given away and is not back.
fn returns(registry: &Registry, plant: PlantRow) -> bool {
    let pieces = registry.ramets(plant).iter();
    let mut ends = registry
        .fate(plant)
        .into_iter()
        .chain(pieces.filter_map(|piece| piece.fate.as_ref()));
    ends.any(|fate| fate.handed_on().is_some())
}

/// Whether a piece of a plant is to root.
fn roots(registry: &Registry, plant: PlantRow) -> bool {
    let left = pieces_left(registry, plant, None);
    left.iter().any(|(_, piece)| awaits_roots(piece))
}

/// The page on which plants are found.
pub fn find_page(view: &View, typed: &str, given: &Given) -> String {
    let words: Vec<String> = typed.split_whitespace().map(str::to_owned).collect();
    let album = view.album;
    let found = (!words.is_empty()).then(|| find(album.context, &words));
    live::found(album, given.live(view), (typed, found.as_ref()))
}

/// The page from which one records.
pub fn record_page(view: &View, given: &Given) -> String {
    let entries = Journal::latest(view.folder, |of| standing(of).len() >= RECENT);
    let recent = standing(&entries).into_iter().take(RECENT);
    let recent: Vec<RecentChange> = recent
        .map(|entry| RecentChange {
            number: entry.change,
            on: entry.on.clone(),
            asked: of_change(&entry.asked),
        })
        .collect();
    live::record(view.album, given.live(view), &recent)
}

/// The page of paired devices.
pub fn devices_page(view: &View, devices: &[DeviceLine], given: &Given) -> String {
    live::devices(view.album, given.live(view), devices)
}

/// The page of a sitting.
pub fn sitting_page(view: &View, asked: &SittingAsked, given: &Given) -> String {
    let made = sheet(view, asked).map_err(|slip| slip.said(Voice::Page));
    live::sitting(
        view.album,
        given.live(view),
        made.as_ref().map_err(String::as_str),
    )
}

fn sheet(view: &View, asked: &SittingAsked) -> Result<SittingPage, Slip> {
    let (registry, today) = (view.album.registry(), view.album.context.today);
    let given = |words: &str| Some(words.trim().to_owned()).filter(|words| !words.is_empty());
    let listed = |words: &str, between: &[char]| -> Vec<String> {
        let words = words.split(between).map(str::trim);
        words
            .filter(|word| !word.is_empty())
            .map(str::to_owned)
            .collect()
    };
    let (ids, place) = (listed(&asked.of, &[' ']), given(&asked.place));
    let plants = rows_asked(registry, &ids, place.as_deref(), today)?;
    let columns = columns_asked(registry, &listed(&asked.traits, &[',', ' ']), &plants)?;
    let circumstances = Circumstances {
        on: given(&asked.on),
        place,
        ..Circumstances::default()
    };
    let on = dated(registry, "the date", circumstances.on.as_deref(), today)?;
    Ok(sitting(
        registry,
        &Start {
            plants: &plants,
            columns: &columns,
            on: &on,
            circumstances: &circumstances,
            again: true,
        },
    ))
}

/// Where the page of a code on a tag lies, with the code; `None` if nothing bears it.
pub fn of_tag(view: &View, code: &str) -> Option<(String, String)> {
    let album = view.album;
    let registry = album.registry();
    let plant = |plant: PlantRow| album.files.plant(plant).to_owned();
    let path = match registry.target(code)? {
        Target::Plant(of) | Target::Ramet(of, _) => plant(of),
        _ => {
            let cross = code.split(['.', '-']).next().unwrap_or_default();
            album
                .files
                .of_code(code)
                .or_else(|| album.files.of_code(cross))?
                .to_owned()
        }
    };
    Some((code.to_owned(), path))
}
