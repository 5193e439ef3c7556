//! The pages by keyboard, with large letters and read aloud: the focus is never lost, what is read aloud stays in the page, and
//! what a field or a cell asks for is on the screen.

use crate::given_back::{fill, refused};
use crate::serve::{SHEET, address, fits, pair, paired_at, phone, phone_with, seen, twenty};
use serde_json::json;

/// Letters twice as large as usual.
const LARGE: &str = "--blink-settings=defaultFontSize=32";

/// Whether an element is on the screen, above the foot.
fn on_screen(element: &str) -> String {
    format!(
        "(() => {{ const at = document.querySelector(\"{element}\").getBoundingClientRect(), foot = document.getElementById('waits');
            return at.height > 0 && at.top >= 0 && at.bottom <= (foot.hidden ? innerHeight : foot.getBoundingClientRect().top); }})()"
    )
}

/// A field that cannot be left empty says so, and what was left empty is named under it, on the screen.
#[test]
fn a_field_left_empty_is_named_where_it_stands() {
    for letters in ["--blink-settings=defaultFontSize=16", LARGE] {
        let mut server = twenty();
        let Some(mut browser) = phone_with(&[letters]) else {
            return;
        };
        pair(&mut browser, &mut server);
        for (path, kinds) in [
            (
                "/plants/x22-02-5.html",
                &["pollinate", "flower", "took", "treat"][..],
            ),
            ("/record", &["harvest", "prick", "gone_from"]),
        ] {
            browser.open_address(&address(&server, path));
            for kind in kinds {
                browser.tap(&format!("[data-kind={kind}]"));
                browser.tap("#enter");
                let field = "document.querySelector('[aria-invalid]')";
                browser.wait(&format!("document.activeElement === {field}"));
                for expected in [
                    format!("{field}.nextElementSibling === document.getElementById('missing')"),
                    format!("{field}.getAttribute('aria-describedby') === 'missing'"),
                    format!("{field}.getAttribute('aria-required') === 'true'"),
                    format!(
                        "document.querySelector('[for=' + {field}.id + '] em').textContent === 'needed'"
                    ),
                    on_screen("[aria-invalid]"),
                    on_screen("#missing"),
                ] {
                    assert_eq!(
                        browser.value(&expected),
                        json!(true),
                        "{kind}, {letters}: {expected}"
                    );
                }
            }
        }
        browser.tap("[data-kind=count]");
        browser.tap("#enter");
        if letters != LARGE {
            fits(&mut browser, "a field left empty");
        }
        fill(&mut browser, "of", "X21-05.T1");
        browser.wait("document.querySelector('[aria-invalid]') === null && document.querySelector('#missing').textContent === ''");
    }
}

/// A cell that is tapped has its keys on the screen, and the sheet is no wider than the screen.
#[test]
fn keys_are_on_the_screen_whatever_the_size_of_letters() {
    for letters in [
        "--blink-settings=defaultFontSize=16",
        "--blink-settings=defaultFontSize=24",
        LARGE,
    ] {
        let mut server = twenty();
        let Some(mut browser) = phone_with(&[letters]) else {
            return;
        };
        pair(&mut browser, &mut server);
        browser.open_address(&address(&server, "/sitting?of=X22-02"));
        for row in [1, 4] {
            browser.tap(&format!(".row:nth-child({row}) .cell[data-at='0']"));
            assert_eq!(
                browser.value(&on_screen(".keys")),
                json!(true),
                "row {row}, {letters}"
            );
        }
        let wide = browser.value("document.documentElement.scrollWidth");
        assert_eq!(wide, json!(360), "{letters}");
    }
}

