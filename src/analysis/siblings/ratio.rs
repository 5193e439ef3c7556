//! Do the kinds counted among siblings fit a stated ratio such as 3:1?

use crate::analysis::siblings::groups::KindCount;
use crate::analysis::siblings::summary::TraitSummary;
use crate::statistics::StatisticsError;
use crate::statistics::ratios::ratios_not_rejected;
use crate::statistics::segregation::ratio_test;
use serde::Serialize;

/// The ratio stated.
#[derive(Clone, Debug)]
pub struct RatioWish {
    /// Whole parts, such as 3 and 1.
    pub parts: Vec<u64>,
    /// Code or name of the trait.
    pub of: String,
    /// Kinds or steps that stand together, in the order of the parts; empty to take the kinds as declared.
    pub classes: Vec<Vec<String>>,
}

/// Whole parts, written `3:1`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Ratio(pub Vec<u64>);

/// Kinds or steps that one part of a ratio counts.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct RatioClass(pub Vec<String>);

/// How the probability of the counts was found.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum RatioTest {
    /// All counts no more probable summed up.
    ExactMultinomial,
    /// Pearson's chi-square.
    ChiSquare,
}

/// The counts against the ratio.
#[derive(Clone, Debug, Serialize)]
pub struct RatioAnswer {
    /// The trait.
    pub of: String,
    /// The ratio.
    pub ratio: Ratio,
    /// What each part counts.
    pub classes: Vec<RatioClass>,
    /// Plants counted in each.
    pub counts: Vec<u64>,
    /// Plants read that belong to none of the parts.
    pub outside: u64,
    /// Plants expected in each.
    pub expected: Vec<f64>,
    /// Probability of counts no more probable than these if the ratio holds.
    pub p: f64,
    /// How it was found.
    pub method: RatioTest,
    /// Pearson's chi-square, degrees of freedom, probability.
    pub chi_square: (f64, usize, f64),
    /// The likelihood ratio G and its probability.
    pub g: (f64, f64),
    /// Usual ratios that these counts do not rule out at 5 %.
    pub not_ruled_out: Vec<Ratio>,
}

/// Why a ratio cannot be tested.
#[derive(Clone, PartialEq, Debug)]
pub enum RatioError {
    /// No sibling has a reading of the trait: the trait as typed.
    NeverRead(String),
    /// The trait is a measure: its name.
    Measure(String),
    /// As many kinds were seen as the ratio has no parts for.
    OtherKinds {
        /// The ratio.
        ratio: Ratio,
        /// Kinds seen.
        seen: usize,
        /// One way to spread those over the parts.
        example: Vec<Vec<String>>,
    },
    /// Not as many classes as parts.
    OtherClasses {
        /// The ratio.
        ratio: Ratio,
        /// Classes given.
        given: usize,
    },
    /// A kind in two classes: as typed.
    InTwoClasses(String),
    /// A name that no kind has.
    UnknownKind {
        /// As typed.
        name: String,
        /// The kinds there are.
        declared: Vec<String>,
    },
    /// A figure cannot be worked out.
    NoFigure(StatisticsError),
}

/// Tests a stated ratio.
///
/// # Errors
/// When the trait was not read, is a measure, or its kinds do not match the parts.
pub fn ratio_answer(traits: &[TraitSummary], wish: &RatioWish) -> Result<RatioAnswer, RatioError> {
    let same = |of: &&TraitSummary| {
        of.code.eq_ignore_ascii_case(wish.of.trim()) || of.name.eq_ignore_ascii_case(wish.of.trim())
    };
    let of = traits
        .iter()
        .find(same)
        .ok_or_else(|| RatioError::NeverRead(wish.of.clone()))?;
    let kinds = of.groups[0].kinds.as_deref();
    let kinds = kinds.ok_or_else(|| RatioError::Measure(of.name.clone()))?;
    let (classes, counts): (Vec<RatioClass>, Vec<u64>) = classes(kinds, wish)?.into_iter().unzip();
    let test = ratio_test(&counts, &wish.parts).map_err(RatioError::NoFigure)?;
    let not_ruled_out = ratios_not_rejected(&counts, 0.05).unwrap_or_default();
    Ok(RatioAnswer {
        of: of.name.clone(),
        ratio: Ratio(wish.parts.clone()),
        outside: kinds.iter().map(|kind| kind.n).sum::<u64>() - counts.iter().sum::<u64>(),
        classes,
        p: test.p(),
        method: match test.p() == test.p_exact {
            true => RatioTest::ExactMultinomial,
            false => RatioTest::ChiSquare,
        },
        chi_square: (test.chi_square.0, test.df, test.chi_square.1),
        g: test.g,
        expected: test.expected,
        counts,
        not_ruled_out: not_ruled_out
            .into_iter()
            .map(|(parts, _)| Ratio(parts))
            .collect(),
    })
}

/// What each part counts, and how many plants.
fn classes(kinds: &[KindCount], wish: &RatioWish) -> Result<Vec<(RatioClass, u64)>, RatioError> {
    let ratio = || Ratio(wish.parts.clone());
    let parts = wish.parts.len();
    if wish.classes.is_empty() {
        let seen: Vec<&KindCount> = kinds.iter().filter(|kind| kind.n > 0).collect();
        let one = |kind: &KindCount| (RatioClass(vec![kind.kind.clone()]), kind.n);
        if kinds.len() == parts {
            return Ok(kinds.iter().map(one).collect());
        }
        if seen.len() == parts {
            return Ok(seen.into_iter().map(one).collect());
        }
        return Err(RatioError::OtherKinds {
            ratio: ratio(),
            seen: seen.len(),
            example: spread_over(&seen, parts),
        });
    }
    if wish.classes.len() != parts {
        return Err(RatioError::OtherClasses {
            ratio: ratio(),
            given: wish.classes.len(),
        });
    }
    let mut taken = vec![false; kinds.len()];
    wish.classes
        .iter()
        .map(|names| {
            let mut n = 0;
            for name in names {
                let at = kind_at(kinds, name)?;
                if std::mem::replace(&mut taken[at], true) {
                    return Err(RatioError::InTwoClasses(name.clone()));
                }
                n += kinds[at].n;
            }
            Ok((RatioClass(names.clone()), n))
        })
        .collect()
}

/// One way to spread the kinds seen over the parts, each kind as it would be typed.
fn spread_over(seen: &[&KindCount], parts: usize) -> Vec<Vec<String>> {
    let typed = |kind: &&KindCount| match kind.step {
        Some(step) => step.to_string(),
        None => kind.kind.clone(),
    };
    let each = seen.len().div_ceil(parts).max(1);
    seen.chunks(each)
        .map(|kinds| kinds.iter().map(typed).collect())
        .collect()
}

/// A kind by its name, a step by its number, its anchor or both.
fn kind_at(kinds: &[KindCount], name: &str) -> Result<usize, RatioError> {
    let name = name.trim();
    let is = |kind: &KindCount| {
        let of_step = |step: usize| {
            let with_anchor = format!("{step} {name}");
            step.to_string() == name || kind.kind.eq_ignore_ascii_case(&with_anchor)
        };
        kind.kind.eq_ignore_ascii_case(name) || kind.step.is_some_and(of_step)
    };
    kinds
        .iter()
        .position(is)
        .ok_or_else(|| RatioError::UnknownKind {
            name: name.to_owned(),
            declared: kinds.iter().map(|kind| kind.kind.clone()).collect(),
        })
}
