//! What stands around every page: head, the way to the other parts of the album, and the foot.
//!
//! A page that a server shows has also what its program needs to record, see [`Live`].

use super::head::head;
use super::words::{Here, say};
use crate::record::Day;
use crate::registry::Readers;
use maud::{DOCTYPE, Markup, html};

/// Parts of an album, with their pages.
pub(super) const PARTS: [(&str, &str); 5] = [
    ("Plants", "index.html"),
    ("Crosses", "crosses.html"),
    ("Species", "species.html"),
    ("Season", "season.html"),
    ("Problems", "problems.html"),
];
/// Parts that are for the grower only.
const OWN: [&str; 2] = ["Season", "Problems"];

/// Parts that only a server has.
const LIVE: [(&str, &str); 2] = [("Find", "find"), ("Record", "record")];

/// A page that a server shows: what its program needs besides.
#[derive(Clone, Debug)]
pub struct Live<'a> {
    /// What the device that asks must send along to record.
    pub token: &'a str,
    /// Whether it may record.
    pub writes: bool,
    /// The mark of the registry: what a device keeps for another one is not sent to it.
    pub registry: &'a str,
    /// Today where podbook runs, and the seconds until it ends where it does.
    pub now: &'a str,
    /// Faults of the registry: pages leave out what they touch.
    pub faults: usize,
    /// What every page says first, such as that a change was cut short; an empty one is not said.
    pub notes: [String; 2],
    /// Said of the page of a plant that is no longer here.
    pub left: Option<Left>,
    /// Whether the page is that of a founder, which is never mixed up.
    pub founder: bool,
    /// Whether the page is that of a plant that was sold or given away, whole or a piece of it: it may come back.
    pub returns: bool,
    /// Whether the page is that of a plant of which a cutting is not on record as rooted.
    pub roots: bool,
    /// Whether the page is that of a plant that was lost: it may be found.
    pub lost: bool,
}

/// A plant that died or left: its page offers only what can be recorded of the past.
#[derive(Clone, Copy, Debug)]
pub struct Left {
    /// The change that recorded it, which can be undone.
    pub undo: Option<u32>,
    /// Whether it may have been mixed up: a seedling.
    pub mixes: bool,
}

/// What a frame says.
pub(super) struct Frame<'a> {
    pub here: Here<'a>,
    pub title: &'a str,
    /// The part of the album the page belongs to.
    pub part: &'a str,
    /// Whether it is the page of that part itself.
    pub is_part: bool,
    pub readers: Readers,
    pub today: Day,
    pub live: Option<Live<'a>>,
    /// The short name of the registry.
    pub registry: &'a str,
    /// The plant that the page is of.
    pub plant: Option<&'a str>,
}

/// A whole page.
pub(super) fn framed(frame: &Frame, main: Markup) -> String {
    let here = frame.here;
    let shown = |part: &&(&str, &str)| frame.readers == Readers::Grower || !OWN.contains(&part.0);
    let current = |part: &str| match (part == frame.part, frame.is_part) {
        (true, true) => Some("page"),
        (true, false) => Some("true"),
        _ => None,
    };
    let programs = html! {
        script defer src=(here.to("album.js")) {}
        @if let Some(live) = &frame.live { (for_recording(here, live, frame)) }
    };
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (head(frame.title, frame.live.is_some(), &here.to("album.css"), &programs))
            body {
                a.skip href="#main" { "Skip to content" }
                header {
                    nav aria-label="Album" {
                        ul {
                            @for (part, path) in PARTS.iter().filter(shown) {
                                li { a href=(here.to(path)) aria-current=[current(part)] { (part) (faults(frame, part)) } }
                            }
                            @if frame.live.is_some() {
                                @for (part, path) in LIVE {
                                    li { a href=(here.to(path)) aria-current=[current(part)] { (part) } }
                                }
                            }
                        }
                    }
                }
                main id="main" {
                    @for note in frame.live.iter().flat_map(|live| &live.notes) {
                        @for line in note.lines() { p { strong { (say(line)) } } }
                    }
                    (main)
                }
                footer {
                    p {
                        "Written from the grower's records on " (frame.today.to_string()) ". What is not recorded is left out."
                        @if frame.readers == Readers::Anybody {
                            " What is private is left out too: "
                            a href={ (here.to("index.html")) "#left-out" } { "see what" }
                            "."
                        }
                    }
                }
            }
        }
    };
    page.into_string() + "\n"
}

/// How many faults there are, behind the part that shows them.
fn faults(frame: &Frame, part: &str) -> String {
    match frame.live.as_ref().map_or(0, |live| live.faults) {
        0 => String::new(),
        _ if part != "Problems" => String::new(),
        faults => format!(" ({faults})"),
    }
}

fn for_recording(here: Here, live: &Live, frame: &Frame) -> Markup {
    html! {
        link rel="stylesheet" href=(here.to("bench.css"));
        @if live.writes {
            meta name="podbook-token" content=(live.token);
            meta name="podbook-root" content=(here.up);
            meta name="podbook-registry" content=(live.registry);
            meta name="podbook-name" content=(say(frame.registry));
            meta name="podbook-day" content=(live.now);
            @if let Some(plant) = frame.plant { meta name="podbook-plant" content=(say(plant)) data-founder[live.founder] data-returns[live.returns] data-roots[live.roots] data-lost[live.lost]; }
            @if let Some(left) = live.left {
                meta name="podbook-left" content=(left.undo.map(|of| of.to_string()).unwrap_or_default()) data-mixes[left.mixes];
            }
            script defer src=(here.to("bench.js")) {}
        }
    }
}
