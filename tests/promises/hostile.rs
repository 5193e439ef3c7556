//! What no sound hand writes: mutilated pages, absurd options. Nothing panics, and every refusal has words.

use crate::base::plain;
use crate::chance::Chance;
use crate::events::{Event, WORDS, event};
use crate::facts::read_back;
use crate::mutate::Mutator;
use crate::{rounds, sources};
use podbook::diagnostic::{Drawing, Severity};
use podbook::naming::{Chains, ReadOptions, read, starter};
use podbook::record::{Day, Hemisphere, Length, When, read_journal_entry};
use podbook::recording::checked::consequences;
use podbook::recording::draft::Draft;
use podbook::recording::events::{
    add::Add, correct::Correct, gone::Gone, keep::Keep, muddle::Muddle, number::Number,
    pollinate::GivenPollen, pot::Pot, took::Took,
};
use podbook::registry::build;
use podbook::text::edit::EditFault;
use std::panic::{AssertUnwindSafe, catch_unwind};

pub fn today() -> Day {
    When::read("2026-05-14", Hemisphere::North).unwrap().first
}

/// Runs something and says what it fell over.
pub fn survives(what: &str, number: u64, shown: &dyn Fn() -> String, run: impl FnOnce()) {
    if catch_unwind(AssertUnwindSafe(run)).is_err() {
        panic!("{what} {number}: {}", shown());
    }
}

fn pages() -> &'static [&'static str] {
    let pages: Vec<&str> = plain().into_values().map(|text| &*text.leak()).collect();
    pages.leak()
}

/// Texts that no generator is likely to hit upon.
fn odd_pages() -> Vec<String> {
    let many = |piece: &str, bytes: usize| piece.repeat(bytes / piece.len());
    vec![
        String::new(),
        "\u{feff}".to_owned(),
        "\u{feff}\u{feff}()".to_owned(),
        "\u{0}".to_owned(),
        many("\u{0}", 1 << 12),
        many("(", 1 << 20),
        many("[", 1 << 20),
        many("()", 1 << 14),
        many("[(", 1 << 20),
        many("/*", 1 << 20),
        many("\"", 1 << 14),
        many("\\", 1 << 14),
        many("9", 1 << 20),
        format!("(clones: [(code: \"a\", received: \"{}\")])", many("é", 1 << 16)),
        format!("(format: {})", many("9", 400)),
        "(format: -1)".to_owned(),
        "(format: 3)".to_owned(),
        "(code: \"X22-02\", parents: unknown, sowings: [(code: \"S1\", seeds: 4294967295, germinated: [(on: \"2024\", count: 4294967296)])])".to_owned(),
    ]
}

/// A sound registry in which every number is as large as it may be.
fn largest() -> crate::base::Pages {
    let mut pages = plain();
    let page = pages.get_mut("crosses/X22-02.ron").unwrap();
    for number in ["24", "11", "300", "120", "31", "50", "25", "12"] {
        for sign in [",", ")"] {
            *page = page.replace(&format!(": {number}{sign}"), &format!(": 4294967295{sign}"));
        }
    }
    pages
}

/// Reads pages, checks them, and tries events on what is left.
fn registry_survives(pages: &crate::base::Pages, chance: &mut Chance, events: usize) {
    let sources = sources(pages);
    let (registry, mut findings) = build(&sources);
    findings.append(podbook::check::all(&registry, today()));
    let drawn = Drawing::default()
        .findings_from(Severity::Note, &findings, &sources)
        .to_string();
    assert_eq!(drawn.is_empty(), findings.is_empty());
    for _ in 0..events {
        let event = event(&registry, chance);
        let _ = tried(&registry, &event);
    }
}

/// An event is refused in words, or its changes can be checked.
fn tried(registry: &podbook::registry::Registry, event: &Event) -> bool {
    let mut draft = Draft::new(registry, today());
    match event.record(&mut draft) {
        Ok(recorded) => {
            let changes = draft.changes();
            let brought = consequences(registry, &changes, &recorded.about, today());
            if brought.are_faulty() || changes.is_empty() {
                return false;
            }
            let (after, _) = build(&brought.sources);
            read_back_where_sound(&after, &recorded);
            true
        }
        Err(slip) => {
            assert!(
                slip.to_string().chars().any(char::is_alphabetic),
                "{event:?}"
            );
            false
        }
    }
}

