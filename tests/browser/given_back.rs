//! What was typed on a phone stays until it is in the book or its owner gives it up.

use crate::pipe::Browser;
use crate::running::Server;
use crate::serve::{address, paired_at, seen};
use serde_json::json;

const PLANT: &str = "/plants/x22-02-5.html";

/// Fills in a field as fingers do.
pub(crate) fn fill(browser: &mut Browser, field: &str, words: &str) {
    browser.value(&format!(
        "(() => {{ const of = document.getElementById('f-{field}'); \
         of.type === 'checkbox' ? (of.checked = true) : (of.value = '{words}'); \
         for (const name of ['input', 'change']) of.dispatchEvent(new Event(name, {{bubbles: true}})); }})()"
    ));
}

/// Taps the button of the foot that has these words.
fn tap_at_foot(browser: &mut Browser, words: &str) {
    browser.value(&format!(
        "[...document.querySelectorAll('#waits button')].find(of => of.textContent === '{words}').click()"
    ));
}

pub(crate) fn refused(count: usize) -> String {
    format!("document.querySelectorAll('#waits li').length === {count}")
}

pub(crate) fn waits(browser: &mut Browser) -> serde_json::Value {
    browser.value("Object.keys(localStorage).filter(of => of.startsWith('podbook-waits:')).length")
}

/// What was entered first stands last at the foot.
const LAST_IS_THE_POT: &str = "(of => of.length === 2 && of[1].textContent.includes('Inside width of the pot: 8'))(document.querySelectorAll('#waits li'))";

/// An entry that was given back waits as it was while it stands in its form, and until the changed one is kept.
#[test]
fn an_entry_in_its_form_is_not_lost() {
    let Some((server, mut browser)) = paired_at(PLANT) else {
        return;
    };
    browser.tap("[data-kind=pot]");
    fill(&mut browser, "width", "7");
    browser.tap("#enter");
    browser.wait(&refused(1));
    browser.tap("[data-kind=keep]");
    fill(&mut browser, "why", "red rims");
    fill(&mut browser, "no_longer", "");
    browser.tap("#enter");
    browser.wait(&refused(2));
    // One, then the other, then neither: both wait still.
    for _ in 0..2 {
        tap_at_foot(&mut browser, "Change it");
    }
    browser.tap(".ask .go button");
    assert_eq!(waits(&mut browser), json!(2));
    // A page loaded anew has them, too.
    tap_at_foot(&mut browser, "Change it");
    browser.reload();
    browser.wait(&refused(2));
    browser.wait("document.querySelectorAll('#waits li button').length === 6");
    // Changed, it takes the place of what was refused: among those that wait, if it is refused again.
    for (width, wait) in [("8", LAST_IS_THE_POT), ("7cm", "true")] {
        browser.value("[...document.querySelectorAll('#waits li')].find(of => of.textContent.includes('Potted')).querySelector('button').click()");
        browser
            .wait("document.querySelector('#waits').textContent.includes('Change it in its form')");
        fill(&mut browser, "width", width);
        browser.tap("#enter");
        browser.wait(wait);
    }
    browser.wait(&refused(1));
    browser.wait("document.getElementById('said') !== null");
    assert_eq!((waits(&mut browser), server.events().len()), (json!(1), 1));
}

/// A form that is being filled in stays when the answer to the entry before it changes what the page offers.
#[test]
fn an_answer_leaves_the_form_alone() {
    let Some((_server, mut browser)) = paired_at(PLANT) else {
        return;
    };
    browser.network(false);
    browser.tap("[data-kind=cutting]");
    browser.tap("#enter");
    browser.wait("document.getElementById('f-code') === null");
    // The next entry begins where this one did.
    browser.wait("document.activeElement.dataset.kind === 'cutting'");
    browser.tap("[data-kind=treat]");
    fill(&mut browser, "product", "soap, 0000-00");
    browser.network(true);
    browser.wait("document.querySelector('[data-kind=rooted]') !== null");
    browser.wait("(document.getElementById('f-product') || {value: ''}).value === 'soap, 0000-00'");
    // Nor does another form take its place unasked.
    browser.value("window.confirm = () => false");
    browser.tap("[data-kind=pot]");
    browser.wait("document.getElementById('f-product').value === 'soap, 0000-00'");
    browser.value("window.confirm = () => true");
    browser.tap("[data-kind=pot]");
    browser.wait("document.getElementById('f-width') !== null");
}

