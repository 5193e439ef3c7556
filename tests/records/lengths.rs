//! Lengths as typed. 1 in = 2.54 cm exactly (international yard and pound, 1959; from memory, common knowledge).

use podbook::record::{Length, LengthFault, LengthUnit};
use proptest::prelude::*;

#[test]
fn lengths_with_their_units() {
    use LengthUnit::{Cm, In, M, Mm};
    for (text, number, unit, cm) in [
        ("9.6 cm", 9.6, Cm, 9.6),
        ("9,6 cm", 9.6, Cm, 9.6),
        ("9.6cm", 9.6, Cm, 9.6),
        ("9.6 CM.", 9.6, Cm, 9.6),
        ("9.6\u{a0}cm", 9.6, Cm, 9.6),
        (" 12 centimetres ", 12.0, Cm, 12.0),
        (".5 cm", 0.5, Cm, 0.5),
        ("5. cm", 5.0, Cm, 5.0),
        ("½ cm", 0.5, Cm, 0.5),
        ("41 mm", 41.0, Mm, 4.1),
        ("1.2 m", 1.2, M, 120.0),
        ("4in", 4.0, In, 10.16),
        ("4 in.", 4.0, In, 10.16),
        ("4 inches", 4.0, In, 10.16),
        ("4\"", 4.0, In, 10.16),
        ("4”", 4.0, In, 10.16),
        ("4″", 4.0, In, 10.16),
        ("4''", 4.0, In, 10.16),
        ("3 1/2 in", 3.5, In, 8.89),
        ("3 1/2\"", 3.5, In, 8.89),
        ("3-1/2 in", 3.5, In, 8.89),
        ("3½\"", 3.5, In, 8.89),
        ("3 ½ in", 3.5, In, 8.89),
        ("3 1⁄2 in", 3.5, In, 8.89),
        ("3\u{202f}1/2 in", 3.5, In, 8.89),
        ("1/2 in", 0.5, In, 1.27),
        ("1⁄2 in", 0.5, In, 1.27),
        ("⅞ in", 0.875, In, 2.2225),
        ("12 3/16 in", 12.1875, In, 30.95625),
        ("0 cm", 0.0, Cm, 0.0),
    ] {
        let length = Length::read(text).unwrap_or_else(|fault| panic!("{text}: {fault:?}"));
        assert_eq!((length.number, length.unit), (number, Some(unit)), "{text}");
        let got = length.cm().expect("a unit was typed");
        assert!(
            (got - cm).abs() < 1e-12 * cm.max(1.0),
            "{text}: {got} cm, not {cm}"
        );
    }
}

#[test]
fn tenths_of_a_millimetre_reading_are_exact() {
    // 41 mm is 4.1 cm to the last bit, not 4.100000000000001.
    for mm in 0..2000 {
        let length = Length::read(&format!("{mm} mm")).expect("a length");
        let typed: f64 = format!("{}.{}", mm / 10, mm % 10)
            .parse()
            .expect("a number");
        assert_eq!(length.cm(), Some(typed));
    }
}

#[test]
fn a_bare_number_never_gets_a_unit() {
    for (text, number) in [
        ("10", 10.0),
        ("9,6", 9.6),
        ("3 1/2", 3.5),
        ("3½", 3.5),
        ("½", 0.5),
        ("⅓", 1.0 / 3.0),
    ] {
        let length = Length::read(text).expect("a bare number");
        assert_eq!(
            (length.number, length.unit, length.cm()),
            (number, None, None),
            "{text}"
        );
    }
}

#[test]
fn what_is_no_length_is_refused() {
    for (text, fault) in [
        ("", LengthFault::NoNumber),
        ("cm", LengthFault::NoNumber),
        ("big", LengthFault::NoNumber),
        ("~9 cm", LengthFault::NoNumber),
        ("+9 cm", LengthFault::NoNumber),
        (".", LengthFault::NoNumber),
        ("9.6.1 cm", LengthFault::NoNumber),
        ("1.234,5 mm", LengthFault::NoNumber),
        ("inf cm", LengthFault::NoNumber),
        ("NaN", LengthFault::NoNumber),
        ("٩ cm", LengthFault::NoNumber),
        ("9 furlongs", LengthFault::UnknownUnit),
        ("9 ft", LengthFault::UnknownUnit),
        ("9'", LengthFault::UnknownUnit),
        ("9-10 cm", LengthFault::UnknownUnit),
        ("9 cm 5", LengthFault::UnknownUnit),
        ("9 cm cm", LengthFault::UnknownUnit),
        ("1e3 cm", LengthFault::UnknownUnit),
        ("3.5 1/2 in", LengthFault::UnknownUnit),
        ("3.5½ in", LengthFault::UnknownUnit),
        ("3.5/2 in", LengthFault::UnknownUnit),
        ("3 3/2 in", LengthFault::UnknownUnit),
        ("3 1/0 in", LengthFault::UnknownUnit),
        ("3 1/1000 in", LengthFault::UnknownUnit),
        ("0/0 in", LengthFault::NoNumber),
        ("7/2 in", LengthFault::NoNumber),
        ("-4 cm", LengthFault::OutOfRange),
        ("−4 cm", LengthFault::OutOfRange),
        ("100001 cm", LengthFault::OutOfRange),
    ] {
        assert_eq!(Length::read(text), Err(fault), "{text:?}");
    }
    assert_eq!(
        Length::read(&("9".repeat(100_000) + " cm")),
        Err(LengthFault::OutOfRange)
    );
}

/// Pieces lengths are made of, so that random texts come near to them.
const PIECES: &[&str] = &[
    "0", "3", "12", "1/2", "1⁄2", "½", "⅓", "/", ".", ",", "-", "−", " ", "\u{a0}", "cm", "mm",
    "in", "\"", "''", "m", "é", "0/0",
];

proptest! {
    #[test]
    fn any_text_is_a_length_or_a_fault(text in ".*") {
        if let Ok(length) = Length::read(&text) {
            prop_assert!(length.number.is_finite() && length.number >= 0.0);
        }
    }

    #[test]
    fn near_lengths_are_lengths_or_faults(pieces in prop::collection::vec(prop::sample::select(PIECES), 0..7)) {
        if let Ok(length) = Length::read(&pieces.concat()) {
            prop_assert!(length.number.is_finite() && (0.0..=100_000.0).contains(&length.number));
            prop_assert!(length.cm().is_none_or(f64::is_finite));
        }
    }

    #[test]
    fn decimals_are_read_as_written(tenths in 0..100_000u32) {
        let (point, comma) = (format!("{}.{} cm", tenths / 10, tenths % 10), format!("{},{} cm", tenths / 10, tenths % 10));
        let expected: f64 = point.trim_end_matches(" cm").parse().expect("a number");
        prop_assert_eq!(Length::read(&point).expect("a length").cm(), Some(expected));
        prop_assert_eq!(Length::read(&comma).expect("a length").cm(), Some(expected));
    }

    #[test]
    fn inches_and_sixteenths_add_up(whole in 0..500u32, above in 1..16u32) {
        let length = Length::read(&format!("{whole} {above}/16 in")).expect("a length");
        prop_assert_eq!(length.number, f64::from(whole * 16 + above) / 16.0);
    }
}
