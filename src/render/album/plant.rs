//! The page of one plant.

use super::curve::curve;
use super::pedigree::pedigree;
use super::words::{Here, name, say};
use crate::report::Table;
use crate::report::album::{AlbumPlantPage, Door, SeenTrait, Shot};
use crate::report::show::ShowReport;
use maud::{Markup, html};

pub(super) fn plant(here: Here, of: &AlbumPlantPage) -> Markup {
    html! {
        div.top {
            div.lead {
                @if !of.crosses.is_empty() {
                    p.crumb {
                        "A seedling of "
                        @for (at, cross) in of.crosses.iter().enumerate() { @if at > 0 { " or " } (here.door(cross)) }
                    }
                }
                h1 {
                    span.code { (say(&of.id)) }
                    @if let Some(also) = &of.also { " " span.also { (say(also)) } }
                }
                p.name { (name(&of.name)) }
            }
            @if let Some(shot) = of.shots.first() { (photo(here, shot, false)) }
            div.rest {
                p.evidence { (here.linked(&of.evidence)) }
                (here.facts(of.first.iter().map(|(label, value)| (label.as_str(), value.as_str()))))
            }
        }
        @if !of.seen.is_empty() || of.curve.is_some() {
            section aria-labelledby="seen" {
                h2 id="seen" { "As it was read last" }
                div.pair {
                    @if !of.seen.is_empty() { (seen(here, &of.seen)) }
                    @if let Some(of) = &of.curve { (curve(of)) }
                }
            }
        }
        section aria-labelledby="pedigree" {
            h2 id="pedigree" { "Pedigree" }
            (pedigree(here, &of.id, &of.ancestors))
        }
        (story(here, &of.show))
        @if !of.readings.rows.is_empty() {
            section aria-labelledby="readings" {
                h2 id="readings" { "All readings" }
                (here.table(&of.readings, "All readings"))
            }
        }
        @if of.shots.len() > 1 {
            section aria-labelledby="photos" {
                h2 id="photos" { "Earlier photos" }
                div.photos { @for shot in &of.shots[1..] { (photo(here, shot, true)) } }
            }
        }
        (here.cautions(&of.show.cautions))
        (beside(here, of))
    }
}

fn photo(here: Here, shot: &Shot, later: bool) -> Markup {
    let (width, height) = (shot.size.map(|of| of.0), shot.size.map(|of| of.1));
    html! {
        figure.photo {
            a href=(here.to(&shot.path)) {
                img src=(here.to(&shot.path)) width=[width] height=[height] alt=(say(&format!("Photo of {}", shot.caption))) loading=[later.then_some("lazy")];
            }
            figcaption { (say(&shot.caption)) }
        }
    }
}

fn seen(here: Here, seen: &[SeenTrait]) -> Markup {
    let with_siblings = seen.iter().any(|of| !of.siblings.is_empty());
    let table = Table::of(seen)
        .text("trait", |of| &of.name)
        .text("read", |of| &of.value)
        .text("on", |of| &of.when)
        .when(with_siblings, |columns| {
            columns.text("siblings that day", |of| &of.siblings)
        });
    here.table(&table.into(), "Traits as read last")
}

/// What is on record besides.
pub(super) fn story(here: Here, show: &ShowReport) -> Markup {
    let facts = show
        .facts
        .iter()
        .map(|fact| (fact.label, fact.value.as_str()));
    html! {
        @if !show.facts.is_empty() {
            section aria-labelledby="record" {
                h2 id="record" { "On record" }
                (here.facts(facts))
            }
        }
        @if !show.history.is_empty() {
            section aria-labelledby="history" {
                h2 id="history" { "History" }
                ol.history {
                    @for stage in &show.history {
                        li {
                            strong { (say(stage.stage)) } " " (say(&stage.when))
                            @if let Some(took) = &stage.took { span.took { " " (say(took)) } }
                        }
                    }
                }
            }
        }
        @for (heading, id, table) in tables(show) {
            section aria-labelledby=(id) {
                h2 id=(id) { (heading) }
                (here.table(&table, heading))
            }
        }
    }
}

/// Lists that are tables of their own: spikes, pieces, pods, offspring.
fn tables(show: &ShowReport) -> Vec<(&'static str, &'static str, Table)> {
    let spikes = Table::of(&show.flowerings)
        .text("when", |of| &of.when)
        .text("sex", |of| &of.sex)
        .text("known by", |of| of.seen_by)
        .text("piece", |of| &of.ramet)
        .when(
            show.flowerings.iter().any(|of| of.note.is_some()),
            |table| table.text("remark", |of| &of.note),
        );
    let pieces = Table::of(&show.ramets)
        .text("piece", |of| &of.id)
        .text("made", |of| &of.made)
        .text("status", |of| &of.status)
        .text("place", |of| &of.place)
        .when(
            show.ramets.iter().any(|of| of.handed_on.is_some()),
            |table| table.text("handed on", |of| &of.handed_on),
        );
    let pods = Table::of(&show.pods)
        .text("pod", |of| &of.id)
        .text("pollinated", |of| &of.pollinated)
        .text("harvested", |of| &of.harvested)
        .figure("seeds", |of| of.seeds)
        .figure("numbered", |of| of.numbered);
    let offspring = Table::of(&show.offspring)
        .text("cross", |of| &of.id)
        .text("as", |of| &of.as_parent)
        .figure("numbered", |of| of.numbered)
        .text("name", |of| &of.name);
    let all = [
        ("Pods", "pods", Table::from(pods)),
        ("Flowers", "flowers", spikes.into()),
        ("Pieces", "pieces", pieces.into()),
        ("Offspring", "offspring", offspring.into()),
    ];
    all.into_iter()
        .filter(|(_, _, table)| !table.rows.is_empty())
        .collect()
}

fn beside(here: Here, of: &AlbumPlantPage) -> Markup {
    let link = |door: &Door, words: &str| {
        html! { a href=(here.to(&door.path)) { (words) " " (say(&door.id)) } }
    };
    html! {
        @if of.beside.0.is_some() || of.beside.1.is_some() {
            nav.beside aria-label="Siblings" {
                @if let Some(before) = &of.beside.0 { (link(before, "Before it:")) }
                @if let Some(after) = &of.beside.1 { (link(after, "After it:")) }
            }
        }
    }
}