/// What was taken can be read; on a page with other faults, what is left out of it cannot.
fn read_back_where_sound(
    after: &podbook::registry::Registry,
    recorded: &podbook::recording::recorded::Recorded,
) {
    if recorded
        .about
        .iter()
        .all(|code| after.target(code).is_some())
    {
        read_back(after, recorded);
    }
}

#[test]
fn no_page_brings_the_program_down() {
    let odd = odd_pages();
    let paths: Vec<String> = plain().into_keys().collect();
    for (number, text) in odd.iter().enumerate() {
        for path in &paths {
            let mut pages = plain();
            pages.insert(path.clone(), text.clone());
            let shown = || format!("{path}: {}", text.chars().take(200).collect::<String>());
            survives("odd page", number as u64, &shown, || {
                registry_survives(&pages, &mut Chance(9), 2)
            });
        }
        let words = read_journal_entry(text).expect_err("no entry");
        assert!(!words.is_empty());
    }
    let mut mutator = Mutator::new(0x5eed, pages());
    let mut chance = Chance(4);
    let all = rounds(2_000);
    for number in 0..all {
        let mut pages = plain();
        let (path, text) = (chance.pick(&paths).clone(), mutator.text());
        pages.insert(path.clone(), text);
        let seed = chance.next();
        let shown = || format!("{path}, seed {seed}: {}", pages[&path]);
        survives("page", number, &shown, || {
            registry_survives(&pages, &mut Chance(seed), 2)
        });
    }
    println!("{all} mutilated pages");
}

#[test]
fn the_largest_numbers_bring_no_event_down() {
    let pages = largest();
    let read = sources(&pages);
    let (registry, findings) = build(&read);
    let drawn = Drawing::default()
        .findings_from(Severity::Fault, &findings, &read)
        .to_string();
    assert_eq!(findings.count(Severity::Fault), 0, "{drawn}");
    let mut chance = Chance(8);
    let taken = (0..rounds(2_000)).filter(|&number| {
        let event = event(&registry, &mut chance);
        let mut taken = false;
        survives("event", number, &|| format!("{event:?}"), || {
            taken = tried(&registry, &event)
        });
        taken
    });
    let taken = taken.count();
    assert!(taken > 100, "{taken}");
}

/// Words gone wrong: mutilated sound ones, and long or odd ones.
fn words(mutator: &mut Mutator, chance: &mut Chance) -> String {
    match chance.below(12) {
        0 => chance.word(&WORDS).to_owned(),
        1 => chance
            .word(&[
                "1..4294967295",
                "X22-02-1..99999999999999999999",
                "X22-02-",
                "-",
                "..",
                ",",
                "X22-02.",
                "999999999999999999cm",
                "1e308cm",
                "-5cm",
                "0/0",
                "4294967296/4294967296",
                "1-4294967295",
                "\u{202e}",
                "NaN cm",
                "1/0in",
                "٣cm",
            ])
            .to_owned(),
        2 => "(".repeat(chance.below(3_000)),
        _ => mutator.text(),
    }
}

const SOUND: &[&str] = &[
    "X22-02-1..7",
    "X22-02-1,3,5..8",
    "Ven1",
    "Max2-a",
    "X22-02.T1",
    "X22-02.A",
    "2024-03-30",
    "spring 2024",
    "late 2023",
    "9-12,14",
    "14.5 cm",
    "5 3/4in",
    "7cm",
    "0/5",
    "shelf 1",
    "N. ventricosa × (maxima × veitchii)",
    "red",
    "24a",
];

