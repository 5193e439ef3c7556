//! What was typed on a phone stays until it is in the book or its owner gives it up.

use crate::pipe::Browser;
use crate::serve::paired_at;
use serde_json::json;

const PLANT: &str = "/plants/x22-02-5.html";

/// Fills in a field as fingers do.
fn fill(browser: &mut Browser, field: &str, words: &str) {
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

fn refused(count: usize) -> String {
    format!("document.querySelectorAll('#waits li').length === {count}")
}

fn waits(browser: &mut Browser) -> serde_json::Value {
    browser.value("Object.keys(localStorage).filter(of => of.startsWith('podbook-waits:')).length")
}

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
    // Changed, it takes the place of what was refused.
    browser.value("[...document.querySelectorAll('#waits li')].find(of => of.textContent.includes('Potted')).querySelector('button').click()");
    browser.wait("document.querySelector('#waits').textContent.includes('Change it in its form')");
    fill(&mut browser, "width", "7cm");
    browser.tap("#enter");
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
