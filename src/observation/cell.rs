//! What one cell says of a trait: centimetres, a count, a number, a step or a kind, or why it says nothing.

use crate::record::{Length, LengthFault, LengthUnit, MeasuredIn, Reads, Trait, within_reason};

/// Why a cell gives no value.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Misread {
    /// A length without a unit, neither in the cell nor in the heading: it is kept and left out of comparisons.
    UnitUnknown,
    /// No number.
    NoNumber,
    /// A comma before exactly three digits, which one grower reads as thousands and another as decimals.
    ThousandsOrDecimals,
    /// An unknown unit.
    UnknownUnit,
    /// Below zero, or beyond any plant; a length of zero is none.
    NoPlant,
    /// A number larger, or nearer to zero, than any reading.
    OutOfRange,
    /// Not a whole number.
    NotWhole,
    /// Not a step of the scale.
    NoStep,
    /// Not one of the kinds.
    NoKind,
}

/// The value of a cell: centimetres, a count, a number, a step from 1, or the index of a kind from 0.
///
/// A count or step may be written with a fraction of zero (`3.0`, as spreadsheets write it) and a kind in any case.
///
/// # Errors
/// When the cell holds no value of the trait, or a length without a unit.
pub fn value(declared: &Trait, cell: &str, heading: Option<LengthUnit>) -> Result<f64, Misread> {
    match &declared.reads {
        Reads::Length(_) => length(cell, heading),
        Reads::Count => match number(cell)? {
            below if below < 0.0 => Err(Misread::NoPlant),
            count if is_whole(count) => Ok(count),
            _ => Err(Misread::NotWhole),
        },
        Reads::Number => number(cell),
        Reads::Scale(anchors) => {
            let within = 1.0..=anchors.len() as f64;
            let step = number(cell).ok();
            let step = step.filter(|step| is_whole(*step) && within.contains(step));
            step.ok_or(Misread::NoStep)
        }
        Reads::Kinds(kinds) => {
            // Mostly typed as declared; white space and case are looked at only where that fails.
            let as_declared = kinds.iter().position(|kind| **kind == *cell);
            let same = |kind: &&str| kind.eq_ignore_ascii_case(cell.trim());
            let at = as_declared.or_else(|| kinds.iter().position(same));
            at.map(|at| at as f64).ok_or(Misread::NoKind)
        }
    }
}

/// A value as [`value`] gives it, in the unit the trait is declared in: centimetres become millimetres or inches.
pub fn in_own_unit(reads: &Reads, value: f64) -> f64 {
    match reads {
        Reads::Length(MeasuredIn::Mm) => value * 10.0,
        Reads::Length(MeasuredIn::In) => value / LengthUnit::In.cm(),
        _ => value,
    }
}

/// A cell with the unit of its heading where it is a bare number: `3.77` under `span in` is `3.77 in`.
pub fn with_unit(cell: &str, heading: Option<LengthUnit>) -> String {
    let bare = Length::read(cell).is_ok_and(|length| length.unit.is_none());
    match heading.filter(|_| bare) {
        Some(unit) => format!("{} {unit}", cell.trim()),
        None => cell.to_owned(),
    }
}

/// Whether a number has no fraction; a call of the platform's `trunc` would cost more than the rest of a reading.
fn is_whole(number: f64) -> bool {
    number == (number as i64) as f64 || number.fract() == 0.0
}

fn length(cell: &str, heading: Option<LengthUnit>) -> Result<f64, Misread> {
    let length = match decimal(cell) {
        Some(number) if number <= Length::GREATEST => Length { number, unit: None },
        _ if is_thousands_or_decimals(cell) => return Err(Misread::ThousandsOrDecimals),
        _ => Length::read(cell).map_err(|fault| match fault {
            LengthFault::NoNumber => Misread::NoNumber,
            LengthFault::UnknownUnit => Misread::UnknownUnit,
            LengthFault::OutOfRange => Misread::NoPlant,
        })?,
    };
    if length.number == 0.0 {
        return Err(Misread::NoPlant);
    }
    let unit = length.unit.or(heading);
    Length { unit, ..length }.cm().ok_or(Misread::UnitUnknown)
}

fn number(cell: &str) -> Result<f64, Misread> {
    let number = match decimal(cell) {
        Some(number) => number,
        None if is_thousands_or_decimals(cell) => return Err(Misread::ThousandsOrDecimals),
        None => {
            let text = cell.trim().replace(',', ".");
            // The parser of floats also takes the words `inf` and `nan`.
            let number = text.parse::<f64>().ok().filter(|number| !number.is_nan());
            number
                .filter(|_| text.contains(|c: char| c.is_ascii_digit()))
                .ok_or(Misread::NoNumber)?
        }
    };
    if within_reason(number) {
        Ok(number)
    } else {
        Err(Misread::OutOfRange)
    }
}

/// Whether a text begins with digits such as `1,200` or `12,500`: as thousands and as decimals it is a number, and the
/// two differ a thousandfold. `0,125` can only be decimals.
fn is_thousands_or_decimals(cell: &str) -> bool {
    let Some((head, rest)) = cell.trim_start().split_once(',') else {
        return false;
    };
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    let whole = head.bytes().all(|byte| byte.is_ascii_digit());
    whole && (1..=3).contains(&head.len()) && !head.starts_with('0') && digits == 3
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
    let mut comma = false;
    if cell.len() > TENS.len() {
        return None;
    }
    for byte in cell.bytes() {
        match byte {
            b'0'..=b'9' => {
                digits = 10 * digits + u64::from(byte - b'0');
                count += 1;
            }
            b'.' | b',' if whole.is_none() => (whole, comma) = (Some(count), byte == b','),
            _ => return None,
        }
    }
    let after = count - whole.unwrap_or(count);
    // Three digits after a comma may be thousands.
    ((1..TENS.len()).contains(&count) && !(comma && after == 3))
        .then(|| digits as f64 / TENS[after])
}
