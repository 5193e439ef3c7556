//! What to keep in mind before this pollination.

use crate::analysis::pair::answer::{PairReport, PairWishes};
use crate::analysis::pair::weigh::Intended;
use crate::analysis::parent_readings::MOST_BETWEEN;

impl Intended<'_, '_> {
    pub(crate) fn cautions(&self, report: &PairReport, wishes: PairWishes) -> Vec<String> {
        let mut told = report.inbreeding.rests_on.cautions();
        let inbreeding = &report.inbreeding;
        let most = inbreeding.may_be.last();
        let most = most.map_or(inbreeding.expected, |of| of.value);
        if most >= 0.0625 {
            let degree = if most >= 0.25 {
                "very close"
            } else if most >= 0.125 {
                "close"
            } else {
                "some"
            };
            let perhaps = if inbreeding.may_be.is_empty() {
                ""
            } else {
                "perhaps "
            };
            told.push(format!(
                "{perhaps}{degree} inbreeding; what it costs is not known for the genus, so this is a caution, not a forecast"
            ));
        }
        told.push(format!(
            "spread runs from no difference between species (S = 0) to S = {MOST_BETWEEN:.0} V, an assumption; sexes are taken as even chances; a trait in both parents raises odds only"
        ));
        for row in &report.traits {
            told.extend(row.set_aside.words().map(|words| {
                format!(
                    "spread of {}: {words}; it is scaled by what the parents' ancestry predicts, so it takes certain parents",
                    row.name
                )
            }));
        }
        if !report.traits.is_empty() {
            told.push(format!(
                "the midparent is the mean of the two as read, at one age but for steps of a scale; it is no forecast: seedlings fall back towards the mean of all by what is not inherited; merit allows for that and uses all relatives; both tables assume a heritability of {} (--heritability)",
                wishes.heritability
            ));
        }
        told.push(
            "before seed, pollen or plants cross a border or are sold: ask your CITES management authority and your plant-health service; nothing of that is checked here".to_owned(),
        );
        told
    }
}
