//! A finger that taps twice without meaning to: the second tap does nothing.

use crate::given_back::{fill, refused, waits};
use crate::pipe::Browser;
use crate::serve::{address, pair, paired_at, phone, seen, twenty};
use serde_json::json;

/// Taps twice at a spot, as a wet finger does.
fn bounce(browser: &mut Browser, selector: &str) {
    browser.tap(selector);
    browser.tap_again(200);
}

/// The choices of the next column are drawn under the finger: they take no tap that was meant for the column before.
#[test]
fn a_choice_is_not_entered_for_the_next_trait() {
    let Some((server, mut browser)) = paired_at("/sitting?of=X22-02&traits=banding,teeth,liking")
    else {
        return;
    };
    let first = ".row:nth-child(1)";
    browser.tap(&format!("{first} .cell[data-at='0']"));
    bounce(&mut browser, &format!("{first} [data-key='4']"));
    // The same choice is where the first was, and a tap that is meant sets it.
    browser.wait("document.querySelector('.row .cell[data-at=\"1\"]').ariaExpanded === 'true'");
    assert_eq!(browser.value(VALUES), json!(["4", "", ""]));
    browser.tap_again(1000);
    assert_eq!(browser.value(VALUES), json!(["4", "4", ""]));
    browser.tap(&format!("{first} [data-key=done]"));
    browser.wait(&seen(0, "4; 4; ", "in the book"));
    assert_eq!(server.events().len(), 1);
}

const VALUES: &str =
    "[...document.querySelectorAll('.row:nth-child(1) .cell b')].map(of => of.textContent)";

/// Digits follow each other as fast as a finger taps.
#[test]
fn digits_follow_each_other() {
    let mut server = twenty();
    let Some(mut browser) = phone() else {
        return;
    };
    pair(&mut browser, &mut server);
    browser.open_address(&address(&server, "/sitting?of=X25-01&traits=span"));
    browser.tap(".row:nth-child(1) .cell[data-at='0']");
    bounce(&mut browser, ".row:nth-child(1) [data-key='1']");
    assert_eq!(
        browser.value("document.querySelector('.cell b').textContent"),
        json!("11")
    );
}

/// One line is discarded, not the one that moves under the finger, and it can be taken back.
#[test]
fn what_is_given_up_can_be_taken_back() {
    let Some((_server, mut browser)) = paired_at("/plants/jac1.html") else {
        return;
    };
    for (at, width) in ["7", "8", "9"].into_iter().enumerate() {
        browser.tap("[data-kind=pot]");
        fill(&mut browser, "width", width);
        browser.tap("#enter");
        browser.wait(&refused(at + 1));
    }
    bounce(&mut browser, "#waits li .do button:last-child");
    browser.wait(&refused(2));
    browser.wait("document.getElementById('said').textContent.startsWith('Gave up: Potted: Jac1; Inside width of the pot: 9')");
    assert_eq!(waits(&mut browser), json!(2));
    browser.tap("#said button:first-of-type");
    browser.wait(&refused(3));
    assert_eq!(waits(&mut browser), json!(3));
    // Until something else is entered.
    browser.tap("#waits li .do button:last-child");
    browser.wait("document.getElementById('said') !== null");
    browser.tap("[data-kind=pot]");
    fill(&mut browser, "width", "6");
    browser.tap("#enter");
    browser.wait("document.getElementById('said') === null");
    assert_eq!(waits(&mut browser), json!(3));
}

/// The undoing is drawn where Undo was: the second tap does not undo it.
#[test]
fn an_undoing_is_not_undone() {
    let Some((server, mut browser)) = paired_at("/plants/jac1.html") else {
        return;
    };
    browser.tap("[data-kind=pot]");
    fill(&mut browser, "width", "9cm");
    browser.tap("#enter");
    browser.wait("document.querySelector('.undo-it') !== null");
    browser.tap("#said .undo-it");
    browser.wait("(document.getElementById('said') || {textContent: ''}).textContent.startsWith('Undid change 1')");
    browser.tap_again(200);
    // What is entered next is change 3.
    browser.tap("[data-kind=pot]");
    fill(&mut browser, "width", "8cm");
    browser.tap("#enter");
    browser.wait(
        "(document.getElementById('said') || {textContent: ''}).textContent.includes('8 cm')",
    );
    assert_eq!(server.events().len(), 3);
    let page = std::fs::read_to_string(server.folder.join("clones.ron")).expect("the page");
    assert!(!page.contains("9 cm"), "{page}");
    // The page of a plant that left undoes by one tap, too.
    browser.tap("[data-kind=gone]");
    fill(&mut browser, "fate", "sold");
    browser.tap("#enter");
    browser.wait("document.querySelector('.events .undo') !== null");
    browser.tap(".events .undo");
    browser.wait("document.querySelector('.events .undo') === null");
    browser.wait("document.querySelectorAll('#waits li').length === 0");
    assert_eq!(server.events().len(), 5);
}

/// A death needs two taps that are meant, with nothing between them.
#[test]
fn a_death_needs_two_taps_that_are_meant() {
    let mut server = twenty();
    let Some(mut browser) = phone() else {
        return;
    };
    pair(&mut browser, &mut server);
    browser.open_address(&address(&server, "/sitting?of=X25-01&traits=span"));
    let key = |key: &str| format!(".row:nth-child(1) [data-key='{key}']");
    let dead = "document.querySelector('[data-key=dead]').textContent";
    browser.tap(".row:nth-child(1) .cell");
    bounce(&mut browser, &key("dead"));
    assert_eq!(browser.value(dead), json!("Tap again: dead"));
    browser.tap(&key("6"));
    assert_eq!(browser.value(dead), json!("Found dead"));
    assert_eq!(server.events().len(), 0);
    browser.tap(&key("dead"));
    browser.tap(&key("dead"));
    browser.wait(&seen(0, "6", "found dead: in the book"));
    assert_eq!(server.events().len(), 2);
}
