//! Exact fractions for slow twins.

use num_bigint::BigInt;
use num_rational::Ratio;
use num_traits::{One, ToPrimitive, Zero};

pub type Rational = Ratio<BigInt>;

pub fn ratio(numerator: i64, denominator: i64) -> Rational {
    Ratio::new(BigInt::from(numerator), BigInt::from(denominator))
}

/// Reads "3/8" or "2".
pub fn parse(text: &str) -> Rational {
    let (numerator, denominator) = text.split_once('/').unwrap_or((text, "1"));
    Ratio::new(numerator.parse().unwrap(), denominator.parse().unwrap())
}

/// The nearest float where numerator and denominator are floats exactly.
pub fn float(value: &Rational) -> f64 {
    value.numer().to_f64().unwrap() / value.denom().to_f64().unwrap()
}

pub fn zero() -> Rational {
    Rational::zero()
}

pub fn one() -> Rational {
    Rational::one()
}
