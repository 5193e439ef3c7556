//! Why goals or a plan cannot be had, in words.

use crate::analysis::plan::{GoalsError, PlanError, WhyNot};
use crate::wording::{did_you_mean, listed};
use std::fmt::{Display, Formatter, Result};

impl Display for GoalsError {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            GoalsError::NoPlant { code, near } => {
                let near = did_you_mean(
                    "
", near,
                );
                write!(out, "the goals name `{code}`, which is no plant{near}")
            }
            GoalsError::Contradicted(pair) => write!(
                out,
                "the goals say both that {} must be made and that it never may; leave it out of `must` or of `never`",
                pair.join(" × ")
            ),
            GoalsError::OutOfRange { field, most, found } => {
                write!(out, "{field} lies between 0 and {most}; found {found}")
            }
            GoalsError::Zero(field) => write!(out, "{field} must be at least 1"),
            GoalsError::Weight(code) => write!(out, "the weight of `{code}` is no number"),
        }
    }
}

impl Display for PlanError {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            PlanError::Pedigree(error) => error.fmt(out),
            PlanError::Merit(error) => error.fmt(out),
            PlanError::Must { pair, why } => {
                write!(out, "{} must be made, but ", pair.join(" × "))?;
                why_not(out, *why, pair)
            }
            PlanError::NoFounder { species, founders } => write!(
                out,
                "the line of `{species}` is to be kept, but no founder is of it\nthe founders are of {}",
                listed(founders)
            ),
        }
    }
}

fn why_not(out: &mut Formatter, why: WhyNot, [mother, father]: &[String; 2]) -> Result {
    match why {
        WhyNot::OnePlant => "a plant bears one sex only".fmt(out),
        WhyNot::Swapped => write!(out, "{mother} is male and {father} female: swap them"),
        WhyNot::SeedIsMale => write!(out, "{mother} is male"),
        WhyNot::PollenIsFemale => write!(out, "{father} is female"),
        WhyNot::NoFlowers => write!(out, "{mother} is not among the females that flower"),
        WhyNot::NoPollen => write!(
            out,
            "of {father} there is neither pollen in hand nor a male in flower"
        ),
        WhyNot::NeverMeet => "its flowers and pollen do not meet this season".fmt(out),
    }
}