/// The words in every place of every kind of event.
fn events_of(words: &str, chance: &mut Chance) -> Vec<Event> {
    let word = || words.to_owned();
    let some = || Some(words.to_owned());
    let pollen = [
        GivenPollen::With(word()),
        GivenPollen::Mixed(vec![word(), word()]),
        GivenPollen::Open(vec![word()]),
    ];
    let pollen = chance.pick(&pollen).clone();
    vec![
        Event::Add(Add {
            code: chance.perhaps(50, &[word()]),
            name: word(),
            on: chance.perhaps(20, &[word()]),
            batch: some(),
            note: some(),
            ..Add::default()
        }),
        Event::Keep(Keep {
            plants: vec![word()],
            place: some(),
            why: some(),
            no_longer: false,
            on: None,
        }),
        Event::Keep(Keep {
            plants: vec!["X22-02-1".to_owned()],
            place: None,
            why: some(),
            no_longer: false,
            on: chance.perhaps(50, &[word()]),
        }),
        Event::Gone(Gone {
            seedlings: None,
            all_pieces: true,
            place: None,
            plants: vec![word(), "Ven1".to_owned()],
            price: None,
            fate: Some(podbook::recording::events::gone::FateKind::Died),
            why: some(),
            to: None,
            label: None,
            seeds: None,
            on: None,
        }),
        Event::Correct(Correct {
            plant: "X22-02-1".to_owned(),
            column: chance.pick(&["span", "rim", "leaves", "note"]).to_string(),
            value: word(),
            on: None,
        }),
        Event::Correct(Correct {
            plant: word(),
            column: word(),
            value: word(),
            on: some(),
        }),
        Event::Number(Number {
            from: "X22-02.T1".to_owned(),
            numbers: word(),
            pot: None,
            place: some(),
            on: None,
        }),
        Event::Pot(Pot {
            plants: vec!["X22-02-1".to_owned()],
            width: word(),
            place: some(),
            on: None,
        }),
        Event::Took(Took {
            zone: "X22-02.B".to_owned(),
            set: 1,
            controls: some(),
            again: true,
            on: None,
            entered: None,
        }),
        Event::Took(Took {
            zone: word(),
            set: 1,
            controls: None,
            again: true,
            on: some(),
            entered: None,
        }),
        Event::Muddle(Muddle {
            codes: vec![word(), "X22-02-1".to_owned()],
            why: some(),
            rows: None,
            settled: false,
            on: None,
            ..Muddle::default()
        }),
        Event::Pollinate(podbook::recording::events::pollinate::Pollinate {
            seed: "Vei4".to_owned(),
            pollen: Some(pollen),
            zone: chance.perhaps(50, &[word()]),
            spike: None,
            flowers: None,
            controls: None,
            covered: false,
            goal: some(),
            on: chance.perhaps(20, &[word()]),
            note: some(),
        }),
    ]
}

#[test]
fn no_words_bring_an_event_down() {
    let pages = plain();
    let read = sources(&pages);
    let (registry, _) = build(&read);
    let (mut mutator, mut chance) = (Mutator::new(11, SOUND), Chance(12));
    let (all, mut taken) = (rounds(6_000), 0);
    for number in 0..all {
        let words = words(&mut mutator, &mut chance);
        let events = events_of(&words, &mut chance);
        let event = chance.pick(&events).clone();
        survives("event", number, &|| format!("{event:?}"), || {
            taken += u64::from(tried(&registry, &event))
        });
    }
    println!("{all} events with odd words, {taken} taken");
    assert!(taken > all / 20, "{taken}");
}

#[test]
fn no_label_date_or_length_brings_its_reader_down() {
    let vocabulary = starter();
    let (mut mutator, mut chance) = (Mutator::new(21, SOUND), Chance(22));
    for number in 0..rounds(20_000) {
        let words = words(&mut mutator, &mut chance);
        survives("words", number, &|| format!("{words:?}"), || {
            let label = read(
                &words,
                &vocabulary,
                ReadOptions {
                    chains: Chains::Ask,
                },
            );
            assert_eq!(label.formula.is_none(), label.refused.is_some());
            let _ = (When::read(&words, Hemisphere::South), Length::read(&words));
        });
    }
}

