//! What a tag of so many characters can hold.

use super::error::NameError;
use crate::analysis::evidence::{is_less_than_a_tag, probable_father};
use crate::evidence::{Evidence, Strength, Unit};
use crate::naming::{Fitted, Formula, Rung, Style, Writing, fit};

/// A text for a tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tag {
    /// The text.
    pub text: String,
    /// What was left out.
    pub left_out: Vec<LeftOut>,
}

/// What a tag leaves out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// Something of the formula, as the naming floor words it.
    OfFormula(&'static str),
    /// The whole formula: only the code fits.
    Formula,
    /// That a parent further back is one of several.
    ParentFurtherBack,
    /// How surely all of it is known, which is less than a tag.
    HowSure,
}

/// A version that fits, and whether the formula is left out altogether.
struct Version {
    fitted: Fitted,
    code_only: bool,
}

/// The text of a tag. A father whom stray pollen puts in doubt is called so on the tag itself, where there is room.
///
/// # Errors
/// When not even the code alone fits.
pub(super) fn tag(
    (evidence, unit): (&Evidence, Unit),
    code: (&str, bool),
    (formula, writing, most): (&Formula, &Writing, usize),
) -> Result<Tag, NameError> {
    let doubt = probable_father(evidence, unit);
    let version = |most: usize| version(formula, writing, most, code);
    let with_doubt = most.checked_sub(doubt.chars().count());
    let with_doubt = with_doubt
        .and_then(version)
        .filter(|of| of.fitted.rung != Rung::SeeCode);
    let says_so = with_doubt.is_some();
    let least = code.0.chars().count();
    let version = with_doubt.or_else(|| version(most));
    let version = version.ok_or(NameError::TagTooShort { most, least })?;
    let mut text = version.fitted.text;
    if says_so {
        text.push_str(doubt);
    }
    let of_formula = version.fitted.left_out.into_iter();
    let of_formula = of_formula.map(LeftOut::OfFormula);
    let code_only = version.code_only.then_some(LeftOut::Formula);
    Ok(Tag {
        text,
        left_out: of_formula
            .chain(code_only)
            .chain(of_evidence(evidence, unit))
            .collect(),
    })
}

/// Doubts no tag has room for.
fn of_evidence(evidence: &Evidence, unit: Unit) -> impl Iterator<Item = LeftOut> {
    let further = evidence.further(unit).map(|further| further.strength);
    let several = further == Some(Strength::OneOfSeveral);
    let weak = is_less_than_a_tag(evidence, unit);
    let several = several.then_some(LeftOut::ParentFurtherBack);
    several.into_iter().chain(weak.then_some(LeftOut::HowSure))
}

/// The version for a tag, with the code in front of it where that was asked for and there is room.
fn version(
    formula: &Formula,
    writing: &Writing,
    most: usize,
    (id, coded): (&str, bool),
) -> Option<Version> {
    let front = id.chars().count() + 1;
    let short = (coded && most > front)
        .then(|| fit(formula, writing, most - front, None))
        .flatten();
    let of_formula = |fitted: Fitted| Version {
        fitted,
        code_only: false,
    };
    if let Some(short) = short {
        return Some(of_formula(Fitted {
            text: format!("{} {}", writing.style.written(id), short.text),
            ..short
        }));
    }
    fit(formula, writing, most, Some(id))
        .filter(|short| !coded || short.rung == Rung::SeeCode)
        .map(of_formula)
        .or_else(|| code_alone(id, most, writing.style))
}

fn code_alone(id: &str, most: usize, style: Style) -> Option<Version> {
    (id.chars().count() <= most).then(|| Version {
        fitted: Fitted {
            text: style.written(id),
            rung: Rung::SeeCode,
            left_out: Vec::new(),
        },
        code_only: true,
    })
}
