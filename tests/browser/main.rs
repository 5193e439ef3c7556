//! The album of the demo in a real browser: on a phone and on wide screens, with its program and without.
//!
//! Skipped with a line where no browser is installed; `.ci/run` installs one.

#[cfg(feature = "serve")]
mod bounced;
#[cfg(feature = "serve")]
mod by_keyboard;
#[path = "../support/drawn_tag.rs"]
#[cfg(feature = "serve")]
mod drawn_tag;
#[cfg(feature = "serve")]
mod given_back;
#[path = "../support/heard.rs"]
#[cfg(feature = "serve")]
mod heard;
mod pipe;
mod rules;
#[path = "../serve/running.rs"]
#[cfg(feature = "serve")]
mod running;
#[cfg(feature = "serve")]
mod serve;

use pipe::Browser;
use rules::keeps_the_rules;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/registry-demo");

fn podbook(words: &[&str]) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_podbook"));
    command
        .args(words)
        .args(["--registry", DEMO, "--today", "2025-06-01"]);
    let ran = command.output().expect("the binary can be run");
    assert!(
        ran.status.success(),
        "{words:?}: {}",
        String::from_utf8_lossy(&ran.stderr)
    );
    String::from_utf8(ran.stdout).expect("UTF-8")
}

/// A browser and an album; nothing where there is no browser.
fn set_up() -> Option<(Browser, tempfile::TempDir, PathBuf)> {
    let Some(browser) = Browser::start() else {
        println!("skipped: no browser is installed");
        return None;
    };
    let folder = tempfile::tempdir().expect("a temporary folder can be made");
    let album = folder
        .path()
        .canonicalize()
        .expect("a folder")
        .join("album");
    podbook(&["album", "-o", &album.to_string_lossy()]);
    Some((browser, folder, album))
}

const PAGES: [&str; 9] = [
    "index.html",
    "crosses.html",
    "species.html",
    "season.html",
    "problems.html",
    "plants/x22-02-5.html",
    "plants/spa1.html",
    "crosses/x22-02.html",
    "species/ventricosa.html",
];

/// Elements whose words are cut off, and links to touch that are lower than 44 pixels (WCAG 2.2, 2.5.5), but for those within
/// lines of text.
const SMALL: &str = "[...document.querySelectorAll('header a, .codes a, .list > li > a, .cards > li > a, select, summary, button, .find input')]
    .filter(of => of.getClientRects().length && of.getBoundingClientRect().height < 44).map(of => of.outerHTML.slice(0, 120))";

/// Tables that are wider than their room.
const SIDEWAYS: &str =
    "[...document.querySelectorAll('.wide')].filter(of => of.scrollWidth > of.clientWidth)
    .map(of => of.getAttribute('aria-label'))";

#[test]
fn pages_fit_any_screen() {
    let Some((mut browser, _kept, album)) = set_up() else {
        return;
    };
    for (width, height) in [(360, 740), (768, 1024), (1280, 900)] {
        browser.screen(width, height);
        for page in PAGES {
            browser.open(&album.join(page));
            let wide = browser.value("document.documentElement.scrollWidth");
            assert!(
                wide.as_u64() <= Some(u64::from(width)),
                "{page} is {wide} wide at {width}"
            );
            let small = browser.value(SMALL);
            assert_eq!(small, serde_json::json!([]), "{page} at {width}");
            if width == 360 {
                let scrolls = browser.value(SIDEWAYS);
                assert_eq!(scrolls, serde_json::json!([]), "{page} at {width}");
            }
            keep(&mut browser, &format!("{}-{width}", page.replace('/', "-")));
        }
    }
}

/// With `PODBOOK_SCREENS=FOLDER` the screens are kept as pictures, to be looked at: the whole page.
fn keep(browser: &mut Browser, name: &str) {
    if let Some(folder) = std::env::var_os("PODBOOK_SCREENS") {
        let file = Path::new(&folder).join(format!("album-{name}.png"));
        std::fs::write(file, browser.screenshot()).expect("a picture can be kept");
    }
}

#[test]
fn pages_keep_the_rules_of_accessibility() {
    let Some((mut browser, _kept, album)) = set_up() else {
        return;
    };
    for width in [360, 1280] {
        browser.screen(width, 740);
        for page in PAGES {
            browser.open(&album.join(page));
            keeps_the_rules(&mut browser, &format!("{page} at {width}"));
        }
    }
}

