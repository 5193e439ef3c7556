//! What merit assumes, what was left out, and why it cannot be predicted, in words.

use crate::analysis::merit::{
    Caution, LEAST_AGES, LEAST_PODS, LEAST_READINGS, MeritError, MeritSource, TraitAssumed,
    WhyLeftOut,
};
use crate::report::as_text::{in_words, serialize_as_text};
use crate::report::caution::{Weighed, Weight};
use crate::wording::counted;
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Caution, MeritSource, TraitAssumed);

in_words!(MeritSource {
    MeritSource::Readings => "readings",
    MeritSource::Offspring => "offspring",
    MeritSource::Pod => "pod",
    MeritSource::Species => "species",
});

impl Display for TraitAssumed {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let p = &self.parts;
        write!(out, "{}: heritability {:.2} (", self.name, p.heritability)?;
        match self.heritability_limits {
            Some((low, high)) => write!(out, "estimated, 95 % limits {low:.2} to {high:.2}")?,
            None => out.write_str("stated, not measured")?,
        }
        let rest = 1.0 - p.heritability - p.permanent - p.sitting - p.pod;
        write!(
            out,
            "), permanent {:.2}, sitting {:.2}, pod {:.2}, error of a reading {rest:.2}",
            p.permanent, p.sitting, p.pod
        )?;
        if !self.at_an_age {
            out.write_str(
                "; plants of all ages together, since most of these readings have no age",
            )?;
        }
        match self.left_out.total() {
            0 => Ok(()),
            _ => write!(out, "; left out {}", self.left_out.words()),
        }
    }
}

impl Display for WhyLeftOut {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let plants = |n: &usize| counted(*n, "plant", "plants");
        match self {
            WhyLeftOut::OneCross(n) => write!(
                out,
                "{}: one cross only was read, and its parents cannot be told apart from its mean",
                plants(n)
            ),
            WhyLeftOut::MeanOfAll(n) => write!(
                out,
                "{}: what was read of their relatives cannot be told apart from the mean of all",
                plants(n)
            ),
            WhyLeftOut::NoReadRelative(n) => write!(
                out,
                "{} without any read relative: nothing is known of {}",
                plants(n),
                if *n == 1 { "it" } else { "them" }
            ),
        }
    }
}

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::ByTheMean(_) | Caution::Doubtful(_) => Weight::Answer,
            Caution::Doubt(_) | Caution::ParentsAsRight(_) => Weight::Doubt,
            Caution::Trait(of) if of.left_out.total() == 0 => Weight::General,
            Caution::LeftOut(_) | Caution::Trait(_) => Weight::LeftOut,
            Caution::Error { .. } | Caution::Chances | Caution::Independent | Caution::Meaning => {
                Weight::General
            }
        }
    }
}

impl Display for Caution {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            Caution::Trait(assumed) => assumed.fmt(out),
            Caution::ByTheMean(plants) => write!(
                out,
                "{} known only by the mean of the pod or the species (column “known by”): measure them before you choose among them",
                counted(*plants, "plant is", "plants are")
            ),
            Caution::LeftOut(why) => write!(out, "left out: {why}"),
            Caution::Doubt(words) | Caution::Doubtful(words) => out.write_str(words),
            Caution::ParentsAsRight(words) => write!(out, "merit holds {words}"),
            Caution::Error { log_scale } => {
                "± is one standard error of the difference from the mean of the plants here".fmt(out)?;
                match log_scale {
                    true => "; for a length it is computed on the log scale, so its two limits are not equally far from the merit".fmt(out),
                    false => Ok(()),
                }
            }
            Caution::Chances => "the chance to be better than another plant comes from the error of the difference of the two, not from their two errors: what they share cancels".fmt(out),
            Caution::Independent => "errors of the index and chances take the traits as independent".fmt(out),
            Caution::Meaning => "merit is twice what a plant is expected to pass on: a seedling is expected at the mean of its parents' merits, and siblings differ".fmt(out),
        }
    }
}

impl Display for MeritError {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            MeritError::Pedigree(error) => error.fmt(out),
            MeritError::Singular(error) => error.fmt(out),
            MeritError::Unsolvable(error) => error.fmt(out),
            MeritError::UnknownTrait {
                name,
                near,
                declared,
            } => {
                write!(out, "there is no trait `{name}`; ")?;
                match near.is_empty() {
                    true => write!(out, "declared: {}", declared.join(", ")),
                    false => write!(out, "did you mean {}?", near.join(" or ")),
                }
            }
            MeritError::ZeroWeight(code) => write!(
                out,
                "the weight of `{code}` is 0, so it would count for nothing; leave the trait out or give it another weight"
            ),
            MeritError::NamedTwice(code) => write!(
                out,
                "the trait `{code}` is named twice; name it once, with one weight"
            ),
            MeritError::Unordered(code) => write!(
                out,
                "`{code}` is read in kinds without order, so no plant can be better in it; choose a measure or a scale"
            ),
            MeritError::NothingRead { code, left_out } => {
                write!(out, "nothing comparable was read of `{code}`")?;
                if left_out.total() > 0 {
                    write!(out, " (left out: {})", left_out.words())?;
                }
                match left_out.age_unknown {
                    0 => Ok(()),
                    _ => "; plants are compared at an age, so write down when they were sown and when they were read, to a month"
                        .fmt(out),
                }
            }
            MeritError::AllTheSame(code) => write!(
                out,
                "all readings of `{code}` are equal, so the plants cannot be told apart"
            ),
            MeritError::NothingLeft(code) => write!(
                out,
                "`{code}` has too few readings, or age explains all of the difference, so the plants cannot be told apart"
            ),
            MeritError::PartsTooLarge => {
                "heritability and the other parts must sum to less than 1".fmt(out)
            }
            MeritError::TooFew { pods, readings } => write!(
                out,
                "heritability is not estimated from {} and {}: at least {LEAST_PODS} pods and {LEAST_READINGS} readings are needed, since fewer estimate it worse than any value from 0.2 to 0.65 stated beforehand; state one with --heritability",
                counted(*pods, "pod", "pods"),
                counted(*readings, "reading", "readings"),
            ),
            MeritError::TooFewAges(ages) => {
                "heritability is not estimable from these ages: ".fmt(out)?;
                match ages {
                    0 => "most have no age".fmt(out)?,
                    n => write!(out, "they are of {}", counted(*n, "age", "ages"))?,
                }
                write!(
                    out,
                    ", and at least {LEAST_AGES} are needed to tell growth from what a plant inherits; state one with --heritability"
                )
            }
            MeritError::NotInherited { code, most } => write!(
                out,
                "heritability of `{code}` is estimated as 0.00 (95 % limits 0.00 to {most:.2}), so there is no genetic SD to count its merit in; leave the trait out, or state one with --heritability"
            ),
        }
    }
}