/// Lines of the foot stay as they are while podbook is asked again and again, and the focus stays in the foot.
#[test]
fn the_foot_keeps_the_focus() {
    let Some((_server, mut browser)) = paired_at("/plants/x22-02-5.html") else {
        return;
    };
    for (at, width) in ["7", "8"].into_iter().enumerate() {
        browser.tap("[data-kind=pot]");
        fill(&mut browser, "width", width);
        browser.tap("#enter");
        browser.wait(&refused(at + 1));
    }
    browser.network(false);
    browser.tap("[data-kind=keep]");
    browser.tap("#enter");
    browser.wait("document.getElementById('state').textContent.includes('does not answer')");
    browser.value("window.line = document.querySelector('#waits li'); window.line.querySelector('button').focus()");
    browser.value("for (let tries = 0; tries < 3; tries += 1) { window.dispatchEvent(new Event('storage')); }");
    browser.wait("window.line === document.querySelector('#waits li') && window.line.contains(document.activeElement)");
    // It is read aloud once.
    let aloud = "[...document.querySelectorAll('[role=log] p')].filter(of => of.textContent.includes('does not answer')).length";
    assert_eq!(browser.value(aloud), json!(1));
    // A line that goes leaves the focus to the one in its place, where Enter does nothing.
    browser.value("window.line.querySelector('.do button:last-child').focus()");
    browser.press("Enter");
    browser.wait("document.activeElement.matches('#waits li, #waits .said') && document.querySelectorAll('#waits li').length === 1");
    browser.value("document.querySelector('#waits li button').focus()");
    browser.press("Enter");
    browser.wait("document.activeElement.id === 'f-width'");
    browser.network(true);
}

/// What was just used and is no longer offered leaves the focus at the heading above it.
#[test]
fn the_focus_outlasts_what_is_no_longer_offered() {
    let Some((_server, mut browser)) = paired_at("/plants/x22-02-5.html") else {
        return;
    };
    browser.tap("[data-kind=gone]");
    fill(&mut browser, "fate", "sold");
    browser.tap("#enter");
    browser.wait("document.querySelector('.events .undo') !== null && document.activeElement.id === 'happened'");
    browser.value("document.querySelector('.events .undo').focus()");
    browser.press("Enter");
    browser.wait("document.querySelector('.events .undo') === null && document.activeElement.id === 'happened'");
    browser.value("document.querySelector('.said button:last-child').focus()");
    browser.press("Enter");
    browser.wait(
        "document.getElementById('waits').hidden && document.activeElement.id === 'happened'",
    );
}

/// A sheet is filled in by a keyboard, with what stands in a cell read aloud.
#[test]
fn a_sheet_is_filled_in_by_keyboard() {
    let mut server = twenty();
    let Some(mut browser) = phone() else {
        return;
    };
    pair(&mut browser, &mut server);
    browser.open_address(&address(&server, SHEET));
    browser.value("document.querySelector('.cell').focus()");
    for key in ["Enter", "4", "1", "Backspace", ",", "5"] {
        browser.press(key);
    }
    browser.wait("document.querySelector('.cell').getAttribute('aria-expanded') === 'true' && document.querySelector('.cell b').textContent === '4.5'");
    browser.wait("document.querySelector('[role=log]').lastChild.textContent === 'span cm: 4.5'");
    browser.wait("document.activeElement.closest('.entry').getAttribute('aria-label') === 'span cm of X25-01-1'");
    fits(&mut browser, "an open cell with a number");
    browser.value("document.querySelector('[data-key=next]').focus()");
    browser.press("Enter");
    browser.wait("document.activeElement.dataset.key === '1'");
    browser.press("3");
    browser.wait(&seen(0, "4.5; 3", "in the book"));
    // The next row is at hand; a step that is set is said to be.
    browser.wait("document.activeElement === document.querySelector('.row:nth-child(2) .cell')");
    browser.value("document.querySelectorAll('.row .cell')[1].focus()");
    browser.press("Enter");
    browser.wait("document.activeElement.matches('[data-key=\"3\"][aria-pressed=true]')");
    assert_eq!(server.events().len(), 1);
    browser.value("document.querySelector('.line').focus()");
    browser.ask("Input.insertText", json!({"text": "4.5; 2"}));
    browser.press("Enter");
    browser.wait("document.activeElement === document.querySelector('.row:nth-child(2) .cell') && document.querySelector('.entry') === null");
}
