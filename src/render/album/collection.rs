//! The first page: every plant in a row, to be searched and filtered where programs run, whole where none does.

use super::words::{Here, name, say};
use crate::registry::Readers;
use crate::report::RankedCaution;
use crate::report::album::{CollectionPage, CollectionRow, Group, LEFT_OUT};
use maud::{Markup, html};

pub(super) fn collection(here: Here, of: &CollectionPage, readers: Readers) -> Markup {
    html! {
        h1 { "Plants" }
        p.answer { (say(&of.answer)) }
        @if of.groups.is_empty() && readers == Readers::Grower { (first_step()) }
        (filters(of))
        p.found id="found" role="status" hidden {}
        div.wide role="region" tabindex="0" aria-label="Plants, table" {
            table.plants id="plants" {
                thead {
                    tr {
                        th scope="col" { "plant" }
                        th scope="col" { "status" }
                        th scope="col" { "place" }
                        th scope="col" { "last read" }
                    }
                }
                @for group in &of.groups { (body(here, group)) }
            }
        }
        @if readers == Readers::Anybody {
            section aria-labelledby="left-out" {
                h2 id="left-out" { "Left out here" }
                ul { @for line in LEFT_OUT { li { (line) } } }
            }
        }
        (here.cautions(&RankedCaution::doubts(of.cautions.clone()).collect::<Vec<_>>()))
    }
}

/// What to do in a registry that has no plant yet.
pub(super) fn first_step() -> Markup {
    html! {
        p {
            "No plant is on record yet. Add the first at the computer, with its name as the tag has it: "
            code { "podbook add \"N. ventricosa\"" }
            ". A table of many plants is read with " code { "podbook import" } "."
        }
    }
}

fn filters(of: &CollectionPage) -> Markup {
    let crosses = of.groups.iter().filter_map(|of| of.cross.as_ref());
    html! {
        form.filters id="filters" hidden role="search" aria-label="Plants" {
            div.find { label for="q" { "Search" } input id="q" type="search" autocomplete="off" spellcheck="false"; }
            details {
                summary { "Filter" }
                div.choices {
                    (choice("alive", "Where it is", "anywhere", [("h", "here"), ("g", "gone")].into_iter().map(|(v, w)| (v.to_owned(), w.to_owned()))))
                    (choice("species", "Species in it", "any", of.species.iter().map(|name| (name.clone(), name.clone()))))
                    (choice("cross", "Cross", "any", crosses.map(|of| (of.id.clone(), of.id.clone()))))
                    (choice("sex", "Sex seen", "any", ["female", "male", "not seen"].into_iter().map(|word| (word.to_owned(), word.to_owned()))))
                    @if !of.places.is_empty() {
                        (choice("place", "Place", "any", of.places.iter().map(|name| (name.clone(), name.clone()))))
                    }
                    p { label for="unread" { "Unread since" } input id="unread" type="date"; }
                    p.tick { input id="flowering" type="checkbox"; label for="flowering" { "Flowering now" } }
                    p.tick { input id="kept" type="checkbox"; label for="kept" { "Marked to keep" } }
                    p { button type="reset" { "Show all" } }
                }
            }
        }
    }
}

fn choice(
    id: &str,
    label: &str,
    any: &str,
    values: impl Iterator<Item = (String, String)>,
) -> Markup {
    html! {
        p {
            label for=(id) { (label) }
            select id=(id) {
                option value="" { (any) }
                @for (value, words) in values { option value=(say(&value)) { (say(&words)) } }
            }
        }
    }
}

fn body(here: Here, group: &Group) -> Markup {
    let code = group.cross.as_ref().map(|door| say(&door.id));
    html! {
        tbody data-c=[code] data-s=(numbers(&group.species)) {
            tr.group {
                th colspan="4" scope="rowgroup" {
                    @match &group.cross {
                        Some(door) => {
                            (here.door(door)) " " span.plain { (name(&group.name)) }
                        },
                        None => (name(&group.name)),
                    }
                    @if !group.evidence.is_empty() { span.soft { (say(&group.evidence)) } }
                }
            }
            @for of in &group.rows { (row(here, of)) }
        }
    }
}

fn row(here: Here, of: &CollectionRow) -> Markup {
    let mut marks = String::new();
    for (letter, is_so) in [('h', of.is_here), ('f', of.flowering), ('k', of.kept)] {
        marks.extend(is_so.then_some(letter));
    }
    let sex = of.sex.chars().next().map(|sex| sex.to_string());
    let places = (!of.places.is_empty()).then(|| numbers(&of.places));
    let species = of.species.as_deref().map(numbers);
    html! {
        tr data-m=(marks) data-x=[sex] data-p=[places] data-s=[species] {
            th scope="row" {
                a href=(here.to(&of.path)) {
                    @if let Some(shot) = &of.shot {
                        img src=(here.to(&shot.small)) width=[shot.small_size.map(|of| of.0)] height=[shot.small_size.map(|of| of.1)] loading="lazy" alt="";
                    }
                    (say(&of.id))
                }
                @if let Some(also) = &of.also { " " (say(also)) }
                @if let Some((of, evidence)) = &of.own {
                    " " span.plain { (name(of)) }
                    @if !evidence.is_empty() { span.soft { (say(evidence)) } }
                }
            }
            td { (say(&of.status)) @if !of.sex.is_empty() { ", " (of.sex) } @if of.flowering { ", flowering" } @if of.kept { ", to keep" } }
            td { (say(&of.place)) }
            td.d data-d=[of.read_by.as_deref()] { (say(&of.read)) }
        }
    }
}

fn numbers(of: &[usize]) -> String {
    let of: Vec<String> = of.iter().map(usize::to_string).collect();
    of.join(" ")
}
