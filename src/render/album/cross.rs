//! The page of one cross, and its seedlings as a grid.

use super::curve::curve;
use super::further::pager;
use super::pedigree::pedigree;
use super::plant::story;
use super::words::{Here, name, say};
use crate::report::Report;
use crate::report::album::{AlbumCrossPage, SiblingCard};
use maud::{Markup, html};

pub(super) fn cross(here: Here, of: &AlbumCrossPage) -> Markup {
    let compared = of.siblings.as_ref().map(Report::sheet);
    html! {
        h1 { span.code { (say(&of.id)) } }
        p.name { (name(&of.name)) }
        p.evidence { (here.linked(&of.evidence)) }
        ul.counts {
            @for (label, count) in &of.counts {
                li {
                    @match count {
                        Some(count) => b { (count) },
                        None => b.none { "not counted" },
                    }
                    " " span { (label) }
                }
            }
        }
        @if let Some(sheet) = &compared { p.answer { (here.linked(&sheet.answer)) } }
        @if !of.cards.is_empty() { (seedlings(here, of)) }
        @if let Some(of) = &of.curve {
            section aria-labelledby="growth" { h2 id="growth" { "Growth" } (curve(of)) }
        }
        section aria-labelledby="pedigree" {
            h2 id="pedigree" { "Pedigree" }
            (pedigree(here, &of.id, &of.ancestors))
        }
        (story(here, &of.show))
        (here.cautions(&of.show.cautions))
    }
}

fn seedlings(here: Here, of: &AlbumCrossPage) -> Markup {
    html! {
        section aria-labelledby="seedlings" {
            h2 id="seedlings" { "Seedlings" }
            @if !of.orderings.is_empty() {
                form.order hidden {
                    label for="order" { "Order by" }
                    select id="order" {
                        option value="" { "number" }
                        @for by in &of.orderings {
                            option value=(say(&by.name)) { (say(&by.name)) ", " (say(&by.when)) }
                        }
                    }
                }
            }
            ul.cards id="cards" { @for card in &of.cards { (sibling(here, of, card)) } }
            @if !of.rest.is_empty() {
                h3 { "More seedlings" }
                ul.codes { @for (id, path) in &of.rest { li { a href=(here.to(path)) { (say(id)) } } } }
                (pager(here, &of.pager))
            }
        }
    }
}

fn sibling(here: Here, of: &AlbumCrossPage, card: &SiblingCard) -> Markup {
    let number = |value: &Option<(String, f64)>| match value {
        Some((_, number)) => format!("{number:.4}"),
        None => String::new(),
    };
    let numbers: Vec<String> = card.values.iter().map(number).collect();
    let numbers: Vec<&str> = numbers.iter().map(|of| short(of)).collect();
    let class = match card.is_here {
        true => None,
        false => Some("gone"),
    };
    let read = card.values.iter().zip(&of.orderings);
    let read: Vec<_> = read
        .filter_map(|(value, by)| Some((&by.name, &value.as_ref()?.0)))
        .collect();
    html! {
        li class=[class] data-v=(numbers.join("|")) {
            a href=(here.to(&card.path)) {
                @if let Some(shot) = &card.shot {
                    img src=(here.to(&shot.small)) width=[shot.small_size.map(|of| of.0)] height=[shot.small_size.map(|of| of.1)] loading="lazy" alt="";
                }
                span { (say(&card.id)) } @if !card.sex.is_empty() { " " (card.sex) }
            }
            @if !card.status.is_empty() { p.status { (say(&card.status)) } }
            @if !read.is_empty() {
                dl { @for (label, value) in read { div { dt { (say(label)) } dd { (say(value)) } } } }
            }
        }
    }
}

/// A number without needless noughts.
fn short(number: &str) -> &str {
    match number.contains('.') {
        true => number.trim_end_matches('0').trim_end_matches('.'),
        false => number,
    }
}
