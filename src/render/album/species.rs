//! Species: all in a row, and each with its founders and crosses.

use super::further::{cross, pager};
use super::words::{Here, name, say};
use crate::report::album::{AlbumSpeciesPage, SpeciesRow};
use crate::wording::counted;
use maud::{Markup, html};

pub(super) fn all(here: Here, rows: &[SpeciesRow], genus: &str) -> Markup {
    html! {
        h1 { "Species" }
        p.answer { (counted(rows.len(), "species is", "species are")) " in the plants on record." }
        ul.list {
            @for of in rows {
                li {
                    a href=(here.to(&of.door.path)) { i { (say(genus)) " " (say(&of.door.id)) } }
                    " " span.soft {
                        (of.founders.words("founder", "founders")) "; "
                        (of.crosses.words("cross", "crosses")) "; "
                        (of.seedlings.words("numbered seedling", "numbered seedlings"))
                    }
                }
            }
        }
    }
}

pub(super) fn one(here: Here, of: &AlbumSpeciesPage) -> Markup {
    let facts = of
        .show
        .facts
        .iter()
        .map(|fact| (fact.label, fact.value.as_str()));
    html! {
        h1 { i { (say(&of.name)) } }
        p.answer {
            "It is in " (of.founders_with_it.words("founder", "founders")) " and in "
            (of.count.words("cross", "crosses")) "."
        }
        @if !of.founders.is_empty() {
            section aria-labelledby="founders" {
                h2 id="founders" { "Founders with it" }
                ul.list { @for (door, of) in &of.founders { li { (here.door(door)) " " (name(of)) } } }
            }
        }
        @if !of.crosses.is_empty() {
            section aria-labelledby="crosses" {
                h2 id="crosses" { "Crosses with it" }
                @for of in &of.crosses { (cross(here, of)) }
                (pager(here, &of.pager))
            }
        }
        @if !of.show.facts.is_empty() {
            section aria-labelledby="list" {
                h2 id="list" { "What the list of species says" }
                (here.facts(facts))
            }
        }
        (here.cautions(&of.show.cautions))
    }
}
