//! Do the kinds counted among siblings fit a stated ratio such as 3:1?

use crate::analysis::siblings::answer::TraitSummary;
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

/// The counts against the ratio.
#[derive(Clone, Debug, Serialize)]
pub struct RatioAnswer {
    /// The trait.
    pub of: String,
    /// The ratio, such as `3:1`.
    pub ratio: String,
    /// What each part counts.
    pub classes: Vec<String>,
    /// Plants counted in each.
    pub counts: Vec<u64>,
    /// Plants read that belong to none of the parts.
    pub outside: u64,
    /// Plants expected in each.
    pub expected: Vec<f64>,
    /// Probability of counts no more probable than these if the ratio holds.
    pub p: f64,
    /// How it was found.
    pub method: String,
    /// Pearson's chi-square, degrees of freedom, probability.
    pub chi_square: (f64, usize, f64),
    /// The likelihood ratio G and its probability.
    pub g: (f64, f64),
    /// Usual ratios that these counts do not rule out at 5 %.
    pub not_ruled_out: Vec<String>,
}

/// Tests a stated ratio.
///
/// # Errors
/// In words, when the trait was not read, is a measure, or its kinds do not match the parts.
pub fn ratio_answer(traits: &[TraitSummary], wish: &RatioWish) -> Result<RatioAnswer, String> {
    let same = |of: &&TraitSummary| {
        of.code.eq_ignore_ascii_case(wish.of.trim()) || of.name.eq_ignore_ascii_case(wish.of.trim())
    };
    let of = traits.iter().find(same).ok_or_else(|| {
        format!(
            "no sibling has a reading of `{}` that can be compared",
            wish.of
        )
    })?;
    let kinds = of.groups[0]
        .kinds
        .as_ref()
        .ok_or_else(|| format!("{} is a measure; a ratio is of kinds or steps", of.name))?;
    let all: Vec<(String, u64)> = kinds.iter().map(|k| (k.kind.clone(), k.n)).collect();
    let classes = classes(&all, wish)?;
    let counts: Vec<u64> = classes.iter().map(|(_, n)| *n).collect();
    let test = ratio_test(&counts, &wish.parts).map_err(|why| why.to_string())?;
    let exact = test.p() == test.p_exact;
    let not_ruled_out = ratios_not_rejected(&counts, 0.05).unwrap_or_default();
    Ok(RatioAnswer {
        of: of.name.clone(),
        ratio: joined(&wish.parts),
        outside: all.iter().map(|(_, n)| n).sum::<u64>() - counts.iter().sum::<u64>(),
        classes: classes.into_iter().map(|(name, _)| name).collect(),
        p: test.p(),
        method: if exact {
            "exact multinomial"
        } else {
            "chi-square"
        }
        .to_owned(),
        chi_square: (test.chi_square.0, test.df, test.chi_square.1),
        g: test.g,
        expected: test.expected,
        counts,
        not_ruled_out: not_ruled_out
            .iter()
            .map(|(parts, _)| joined(parts))
            .collect(),
    })
}

fn joined(parts: &[u64]) -> String {
    let parts: Vec<String> = parts.iter().map(u64::to_string).collect();
    parts.join(":")
}

fn classes(kinds: &[(String, u64)], wish: &RatioWish) -> Result<Vec<(String, u64)>, String> {
    if wish.classes.is_empty() {
        let seen: Vec<(String, u64)> = kinds.iter().filter(|(_, n)| *n > 0).cloned().collect();
        if kinds.len() == wish.parts.len() {
            return Ok(kinds.to_vec());
        }
        if seen.len() == wish.parts.len() {
            return Ok(seen);
        }
        return Err(format!(
            "{} has {} parts, but {} kinds were seen\nsay what each part counts, in order, such as {}",
            joined(&wish.parts),
            wish.parts.len(),
            seen.len(),
            classes_words(&seen, wish.parts.len())
        ));
    }
    if wish.classes.len() != wish.parts.len() {
        return Err(format!(
            "{} has {} parts, but --class is given {} times; give it once for each part",
            joined(&wish.parts),
            wish.parts.len(),
            wish.classes.len()
        ));
    }
    let mut taken = vec![false; kinds.len()];
    wish.classes
        .iter()
        .map(|names| {
            let mut n = 0;
            for name in names {
                let at = kind_at(kinds, name)?;
                if std::mem::replace(&mut taken[at], true) {
                    return Err(format!("`{name}` stands in two classes"));
                }
                n += kinds[at].1;
            }
            Ok((names.join(" or "), n))
        })
        .collect()
}

/// One way to spread the kinds seen over the parts, as it would be typed.
fn classes_words(seen: &[(String, u64)], parts: usize) -> String {
    let short = |kind: &str| match kind.split_once(' ') {
        Some((step, _)) if step.parse::<u32>().is_ok() => step.to_owned(),
        _ => kind.to_owned(),
    };
    let each = seen.len().div_ceil(parts).max(1);
    let classes = seen.chunks(each).map(|kinds| {
        let kinds: Vec<String> = kinds.iter().map(|(kind, _)| short(kind)).collect();
        format!("--class \"{}\"", kinds.join(","))
    });
    classes.collect::<Vec<_>>().join(" ")
}

/// A kind by its name, a step by its number or anchor.
fn kind_at(kinds: &[(String, u64)], name: &str) -> Result<usize, String> {
    let name = name.trim();
    let is = |kind: &str| {
        let anchor = kind
            .split_once(' ')
            .filter(|(step, _)| step.parse::<u32>().is_ok());
        kind.eq_ignore_ascii_case(name)
            || anchor.is_some_and(|(step, words)| step == name || words.eq_ignore_ascii_case(name))
    };
    kinds.iter().position(|(kind, _)| is(kind)).ok_or_else(|| {
        let known: Vec<&str> = kinds.iter().map(|(kind, _)| kind.as_str()).collect();
        format!("no kind is called `{name}`; declared: {}", known.join(", "))
    })
}
