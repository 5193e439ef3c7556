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
        if self.patches.is_empty() {
            return;
        }
        let mut table = Table::new(&["patch", ">left", ">counted", "on", ""]).titled(
            "Beside them, seedlings that are only a count (not added to the numbered ones)",
        );
        for patch in &self.patches {
            table.row(vec![
                Cell::from(patch.code.as_str()),
                Cell::from(patch.left_words.clone()),
                Cell::from(patch.alive),
                Cell::from(patch.counted.clone()),
                Cell::from(patch.remark.clone().unwrap_or_default()),
            ]);
        }
        sheet.table(table);
    }
}
