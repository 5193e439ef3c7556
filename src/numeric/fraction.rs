//! One exact fraction, as printed beside a species: "3/8", a whole "1", nothing "0".

use num_bigint::BigUint;
use num_rational::Ratio;
use num_traits::ToPrimitive;

/// An exact fraction in lowest terms, in whole numbers of some width.
pub type Fraction<W = BigUint> = Ratio<W>;

/// The nearest number; exact while numerator and denominator fit 53 bits and the denominator is a power of two.
pub fn nearest<W: ToPrimitive>(fraction: &Fraction<W>) -> f64 {
    let float = |whole: &W| whole.to_f64().expect("a whole number converts to a float");
    float(fraction.numer()) / float(fraction.denom())
}
