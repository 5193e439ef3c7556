//! Awkward input: answered or refused in order, never a panic, never a lost byte of the label.

use super::{reading, refusal_of, vocabulary};
use podbook::naming::{Chains, Context, NoteCode, ReadOptions, RefusalCode, judge, read};

#[test]
fn nothing_to_read() {
    for label in ["", " ", "\t\n", "\u{a0}", "\u{feff}", "\u{200b}"] {
        assert_eq!(refusal_of(label).0, RefusalCode::NothingToRead, "{label:?}");
    }
}

#[test]
fn marks_that_cannot_be_seen() {
    let reading = reading("lo\u{ad}wii\u{200b} \u{202e}× ventricosa\u{feff}");
    assert_eq!(
        reading.breeder.as_deref(),
        Some("N. lowii × N. ventricosa (seed parent assumed first)")
    );
    assert!(
        reading
            .notes
            .iter()
            .any(|note| note.code == NoteCode::InvisibleMarksIgnored)
    );
    assert_eq!(
        refusal_of("lowii\u{7} x ventricosa").0,
        RefusalCode::ControlCharacter
    );
    assert_eq!(refusal_of("lowii\u{7} x ventricosa").1, 6);
    assert_eq!(
        refusal_of("lowii \"a\u{1b}[31m\" x ventricosa").0,
        RefusalCode::ControlCharacter
    );
}

#[test]
fn writing_from_right_to_left_and_pictures() {
    for label in ["نيبنتس x lowii", "🌱 x 🌿", "lowii × 🌿", "猪籠草"] {
        assert_eq!(refusal_of(label).0, RefusalCode::UnknownEpithet, "{label}");
    }
    assert!(
        reading("lowii \"🌿 نيبنتس\" x maxima")
            .breeder
            .unwrap()
            .contains("\"🌿 نيبنتس\"")
    );
}

#[test]
fn the_label_is_kept_byte_for_byte() {
    for label in ["  lowii\u{a0}X  Ventricosa ", "??", "\u{0}"] {
        assert_eq!(reading(label).label, label);
    }
}

#[test]
fn a_hundred_thousand_brackets() {
    let deep = 100_000;
    let idle = format!("{}maxima{}", "(".repeat(deep), ")".repeat(deep));
    assert_eq!(reading(&idle).breeder.as_deref(), Some("N. maxima"));
    let nested = format!("{}maxima{}", "(lowii x ".repeat(deep), ")".repeat(deep));
    let reading = reading(&nested);
    assert_eq!(
        reading
            .formula
            .as_ref()
            .map(|formula| formula.generations()),
        Some(deep)
    );
    assert!(
        reading.shares.is_empty()
            && reading
                .notes
                .iter()
                .any(|note| note.code == NoteCode::SharesNotPossible)
    );
    assert!(
        reading
            .breeder
            .is_some_and(|text| text.starts_with("N. lowii × (N. lowii × ("))
    );
    assert_eq!(
        refusal_of(&"(".repeat(50 * deep)).0,
        RefusalCode::LabelTooLong
    );
    assert_eq!(
        refusal_of(&"(".repeat(deep)).0,
        RefusalCode::BracketNotClosed
    );
    assert_eq!(
        refusal_of(&")".repeat(deep)).0,
        RefusalCode::BracketNotOpened
    );
    let names = format!(
        "{}'q'{}",
        "'q' ('q' x ".repeat(deep / 10),
        ")".repeat(deep / 10)
    );
    assert!(super::reading(&names).formula.is_some());
}

#[test]
fn a_label_of_a_megabyte() {
    let million = 1_000_000;
    for label in [
        "x".repeat(million),
        "x ".repeat(million / 2),
        "lowii x ".repeat(million / 8),
        "a".repeat(million),
        "'".repeat(million),
        "\"".repeat(million),
        "maxima/".repeat(million / 7),
        "maxima ♀".repeat(million / 10),
        "lowii or ".repeat(million / 9),
        "word ".repeat(million / 5),
        "maxima \"".repeat(million / 8),
        "sib ".repeat(million / 4),
        format!("maxima {}", "sib ".repeat(million / 4)),
        format!("maxima {}", "(a) ".repeat(million / 4)),
        format!("maxima x lowii {}", "(kinabaluensis) ".repeat(1000)),
        format!("maxima × lowii {}", "BC1 ".repeat(10_000)),
    ] {
        let reading = reading(&label);
        assert_eq!(reading.label.len(), label.len());
        let lengths = reading.refused.iter().map(|refused| {
            refused.text.len() + refused.readings.iter().map(String::len).sum::<usize>()
        });
        assert!(lengths.sum::<usize>() < 100_000, "{}", &label[..20]);
    }
    let chain = read(
        &format!("{}maxima", "lowii x ".repeat(100_000)),
        &vocabulary(),
        ReadOptions {
            chains: Chains::LeftToRight,
        },
    );
    assert_eq!(
        chain.formula.map(|formula| formula.generations()),
        Some(100_000)
    );
}

#[test]
fn awkward_epithets_are_judged() {
    let words = vocabulary();
    let long = "a".repeat(1_000_000);
    for text in [
        "",
        "'",
        "''",
        "'''",
        "\"",
        "×",
        "N.",
        "N. ×",
        "™",
        "Group",
        "gx",
        "\u{0}",
        "'\u{202e}'",
        "🌿",
        "(",
        "'a",
        "a'",
        "cv.",
        &long,
    ] {
        let judgement = judge(text, &Context::new(&words));
        assert_eq!(judgement.typed, text);
        assert!(
            judgement.written.is_none(),
            "{text:.20} {:?}",
            judgement
                .written
                .map(|w| w.chars().take(20).collect::<String>())
        );
    }
}
