//! Lengths as typed, with their unit: "9.6 cm", "3 1/2 in", `4"`, "10".
//!
//! A bare number has no unit and is never given one: it is kept, shown and left out of comparisons until the grower adds one.
//! 1 in = 2.54 cm exactly (international yard and pound agreement, 1959; from memory, common knowledge).

/// A unit of length a grower may type.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum LengthUnit {
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Metres.
    M,
    /// Inches.
    In,
}

impl LengthUnit {
    /// Centimetres in one of this unit.
    pub fn cm(self) -> f64 {
        match self {
            LengthUnit::Mm => 0.1,
            LengthUnit::Cm => 1.0,
            LengthUnit::M => 100.0,
            LengthUnit::In => 2.54,
        }
    }

    /// Reads a unit as growers write it.
    pub fn read(word: &str) -> Option<LengthUnit> {
        Some(
            match word.trim().trim_end_matches('.').to_lowercase().as_str() {
                "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => {
                    LengthUnit::Mm
                }
                "cm" | "cms" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => {
                    LengthUnit::Cm
                }
                "m" | "metre" | "metres" | "meter" | "meters" => LengthUnit::M,
                "in" | "ins" | "inch" | "inches" | "\"" | "”" | "“" | "″" | "''" | "’’" => {
                    LengthUnit::In
                }
                _ => return None,
            },
        )
    }
}

/// A length as typed.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Length {
    /// The number in its own unit, never negative.
    pub number: f64,
    /// The unit, when one was typed.
    pub unit: Option<LengthUnit>,
}

/// Why a length could not be read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LengthFault {
    /// No number at the start.
    NoNumber,
    /// A unit that is not known.
    UnknownUnit,
    /// Below zero, or beyond any plant.
    OutOfRange,
}

impl Length {
    /// Longer is no plant.
    pub const GREATEST: f64 = 100_000.0;

    /// In centimetres; `None` when the unit is not known.
    pub fn cm(self) -> Option<f64> {
        self.unit.map(|unit| match unit {
            // Divided, not multiplied, so that 41 mm is 4.1 cm to the last bit.
            LengthUnit::Mm => self.number / 10.0,
            unit => self.number * unit.cm(),
        })
    }

    /// Reads a length: `9.6 cm`, `9,6 cm`, `41 mm`, `4in`, `3 1/2 in`, `3½"`, `10`.
    ///
    /// # Errors
    /// If it does not begin with a number, ends in no known unit, or is below zero or beyond any plant.
    pub fn read(text: &str) -> Result<Length, LengthFault> {
        let text = text.trim();
        if text.starts_with(['-', '−']) {
            return Err(LengthFault::OutOfRange);
        }
        let (number, rest) = number(text).ok_or(LengthFault::NoNumber)?;
        if !(0.0..=Length::GREATEST).contains(&number) {
            return Err(LengthFault::OutOfRange);
        }
        let rest = rest.trim();
        let unit = match rest {
            "" => None,
            word => Some(LengthUnit::read(word).ok_or(LengthFault::UnknownUnit)?),
        };
        Ok(Length { number, unit })
    }
}

/// A whole number, a decimal with point or comma, a fraction, or a whole number and a fraction; and the rest of the
/// text.
fn number(text: &str) -> Option<(f64, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
        .unwrap_or(text.len());
    let (head, rest) = text.split_at(end);
    if head.is_empty() {
        return vulgar(rest);
    }
    let number: f64 = head.replace(',', ".").parse().ok()?;
    if head.contains(['.', ',']) {
        return Some((number, rest));
    }
    if rest.starts_with(SLASHES) {
        return fraction(text);
    }
    let inner = rest.trim_start_matches(|c: char| c.is_whitespace() || c == '-');
    let part = vulgar(inner).or_else(|| fraction(inner));
    Some(part.map_or((number, rest), |(part, rest)| (number + part, rest)))
}

const SLASHES: [char; 2] = ['/', '\u{2044}'];

/// A fraction below one, such as `1/2`; an inch is not divided into more than a hundred parts.
fn fraction(text: &str) -> Option<(f64, &str)> {
    let (above, rest) = digits(text)?;
    let (below, rest) = digits(rest.strip_prefix(SLASHES)?)?;
    ((2.0..=100.0).contains(&below) && above < below).then_some((above / below, rest))
}

fn digits(text: &str) -> Option<(f64, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    let (head, rest) = text.split_at(end);
    head.parse().ok().map(|number: f64| (number, rest))
}

fn vulgar(text: &str) -> Option<(f64, &str)> {
    let mut letters = text.chars();
    let part = match letters.next()? {
        '½' => 0.5,
        '¼' => 0.25,
        '¾' => 0.75,
        '⅛' => 0.125,
        '⅜' => 0.375,
        '⅝' => 0.625,
        '⅞' => 0.875,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        _ => return None,
    };
    Some((part, letters.as_str()))
}
