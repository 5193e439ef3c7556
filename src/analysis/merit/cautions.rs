//! What merit assumes, what was left out, and how to read it.

use crate::analysis::merit::answer::{MeritReport, MeritRow, MeritUnit, TraitOfMerit};
use crate::analysis::merit::options::Parts;
use crate::observation::series::LeftOut;

/// One thing to keep in mind.
#[derive(Clone, Debug, PartialEq)]
pub enum Caution {
    /// What the merit in a trait assumes.
    Trait(TraitAssumed),
    /// Plants no better known than by the mean of their pod or species.
    ByTheMean(usize),
    /// Plants left out.
    LeftOut(WhyLeftOut),
    /// What ± is.
    Error {
        /// Whether a length is among the traits, whose error is computed on the log scale.
        log_scale: bool,
    },
    /// What a chance comes from.
    Chances,
    /// Traits are taken as independent.
    Independent,
    /// What merit is.
    Meaning,
}

/// What the merit in a trait assumes, and what was left out of it.
#[derive(Clone, Debug, PartialEq)]
pub struct TraitAssumed {
    /// Name of the trait.
    pub name: String,
    /// Parts of the whole variance.
    pub parts: Parts,
    /// Limits of heritability at 95 % when it was estimated.
    pub heritability_limits: Option<(f64, f64)>,
    /// Whether plants are compared at an age.
    pub at_an_age: bool,
    /// Readings left out.
    pub left_out: LeftOut,
}

/// Plants left out for one reason.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyLeftOut {
    /// One cross only was read: its parents cannot be told apart from its mean.
    OneCross(usize),
    /// Their relatives' readings cannot be told apart from the mean of all.
    MeanOfAll(usize),
    /// No relative was read.
    NoReadRelative(usize),
}

impl TraitOfMerit {
    /// What its figures assume, and what was left out.
    pub fn assumed(&self) -> TraitAssumed {
        TraitAssumed {
            name: self.name.clone(),
            parts: self.parts,
            heritability_limits: self.heritability_limits,
            at_an_age: self.ages.is_some(),
            left_out: self.left_out,
        }
    }
}

impl MeritReport {
    pub(crate) fn to_keep_in_mind(&self) -> Vec<Caution> {
        let assumed = self.traits.iter().map(TraitOfMerit::assumed);
        let mut told: Vec<Caution> = assumed.map(Caution::Trait).collect();
        let by_mean = |row: &&MeritRow| row.of_traits.iter().all(|of| !of.beyond_its_pod);
        let by_mean = self.rows.iter().filter(by_mean).count();
        told.extend((by_mean > 0).then_some(Caution::ByTheMean(by_mean)));
        told.extend(self.why_left_out().into_iter().map(Caution::LeftOut));
        let is_length = |of: &TraitOfMerit| of.unit == MeritUnit::Percent;
        told.push(Caution::Error {
            log_scale: self.traits.iter().any(is_length),
        });
        told.extend((self.rows.len() > 1).then_some(Caution::Chances));
        told.extend((self.traits.len() > 1).then_some(Caution::Independent));
        told.push(Caution::Meaning);
        told
    }

    /// Why plants are left out, each reason once.
    pub fn why_left_out(&self) -> Vec<WhyLeftOut> {
        let crosses = self.traits.iter().map(|of| of.crosses).max().unwrap_or(0);
        let by_mean = self.told_by_the_mean_alone;
        let unread = self.without_news - by_mean;
        let by_mean = (by_mean > 0).then_some(match crosses {
            0 | 1 => WhyLeftOut::OneCross(by_mean),
            _ => WhyLeftOut::MeanOfAll(by_mean),
        });
        let unread = (unread > 0).then_some(WhyLeftOut::NoReadRelative(unread));
        by_mean.into_iter().chain(unread).collect()
    }
}
