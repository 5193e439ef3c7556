//! `docs/handing-over.md` is true: its command prints what it shows, on the demo, and the fingerprint it names is the demo's.

use crate::run::hold_in;
use podbook::recording::handover::{Lineage, fingerprint, grouped, lines};
use podbook::registry::build;
use podbook::text::Sources;
use std::path::Path;

const PAGE: &str = include_str!("../../docs/handing-over.md");

#[test]
fn the_page_is_true() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
    hold_in("handing-over.md", PAGE, &demo);
}

#[test]
fn the_fingerprint_is_that_of_the_plant_on_offer() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
    let sources = Sources::read(&demo);
    let (registry, _) = build(&sources);
    let plant = registry.plant("X22-02-5").expect("the plant on offer");
    let digits = fingerprint(&lines(&registry, &Lineage::of(&registry, plant)));
    assert!(PAGE.contains(&grouped(&digits)), "{}", grouped(&digits));
}
