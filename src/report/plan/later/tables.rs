//! The seasons ahead as tables.

use super::super::worth::DECIMALS;
use crate::analysis::plan::{Hold, Later, LineAhead};
use crate::report::kinship::may_be_words;
use crate::report::table::Table;
use crate::wording::chance as percent;

impl Later {
    pub(crate) fn line_table(&self) -> Table {
        let years = self.lines.first().map_or(&[][..], |line| &line.by_year);
        Table::of(&self.lines)
            .titled("Seasons ahead: chance that a line has both sexes here by the end of a year")
            .text("line", |line| &line.line)
            .figure("unsexed, held", |line| line.held.len())
            .text("seen", |line| {
                format!("{} ♀ {} ♂", line.females, line.males)
            })
            .figure("chance of ♀ each", |line| percent(line.female))
            .each(years.iter().enumerate(), |columns, (at, of)| {
                columns.figure(of.year.to_string(), |line| {
                    line.by_year[at].chance.map(percent)
                })
            })
            .figure("once all flowered", LineAhead::once_all_words)
            .figure("the same at one to one", |line| {
                percent(line.once_all_one_to_one)
            })
            .into()
    }

    pub(crate) fn hold_table(&self) -> Table {
        Table::of(&self.holds)
            .titled("Seasons ahead: unsexed plants to hold")
            .text("hold", |row| row.hold.join(", "))
            .text("for", Hold::partner)
            .figure("until end of", |row| row.year.map(|year| year.to_string()))
            .figure("chance", |row| percent(row.chance))
            .number("worth of a pod", DECIMALS, |row| row.worth)
            .number("expected", DECIMALS, |row| row.expected)
            .figure("inbreeding", |row| {
                may_be_words(row.inbreeding, &row.inbreeding_may_be, row.ways_known)
            })
            .into()
    }
}

impl LineAhead {
    fn once_all_words(&self) -> String {
        if self.both_here {
            "both here".to_owned()
        } else {
            percent(self.once_all)
        }
    }
}

impl Hold {
    fn partner(&self) -> String {
        self.with.clone().unwrap_or_else(|| "each other".to_owned())
    }
}