#[test]
fn an_edit_of_a_mutilated_page_is_sound_or_refused() {
    let mut mutator = Mutator::new(31, pages());
    for number in 0..rounds(4_000) {
        let text = mutator.text();
        survives("page", number, &|| text.clone(), || {
            let mut page = podbook::recording::page::PageText::new(text.as_str());
            if let Err(fault) =
                page.append("clones", &["(code: \"n\", received: \"x\")".to_owned()])
            {
                assert!(!fault.to_string().is_empty());
                assert_eq!(page.text(), text, "a refused change changes nothing");
            }
            let refused = page.append("clones", &["(code: ".to_owned()]);
            use podbook::recording::page::PageFault;
            assert!(
                matches!(
                    refused,
                    Err(PageFault::Edit(
                        EditFault::FaultyValue
                            | EditFault::FaultyText(_)
                            | EditFault::NotAList
                            | EditFault::NotAStruct
                    ) | PageFault::NotFound(_))
                ),
                "{refused:?}"
            );
        });
    }
}

/// A width that was pasted over two lines is written, and answered, in one.
#[test]
fn a_width_over_two_lines_is_one_line() {
    use podbook::recording::events::pot::pot_width;
    assert_eq!(pot_width("5 \r\n3/4in").ok().as_deref(), Some("5 3/4 in"));
    assert_eq!(pot_width(" 7cm\t").ok().as_deref(), Some("7 cm"));
}

/// Whatever a page holds, a GiB of memory is enough to refuse it.
#[cfg(target_os = "linux")]
#[test]
fn a_page_of_brackets_is_refused_within_a_gibibyte() {
    use crate::bench::{Bench, Ran};
    use std::process::{Command, Stdio};
    const MEBI: usize = 1 << 20;
    for (text, said) in [
        ("(".repeat(50_000_000), "16 MiB"),
        ("9".repeat(50_000_000), "16 MiB"),
        ("(".repeat(16 * MEBI), "nested-too-deep"),
        (format!("(clones: [{}])", "[],".repeat(5 * MEBI)), "fault"),
        (format!("(clones: [{}])", "9".repeat(15 * MEBI)), "fault"),
    ] {
        let mut pages = plain();
        pages.insert("clones.ron".to_owned(), text);
        let bench = Bench::of(&pages);
        let before = bench.tree();
        // What can be read in part may be added to; what cannot is left alone.
        let asked: &[&str] = match said {
            "fault" => &["check"],
            _ => &["check", "add Nep1 maxima"],
        };
        for &words in asked {
            let mut limited = Command::new("sh");
            let ask = format!(
                "ulimit -v 1048576 && exec \"$0\" {words} --registry \"$1\" --today 2026-05-14"
            );
            limited
                .arg("-c")
                .arg(ask)
                .arg(env!("CARGO_BIN_EXE_podbook"))
                .arg(bench.path());
            let ran = Ran::of(
                limited
                    .stdin(Stdio::null())
                    .env("RUST_BACKTRACE", "0")
                    .output()
                    .unwrap(),
            );
            let code = if words == "check" { 1 } else { 3 };
            assert_eq!(ran.code, code, "{words}, {said}: {}", ran.err);
            assert!(
                words != "check" || ran.out.contains(said),
                "{said}: {}",
                ran.out
            );
            assert_eq!(bench.tree(), before, "nothing was written");
        }
    }
}

/// A blank after a code, as a paste brings it, makes no other plant of it.
#[test]
fn a_code_with_a_blank_after_it_is_that_code() {
    let read = sources(&plain());
    let (registry, _) = build(&read);
    let muddle = |codes: [&str; 2]| {
        let mut draft = Draft::new(&registry, today());
        let codes = codes.map(str::to_owned).into();
        let muddle = Muddle {
            codes,
            ..Muddle::default()
        };
        muddle.record(&mut draft)
    };
    assert!(muddle(["X22-02-1", "X22-02-1 "]).is_err());
    let recorded = muddle(["X22-02-1", " X22-02-5 "]).expect("two plants");
    assert_eq!(recorded.about, ["X22-02-1", "X22-02-5"]);
}
