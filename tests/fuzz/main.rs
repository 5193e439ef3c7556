//! Everything that reads what a person wrote, on texts gone wrong in many small ways.
//!
//! Sound texts are mutilated by a generator with a fixed seed, so a run is the same everywhere, and each reader is shown
//! the result. None may panic, and what holds of any input must hold. The number of rounds is bounded: this is the part
//! of fuzzing that a plain `cargo test` can do. A new reader is added to [`readers`].

mod mutate;
mod pages;
mod readers;

use mutate::Mutator;

/// A reader, the sound texts it is shown mutilated, and how many times.
struct Reader {
    name: &'static str,
    read: fn(&str),
    seeds: &'static [&'static str],
    rounds: u32,
}

fn readers() -> Vec<Reader> {
    let reader = |name, read, seeds, rounds| Reader {
        name,
        read,
        seeds,
        rounds,
    };
    vec![
        reader("outline", readers::outline, pages::ALL, 40_000),
        reader("edits", readers::edits, pages::ALL, 20_000),
        reader("registry", readers::registry, pages::ALL, 10_000),
        reader("labels", readers::labels, pages::LABELS, 10_000),
        reader("near names", readers::near_names, pages::LABELS, 10_000),
    ]
}

/// Runs a reader and says which text it fell over, so that the text can become a test of its own.
fn run(reader: &Reader) {
    let mut mutator = Mutator::new(0x5eed, reader.seeds);
    for round in 0..reader.rounds {
        let text = mutator.text();
        let outcome = std::panic::catch_unwind(|| (reader.read)(&text));
        assert!(outcome.is_ok(), "{}, round {round}: {text:?}", reader.name);
    }
}

#[test]
fn no_reader_falls_over_a_mutilated_text() {
    readers().iter().for_each(run);
}

#[test]
fn the_sound_texts_are_sound() {
    for page in pages::ALL {
        let outline = podbook::text::Outline::of(page);
        assert_eq!(outline.faults(), [], "{page}");
    }
    let sources = readers::sources(None);
    let (_, findings) = podbook::registry::build(&sources);
    let drawn = podbook::diagnostic::Drawing::default()
        .findings_from(podbook::diagnostic::Severity::Note, &findings, &sources)
        .to_string();
    assert_eq!(drawn, "");
}

#[test]
fn the_generator_is_the_published_one_and_reaches_everything() {
    // First outputs of SplitMix64 for seed 1234567, as given with its reference implementation.
    let mut random = mutate::SplitMix64(1_234_567);
    let first = [random.next(), random.next(), random.next()];
    assert_eq!(
        first,
        [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423
        ]
    );
    let mut mutator = Mutator::new(1, pages::ALL);
    let texts: Vec<_> = (0..2_000).map(|_| mutator.text()).collect();
    let faulty = texts
        .iter()
        .filter(|text| !podbook::text::Outline::of(text).faults().is_empty())
        .count();
    assert!(
        (200..1_950).contains(&faulty),
        "{faulty} of 2000 are faulty: neither all nor none should be"
    );
    assert!(
        texts.iter().any(|text| text.contains('\u{fffd}')),
        "bytes that are not UTF-8 were tried"
    );
}
