//! The seasons ahead as tables.

use crate::analysis::plan::{Hold, Later, LineAhead};
use crate::report::kinship::may_be_words;
use crate::report::sheet::{Cell, Table};
use crate::wording::chance as percent;

impl Later {
    pub(crate) fn line_table(&self) -> Table {
        let years = self.lines.first().map_or(&[][..], |line| &line.by_year);
        let years: Vec<String> = years.iter().map(|of| format!(">{}", of.year)).collect();
        let mut headings = vec!["line", ">unsexed, held", "seen", ">chance of ♀ each"];
        headings.extend(years.iter().map(String::as_str));
        headings.extend([">once all flowered", ">the same at one to one"]);
        let title = "Seasons ahead: chance that a line has both sexes here by the end of a year";
        let mut table = Table::new(&headings).titled(title);
        for line in &self.lines {
            let mut cells: Vec<Cell> = vec![
                line.line.clone().into(),
                line.held.len().into(),
                format!("{} ♀ {} ♂", line.females, line.males).into(),
                percent(line.female).into(),
            ];
            cells.extend(
                line.by_year
                    .iter()
                    .map(|year| year.chance.map(percent).into()),
            );
            cells.push(line.once_all_words().into());
            cells.push(percent(line.once_all_one_to_one).into());
            table.row(cells);
        }
        table
    }

    pub(crate) fn hold_table(&self) -> Table {
        let headings = [
            "hold",
            "for",
            ">until end of",
            ">chance",
            ">worth of a pod",
            ">expected",
            ">inbreeding",
        ];
        let mut table = Table::new(&headings).titled("Seasons ahead: unsexed plants to hold");
        for row in &self.holds {
            table.row(vec![
                row.hold.join(", ").into(),
                row.partner().into(),
                row.year.map(|year| year.to_string()).into(),
                percent(row.chance).into(),
                Cell::Number(row.worth, 3),
                Cell::Number(row.expected, 3),
                may_be_words(row.inbreeding, &row.inbreeding_may_be, row.ways_known).into(),
            ]);
        }
        table
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