/// Types a whole row into its line.
fn type_line(browser: &mut Browser, row: &str, line: &str) {
    browser.tap(&format!("{row} .cell[data-at='0']"));
    browser.value(&format!(
        "(() => {{ const of = document.querySelector('{row} .line'); of.value = '{line}'; \
         of.dispatchEvent(new KeyboardEvent('keydown', {{key: 'Enter', bubbles: true}})); }})()"
    ));
}

/// A row that is put right takes the place of what was given back of it, and goes into the book.
#[test]
fn a_row_that_is_put_right_goes_into_the_book() {
    let Some((server, mut browser)) = paired_at("/sitting?of=X22-02&traits=span,banding") else {
        return;
    };
    let first = ".row:nth-child(1)";
    type_line(&mut browser, first, "23.8; rot");
    browser.wait(&refused(1));
    // What was refused stands in the line again.
    tap_at_foot(&mut browser, "Change it");
    browser.wait("document.querySelector('.row:nth-child(1) .line').value === '23.8; rot'");
    type_line(&mut browser, first, "23.8; 4");
    browser.wait(&seen(0, "23.8; 4", "in the book"));
    assert_eq!((waits(&mut browser), server.events().len()), (json!(0), 1));
    // A cell in doubt, and then another one: they are one row.
    for (at, keys) in [(0, &["1", ".", "8", "done"][..]), (1, &["3"])] {
        browser.tap(&format!(".row:nth-child(2) .cell[data-at='{at}']"));
        for key in keys {
            browser.tap(&format!(".row:nth-child(2) [data-key='{key}']"));
        }
        browser.wait(&refused(1));
    }
    browser.wait("document.querySelector('#waits li p').textContent.includes('1.8; 3')");
    assert_eq!(waits(&mut browser), json!(1));
    // A death waits for the readings before it, and the foot says so.
    browser.tap(".row:nth-child(2) .cell[data-at='0']");
    for key in ["dead", "dead"] {
        browser.tap(&format!(".row:nth-child(2) [data-key='{key}']"));
    }
    browser
        .wait("document.getElementById('state').textContent.includes('waits until the row below')");
    assert_eq!(server.events().len(), 1);
    browser.tap(".row:nth-child(2) .cell[data-at='0']");
    for key in ["8", ".", "8", "done"] {
        browser.tap(&format!(".row:nth-child(2) [data-key='{key}']"));
    }
    browser.wait(&seen(1, "8.8; 3", "found dead: in the book"));
    assert_eq!((waits(&mut browser), server.events().len()), (json!(0), 3));
    // What was given back of a sheet of other traits is no part of a row of this one, and stays.
    type_line(&mut browser, ".row:nth-child(3)", "14.9; rot");
    browser.wait(&refused(1));
    browser.open_address(&address(&server, "/sitting?of=X22-02&traits=span"));
    browser.wait(&refused(1));
    // The row of the plant that died is no longer there.
    let second = ".row:nth-child(2)";
    type_line(&mut browser, second, "14.9");
    browser.wait(&format!(
        "document.querySelector('{second}').textContent.includes('not all in the book')"
    ));
    assert_eq!((waits(&mut browser), server.events().len()), (json!(1), 4));
}

/// A count that is put right keeps its day, unless another one is named.
#[test]
fn a_count_that_is_put_right_keeps_its_day() {
    let Some((server, mut browser)) = paired_at("/plants/x18-01-4.html") else {
        return;
    };
    browser.tap("[data-kind=took]");
    fill(&mut browser, "zone", "X22-02.A");
    fill(&mut browser, "pods", "9");
    browser.wait("document.getElementById('f-on').value === '2025-06-01'");
    fill(&mut browser, "again", "");
    browser.wait("document.getElementById('f-on').value === ''");
    browser.tap("#enter");
    browser.wait("document.getElementById('said') !== null");
    let page = std::fs::read_to_string(server.folder.join("crosses/X22-02.ron")).expect("the page");
    assert!(!page.contains("counted: \"2025"), "{page}");
}

