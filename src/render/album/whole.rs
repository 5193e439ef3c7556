//! A page from what it says to its bytes.

use super::collection::collection;
use super::cross::cross;
use super::crosses::crosses;
use super::frame::{Frame, Live, framed};
use super::further::further;
use super::plant::plant;
use super::problems::problems as problems_page;
use super::species;
use super::words::{Here, needs_scripts, plain};
use super::work::work;
use crate::report::CheckReport;
use crate::report::album::{Album, PageId, PageOf, WorkSheet};
use maud::{Markup, html};
use rayon::prelude::*;

/// The style sheet of all pages, `album.css`.
pub const STYLE: &str = include_str!("album.css");
/// The program of all pages, `album.js`.
pub const SCRIPT: &str = include_str!("album.js");
/// Where the season's page lies.
pub const SEASON: &str = "season.html";
/// Where the page of problems lies.
pub const PROBLEMS: &str = "problems.html";

/// A page of an album; with what a server needs where one shows it.
pub fn page(album: &Album, of: &PageOf, live: Option<Live>) -> String {
    let up = match of {
        PageOf::Collection(_) | PageOf::Crosses(_) | PageOf::AllSpecies(_) => "",
        PageOf::Species(_) | PageOf::Cross(_) | PageOf::Further(_) | PageOf::Plant(_) => "../",
    };
    let files = &album.files;
    let here = Here { files, up };
    let genus = album.context.names().vocabulary().genus_short();
    let (part, title, main) = match of {
        PageOf::Collection(of) => (
            "Plants",
            "Plants".to_owned(),
            collection(here, of, album.readers),
        ),
        PageOf::Crosses(of) => ("Crosses", "Crosses".to_owned(), crosses(here, of)),
        PageOf::AllSpecies(of) => (
            "Species",
            "Species".to_owned(),
            species::all(here, of, &genus),
        ),
        PageOf::Species(of) => ("Species", of.name.clone(), species::one(here, of)),
        PageOf::Cross(of) => (
            "Crosses",
            format!("{}: {}", of.id, plain(&of.name)),
            cross(here, of),
        ),
        PageOf::Further(of) => (
            of.part,
            format!("{}, page {}", of.of.id, of.pager.at + 1),
            further(here, of),
        ),
        PageOf::Plant(of) => (
            "Plants",
            format!("{}: {}", of.id, plain(&of.name)),
            plant(here, of),
        ),
    };
    let plant = match of {
        PageOf::Plant(of) => Some(of.id.as_str()),
        _ => None,
    };
    let main = match live {
        Some(ref live) if live.writes && plant.is_some() => {
            html! { (needs_scripts("record at the computer")) (main) }
        }
        _ => main,
    };
    let around = Around {
        up,
        part,
        is_part: up.is_empty(),
        plant,
        live,
    };
    put(album, around, &title, main)
}

/// Every page but the season's and that of problems, by path, in a fixed order.
pub fn pages(album: &Album) -> Vec<(String, String)> {
    let groups = album.page_groups();
    let of_group = |group: &Vec<PageId>| {
        let kin = group.first().and_then(|first| album.kin(first));
        let of = |id: &PageId| {
            let text = page(album, &album.page(id, kin.as_ref()), None);
            (id.path(album), text)
        };
        group.iter().map(of).collect::<Vec<_>>()
    };
    let made: Vec<Vec<(String, String)>> = groups.par_iter().map(of_group).collect();
    made.into_iter().flatten().collect()
}

/// The page of the season's work.
pub fn season(album: &Album, sheets: &[WorkSheet], live: Option<Live>) -> String {
    let files = &album.files;
    let main = work(Here { files, up: "" }, sheets);
    put(album, Around::part("Season", live), "Season", main)
}

/// The page of what is at fault.
pub fn problems(album: &Album, of: &CheckReport, live: Option<Live>) -> String {
    let files = &album.files;
    let main = problems_page(Here { files, up: "" }, of);
    put(album, Around::part("Problems", live), "Problems", main)
}

/// Where a page stands and who shows it.
pub(super) struct Around<'a> {
    pub up: &'static str,
    pub part: &'a str,
    /// Whether it is the page of that part itself.
    pub is_part: bool,
    pub plant: Option<&'a str>,
    pub live: Option<Live<'a>>,
}

impl<'a> Around<'a> {
    /// The page of a part itself.
    pub fn part(part: &'a str, live: Option<Live<'a>>) -> Around<'a> {
        Around {
            up: "",
            part,
            is_part: true,
            plant: None,
            live,
        }
    }
}

/// A whole page.
pub(super) fn put(album: &Album, around: Around, title: &str, main: Markup) -> String {
    let frame = Frame {
        here: Here {
            files: &album.files,
            up: around.up,
        },
        title,
        part: around.part,
        is_part: around.is_part,
        registry: album.registry().settings.registry.unwrap_or_default(),
        plant: around.plant,
        live: around.live,
        readers: album.readers,
        today: album.context.today,
    };
    framed(&frame, main)
}
