//! A sitting as the paper sheet: a row for each plant, a cell for each trait, the last value in small print.

use super::super::frame::Live;
use super::super::whole::{Around, put};
use super::super::words::{Here, needs_scripts, say};
use crate::analysis::bench_sheet::{ReadAs, SheetColumn};
use crate::report::album::Album;
use crate::report::sitting::{PlantReadLine, SittingPage};
use maud::{Markup, html};

/// Said where podbook records nothing.
pub(super) const READ_ONLY: &str = "podbook was started for reading only: nothing can be recorded. Entries that wait on this device stay there.";

/// The page of a sitting; what cannot be shown is said instead.
pub fn sitting(album: &Album, live: Live, of: Result<&SittingPage, &str>) -> String {
    let here = Here {
        files: &album.files,
        up: "",
    };
    let main = match of {
        Ok(page) => sheet(here, page, live.writes),
        Err(why) => html! {
            h1 { "No sheet" }
            @for line in why.lines() { p { (say(line)) } }
            p { a href="record" { "Back" } }
        },
    };
    let around = Around {
        is_part: false,
        ..Around::part("Record", Some(live))
    };
    put(album, around, "Sitting", main)
}

fn sheet(here: Here, page: &SittingPage, writes: bool) -> Markup {
    html! {
        h1 { "Sitting of " (say(&page.on)) }
        @if writes {
            p.soft { "Tap a cell. Each row goes into the book when you tap Row done; it waits on this device while the network is away." }
            (needs_scripts("use the paper sheet"))
        } @else {
            p { (READ_ONLY) }
        }
        div.sitting id="sitting" data-on=(say(&page.on)) data-place=[page.place.as_deref().map(say)] {
            ol.columns hidden { @for column in &page.columns { (head(column)) } }
            ol.rows { @for of in &page.rows { (row(here, page, of)) } }
        }
    }
}

/// A column, with what its cells hold for the program of the page.
fn head(of: &SheetColumn) -> Markup {
    let (kind, choices): (&str, Vec<(String, String)>) = match &of.read_as {
        ReadAs::Measure(_) => ("number", Vec::new()),
        ReadAs::Words => ("words", Vec::new()),
        ReadAs::Scale(anchors) => {
            let steps = anchors.iter().enumerate();
            let steps = steps.map(|(at, anchor)| ((at + 1).to_string(), anchor.clone()));
            ("choice", steps.collect())
        }
        ReadAs::Kinds(kinds) => {
            let kinds = kinds.iter().map(|(_, kind)| (kind.clone(), String::new()));
            ("choice", kinds.collect())
        }
    };
    html! {
        li data-asked=(say(&of.asked)) data-heading=(say(&of.heading)) data-kind=(kind) {
            (say(&of.name)) @if let Some(words) = &of.definition { ": " (say(words)) }
            ul { @for (value, words) in &choices { li data-value=(say(value)) { (say(words)) } } }
        }
    }
}

fn row(here: Here, page: &SittingPage, of: &PlantReadLine) -> Markup {
    let door = here.files.of_code(&of.plant);
    html! {
        li.row data-plant=(say(&of.plant)) data-read[of.is_read] data-note=[of.note.as_deref().map(say)] {
            p.who {
                @match door {
                    Some(path) => a href=(here.to(path)) { (say(&of.plant)) },
                    None => (say(&of.plant)),
                }
                @if of.is_mixed_up { " " span.soft { "mixed up" } }
                " " span.state role="status" { @if of.is_read { "in the book" } }
            }
            div.cells {
                @for (at, column) in page.columns.iter().enumerate() {
                    button.cell type="button" data-at=(at) {
                        small { (say(&column.heading)) }
                        b { (say(&of.there[at])) }
                        small.last { @if let Some(last) = &of.last[at] { "last " (say(last)) } @else { "–" } }
                    }
                }
            }
        }
    }
}
