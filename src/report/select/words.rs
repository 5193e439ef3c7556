//! What is said of a proposal in words: reasons, levels, cautions, and why there is none.

use crate::analysis::select::{
    Behind, Caution, Cohort, Gap, Levels, Missed, Needed, Places, Quota, ReadAt, Reason,
    SelectError, Standing,
};
use crate::observation::parent_of::ParentOf;
use crate::observation::trait_unit::TraitUnit;
use crate::report::as_text::serialize_as_text;
use crate::report::caution::{Weighed, Weight, not_counted};
use crate::statistics::culling::Level;
use crate::wording::{each_once, joined, listed};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Reason, Levels, Needed, ReadAt, Caution);

impl Display for Reason {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Reason::SmallCross(n) => write!(f, "small cross of {n}, kept whole"),
            Reason::Marked(None) => f.write_str("marked to keep already"),
            Reason::Marked(Some(why)) => write!(f, "marked to keep already ({why})"),
            Reason::Misses(missed) => f.write_str(&joined(missed, "; ")),
            Reason::LevelsUnread(gaps) => match instead(gaps) {
                Some(told) => write!(f, "{told}: cannot be judged"),
                None => write!(f, "{}: cannot be judged", unread(gaps)),
            },
            Reason::NoIndex(gaps) => match instead(gaps) {
                Some(told) => f.write_str(&told),
                None => f.write_str("nothing that is weighed was read on it"),
            },
            Reason::Standing {
                standing,
                quota,
                unread,
            } => {
                match (standing, quota) {
                    (Standing::Place { place, .. }, Quota::Full(quota, behind))
                        if place <= quota && !matches!(behind, Behind::Equal(_)) =>
                    {
                        let filled = "is filled by plants marked before";
                        write!(f, "{standing}; the quota of {quota} {filled}{behind}")?
                    }
                    _ => write!(f, "{standing}{quota}")?,
                }
                match unread {
                    0 => Ok(()),
                    n => write!(
                        f,
                        "; {n} of what is weighed without a reading that counts at its age, so less sure"
                    ),
                }
            }
            Reason::Unranked { n, places } => match places {
                Places::Quota(quota) => write!(
                    f,
                    "reaches every level, as {n} plants do; the quota is {quota}, and nothing ranks them"
                ),
                Places::Shelves => write!(
                    f,
                    "reaches every level, as {n} plants do; the shelves do not take them all, and nothing ranks them"
                ),
            },
            Reason::ForBothSexes { chance, wanted } => write!(
                f,
                "for both sexes: chance {:.0} % without it, {:.0} % wanted",
                chance * 100.0,
                wanted * 100.0
            ),
            Reason::NoRoom(kept) => write!(f, "no room: lowest index of those to keep ({kept})"),
        }
    }
}

impl Display for Standing {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Standing::Place {
                place,
                tied,
                of,
                within,
            } => {
                match tied {
                    0 | 1 => write!(f, "place {place} of {of}")?,
                    _ => write!(f, "tied for places {place} to {} of {of}", place + tied - 1)?,
                }
                match within {
                    Some(cohort) => write!(f, ", judged within {cohort}"),
                    None => Ok(()),
                }
            }
            Standing::EveryLevel => f.write_str("reaches every level"),
        }
    }
}

impl Display for Behind {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Behind::BetterThanMarked(marked) => {
                write!(f, "; clearly better than {marked}, which was marked before")
            }
            Behind::Equal(last) => write!(f, "; equal to {last}, the last one kept"),
            Behind::NotSurely(last) => {
                write!(f, "; not clearly worse than {last}, the last one kept")
            }
            Behind::Behind => Ok(()),
        }
    }
}

/// What follows where a plant stands.
impl Display for Quota {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Quota::NotStated => f.write_str("; no quota stated"),
            Quota::Open(quota) => write!(f, ", within the quota of {quota}"),
            Quota::Full(quota, behind) => write!(f, ", past the quota of {quota}{behind}"),
        }
    }
}