/// A field that takes the focus is above the foot, and Enter in it records.
#[test]
fn the_foot_does_not_hide_the_field_in_use() {
    let Some((_server, mut browser)) = paired_at(PLANT) else {
        return;
    };
    for width in ["7", "8", "9"] {
        browser.tap("[data-kind=pot]");
        browser.tap("#f-width");
        browser.ask("Input.insertText", json!({"text": width}));
        browser.press("Enter");
    }
    browser.wait(&refused(3));
    browser.tap("[data-kind=gone]");
    for field in ["f-all_pieces", "f-on", "enter"] {
        browser.value(&format!("document.getElementById('{field}').focus()"));
        browser.wait(&format!(
            "document.getElementById('{field}').getBoundingClientRect().bottom <= \
             document.getElementById('waits').getBoundingClientRect().top"
        ));
    }
}

/// What is to be written down stays until it is hidden, also on the next page; what was undone leaves the list.
#[test]
fn codes_to_write_down_outlast_the_page() {
    let Some((server, mut browser)) = paired_at("/plants/jac1.html") else {
        return;
    };
    browser.tap("[data-kind=pollinate]");
    fill(&mut browser, "with", "Spa1");
    browser.tap("#enter");
    let told = "(document.getElementById('said') || {textContent: ''}).textContent.includes('Write on the tag: X25-01')";
    browser.wait(told);
    browser.reload();
    browser.wait(told);
    for width in ["7 cm", "9 cm"] {
        browser.tap("[data-kind=pot]");
        fill(&mut browser, "width", width);
        browser.tap("#enter");
        browser.wait(&format!(
            "document.getElementById('said').textContent.includes('{width}')"
        ));
    }
    browser.value("window.isOld = true; document.querySelector('header a[href$=record]').click()");
    browser.wait("window.isOld === undefined && document.getElementById('recent') !== null");
    browser.wait(told);
    tap_at_foot(&mut browser, "Hide");
    // An undoing that is refused can be tried again.
    browser.tap("[data-change='2']");
    browser.wait(&refused(1));
    browser.wait("!document.querySelector(\"[data-change='2']\").disabled");
    browser.tap("[data-change='3']");
    browser.wait("document.querySelector(\"[data-change='3']\") === null");
    assert_eq!(server.events().len(), 4);
    browser.reload();
    assert_eq!(
        browser.value("document.querySelector('#waits .said') === null"),
        json!(true)
    );
}

/// Pairs the phone once more with a new link, as another window does.
fn pair_again(browser: &mut Browser, server: &mut Server) {
    let secret = server.secret();
    browser.value(&format!(
        "fetch('/pair', {{ method: 'POST', body: new URLSearchParams({{ secret: '{secret}', name: 'phone' }}) }}).then(() => {{ window.isPaired = true; }}); null"
    ));
    browser.wait("window.isPaired");
}

/// A page that is older than the pairing of its phone says how to go on, and says it only while something waits.
#[test]
fn a_page_older_than_the_pairing_says_to_load_it_again() {
    let Some((mut server, mut browser)) = paired_at(PLANT) else {
        return;
    };
    pair_again(&mut browser, &mut server);
    browser.tap("[data-kind=keep]");
    browser.tap("#enter");
    let state =
        |words: &str| format!("document.getElementById('state').textContent.includes('{words}')");
    browser.wait(&state("Load it again: what waits on this device is kept"));
    assert_eq!(waits(&mut browser), json!(1));
    browser.reload();
    browser.wait("localStorage.length === 0");
    assert_eq!(server.events().len(), 1);
    // Revoked: another window that is paired again sends what waits, and this one has nothing more to say.
    let devices = server.folder.join(".podbook-devices");
    let list = std::fs::read_to_string(&devices).expect("the list");
    let none: Vec<&str> = list.lines().filter(|line| line.starts_with('#')).collect();
    std::fs::write(&devices, none.join("\n") + "\n").expect("the list can be written");
    browser.tap("[data-kind=pot]");
    fill(&mut browser, "width", "9cm");
    browser.tap("#enter");
    browser.wait(&state("not paired"));
    browser.value("localStorage.removeItem(Object.keys(localStorage).find(of => of.startsWith('podbook-waits:'))); window.dispatchEvent(new Event('storage'))");
    browser.wait(&state("").replace("includes('')", "valueOf() === ''"));
}
