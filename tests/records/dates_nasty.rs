//! Texts that are no dates, and any text at all: a fault or a range, never a panic.

use crate::dates::days;
use podbook::record::{Hemisphere, When, WhenFault};
use proptest::prelude::*;

#[test]
fn what_is_no_date_is_refused() {
    for text in [
        "",
        " ",
        "-",
        "soon",
        "21",
        "999",
        "20211005",
        "2021-10-05T12:00",
        "spring",
        "spring 21",
        "2021 spring",
        "by",
        "by ",
        "after",
        "by by 2021",
        "early",
        "mid-",
        "late late 2020",
        "to",
        "2021 to",
        "to 2021",
        "2021 to 2022 to 2023",
        "..",
        "–",
        "Okt 2021",
        "2021-October-x",
        "1699",
        "3000",
        "12021",
        "-2021",
        "+2021",
        "２０２１",
        "٢٠٢١",
        "2021-1O-05",
        "2021-10-005",
        "31 2021 Oct 5",
        "May",
        "5 May",
        "mayonnaise 2021",
        "é1 2021",
        "\u{202e}2021",
        "0",
        "00000000000000000000",
    ] {
        assert_eq!(
            When::read(text, Hemisphere::North),
            Err(WhenFault::NotADate),
            "{text:?}"
        );
    }
    for text in [
        "2021-13",
        "2021-00",
        "13/2021",
        "2021-10-32",
        "2021-00-10",
        "2021-02-30",
        "31 Apr 2021",
        "0 May 2021",
        "2021-13-01",
    ] {
        assert_eq!(
            When::read(text, Hemisphere::North),
            Err(WhenFault::NoSuchDay),
            "{text:?}"
        );
    }
}

#[test]
fn a_hundred_thousand_prefixes_are_refused_in_order() {
    for prefix in [
        "by ", "after ", "early ", "mid-", "2021 to ", "..", "–", "winter ",
    ] {
        let text = prefix.repeat(100_000) + "2021";
        assert!(When::read(&text, Hemisphere::North).is_err(), "{prefix}");
    }
    assert!(When::read(&"9".repeat(1_000_000), Hemisphere::South).is_err());
}

/// Words dates are made of, so that random texts come near to them.
const WORDS: &[&str] = &[
    "by", "before", "after", "early", "mid", "mid-", "late", "spring", "summer", "autumn", "fall",
    "winter", "to", "..", "–", "-", "/", ".", ",", " ", "2020", "2021", "1700", "2999", "2020/21",
    "10", "5", "5th", "31", "00", "Oct", "February", "sept.", "?", "unknown", "\u{a0}", "½",
];

proptest! {
    #[test]
    fn any_text_is_a_range_or_a_fault(text in ".*", south in any::<bool>()) {
        let hemisphere = if south { Hemisphere::South } else { Hemisphere::North };
        if let Ok(when) = When::read(&text, hemisphere) {
            prop_assert!(when.first <= when.last);
        }
    }

    #[test]
    fn near_dates_are_ranges_or_faults(words in prop::collection::vec(prop::sample::select(WORDS), 0..8), south in any::<bool>()) {
        let hemisphere = if south { Hemisphere::South } else { Hemisphere::North };
        for joined in [words.concat(), words.join(" ")] {
            if let Ok(when) = When::read(&joined, hemisphere) {
                prop_assert!(when.first <= when.last, "{joined}: {}", days(&joined, hemisphere));
            }
        }
    }

    #[test]
    fn blanks_and_capitals_do_not_matter(words in prop::collection::vec(prop::sample::select(WORDS), 1..5)) {
        let plain = words.join(" ");
        let wild = format!("\t {} ", words.join("  ").to_uppercase());
        // Capitals of `½` and the like stay themselves.
        prop_assert_eq!(days(&plain, Hemisphere::North), days(&wild, Hemisphere::North));
    }

    #[test]
    fn a_coarser_date_holds_the_finer_one(year in 1700..=2999i32, month in 1..=12u32, day in 1..=28u32) {
        let read = |text: String| When::read(&text, Hemisphere::North).expect("a date");
        let exact = read(format!("{year:04}-{month:02}-{day:02}"));
        for coarse in [format!("{year:04}-{month:02}"), format!("{year:04}"), format!("by {year:04}"), format!("after {year:04}")] {
            let coarse = read(coarse);
            prop_assert!(coarse.first <= exact.first && exact.last <= coarse.last);
        }
    }
}
