//! What a reader of the plan must know before acting on it, in words.

use crate::analysis::plan::{Caution, FlowerAges};
use crate::planning::sexes::BELIEF;
use crate::report::as_text::serialize_as_text;
use crate::report::caution::{Weighed, Weight, not_counted};
use crate::report::kinship::{odds, outcome_words};
use crate::wording::{counted, listed};
use std::collections::BTreeSet;
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Caution, FlowerAges);

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::NoPlan
            | Caution::Stopped { .. }
            | Caution::MayExceedTheCap { .. }
            | Caution::SexGuessed(_)
            | Caution::PollenOfUnsexed(_)
            | Caution::Descent { .. }
            | Caution::LeastSpread(_)
            | Caution::Name {
                of_the_plan: true, ..
            } => Weight::Doubt,
            Caution::MayNotMeet | Caution::NoTraits | Caution::Made { .. } => Weight::Answer,
            Caution::MostPods(_)
            | Caution::MostPromising(_)
            | Caution::LinesNotShown(_)
            | Caution::LineMixedUp { .. }
            | Caution::MeritOfTheMean(_) => Weight::LeftOut,
            Caution::Trait(of) if of.left_out.total() > 0 => Weight::LeftOut,
            _ => Weight::General,
        }
    }
}

impl Display for Caution {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            Caution::NoPlan => "no plan keeps every limit: ease a cap, a must or a line to keep".fmt(out),
            Caution::Stopped { other_plans, limits, weights } => stopped(out, *other_plans, [*limits, *weights]),
            Caution::MostPods(most) => write!(out, "only the best {most} pods were planned; --pots plans for the pots you have"),
            Caution::MostPromising(pairings) => write!(out, "under the cap on kinship only the {pairings} most promising pairings were looked at; other plans may be as good"),
            Caution::MayExceedTheCap { pair, cap, chance, may_be } => write!(
                out,
                "{} may exceed the cap on inbreeding of {cap}, with a chance of {}: its seedlings are inbred by at least {}",
                pair.join(" × "),
                odds(*chance),
                outcome_words(may_be)
            ),
            Caution::Name { doubt, .. } => doubt.fmt(out),
            Caution::Made { zones, pots } => made(out, zones, *pots),
            Caution::SexGuessed(plants) => write!(out, "sex only guessed: {}", plants.join(", ")),
            Caution::PollenOfUnsexed(plants) => write!(
                out,
                "pollen of {} is on record, but not {}: record the flowers",
                listed(plants),
                if plants.len() == 1 { "its sex" } else { "their sex" }
            ),
            Caution::Descent { plant, evidence } => write!(out, "{plant}: {evidence}"),
            Caution::LeastSpread(plants) => write!(out, "descent of {} not known for certain: pods count with the least spread that it leaves possible", listed(plants)),
            Caution::MayNotMeet => "some flowers and pollen only perhaps meet: keep back pollen".fmt(out),
            Caution::Worth { seedlings, heritability, species_differ } => write!(out, "worth is in genetic standard deviations: mean merit of the parents plus what the best of {seedlings} seedlings stands above it; assumed are a heritability of {heritability} and S = {species_differ} V between species"),
            Caution::WorthNothing => "a pod worth less than nothing, below the mean of your plants, is not planned".fmt(out),
            Caution::PlannedWith { pods_per_spike, uses_per_pollen, inbreeding_is_free } => {
                let free = match inbreeding_is_free {
                    true => "; inbreeding costs nothing unless the goals give it a weight or a cap",
                    false => "",
                };
                write!(out, "planned with {} to a spike and {uses_per_pollen} to one pollen{free}", counted(*pods_per_spike as usize, "pod", "pods"))
            }
            Caution::SexesAhead => write!(out, "seasons ahead: a one-to-one sex ratio is assumed with the weight of {BELIEF:.0} plants, and the sexes a line has shown are added; expected is the worth of a pod times its chance, for each seedling named"),
            Caution::FirstFlowers(lines) => first_flowers(out, lines),
            Caution::YearNotKnown => "– no year is known: a sowing is not dated to a month, or a seedling is older than any first flower on record".fmt(out),
            Caution::UnmarkedLines => "for a line without a kept seedling, all its unsexed plants in the collection are counted".fmt(out),
            Caution::LinesNotShown(lines) => write!(out, "{} with unsexed seedlings not shown: no pollination listed needs them first", counted(*lines, "line", "lines")),
            Caution::LineMixedUp { line, n } => {
                write!(out, "seasons ahead, line {line}: {}", not_counted(*n))
            }
            Caution::KinshipIsAMinimum { expected } => {
                let expected = match expected {
                    true => "; where parents are one of several they are expected values",
                    false => "",
                };
                write!(out, "kinship and inbreeding are a minimum if the recorded parents are right: founders are assumed unrelated unless a batch is recorded{expected}")
            }
            Caution::NoPromise => "this is arithmetic on your records; it does not promise that pods will set".fmt(out),
            Caution::NoTraits => "no traits are named: every pod counts as one".fmt(out),
            Caution::Trait(assumed) => assumed.fmt(out),
            Caution::MeritOfTheMean(why) => write!(out, "merit taken as the mean of all: {why}"),
        }
    }
}

