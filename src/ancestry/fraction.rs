//! One exact fraction, as printed beside a species: "3/8".

use std::fmt;

use num_bigint::BigUint;
use num_integer::Integer;
use num_traits::{One, ToPrimitive};

/// An exact fraction of a plant's descent in lowest terms, 0 to 1.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fraction {
    numerator: BigUint,
    denominator: BigUint,
}

impl Fraction {
    /// The fraction `numerator / denominator`, reduced.
    ///
    /// # Panics
    /// If the denominator is zero.
    pub fn new(numerator: impl Into<BigUint>, denominator: impl Into<BigUint>) -> Self {
        let (numerator, denominator) = (numerator.into(), denominator.into());
        let divisor = numerator.gcd(&denominator);
        assert!(
            denominator != BigUint::ZERO,
            "a fraction needs a denominator"
        );
        Self {
            numerator: numerator / &divisor,
            denominator: denominator / divisor,
        }
    }

    /// The number above the line.
    pub fn numerator(&self) -> &BigUint {
        &self.numerator
    }

    /// The number below the line, at least 1.
    pub fn denominator(&self) -> &BigUint {
        &self.denominator
    }

    /// Whether it is all of the descent.
    pub fn is_whole(&self) -> bool {
        self.numerator.is_one() && self.denominator.is_one()
    }

    /// The nearest number; exact while numerator and denominator fit 53 bits and the denominator is a power of two.
    pub fn as_f64(&self) -> f64 {
        let float = |whole: &BigUint| {
            whole
                .to_f64()
                .expect("a big integer converts to some float")
        };
        float(&self.numerator) / float(&self.denominator)
    }
}

impl fmt::Display for Fraction {
    /// `1/4`; a whole is `1`, nothing is `0`.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.denominator.is_one() {
            write!(out, "{}", self.numerator)
        } else {
            write!(out, "{}/{}", self.numerator, self.denominator)
        }
    }
}

/// Exact fraction as text.
pub fn fraction_text(fraction: &Fraction) -> String {
    if fraction.is_whole() {
        fraction.numerator().to_string()
    } else {
        fraction.to_string()
    }
}
