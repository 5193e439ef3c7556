//! Pages held to the rules of accessibility that a program can check: axe-core, run in the page.
//!
//! `PODBOOK_AXE` names its file, `axe.min.js`; `.ci/run` fetches it. Without it these checks are skipped with a line.

use crate::pipe::Browser;
use serde_json::{Value, json};

/// Serious and critical findings of the page that is open, in light and in dark; each a rule and where it is broken.
const RUN: &str = "axe.run(document, { resultTypes: ['violations'] }).then(ran => {
    window.found = ran.violations.filter(of => of.impact === 'serious' || of.impact === 'critical')
        .map(of => of.id + ': ' + of.nodes.slice(0, 3).map(node => node.html.slice(0, 160)).join(' | '));
    window.passed = ran.passes.length; }, why => { window.found = ['failed: ' + why]; window.passed = 1; })";

/// The program that checks; nothing where there is none.
fn program() -> Option<String> {
    let Some(file) = std::env::var_os("PODBOOK_AXE") else {
        println!("skipped: PODBOOK_AXE does not name axe.min.js");
        return None;
    };
    Some(std::fs::read_to_string(file).expect("axe.min.js can be read"))
}

/// Asserts that the page that is open breaks no rule that matters.
pub fn keeps_the_rules(browser: &mut Browser, what: &str) {
    let Some(program) = program() else {
        return;
    };
    browser.value(&format!("{program}; null"));
    for scheme in ["light", "dark"] {
        browser.ask(
            "Emulation.setEmulatedMedia",
            json!({"features": [{"name": "prefers-color-scheme", "value": scheme}]}),
        );
        browser.value(&format!("window.passed = 0; {RUN}; null"));
        browser.wait("window.passed > 0");
        let found: Value = browser.value("window.found");
        assert_eq!(found, json!([]), "{what}, {scheme}");
    }
    browser.ask("Emulation.setEmulatedMedia", json!({"features": []}));
}

/// The checker finds what is broken.
#[test]
fn a_broken_page_is_found() {
    let (Some(program), Some(mut browser)) = (program(), Browser::start()) else {
        return;
    };
    browser.value("document.body.innerHTML = '<img src=a.png><button></button>'; null");
    browser.value(&format!("{program}; {RUN}; null"));
    browser.wait("window.passed > 0");
    let found = browser.value("window.found").to_string();
    assert!(
        found.contains("image-alt") && found.contains("button-name"),
        "{found}"
    );
}
