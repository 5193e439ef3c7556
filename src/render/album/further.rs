//! A list that goes on over several pages.

use super::words::{Here, name, say};
use crate::report::album::{FurtherPage, Pager, SpeciesCrossRow};
use maud::{Markup, html};

pub(super) fn further(here: Here, of: &FurtherPage) -> Markup {
    html! {
        p.crumb { (here.door(&of.of)) }
        h1 { (say(&of.of.id)) span.also { ", page " (of.pager.at + 1) " of " (of.pager.paths.len()) } }
        section aria-labelledby="list" {
            h2 id="list" { (of.heading) }
            @for of in &of.crosses { (cross(here, of)) }
        }
        (pager(here, &of.pager))
    }
}

/// A cross with a link to each of its seedlings.
pub(super) fn cross(here: Here, of: &SpeciesCrossRow) -> Markup {
    html! {
        h3 { (here.door(&of.door)) " " span.plain { (name(&of.name)) } }
        @if !of.share.is_empty() { p.soft { (say(&of.share)) } }
        @if !of.seedlings.is_empty() {
            ul.codes {
                @for (number, path) in &of.seedlings {
                    li { a href=(here.to(path)) { span.aloud { (say(&of.door.id)) "-" } (say(number)) } }
                }
            }
        }
    }
}

/// Links to the pages of a list; nothing where it has only one.
pub(super) fn pager(here: Here, of: &Pager) -> Markup {
    html! {
        @if of.paths.len() > 1 {
            nav.pages aria-label="Pages of this list" {
                ul.codes {
                    @for (at, path) in of.paths.iter().enumerate() {
                        li { a href=(here.to(path)) aria-current=[(at == of.at).then_some("page")] { "Page " (at + 1) } }
                    }
                }
            }
        }
    }
}
