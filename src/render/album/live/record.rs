//! Where recording begins: a sitting, what waits to get into the book, the changes made last.

use super::super::collection::first_step;
use super::super::frame::Live;
use super::super::whole::{Around, PROBLEMS, put};
use super::super::words::{Here, needs_scripts, say};
use super::sitting::READ_ONLY;
use crate::report::album::Album;
use crate::wording::counted;
use maud::html;

/// A change that can be undone.
#[derive(Clone, Debug)]
pub struct RecentChange {
    /// Its number.
    pub number: u32,
    /// The day.
    pub on: String,
    /// What was asked for, in the words of a page.
    pub asked: String,
}

/// The page from which one records.
pub fn record(album: &Album, live: Live, recent: &[RecentChange]) -> String {
    let here = Here {
        files: &album.files,
        up: "",
    };
    let registry = album.registry();
    let main = html! {
        h1 { "Record" }
        @if !live.writes { p { (READ_ONLY) } }
        @if live.faults > 0 {
            p {
                strong { "The registry has " (counted(live.faults, "fault", "faults")) "." }
                " What a fault touches is left out of names and pages. "
                a href=(PROBLEMS) { "See what to mend" } "."
            }
        }
        @if registry.plants().next().is_none() {
            (first_step())
        } @else if live.writes {
            (needs_scripts("record at the computer"))
            section aria-labelledby="sit" {
                h2 id="sit" { "A sitting" }
                form.bench action="sitting" {
                    label for="of" { "Cross, pod, sowing or plants, with blanks between" }
                    input id="of" name="of" list="crosses" autocapitalize="characters" autocomplete="off";
                    datalist id="crosses" { @for cross in &registry.crosses { option value=(say(cross.page.code)) {} } }
                    label for="place" { "Or the place where they stand" }
                    input id="place" name="place" autocomplete="off";
                    label for="traits" { "Traits, such as span,banding; empty for those of the last sitting" }
                    input id="traits" name="traits" autocapitalize="off" autocomplete="off";
                    button { "Open the sheet" }
                }
            }
            section.recording hidden data-program aria-labelledby="of-trays" {
                h2 id="of-trays" { "Pods, seed and seedlings" }
                div.events id="trays" {}
            }
            p { "To record an event of a plant, open its page. " a href="find" { "Find it" } "." }
        }
        @if !recent.is_empty() {
            section aria-labelledby="recent" {
                h2 id="recent" { "Recorded last" }
                ul.list {
                    @for of in recent {
                        li {
                            p { "Change " (of.number) ", " (say(&of.on)) ": " (here.linked(&of.asked)) }
                            @if live.writes { button.undo hidden data-program data-change=(of.number) { "Undo change " (of.number) } }
                        }
                    }
                }
            }
        }
        p { a href="devices" { "Paired devices" } }
    };
    put(album, Around::part("Record", Some(live)), "Record", main)
}