fn stopped(out: &mut Formatter, other_plans: bool, [limits, weights]: [usize; 2]) -> Result {
    let mut missed = Vec::new();
    if other_plans {
        missed.push("other plans may be as good as those shown, or better".to_owned());
    }
    if limits > 0 {
        let limits = counted(limits, "limit", "limits");
        missed.push(format!("the cost of {limits} was not reached"));
    }
    if weights > 0 {
        let weights = counted(weights, "weight", "weights");
        missed.push(format!(
            "gain against kinship was not looked at under {weights}"
        ));
    }
    write!(out, "stopped early: {}", missed.join("; "))
}

/// Ages that read the same are named once.
fn first_flowers(out: &mut Formatter, lines: &[([f64; 2], FlowerAges)]) -> Result {
    let words = |([shortest, longest], of): &([f64; 2], FlowerAges)| {
        format!("{shortest:.1} and {longest:.1} years from sowing ({of})")
    };
    let by_seedlings = |of: &FlowerAges| *of != FlowerAges::Practice(0);
    let late = match lines.iter().any(|(_, of)| by_seedlings(of)) {
        true => {
            "; ages of your seedlings are those of the ones that flowered: others have not flowered yet, so flowers may come later"
        }
        false => "",
    };
    let ages: BTreeSet<String> = lines.iter().map(words).collect();
    let ages: Vec<String> = ages.into_iter().collect();
    let ages = ages.join(", between ");
    write!(
        out,
        "first flowers are assumed equally likely at any age between {ages}; a plant that has flowered may flower in any year{late}"
    )
}

impl Display for FlowerAges {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let seedlings = |n: &usize| counted(*n, "seedling", "seedlings");
        match self {
            FlowerAges::OfLine(n) => write!(out, "{} of this line", seedlings(n)),
            FlowerAges::OfAll(n) => write!(out, "{} of all lines here", seedlings(n)),
            FlowerAges::Practice(0) => "common practice, none of yours to go by".fmt(out),
            FlowerAges::Practice(n) => write!(out, "common practice and {} of yours", seedlings(n)),
        }
    }
}

/// Codes of pollinations that are named one by one.
const NAMED: usize = 6;

fn made(out: &mut Formatter, zones: &[String], pots: Option<u32>) -> Result {
    let (is, it, its) = match zones.len() {
        1 => ("is", "it", "its"),
        _ => ("are", "them", "their"),
    };
    let named = zones.iter().take(NAMED).cloned();
    let more = zones.len().saturating_sub(NAMED);
    let more = (more > 0).then(|| format!("{more} more"));
    let zones = listed(named.chain(more));
    write!(
        out,
        "{zones} {is} pollinated already and may be ripening: the plan leaves room for {it}"
    )?;
    match pots {
        Some(pots) => {
            let pots = counted(pots as usize, "pot", "pots");
            write!(out, " and {pots} for {its} seedlings")
        }
        None => Ok(()),
    }
}
