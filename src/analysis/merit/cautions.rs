//! What merit assumes, what was left out, and how to read it.

use crate::analysis::merit::answer::{MeritReport, MeritRow, MeritUnit, TraitOfMerit};
use crate::analysis::merit::caution::{Caution, TraitAssumed, WhyLeftOut};

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
        let doubtful = self.traits.iter().filter_map(|of| of.doubtful.clone());
        told.extend(doubtful.map(Caution::Doubtful));
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
