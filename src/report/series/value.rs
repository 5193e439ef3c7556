//! What one cell says of a trait: centimetres, a count, a number, a step or a kind, or why it says nothing.

use crate::record::{Length, LengthUnit, Reads, Trait, within_reason};

/// Why a cell gives no value.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoValue {
    /// A length without a unit.
    UnitUnknown,
    /// Not a value of the trait.
    NotAValue,
}

/// The value of a cell: centimetres, a count, a number, a step from 1, or the index of a kind.
///
/// # Errors
/// When the cell holds no value of the trait, or a length without a unit.
pub fn value(declared: &Trait, cell: &str, heading: Option<LengthUnit>) -> Result<f64, NoValue> {
    let value = match &declared.reads {
        Reads::Length(_) => return length(cell, heading),
        Reads::Count => number(cell).filter(|n| *n >= 0.0 && is_whole(*n)),
        Reads::Number => number(cell),
        Reads::Scale(anchors) => {
            let within = 1.0..=anchors.len() as f64;
            number(cell).filter(|step| is_whole(*step) && within.contains(step))
        }
        Reads::Kinds(kinds) => {
            // Mostly typed as declared; white space and case are looked at only where that fails.
            let as_declared = kinds.iter().position(|kind| **kind == *cell);
            let same = |kind: &&str| kind.eq_ignore_ascii_case(cell.trim());
            let at = as_declared.or_else(|| kinds.iter().position(same));
            at.map(|at| at as f64)
        }
    };
    value.ok_or(NoValue::NotAValue)
}

/// Whether a number has no fraction; a call of the platform's `trunc` would cost more than the rest of a reading.
fn is_whole(number: f64) -> bool {
    number == (number as i64) as f64 || number.fract() == 0.0
}

fn length(cell: &str, heading: Option<LengthUnit>) -> Result<f64, NoValue> {
    let length = match decimal(cell) {
        Some(number) if number <= Length::GREATEST => Length { number, unit: None },
        _ => Length::read(cell).map_err(|_| NoValue::NotAValue)?,
    };
    let unit = length.unit.or(heading);
    Length { unit, ..length }.cm().ok_or(NoValue::UnitUnknown)
}

fn number(cell: &str) -> Option<f64> {
    let number = decimal(cell).or_else(|| {
        let text = cell.trim().replace(',', ".");
        text.parse::<f64>().ok()
    });
    number.filter(|number| within_reason(*number))
}

/// Powers of ten that a float holds exactly, as far as needed.
const TENS: [f64; 16] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
];

/// A plain decimal such as `6`, `6.4` or `6,4`; `None` for anything else, which is then read the long way.
///
/// Of at most fifteen digits, so that the digits and the power of ten are exact floats and their quotient is rounded
/// once: the same float as the standard parser's, which thousands of readings need not wait for.
fn decimal(cell: &str) -> Option<f64> {
    let (mut digits, mut count, mut whole) = (0u64, 0, None);
    if cell.len() > TENS.len() {
        return None;
    }
    for byte in cell.bytes() {
        match byte {
            b'0'..=b'9' => {
                digits = 10 * digits + u64::from(byte - b'0');
                count += 1;
            }
            b'.' | b',' if whole.is_none() => whole = Some(count),
            _ => return None,
        }
    }
    let after = count - whole.unwrap_or(count);
    (1..TENS.len())
        .contains(&count)
        .then(|| digits as f64 / TENS[after])
}
