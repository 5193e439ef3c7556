//! What someone who hears a page, or uses no mouse, would miss: rules of WCAG 2.2, 1.1.1, 1.3.1, 2.4.1, 2.4.2, 3.1.1 and 4.1.2.

// Each test needs some of it.
#![allow(dead_code)]

use scraper::{ElementRef, Html, Selector};
use std::collections::BTreeSet;

/// Elements in the order of the page.
pub fn all<'h>(html: &'h Html, selector: &str) -> Vec<ElementRef<'h>> {
    html.select(&Selector::parse(selector).expect("a selector"))
        .collect()
}

/// The words of an element, with single blanks.
pub fn words(of: ElementRef) -> String {
    let text: String = of.text().collect();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn ids(html: &Html) -> Vec<&str> {
    let all = all(html, "[id]");
    all.iter().filter_map(|of| of.attr("id")).collect()
}

/// Ids that are given to more than one element.
pub fn twice(html: &Html) -> Vec<String> {
    let given = ids(html);
    match given.len() == given.iter().collect::<BTreeSet<_>>().len() {
        true => Vec::new(),
        false => vec![format!("an id twice: {given:?}")],
    }
}

/// What is missed on a page of the album.
pub fn unheard(html: &Html) -> Vec<String> {
    let mut faults = unheard_without_menu(html);
    if all(html, "a.skip[href='#main']").len() != 1 {
        faults.push("no way to the main part".to_owned());
    }
    faults
}

/// What is missed on a page that has no menu to be skipped.
pub fn unheard_without_menu(html: &Html) -> Vec<String> {
    let mut faults = unnamed(html);
    if all(html, "html[lang=en]").len() != 1 || all(html, "main").len() != 1 {
        faults.push("no language or no main part".to_owned());
    }
    if all(html, "title").iter().all(|of| words(*of).is_empty()) {
        faults.push("no title".to_owned());
    }
    let mut before = 0;
    for of in all(html, "h1, h2, h3, h4, h5, h6") {
        let level: usize = of.value().name()[1..].parse().expect("a level");
        if level > before + 1 || (level == 1) != (before == 0) || words(of).is_empty() {
            faults.push(format!(
                "heading `{}` of level {level} after {before}",
                words(of)
            ));
        }
        before = level;
    }
    faults.extend(
        all(html, "img:not([alt])")
            .iter()
            .map(|of| format!("no alt: {}", of.html())),
    );
    faults.extend(
        all(html, "th:not([scope])")
            .iter()
            .map(|of| format!("no scope: {}", of.html())),
    );
    faults
}

/// Fields, links, buttons and parts without a name, and names of what is not there.
fn unnamed(html: &Html) -> Vec<String> {
    let mut faults = Vec::new();
    let given = ids(html);
    for (selector, attribute) in [
        ("[aria-labelledby]", "aria-labelledby"),
        ("label[for]", "for"),
    ] {
        for of in all(html, selector) {
            let named = of.attr(attribute).unwrap_or_default();
            if !given.contains(&named) {
                faults.push(format!("{attribute} names no {named}"));
            }
        }
    }
    let named: Vec<&str> = all(html, "label[for]")
        .iter()
        .filter_map(|of| of.attr("for"))
        .collect();
    for of in all(html, "input:not([type=hidden]), select, textarea") {
        let is_named = of.attr("id").is_some_and(|id| named.contains(&id))
            || of.attr("aria-label").is_some_and(|name| !name.is_empty());
        if !is_named {
            faults.push(format!("no label: {}", of.html()));
        }
    }
    for of in all(html, "a, button, summary, th") {
        if words(of).is_empty()
            && of
                .select(&Selector::parse("img[alt]:not([alt=''])").expect("a selector"))
                .next()
                .is_none()
        {
            faults.push(format!("no words: {}", of.html()));
        }
    }
    for of in all(html, "[role=region], [role=img], nav") {
        if of.attr("aria-label").is_none_or(str::is_empty) {
            faults.push(format!("no name: {}", of.value().name()));
        }
    }
    faults
}
