//! Plants found by words.

use super::super::frame::Live;
use super::super::whole::{Around, put};
use super::super::words::{Here, say};
use crate::analysis::find::FindReport;
use crate::report::Report;
use crate::report::album::Album;
use maud::html;

/// The page on which plants are found; with what was found where words were given.
pub fn found(album: &Album, live: Live, (typed, found): (&str, Option<&FindReport>)) -> String {
    let here = Here {
        files: &album.files,
        up: "",
    };
    let main = html! {
        h1 { "Find" }
        form.bench action="find" {
            label for="q" { "A code, name, label, place or note" }
            input type="search" id="q" name="q" value=(say(typed)) autocapitalize="off" autocomplete="off";
            button { "Find" }
        }
        @if live.writes {
            p hidden data-program { label.touch for="tag" { "Find by a photo of the tag" } input.file type="file" id="tag" accept="image/*" capture="environment"; }
            p id="tag-says" role="status" {}
        }
        @if let Some(found) = found { (here.sheet("Found", &found.sheet())) }
    };
    put(album, Around::part("Find", Some(live)), "Find", main)
}
