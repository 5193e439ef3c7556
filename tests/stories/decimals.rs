//! The short way to read a plain decimal against the parser of the standard library, bit by bit.

use podbook::observation::value;
use podbook::record::{LengthUnit, Trait};
use proptest::prelude::*;

const NUMBER: &str = r#"(code: "squatness", name: "squatness", reads: number)"#;
const SPAN: &str = r#"(code: "span", name: "leaf span", reads: length(cm))"#;

/// One to three digits that do not begin with 0, a comma and exactly three digits: thousands or decimals, who knows.
fn is_ambiguous(cell: &str) -> bool {
    let letters: Vec<char> = cell.trim_start().chars().collect();
    let Some(comma) = letters.iter().position(|c| *c == ',') else {
        return false;
    };
    let digit = |at: usize| letters.get(at).is_some_and(char::is_ascii_digit);
    (1..=3).contains(&comma)
        && (0..comma).all(digit)
        && letters[0] != '0'
        && (comma + 1..comma + 4).all(digit)
        && !digit(comma + 4)
}

/// The long way: a comma is a point, and the standard parser does the rest.
fn long_way(cell: &str) -> Option<u64> {
    if is_ambiguous(cell) {
        return None;
    }
    let number: f64 = cell.trim().replace(',', ".").parse().ok()?;
    // What no reading can be is left out.
    let is_reading = number == 0.0 || (1e-9..=1e9).contains(&number.abs());
    is_reading.then(|| number.to_bits())
}

fn short_way(cell: &str) -> Option<u64> {
    let declared: Trait = ron::from_str(NUMBER).expect("a trait");
    value(&declared, cell, None).ok().map(f64::to_bits)
}

proptest! {
    #[test]
    fn decimals_are_the_floats_of_the_standard_parser(cell in "[0-9]{0,18}[.,]?[0-9]{0,18}") {
        prop_assert_eq!(short_way(&cell), long_way(&cell), "{}", cell);
    }

    #[test]
    fn other_cells_are_read_alike_too(cell in "[-+0-9.,eE ]{0,12}") {
        prop_assert_eq!(short_way(&cell), long_way(&cell), "`{}`", cell);
    }

    #[test]
    fn lengths_are_read_alike(cell in "[0-9]{1,4}([.,][0-9]{0,3})?") {
        let declared: Trait = ron::from_str(SPAN).expect("a trait");
        let read = value(&declared, &cell, Some(LengthUnit::Cm)).ok().map(f64::to_bits);
        // A length of zero is none.
        let expected = long_way(&cell).filter(|bits| f64::from_bits(*bits) != 0.0);
        prop_assert_eq!(read, expected, "{}", cell);
    }
}

#[test]
fn the_edges_of_the_short_way() {
    // Fifteen and sixteen digits, a value that is not exact, no digit before or after the point, none at all.
    for cell in [
        "999999999999999",
        "9999999999999999",
        "0.1",
        "123456789012.345",
        "5.",
        ".5",
        ".",
        "",
        "00012.50",
        "1,200",
        "0,125",
        "1,2345",
        "1234,567",
    ] {
        assert_eq!(short_way(cell), long_way(cell), "`{cell}`");
    }
}