/// `leaf span 2.99 in, below 3 in`, with as many decimals as show the two apart.
impl Display for Missed {
    fn fmt(&self, f: &mut Formatter) -> Result {
        let read = self.read;
        let (word, stated) = match self.level {
            Level::AtLeast(least) => ("below", least),
            Level::AtMost(most) => ("above", most),
        };
        let apart = |decimals: &u8| {
            let places = usize::from(*decimals);
            format!("{read:.places$}") != format!("{stated:.places$}")
        };
        let unit = TraitUnit {
            decimals: (self.unit.decimals..=6).find(apart).unwrap_or(6),
            ..TraitUnit::clone(&self.unit)
        };
        write!(
            f,
            "{} {}, {word} {}",
            unit.name,
            unit.words(read),
            limit(stated, unit.unit)
        )?;
        match self.unsure {
            true => f.write_str("; not clearly, within the error of one reading"),
            false => Ok(()),
        }
    }
}

impl Display for Gap {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match &self.instead {
            Some(instead) => f.write_str(instead),
            None => write!(f, "{} unread", self.name),
        }
    }
}

/// What was read instead of what is missing, each gap once; `None` when none of it was ever read.
fn instead(gaps: &[Gap]) -> Option<String> {
    let ever = gaps.iter().any(|gap| gap.instead.is_some());
    ever.then(|| joined(each_once(gaps), "; "))
}

/// What was never read, then what was read at another age.
fn unread(gaps: &[Gap]) -> String {
    let (elsewhere, never): (Vec<&Gap>, Vec<&Gap>) =
        gaps.iter().partition(|gap| gap.instead.is_some());
    let told = [("unread", never), ("not comparable", elsewhere)];
    let told = told.iter().filter(|(_, gaps)| !gaps.is_empty());
    let told = told.map(|(word, gaps)| {
        let names = gaps.iter().map(|gap| &gap.name);
        format!("{word}: {}", joined(names, ", "))
    });
    joined(told, "; ")
}

impl Display for Levels {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Levels::NotStated => Ok(()),
            Levels::Reached => f.write_str("reached"),
            Levels::Missed(names) => write!(f, "missed: {}", names.join(", ")),
            Levels::Unread(gaps) => f.write_str(&unread(gaps)),
        }
    }
}

impl Display for Needed {
    fn fmt(&self, f: &mut Formatter) -> Result {
        let (word, stated) = at_least_or_most(self.level);
        let limit = limit(stated, self.unit.unit);
        write!(f, "{} {word} {limit}", self.unit.name)
    }
}

fn at_least_or_most(level: Level) -> (&'static str, f64) {
    match level {
        Level::AtLeast(least) => ("at least", least),
        Level::AtMost(most) => ("at most", most),
    }
}

/// A limit as it was typed, with the unit it was meant in.
fn limit(stated: f64, unit: &str) -> String {
    format!("{stated} {unit}").trim_end().to_owned()
}

/// `S2 at 22.0 months`.
impl Display for Cohort {
    fn fmt(&self, f: &mut Formatter) -> Result {
        let read = self.read.as_deref().unwrap_or("never read");
        write!(f, "{} {read}", codes(&self.sowings))
    }
}

impl Display for ReadAt {
    fn fmt(&self, f: &mut Formatter) -> Result {
        if !self.sowings.is_empty() {
            write!(f, "{}, ", codes(&self.sowings))?;
        }
        write!(f, "{}: {}", self.of, self.at)
    }
}

fn codes(sowings: &[Option<String>]) -> String {
    let codes = sowings.iter();
    let codes = codes.map(|code| code.as_deref().unwrap_or("no known sowing"));
    joined(codes, ", ")
}

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::Reading(_)
            | Caution::ShelfTooSmall
            | Caution::InPod(_)
            | Caution::LastPiece(_)
            | Caution::AgesApart { .. } => Weight::Answer,
            Caution::MixedUp { .. } | Caution::LeftOut { .. } | Caution::PotUnknown(_) => {
                Weight::LeftOut
            }
            Caution::UnsexedEven => Weight::General,
        }
    }
}

