//! Why there is nothing to pollinate.

use crate::analysis::plan::bench::Bench;
use crate::analysis::plan::ground::Ground;
use crate::planning::season::Season;
use crate::wording::counted;

impl Ground<'_, '_, '_> {
    /// The first reason that holds, in words, with what would help.
    pub(crate) fn idle(&self, bench: &Bench, any_time: bool) -> String {
        let advice = if any_time {
            ""
        } else {
            "; --any-time plans as though every plant of known sex flowered"
        };
        let season = &bench.season;
        let open = season.pairings.iter().any(|pairing| season.open(pairing));
        let pots = self.goals.pots.unwrap_or(u32::MAX);
        if bench.seeds.is_empty() {
            format!("no plant here known to be female flowers{advice}")
        } else if bench.pollen.is_empty() {
            format!(
                "there is no pollen in hand, and no plant here known to be male flowers{advice}"
            )
        } else if season.pairings.is_empty() {
            format!("no flowers meet pollen{advice}")
        } else if !open {
            "every pair that could meet is above the cap on inbreeding or ruled out by the goals"
                .to_owned()
        } else if self.all_too_near(season) {
            "every pair that could meet is above the cap on kinship with what is kept".to_owned()
        } else if pots < self.goals.seedlings_per_pod {
            format!(
                "a pod takes {} and there {} {pots}; raise --pots or lower --seedlings",
                counted(self.goals.seedlings_per_pod as usize, "pot", "pots"),
                if pots == 1 { "is" } else { "are" }
            )
        } else {
            "no pod that the limits let be made is worth anything".to_owned()
        }
    }
    /// Whether every pair that is open lies above the cap on mean kinship, so that no mixture of them can keep it.
    fn all_too_near(&self, season: &Season) -> bool {
        let cap = self.goals.most_kinship.unwrap_or(1.0);
        let open = season
            .pairings
            .iter()
            .filter(|pairing| season.open(pairing));
        open.map(|pairing| pairing.kinship)
            .fold(f64::INFINITY, f64::min)
            > cap
    }
}
