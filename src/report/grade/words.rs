//! What is said of sorted siblings in words: classes, cautions, and why they cannot be sorted.

use crate::analysis::grade::{Caution, Gone, GradeError};
use crate::report::as_text::{in_words, serialize_as_text};
use crate::report::caution::{Weighed, Weight, not_counted};
use crate::statistics::classes::{FEWEST, Standing, Third};
use crate::wording::{age, counted, days, listed};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Standing, Gone, Caution);

in_words!(Standing {
    Standing::Unread => "unread",
    Standing::Unclassed => "not classed",
    Standing::Classed(third) => match third {
        Third::Fast => "fast",
        Third::Medium => "medium",
        Third::Slow => "slow",
    },
});

in_words!(Gone {
    Gone::Fate(words) => words,
    Gone::NotHere => "not here any more",
});

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::Reading(_)
            | Caution::TooFew(_)
            | Caution::Pests(_)
            | Caution::NoPotting
            | Caution::VagueDay(_)
            | Caution::OtherMethodBefore { .. }
            | Caution::NoTies { .. } => Weight::Answer,
            Caution::MixedUp(_) | Caution::LeftOut { .. } => Weight::LeftOut,
            Caution::WithinOneAge(_) | Caution::GoneCounted(_) | Caution::OtherAges(_) => {
                Weight::General
            }
        }
    }
}

impl Display for Caution {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Caution::Reading(words) => f.write_str(words),
            Caution::WithinOneAge(id) => {
                write!(f, "fast, medium and slow hold within {id} at this age only")
            }
            Caution::TooFew(read) => write!(
                f,
                "{} read: too few to class, {FEWEST} needed",
                counted(*read, "plant", "plants")
            ),
            Caution::GoneCounted(n) => write!(
                f,
                "{} no longer here: counted when the siblings are divided into thirds, but not in advice or ties",
                counted(*n, "plant is", "plants are")
            ),
            Caution::Pests(plant) => write!(
                f,
                "{plant}: pests seen that day; not to be culled for its size"
            ),
            Caution::NoPotting => f.write_str(
                "no potting before this reading on record: siblings potted on at different times are not alike in age only",
            ),
            Caution::OtherMethodBefore { n } => write!(
                f,
                "growth of {} is since a reading by another method, and may come from that",
                counted(*n, "plant", "plants")
            ),
            Caution::MixedUp(n) => f.write_str(&not_counted(*n)),
            Caution::LeftOut { here, elsewhere } => {
                let words = here.words_beside(elsewhere).unwrap_or_default();
                write!(f, "left out: {words}")
            }
            Caution::OtherAges(n) => {
                write!(f, "read at {} too", counted(*n, "other age", "other ages"))
            }
            Caution::VagueDay(when) => write!(f, "the sitting's day is a range: {}", days(*when)),
            Caution::NoTies { name, code } => write!(
                f,
                "how far apart two readings of one plant lie is not stated for {name}: no ties are marked; write `tied_within` on the trait {code} in registry.ron, or say --tied-within"
            ),
        }
    }
}

impl Display for GradeError {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            GradeError::Scope(words) => f.write_str(words),
            GradeError::Trait(why) => write!(f, "{why}"),
            GradeError::NotAMeasure(name) => write!(
                f,
                "{name} is not a measure; fast and slow need one such as leaf span"
            ),
            GradeError::NotSown(id) => write!(
                f,
                "{id} has no sowing on record; fast and slow hold within one sowing only"
            ),
            GradeError::SownOften { id, sowings } => write!(
                f,
                "{id} was sown {}; fast and slow hold within one sowing only\nname one of {}",
                match sowings.len() {
                    2 => "twice".to_owned(),
                    times => format!("{times} times"),
                },
                listed(sowings)
            ),
            GradeError::NeverRead(name) => {
                write!(f, "no sibling has a reading of {name} that can be used")
            }
            GradeError::NotReadAt { months, read_at } => {
                let exactly = |months: f64| age((months, months));
                let told = read_at.iter().copied().map(exactly);
                write!(
                    f,
                    "no plant was read at {}, and podbook does not extrapolate to an age without readings\nages with readings: {}",
                    exactly(*months),
                    listed(told)
                )
            }
        }
    }
}
