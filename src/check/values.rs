//! One cell of a sitting read by its trait: the value, or why there is none.

use crate::record::{Length, LengthFault, LengthUnit, MeasuredIn, Reads, within_reason};
use crate::text::nearest;

/// A value that was read.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Value {
    /// A number, in the unit the trait is measured in.
    Number(f64),
    /// A step of a scale or one of its kinds, which has no bounds of its own.
    Choice,
    /// A length without a unit: kept, and left out of comparisons.
    Bare,
}

/// Why a cell gives no value.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Misread {
    /// No number.
    NoNumber,
    /// A unit nobody knows.
    UnknownUnit,
    /// Below zero, or beyond any plant.
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

/// Reads a cell; `unit` is that of the column's heading.
pub(super) fn read(cell: &str, reads: &Reads, unit: Option<LengthUnit>) -> Result<Value, Misread> {
    let cell = cell.trim();
    match reads {
        Reads::Length(measured_in) => length(cell, *measured_in, unit),
        Reads::Count => match cell.parse::<u32>() {
            Ok(count) if within_reason(f64::from(count)) => Ok(Value::Number(f64::from(count))),
            Ok(_) => Err(Misread::OutOfRange),
            Err(_) if number(cell).is_some() => Err(Misread::NotWhole),
            Err(_) => Err(Misread::NoNumber),
        },
        Reads::Number => match number(cell) {
            Some(number) if within_reason(number) => Ok(Value::Number(number)),
            Some(_) => Err(Misread::OutOfRange),
            None => Err(Misread::NoNumber),
        },
        Reads::Scale(anchors) => match cell.parse::<usize>() {
            Ok(step) if (1..=anchors.len()).contains(&step) => Ok(Value::Choice),
            _ => Err(Misread::NoStep),
        },
        Reads::Kinds(kinds) if kinds.contains(&cell) => Ok(Value::Choice),
        Reads::Kinds(_) => Err(Misread::NoKind),
    }
}

fn length(
    cell: &str,
    measured_in: MeasuredIn,
    heading: Option<LengthUnit>,
) -> Result<Value, Misread> {
    let length = match plain(cell) {
        Some(number) => Length { number, unit: None },
        None => Length::read(cell).map_err(|fault| match fault {
            LengthFault::NoNumber => Misread::NoNumber,
            LengthFault::UnknownUnit => Misread::UnknownUnit,
            LengthFault::OutOfRange => Misread::NoPlant,
        })?,
    };
    let unit = length.unit.or(heading);
    let Some(cm) = (Length { unit, ..length }).cm() else {
        return Ok(Value::Bare);
    };
    Ok(Value::Number(match measured_in {
        MeasuredIn::Mm => cm * 10.0,
        MeasuredIn::Cm => cm,
        MeasuredIn::In => cm / 2.54,
    }))
}

/// Digits with at most one point, the commonest cell.
fn plain(cell: &str) -> Option<f64> {
    let digits = |byte: u8| byte.is_ascii_digit() || byte == b'.';
    let starts = cell.starts_with(|c: char| c.is_ascii_digit());
    let short = starts && cell.len() <= 5 && cell.bytes().all(digits);
    short.then(|| cell.parse().ok()).flatten()
}

/// A number with point or comma.
fn number(cell: &str) -> Option<f64> {
    let number: f64 = match cell.parse() {
        Ok(number) => number,
        Err(_) => cell.replacen(',', ".", 1).parse().ok()?,
    };
    number.is_finite().then_some(number)
}

/// The unit a length's misspelt unit may mean.
pub(super) fn unit_meant(text: &str) -> Vec<&'static str> {
    let unit = text.trim_start_matches(|c: char| !c.is_alphabetic());
    nearest(unit, ["mm", "cm", "m", "in", "inches"])
}
