//! The pages of an album, read by a parser of HTML (WHATWG) that counts every fault.

use crate::bench_top::BenchTop;
use crate::demo::copied;
pub use crate::heard::all;
use crate::heard::{twice, unheard, words};
use crate::secrets::with_secrets;
use scraper::{Html, Selector};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// All files of a folder by path.
pub fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(below) = open.pop() {
        for entry in std::fs::read_dir(&below).expect("a folder can be listed") {
            let path = entry.expect("a folder can be listed").path();
            if path.is_dir() {
                open.push(path);
            } else {
                let name = path.strip_prefix(folder).expect("inside").to_string_lossy();
                let bytes = std::fs::read(&path).expect("a file can be read");
                found.insert(name.replace('\\', "/"), bytes);
            }
        }
    }
    found
}

/// The files of an album of a bench top.
pub fn album(top: &BenchTop, more: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let run = top.run(&[&["album", "-o", "out", "--today", "2025-06-01"], more].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    files(&top.path().join("out"))
}

/// The pages among them, as text.
pub fn pages(files: &BTreeMap<String, Vec<u8>>) -> BTreeMap<&str, String> {
    let pages = files.iter().filter(|(path, _)| path.ends_with(".html"));
    pages
        .map(|(path, bytes)| {
            (
                path.as_str(),
                String::from_utf8(bytes.clone()).expect("text"),
            )
        })
        .collect()
}

/// Where a link on a page leads: the file, and the place in it.
fn target(page: &str, link: &str) -> (String, String) {
    let (path, place) = link.split_once('#').unwrap_or((link, ""));
    if path.is_empty() {
        return (page.to_owned(), place.to_owned());
    }
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in path.split('/') {
        match part {
            ".." => drop(parts.pop()),
            part => parts.push(part),
        }
    }
    (parts.join("/"), place.to_owned())
}

/// What is wrong with a page.
fn faults(
    page: &str,
    text: &str,
    files: &BTreeMap<String, Vec<u8>>,
    ids: &BTreeMap<&str, BTreeSet<String>>,
) -> Vec<String> {
    let html = Html::parse_document(text);
    let mut faults: Vec<String> = html.errors.iter().map(ToString::to_string).collect();
    faults.extend(twice(&html));
    for (selector, attribute) in [("[href]", "href"), ("[src]", "src")] {
        for of in all(&html, selector) {
            let link = of.attr(attribute).unwrap_or_default();
            let (file, place) = target(page, link);
            let there = files.contains_key(&file);
            let placed = place.is_empty()
                || ids
                    .get(file.as_str())
                    .is_some_and(|ids| ids.contains(&place));
            if !there || !placed {
                faults.push(format!("{link} leads nowhere"));
            }
        }
    }
    faults.extend(unheard(&html));
    faults
}

fn hold(top: &BenchTop, more: &[&str]) -> BTreeMap<String, Vec<u8>> {
    let files = album(top, more);
    let pages = pages(&files);
    let ids: BTreeMap<&str, BTreeSet<String>> = pages
        .iter()
        .map(|(page, text)| {
            let html = Html::parse_document(text);
            let ids = all(&html, "[id]").into_iter();
            (
                *page,
                ids.filter_map(|of| of.attr("id").map(str::to_owned))
                    .collect(),
            )
        })
        .collect();
    let mut found = Vec::new();
    for (page, text) in &pages {
        found.extend(
            faults(page, text, &files, &ids)
                .iter()
                .map(|fault| format!("{page}: {fault}")),
        );
        for outside in [
            "http:",
            "https:",
            "//",
            "style=",
            "onclick",
            "javascript:",
            "@import",
            "url(",
        ] {
            if text.contains(outside) {
                found.push(format!("{page} holds {outside}"));
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    files
}

#[test]
fn pages_are_sound_html_and_every_link_leads_somewhere() {
    for more in [&[][..], &["--public"]] {
        let files = hold(&copied(), more);
        assert!(files.len() > 100, "{}", files.len());
    }
    hold(&with_secrets(), &[]);
    // A registry with nothing in it but settings.
    let empty = BenchTop::with([("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)")]);
    hold(&empty, &[]);
}

/// The check above can fail.
#[test]
fn faults_of_a_page_are_found() {
    for (page, fault) in [
        ("<p></i>", "no language"),
        ("<h1>a</h1><h3>b</h3>", "level 3 after 1"),
        ("<table><tr><th>a</th></tr></table>", "no scope"),
        ("<img src=x>", "no alt"),
        ("<input>", "no label"),
        ("<a id=b>x</a><a id=b>y</a>", "an id twice"),
        ("<a href=gone.html>x</a>", "leads nowhere"),
    ] {
        let found = faults("a.html", page, &BTreeMap::new(), &BTreeMap::new());
        assert!(
            found.iter().any(|of| of.contains(fault)),
            "{page}: {found:?}"
        );
    }
}

/// What a grower can look up where no program runs: every plant by code, under its cross, and under its species.
#[test]
fn lists_are_whole_without_a_program() {
    let top = copied();
    let files = album(&top, &[]);
    let pages = pages(&files);
    let listed = top.run(&["list", "--json", "--today", "2025-06-01"]).stdout;
    let listed: serde_json::Value = serde_json::from_str(&listed).expect("a list");
    let codes = listed["plants"].as_array().expect("plants");
    let codes: BTreeSet<String> = codes
        .iter()
        .map(|of| of["id"].as_str().expect("a code").to_owned())
        .collect();
    let index = Html::parse_document(&pages["index.html"]);
    let rows = all(&index, "#plants tr:not(.group) th a");
    let named: BTreeSet<String> = rows.iter().map(|of| words(*of)).collect();
    assert_eq!(named, codes);
    assert!(all(&index, "#plants [hidden]").is_empty());
    let in_crosses: BTreeSet<String> = pages
        .iter()
        .filter(|(path, _)| path.starts_with("crosses/"))
        .flat_map(|(_, text)| {
            let html = Html::parse_document(text);
            let cards = all(&html, "#cards > li > a span, .codes a").into_iter();
            cards.map(words).collect::<Vec<_>>()
        })
        .collect();
    let seedlings: BTreeSet<String> = codes
        .iter()
        .filter(|code| code.starts_with('X'))
        .cloned()
        .collect();
    assert_eq!(in_crosses, seedlings);
    let truncata = Html::parse_document(&pages["species/truncata.html"]);
    let of_it: BTreeSet<String> = all(&truncata, ".codes a, .list a")
        .into_iter()
        .map(words)
        .collect();
    for code in ["Tru1", "X18-01-4", "X22-02-5"] {
        assert!(of_it.contains(code), "{code}: {of_it:?}");
    }
    assert!(!of_it.contains("Ven1"), "{of_it:?}");
    // Forms that need a program are not shown without one.
    for (page, text) in &pages {
        let html = Html::parse_document(text);
        assert!(all(&html, "form:not([hidden])").is_empty(), "{page}");
    }
}

/// The ancestors of a plant in the tree of its page, each a link, are those of `podbook pedigree`.
#[test]
fn every_plant_of_a_pedigree_is_a_link() {
    let files = album(&copied(), &[]);
    let pages = pages(&files);
    let html = Html::parse_document(&pages["plants/x22-02-5.html"]);
    let links = all(&html, ".tree a").into_iter();
    let links: Vec<(String, String)> = links
        .map(|of| (words(of), of.attr("href").unwrap_or_default().to_owned()))
        .collect();
    let codes: Vec<&str> = links
        .iter()
        .map(|(code, _)| code.split(' ').next().unwrap_or_default())
        .collect();
    assert_eq!(
        codes,
        [
            "X18-01-4", "X15-02-3", "Ven1", "Spa1", "X13-01-2", "X13-01-5", "Spa1"
        ]
    );
    assert!(
        links
            .iter()
            .any(|(_, path)| path == "../plants/x18-01-4.html"),
        "{links:?}"
    );
    // The uncertain father is marked, in words and by more than a colour.
    assert_eq!(all(&html, ".kin.doubt").len(), 1);
}

/// What the other siblings showed, against the readings as `show` gives them one by one.
#[test]
fn the_range_of_siblings_is_that_of_their_readings() {
    let top = copied();
    let files = album(&top, &[]);
    let html = Html::parse_document(&pages(&files)["plants/x22-02-5.html"]);
    let rows = all(&html, "#seen ~ .pair tr").into_iter();
    let rows: Vec<Vec<String>> = rows
        .map(|row| {
            row.select(&Selector::parse("th, td").expect("a selector"))
                .map(words)
                .collect()
        })
        .collect();
    let span = rows
        .iter()
        .find(|row| row[0] == "leaf span")
        .expect("the size");
    let mut sizes: Vec<f64> = Vec::new();
    for number in 1..=18 {
        let told = top
            .run(&[
                "show",
                &format!("X22-02-{number}"),
                "--json",
                "--today",
                "2025-06-01",
            ])
            .stdout;
        let told: serde_json::Value = serde_json::from_str(&told).expect("a plant");
        let readings = told["readings"].as_array().expect("readings").iter();
        let that_day = readings.filter(|of| of["when"] == "2025-05-10" && of["of"] == "leaf span");
        sizes.extend(that_day.map(|of| {
            of["value"]
                .as_str()
                .expect("a value")
                .trim_end_matches(" cm")
                .parse::<f64>()
                .expect("a size")
        }));
    }
    sizes.sort_by(f64::total_cmp);
    // Beside the plant itself, which had 14.5 cm and is neither the least nor the greatest.
    let range = format!(
        "{:.1} cm to {:.1} cm among {}",
        sizes[0],
        sizes[sizes.len() - 1],
        sizes.len() - 1
    );
    assert_eq!(
        span[1..],
        ["14.5 cm".to_owned(), "2025-05-10".to_owned(), range]
    );
    // Their order by size on the page of the cross is by the same numbers.
    let cross = Html::parse_document(&pages(&files)["crosses/x22-02.html"]);
    let at = all(&cross, "#order option")
        .iter()
        .position(|of| words(*of).starts_with("leaf span"))
        .expect("an order")
        - 1;
    let mut ordered: Vec<f64> = all(&cross, "#cards > li")
        .iter()
        .filter_map(|of| of.attr("data-v")?.split('|').nth(at)?.parse().ok())
        .collect();
    ordered.sort_by(f64::total_cmp);
    assert_eq!(ordered, sizes);
}

/// A page has no command line: what is done at one is said in the words of the page. A season in which nothing flowers
/// would otherwise offer an option of `plan`.
#[test]
fn no_page_speaks_the_words_of_the_command_line() {
    let files = album(&copied(), &[]);
    for (path, text) in pages(&files) {
        let page = Html::parse_document(&text);
        let main = Selector::parse("main").expect("a selector");
        for part in page.select(&main) {
            let said: Vec<&str> = part.text().flat_map(str::split_whitespace).collect();
            let is_option = |word: &&&str| {
                let name = word.trim_start_matches(['(', '`']).strip_prefix("--");
                name.is_some_and(|name| name.starts_with(|c: char| c.is_ascii_lowercase()))
            };
            assert_eq!(said.iter().find(is_option), None, "{path}");
            assert!(!said.join(" ").contains("podbook "), "{path}");
        }
    }
}

/// What is in doubt in a pedigree is said aloud and in its key, and a curve says where ages are vague; of a sure record neither.
#[test]
fn pages_say_what_is_in_doubt_and_where_ages_are_vague() {
    let page = |parents: &str, sown: &str| {
        let top = crate::small_records::of(&format!(
            r#"{parents}, confidence: witnessed, sowings: [(code: "S1", on: "{sown}")], seedlings: [(number: "1", sowing: "S1")],
                sittings: [(on: "2025-01-01", columns: ["span cm"], rows: [["1", "3"]]),
                    (on: "2025-05-01", columns: ["span cm"], rows: [["1", "5"]])]"#
        ));
        let more = "clones: [(code: \"S2\", received: \"N. spathulata\", confidence: tag),";
        let top = top.change("clones.ron", "clones: [", more);
        pages(&album(&top, &[]))["plants/k-1.html"].clone()
    };
    let sure = page(r#"parents: known(seed: "V", pollen: "S")"#, "2024-01-10");
    let parents = r#"parents: pollen_one_of(seed: "V", pollen: ["S", "S2"])"#;
    let unsure = page(parents, "2024");
    for words in [
        "one of <a",
        "Broken line: in doubt.",
        "; where dates are vague, at the middle of the ages they allow",
    ] {
        assert!(unsure.contains(words), "{words}\n{unsure}");
        assert!(!sure.contains(words), "{words}\n{sure}");
    }
}
