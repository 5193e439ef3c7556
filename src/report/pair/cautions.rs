//! What to keep in mind before this pollination.

use super::super::parent_readings::MOST_BETWEEN;
use super::answer::{PairReport, PairWishes};
use super::weigh::Intended;

impl Intended<'_, '_> {
    pub(super) fn cautions(&self, report: &PairReport, wishes: PairWishes) -> Vec<String> {
        let mut told = report.inbreeding.rests_on.cautions();
        let at_least = report.inbreeding.at_least;
        if at_least >= 0.0625 {
            let degree = if at_least >= 0.25 {
                "very close"
            } else if at_least >= 0.125 {
                "close"
            } else {
                "some"
            };
            told.push(format!(
                "{degree} inbreeding; what it costs is not known for the genus, so this is a caution, not a forecast"
            ));
        }
        told.push(format!(
            "spread runs from no difference between species (S = 0) to S = {MOST_BETWEEN:.0} V, an assumption; sexes are taken as even chances; a trait in both parents raises odds only"
        ));
        if !report.traits.is_empty() {
            told.push(format!(
                "parents count with their readings at the latest age both were read at, else with their latest, of whatever place; merit compares at one age and uses all relatives; both assume a heritability of {} (--heritability)",
                wishes.heritability
            ));
        }
        told.push(
            "before seed, pollen or plants cross a border or are sold: ask your CITES management authority and your plant-health service; nothing of that is checked here".to_owned(),
        );
        told
    }
}
