//! What is said of siblings in words: whose figures they are, how they were tested, cautions, and why there is no answer.

use crate::analysis::siblings::{
    AgeRead, BothAges, Caution, Ratio, RatioClass, RatioError, RatioTest, SiblingsError, TestedBy,
    UnknownTrait, Which,
};
use crate::report::as_text::{in_words, serialize_as_text};
use crate::report::caution::{Weighed, Weight, not_counted};
use crate::report::unlike::unlike_words;
use crate::wording::{age, bare_age, joined};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(
    Which, TestedBy, Ratio, RatioClass, RatioTest, BothAges, Caution
);

in_words!(Which {
    Which::All => "all",
    Which::Pod(code) => code,
});

in_words!(TestedBy {
    TestedBy::Ranks { exact: true } => "Kruskal–Wallis, exact",
    TestedBy::Ranks { exact: false } => "Kruskal–Wallis",
    TestedBy::Counts => "Fisher's exact test",
});

impl Display for Ratio {
    fn fmt(&self, f: &mut Formatter) -> Result {
        let parts = self.0.iter().map(u64::to_string);
        f.write_str(&joined(parts, ":"))
    }
}

impl Display for RatioClass {
    fn fmt(&self, f: &mut Formatter) -> Result {
        f.write_str(&self.0.join(" or "))
    }
}

in_words!(RatioTest {
    RatioTest::ExactMultinomial => "exact multinomial",
    RatioTest::ChiSquare => "chi-square",
});

/// `20.0 months`, `20.0; 31.5 months`.
impl Display for BothAges {
    fn fmt(&self, f: &mut Formatter) -> Result {
        let words = |of: &AgeRead| match of {
            AgeRead::Months(least, most) => age((*least, *most)),
            AgeRead::Days(words) => words.clone(),
        };
        let (first, second) = (words(&self.0), words(&self.1));
        match &self.0 {
            _ if first == second => f.write_str(&first),
            AgeRead::Months(least, most) => {
                write!(f, "{}; {second}", bare_age((*least, *most)))
            }
            AgeRead::Days(first) => write!(f, "{first}; {second}"),
        }
    }
}

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::Doubt(_) | Caution::Names(_) => Weight::Doubt,
            Caution::PodsUnlike(_) => Weight::Answer,
            Caution::Muddled(_) | Caution::NothingLeft { .. } => Weight::LeftOut,
        }
    }
}

impl Display for Caution {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Caution::PodsUnlike(circumstances) => {
                f.write_str(&unlike_words("the pods", circumstances.iter()).unwrap_or_default())
            }
            Caution::Muddled(n) => f.write_str(&not_counted(*n)),
            Caution::NothingLeft { name, left_out } => write!(
                f,
                "{name}: nothing to compare; left out: {}",
                left_out.words()
            ),
            Caution::Doubt(words) => f.write_str(words),
            Caution::Names(taken) => f.write_str(&taken.behind_a_formula()),
        }
    }
}

impl Display for UnknownTrait {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match &self.declared[..] {
            [] => f.write_str(
                "no trait is declared; declare what you read under `traits` in registry.ron",
            ),
            codes => write!(
                f,
                "no declared trait is called `{}`\ndeclared in registry.ron: {}",
                self.name,
                codes.join(", ")
            ),
        }
    }
}

impl Display for SiblingsError {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            SiblingsError::Scope(words) => f.write_str(words),
            SiblingsError::Trait(why) => write!(f, "{why}"),
            SiblingsError::Ratio(why) => write!(f, "{why}"),
        }
    }
}

impl Display for RatioError {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            RatioError::NeverRead(of) => {
                write!(f, "no sibling has a reading of `{of}` that can be compared")
            }
            RatioError::Measure(name) => {
                write!(f, "{name} is a measure; a ratio is of kinds or steps")
            }
            RatioError::OtherKinds {
                ratio,
                seen,
                example,
            } => {
                let example = example.iter().map(|kinds| kinds.join(","));
                let example = example.map(|kinds| format!("--class \"{kinds}\""));
                write!(
                    f,
                    "{ratio} has {} parts, but {seen} kinds were seen\nsay what each part counts, in order, such as {}",
                    ratio.0.len(),
                    joined(example, " ")
                )
            }
            RatioError::OtherClasses { ratio, given } => write!(
                f,
                "{ratio} has {} parts, but --class is given {given} times; give it once for each part",
                ratio.0.len()
            ),
            RatioError::InTwoClasses(name) => write!(f, "`{name}` stands in two classes"),
            RatioError::UnknownKind { name, declared } => write!(
                f,
                "no kind is called `{name}`; declared: {}",
                declared.join(", ")
            ),
            RatioError::NoFigure(why) => write!(f, "{why}"),
        }
    }
}
