//! What was said of a plant when it left is compared with what would be said now.

use podbook::analysis::promised::{promised, statement};
use podbook::context::Context;
use podbook::evidence::in_todays_words;
use podbook::record::Day;
use podbook::registry::{Registry, build};
use podbook::text::Sources;

const FOUNDERS: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", confidence: tag),
    (code: "S1", received: "N. spathulata", confidence: tag),
    (code: "M1", received: "N. maxima", confidence: tag),
])"#;

fn with<T>(parents: &str, fate: &str, ask: impl FnOnce(&Registry, &Context) -> T) -> T {
    let mut sources = Sources::new();
    sources.add("clones.ron", FOUNDERS);
    sources.add(
        "crosses/X22-01.ron",
        format!(
            r#"(code: "X22-01", parents: {parents}, confidence: witnessed, seedlings: [(number: "1"{fate}), (number: "2", fate: sold(on: "2024"))])"#
        ),
    );
    sources.add("registry.ron", r#"(genus: "Nepenthes", hemisphere: north)"#);
    sources.add(
        "species.ron",
        r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata"), (epithet: "maxima")])"#,
    );
    let (registry, _) = build(&sources);
    let context = Context::of(&registry, Day::new(2030, 1, 1).expect("a day"));
    ask(&registry, &context)
}

const WITNESSED: &str = r#"known(seed: "V1", pollen: "S1")"#;

#[test]
fn a_text_that_still_holds_is_counted_and_one_that_does_not_is_listed() {
    let said = with(WITNESSED, "", |registry, context| {
        statement(context.evidence(), registry.plant("X22-01-1").unwrap())
    });
    assert_eq!(
        said,
        "N. ventricosa × N. spathulata (seed parent first); parents witnessed; founders by their tags"
    );
    let sold = format!(r#", fate: sold(on: "2024-05-01", said: "{said}")"#);
    let found = with(WITNESSED, &sold, |_, context| promised(context));
    assert_eq!(
        (
            found.unchanged.len(),
            found.changed.len(),
            found.without.len()
        ),
        (1, 0, 1)
    );
    // The father turns out to be one of two.
    let doubted = r#"pollen_one_of(seed: "V1", pollen: ["S1", "M1"])"#;
    let found = with(doubted, &sold, |_, context| promised(context));
    assert_eq!(
        (
            found.unchanged.len(),
            found.changed.len(),
            found.without.len()
        ),
        (0, 1, 1)
    );
    assert_eq!(found.changed[0].was, said);
    assert!(
        found.changed[0].now.contains("one of two"),
        "{}",
        found.changed[0].now
    );
}

/// What podbook itself words in another way since is no correction.
#[test]
fn a_text_in_older_words_still_holds() {
    let doubted = r#"pollen_one_of(seed: "V1", pollen: ["S1", "M1"]), pods: [(code: "P1")]"#;
    let said = with(doubted, "", |registry, context| {
        statement(context.evidence(), registry.plant("X22-01-1").unwrap())
    });
    let old = said.replace(
        "the same one for the whole pod",
        "one father for the whole pod",
    );
    assert_ne!(said, old);
    let sold = format!(r#", fate: sold(on: "2024-05-01", said: "{old}")"#);
    let found = with(doubted, &sold, |_, context| promised(context));
    assert_eq!((found.unchanged.len(), found.changed.len()), (1, 0));
    assert_eq!(
        in_todays_words(
            "none of 5 control flowers set, which still allows stray pollen in up to 43 % (95 %); founders by their tags"
        ),
        "none of 5 control flowers set, so stray pollen may have set as many as 43 % of flowers (95 % limit); founders by their tags"
    );
    let read_as = "none of 5 control flowers set, so stray pollen may have set up to 43 % of flowers (95 % limit)";
    assert_eq!(
        in_todays_words(read_as),
        "none of 5 control flowers set, so stray pollen may have set as many as 43 % of flowers (95 % limit)"
    );
}

/// A cultivar epithet is a name too: its buyer may have it on a tag.
#[test]
fn an_epithet_that_is_taken_back_is_noticed() {
    let named = r#", cultivar: (epithet: "Wet Tuesday", published: "a leaflet")"#;
    let said = with(WITNESSED, named, |registry, context| {
        statement(context.evidence(), registry.plant("X22-01-1").unwrap())
    });
    assert_eq!(
        said,
        "N. ventricosa × N. spathulata (seed parent first), also 'Wet Tuesday'; parents witnessed; founders by their tags"
    );
    let sold = format!(r#", fate: sold(on: "2024-05-01", said: "{said}")"#);
    let unchanged = with(WITNESSED, &format!("{named}{sold}"), |_, context| {
        promised(context)
    });
    assert_eq!(unchanged.unchanged.len(), 1);
    let taken_back = with(WITNESSED, &sold, |_, context| promised(context));
    assert_eq!(taken_back.changed.len(), 1);
}