impl Display for Caution {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Caution::Reading(words) => f.write_str(words),
            Caution::UnsexedEven => f.write_str(
                "the chance of both sexes takes each unsexed seedling as female or male with equal chance",
            ),
            Caution::PotUnknown(n) => write!(
                f,
                "{n} of those kept have no pot size on record: their room is not counted; say --pot CM to assume one"
            ),
            Caution::ShelfTooSmall => {
                f.write_str("what must be kept takes more than the shelves there are")
            }
            Caution::InPod(plants) => {
                let of = |(plant, zones): &(String, Vec<String>)| {
                    format!("{plant} may still bear pods of {}", listed(zones))
                };
                let plants = joined(plants.iter().map(of), "; ");
                write!(f, "{plants}: harvest before it goes")
            }
            Caution::LastPiece(plants) => {
                let of = |(plant, of): &(String, ParentOf)| of.one_piece_left(plant);
                let plants = joined(plants.iter().filter_map(of), "; ");
                write!(f, "{plants}: take a cutting before it goes")
            }
            Caution::MixedUp { id, n } => write!(f, "{id}: {}", not_counted(*n)),
            Caution::LeftOut {
                id,
                here,
                elsewhere,
            } => {
                let words = here.words_beside(elsewhere).unwrap_or_default();
                write!(f, "{id}: left out {words}")
            }
            Caution::AgesApart { id, cohorts } => write!(
                f,
                "{id}: sowings of different ages, each judged within itself ({}): whether one sowing is better than another is not seen",
                joined(cohorts, "; ")
            ),
        }
    }
}

impl Display for SelectError {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            SelectError::Scope(words) => f.write_str(words),
            SelectError::Trait(why) => write!(f, "{why}"),
            SelectError::NoFigure(why) => write!(f, "{why}"),
            SelectError::QuotaWithoutCross(cross) => {
                write!(f, "the quota for `{cross}` names no cross")
            }
            SelectError::WeighedTwice(of) => {
                write!(f, "`{of}` is weighed twice; give it one weight")
            }
            SelectError::WeightZero(of) => write!(
                f,
                "a weight of 0 says that `{of}` does not count; leave it out, or give it a weight above or below zero"
            ),
            SelectError::WeightNotFinite(name) => {
                write!(f, "the weight of {name} is not a number")
            }
            SelectError::LevelWithoutLimit(of) => {
                write!(f, "the level for `{of}` says neither at_least nor at_most")
            }
            SelectError::NoOrder(name) => write!(
                f,
                "{name} has kinds without order; it can be neither weighed nor given a level"
            ),
            SelectError::NotAStep { name, level, steps } => {
                let (word, stated) = at_least_or_most(*level);
                write!(
                    f,
                    "{name} has steps from 1 to {}; {word} {stated} is none of them\nits steps are {}",
                    steps.len(),
                    steps.join("; ")
                )
            }
            SelectError::NothingBetween {
                name,
                unit,
                least,
                most,
                steps,
            } => {
                let (least, most) = (limit(*least, unit), limit(*most, unit));
                write!(
                    f,
                    "no plant can have {name} at least {least} and at most {most}"
                )?;
                match steps {
                    Some(steps) => write!(f, "; its steps run from 1 to {steps}"),
                    None => Ok(()),
                }
            }
            SelectError::TwoLevels { name, levels } => {
                let ((word, a), (_, b)) = (at_least_or_most(levels.0), at_least_or_most(levels.1));
                write!(
                    f,
                    "{name} has two levels, {word} {a} and {word} {b}; give one"
                )
            }
            SelectError::NoRules { ids, example } => no_rules(f, ids, example),
        }
    }
}

fn no_rules(f: &mut Formatter, ids: &[String], example: &[(String, u8)]) -> Result {
    if example.is_empty() {
        return f.write_str(
            "no rule says what counts, and no measure or scale is declared\ndeclare what you read under `traits` in registry.ron",
        );
    }
    let weights = example.iter();
    let weights = weights.map(|(code, weight)| format!(" --weigh {code}={weight}"));
    write!(
        f,
        "no rule says what counts: state weights or needed levels, or a file with --rules\nfor example: podbook select {}{} --keep 4",
        ids.join(" "),
        weights.collect::<String>()
    )
}
