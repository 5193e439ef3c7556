//! The road from seed to shelf, as a table.

use crate::observation::tray::{Stage, Tray};
use crate::report::sheet::Sheet;
use crate::report::table::Table;
use crate::wording::share_words;

impl Tray {
    /// Writes its tables.
    pub(crate) fn tell(&self, sheet: &mut Sheet) {
        // What became of none is nothing to tell.
        let of_none =
            |stage: &&Stage| stage.out_of == Some(0) && stage.of.as_deref() == Some("numbered");
        sheet.table(
            Table::of(self.stages.iter().filter(|stage| !of_none(stage)))
                .titled("From seed to shelf")
                .text("stage", |stage| &stage.stage)
                .figure("n", |stage| stage.n)
                .text("out of", |stage| {
                    let of = stage.out_of.zip(stage.of.as_ref());
                    of.map_or(String::new(), |(n, of)| format!("{n} {of}"))
                })
                .text("share (95 % interval)", |stage| {
                    match (stage.n, stage.out_of, stage.share_between) {
                        (Some(n), Some(all), Some(limits)) => share_words(n, all, limits),
                        (Some(n), Some(all), None) if all > 0 && n <= all => {
                            format!("{:.0} %", 100.0 * n as f64 / all as f64)
                        }
                        _ => String::new(),
                    }
                })
                .text("", |stage| stage.remark.as_deref().unwrap_or_default()),
        );
        sheet.table_if_any(
            Table::of(&self.community_pots)
                .titled(
                    "Beside them, seedlings that are only a count (not added to the numbered ones)",
                )
                .text("community pot", |pot| &pot.code)
                .figure("left", |pot| &pot.left_words)
                .figure("counted", |pot| pot.alive)
                .text("on", |pot| &pot.counted)
                .text("", |pot| pot.remark.as_deref().unwrap_or_default()),
        );
    }
}
