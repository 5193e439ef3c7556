//! The road from seed to shelf, as a table.

use crate::observation::tray::Tray;
use crate::report::sheet::{Cell, Sheet, Table};
use crate::wording::share_words;

impl Tray {
    /// Writes its tables.
    pub(crate) fn tell(&self, sheet: &mut Sheet) {
        let mut table = Table::new(&["stage", ">n", "out of", "share (95 % interval)", ""])
            .titled("From seed to shelf");
        for stage in &self.stages {
            let share = match (stage.n, stage.out_of, stage.share_between) {
                (Some(n), Some(all), Some(limits)) => Some(share_words(n, all, limits)),
                (Some(n), Some(all), None) if all > 0 && n <= all => {
                    Some(format!("{:.0} %", 100.0 * n as f64 / all as f64))
                }
                _ => None,
            };
            let of = stage
                .out_of
                .zip(stage.of.as_ref())
                .map(|(n, of)| format!("{n} {of}"));
            table.row(vec![
                Cell::from(stage.stage.as_str()),
                stage.n.map_or(Cell::Missing, Cell::Count),
                Cell::from(of.unwrap_or_default()),
                Cell::from(share.unwrap_or_default()),
                Cell::from(stage.remark.clone().unwrap_or_default()),
            ]);
        }
        sheet.table(table);
        if self.community_pots.is_empty() {
            return;
        }
        let mut table = Table::new(&["community pot", ">left", ">counted", "on", ""]).titled(
            "Beside them, seedlings that are only a count (not added to the numbered ones)",
        );
        for community_pot in &self.community_pots {
            table.row(vec![
                Cell::from(community_pot.code.as_str()),
                Cell::from(community_pot.left_words.clone()),
                Cell::from(community_pot.alive),
                Cell::from(community_pot.counted.clone()),
                Cell::from(community_pot.remark.clone().unwrap_or_default()),
            ]);
        }
        sheet.table(table);
    }
}
