//! What others may read, at the records themselves: after `hide` no private word is left in any of them.

use crate::secrets::with_secrets;
use podbook::record::{
    ClonesPage, CrossPage, ForOthers, Page, PollenPage, RegistryPage, SpeciesPage, read_without_ron,
};
use serde::Serialize;

/// Ends, pieces and records of seed that [`with_secrets`] has no room for.
const MORE: &str = r#"(code: "X23-01", parents: known(seed: "V1", pollen: "S1"), confidence: witnessed, from: "secret garden",
    pollinations: [(zone: "A", plant: "V1", on: ["2023-03-01"], note: "secret note")],
    pods: [(code: "P1", zone: "A", harvested: "2023-07-01", note: "secret note")],
    seed_lots: [(code: "L1", pod: "P1", came: "2023-07-09", stored: "secret fridge", given_away: 5, gone: [(count: 2, fate: sold(on: "2023-08-01", to: "secret buyer", price: "secret sum"))], fate: given(on: "2024-01", to: "secret friend"), note: "secret note")],
    sowings: [(code: "S1", lot: "L1", on: "2023-08-01", seeds: 50, treatments: [(on: "2023-09-01", place: "secret shelf", product: "soap", by: "secret helper", perhaps: true)], pricked_out: [(on: "2024-01", moved: 9, to: "secret pot")])],
    community_pots: [(code: "T1", sowing: "S1", place: "secret shelf", pot: "secret pot", treatments: [(on: "2024-01", place: "secret shelf", product: "soap", note: "secret note")],
        gone: [(count: 2, fate: sold(on: "2024-02", to: "secret buyer", price: "secret sum"))],
        muddled: [(on: "2024-03", with: ["X22-01.T1"], why: "secret slip")], fate: lost(on: "2024-04", note: "secret loss"), note: "secret note")],
    seedlings: [
        (number: "1", fate: died(on: "2024-05-01", cause: "secret cause")),
        (number: "2", fate: culled(on: "2024-05-01", reason: "secret reason")),
        (number: "3", fate: given(on: "2024-05-01", label: "secret label", to: "secret friend", price: "secret sum", said: "secret words")),
        (number: "4", fate: lost(on: "2024-05-01", note: "secret loss")),
        (number: "5", muddled: [(on: "2024-05-01", with: ["X23-01-6"], why: "secret slip")],
            ramets: [(code: "a", fate: sold(on: "2024-05-01", to: "secret buyer", price: "secret sum"))],
            cultivar: (epithet: "Plain", note: "secret note")),
    ])"#;

const POLLEN: &str = r#"(lots: [(code: "V1-24", from: plant("V1"), collected: "2024-03-01", left: "secret rest", note: "secret note")])"#;

/// The words of a page, before and after what is private is taken out.
fn words<'t, P: Page<'t> + ForOthers + Serialize>(text: &'t str) -> [String; 2] {
    let mut page: P = read_without_ron(text).unwrap_or_else(|| panic!("{text} can be read"));
    let before = serde_json::to_string(&page).expect("a page is data");
    page.hide();
    [
        before,
        serde_json::to_string(&page).expect("a page is data"),
    ]
}

#[test]
fn no_private_word_is_left_in_a_record() {
    let top = with_secrets();
    // The name of a picture is needed to find it; whoever shows it names it anew.
    let page = |name: &str| top.text(name).replace("photos/secret.jpg", "photos/1.jpg");
    let (registry, species, clones, cross) = (
        page("registry.ron"),
        page("species.ron"),
        page("clones.ron"),
        page("crosses/X22-01.ron"),
    );
    let pages = [
        (registry.as_str(), words::<RegistryPage>(&registry)),
        (&species, words::<SpeciesPage>(&species)),
        (&clones, words::<ClonesPage>(&clones)),
        (&cross, words::<CrossPage>(&cross)),
        (MORE, words::<CrossPage>(MORE)),
        (POLLEN, words::<PollenPage>(POLLEN)),
    ];
    for (text, [before, after]) in pages {
        // Every secret of the page is read into a record in the first place.
        assert_eq!(
            before.matches("secret").count(),
            text.matches("secret").count(),
            "{before}"
        );
        for private in ["secret", "the one who grows", "at the table"] {
            assert!(!after.contains(private), "{private} in {after}");
        }
    }
}

/// Founders of one batch still count as siblings; the words of the batch are gone.
#[test]
fn batches_stay_without_their_words() {
    let founder = |code: &str, batch: &str| {
        format!("(code: \"{code}\", received: \"N. maxima\", batch: \"secret {batch}\")")
    };
    let founders = [
        founder("V1", "packet"),
        founder("V2", "packet"),
        founder("V3", "fair"),
    ];
    let text = format!("(clones: [{}])", founders.join(", "));
    let [_, after] = words::<ClonesPage>(&text);
    assert!(!after.contains("secret"), "{after}");
    for (batch, founders) in [("V1", 2), ("V3", 1)] {
        let words = format!("\"batch\":\"{batch}\"");
        assert_eq!(after.matches(&words).count(), founders, "{after}");
    }
}

/// When seed came is the grower's business as much as from whom.
#[test]
fn the_day_on_which_seed_came_is_left_out() {
    let [before, after] = words::<CrossPage>(MORE);
    let has_day = |text: &str| text.contains("2023-07-09");
    assert!(has_day(&before) && !has_day(&after), "{after}");
}
