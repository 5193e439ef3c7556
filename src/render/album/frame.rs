//! What stands around every page: head, the way to the other parts of the album, and the foot.

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
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                meta name="referrer" content="no-referrer";
                title { (say(frame.title)) }
                link rel="stylesheet" href=(here.to("album.css"));
                script defer src=(here.to("album.js")) {}
            }
            body {
                a.skip href="#main" { "Skip to content" }
                header {
                    nav aria-label="Album" {
                        ul {
                            @for (part, path) in PARTS.iter().filter(shown) {
                                li { a href=(here.to(path)) aria-current=[current(part)] { (part) } }
                            }
                        }
                    }
                }
                main id="main" { (main) }
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