/// What was chosen is still chosen after a reload and after going to a plant and back.
#[test]
fn filters_outlive_a_reload_and_going_back() {
    let Some((mut browser, _kept, album)) = set_up() else {
        return;
    };
    browser.screen(360, 740);
    let index = album.join("index.html");
    browser.open(&index);
    choose(&mut browser, "q", "x22");
    choose(&mut browser, "alive", "here");
    choose(&mut browser, "species", "truncata");
    browser.value("document.getElementById('kept').click()");
    browser.value("document.getElementById('kept').click()");
    let chosen = shown(&mut browser);
    assert!(!chosen.is_empty() && chosen.len() < listed(&[]).len());
    let place = browser.value("location.hash");
    assert!(
        place
            .as_str()
            .expect("words")
            .starts_with("#q=x22&alive=h&species=truncata"),
        "{place}"
    );

    // The way to the table leaves the address as it is.
    browser.value(
        "document.querySelector('a.skip').focus(); document.querySelector('a.skip').click()",
    );
    browser.wait("document.activeElement.id === 'main'");
    assert_eq!(browser.value("location.hash"), place);

    browser.reload();
    browser.wait("document.readyState === 'complete' && document.getElementById('found') !== null && !document.getElementById('found').hidden");
    assert_eq!(shown(&mut browser), chosen);
    assert_eq!(browser.value("document.getElementById('q').value"), "x22");

    browser.leave("document.querySelector('#plants tbody tr:not(.group):not([hidden]) a').click()");
    browser.wait("location.pathname.includes('/plants/') && document.readyState === 'complete'");
    browser.leave("history.back()");
    browser.wait("location.pathname.endsWith('index.html') && document.readyState === 'complete' && !document.getElementById('found').hidden");
    assert_eq!(shown(&mut browser), chosen);

    browser.value("document.querySelector('#filters [type=reset]').click()");
    browser.wait("location.hash === ''");
    assert_eq!(shown(&mut browser), listed(&[]));

    browser.open(&album.join("crosses/x22-02.html"));
    let cards = "[...document.querySelectorAll('#cards > li')].map(of => of.textContent).join()";
    choose(&mut browser, "order", "");
    let by_number = browser.value(cards);
    browser.value("{ const order = document.getElementById('order'); order.value = 'leaf span'; order.dispatchEvent(new Event('change')); }");
    let sorted = browser.value(cards);
    assert_ne!(sorted, by_number);
    browser.reload();
    browser.wait("document.readyState === 'complete' && location.hash === '#order=leaf%20span' && !document.getElementById('order').form.hidden");
    assert_eq!(browser.value(cards), sorted);
}

/// Codes in the rows that are shown.
fn shown(browser: &mut Browser) -> BTreeSet<String> {
    let codes = "[...document.querySelectorAll('#plants tbody tr:not(.group)')].filter(of => of.getClientRects().length)
        .map(of => of.querySelector('a').textContent)";
    let codes = browser.value(codes);
    let codes = codes.as_array().expect("codes").iter();
    codes
        .map(|code| code.as_str().expect("a code").to_owned())
        .collect()
}

/// Codes of `podbook list` with some conditions.
fn listed(conditions: &[&str]) -> BTreeSet<String> {
    let list = podbook(&[&["list", "--json"], conditions].concat());
    let list: serde_json::Value = serde_json::from_str(&list).expect("JSON");
    let plants = list["plants"].as_array().expect("plants").iter();
    plants
        .map(|of| of["id"].as_str().expect("a code").to_owned())
        .collect()
}

fn choose(browser: &mut Browser, field: &str, words: &str) {
    browser.value(&format!(
        "{{ const field = document.getElementById('{field}');
            const option = [...(field.options || [])].find(of => of.textContent === '{words}');
            field.value = option ? option.value : '{words}';
            field.dispatchEvent(new Event('input', {{ bubbles: true }})); }}"
    ));
}

#[test]
fn filters_show_what_the_list_of_plants_has() {
    let Some((mut browser, _kept, album)) = set_up() else {
        return;
    };
    browser.screen(360, 740);
    let index = album.join("index.html");
    for (field, words, conditions) in [
        ("alive", "here", &["--alive"][..]),
        ("alive", "gone", &["--gone"]),
        ("species", "truncata", &["--species", "truncata"]),
        ("cross", "X18-01", &["--cross", "X18-01"]),
        ("sex", "female", &["--sex", "female"]),
        ("sex", "not seen", &["--sex", "unsexed"]),
        ("unread", "2024-01-01", &["--unread-since", "2024-01-01"]),
    ] {
        browser.open(&index);
        assert_eq!(shown(&mut browser), listed(&[]));
        choose(&mut browser, field, words);
        let found = shown(&mut browser);
        assert_eq!(found, listed(conditions), "{field}: {words}");
        assert!(!found.is_empty(), "{field}: {words} tries nothing");
        let told = browser.value("document.getElementById('found').textContent");
        assert_eq!(
            told,
            format!("{} of {} plants", found.len(), listed(&[]).len())
        );
    }
    browser.open(&index);
    choose(&mut browser, "q", "x22-02-1");
    let found = shown(&mut browser);
    assert!(
        found.contains("X22-02-1") && found.contains("X22-02-18") && !found.contains("X22-02-2"),
        "{found:?}"
    );
}

#[test]
fn seedlings_are_put_in_order() {
    let Some((mut browser, _kept, album)) = set_up() else {
        return;
    };
    browser.open(&album.join("crosses/x22-02.html"));
    let spans = "[...document.querySelectorAll('#cards > li')].map(of => of.querySelector('dl').textContent.match(/leaf span([0-9.]+)/)[1]).map(Number)";
    let before = browser.value(spans);
    browser.value("{ const order = document.getElementById('order'); order.value = 'leaf span'; order.dispatchEvent(new Event('change')); }");
    let after = browser.value(spans);
    let numbers = |of: &serde_json::Value| -> Vec<f64> {
        of.as_array()
            .expect("sizes")
            .iter()
            .filter_map(serde_json::Value::as_f64)
            .collect()
    };
    let mut sorted = numbers(&before);
    sorted.sort_by(|a, b| b.total_cmp(a));
    assert_ne!(numbers(&before), sorted);
    assert_eq!(numbers(&after), sorted);
}

/// Without its program a page shows no form, and all plants.
#[test]
fn lists_are_whole_without_a_program() {
    let Some((mut browser, _kept, album)) = set_up() else {
        return;
    };
    browser.programs(false);
    browser.open(Path::new(&album.join("index.html")));
    assert_eq!(shown(&mut browser), listed(&[]));
    let forms =
        browser.value("[...document.forms].filter(of => of.getClientRects().length).length");
    assert_eq!(forms, 0);
}
