//! The seasons ahead as tables and cautions.

use crate::analysis::kinship::may_be_words;
use crate::analysis::plan::{Hold, Later, LineAhead};
use crate::planning::sexes::BELIEF;
use crate::report::sheet::{Cell, Table};
use crate::wording::{chance as percent, counted};

impl Later {
    pub(crate) fn line_table(&self) -> Table {
        let years = self.lines.first().map_or(&[][..], |line| &line.by_year);
        let years: Vec<String> = years.iter().map(|of| format!(">{}", of.year)).collect();
        let mut headings = vec!["line", ">unsexed", "seen", ">chance ♀"];
        headings.extend(years.iter().map(String::as_str));
        headings.extend([">once all flowered", ">at one to one"]);
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
        let mut table = Table::new(&headings).titled("Seasons ahead: seedlings to hold");
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

    /// What the seasons ahead rest on, one line each.
    pub(crate) fn cautions(&self) -> Vec<String> {
        if self.lines.is_empty() && self.holds.is_empty() {
            return Vec::new();
        }
        let mut told = vec![format!(
            "seasons ahead: that sexes come one to one is believed as firmly as {BELIEF:.0} plants would show it, and the sexes a line has shown are added; expected is the worth of a pod times its chance, of each seedling named"
        )];
        let mut ages: Vec<String> = self.lines.iter().map(LineAhead::ages).collect();
        ages.sort();
        ages.dedup();
        if !ages.is_empty() {
            told.push(format!(
                "first flowers are taken to come at any age alike between {}; a plant that has flowered, in any year",
                ages.join(", between ")
            ));
        }
        let untimed = |line: &LineAhead| line.by_year.iter().any(|year| year.chance.is_none());
        if self.lines.iter().any(untimed) {
            told.push("– no year can be told: a sowing is not dated, or a seedling is older than any first flower known".to_owned());
        }
        if self.lines.iter().any(|line| !line.marked) {
            told.push(
                "of lines without a kept seedling all that stand here unsexed are counted"
                    .to_owned(),
            );
        }
        if self.lines_untold > 0 {
            told.push(format!(
                "{} with unsexed seedlings not shown: no pollination told waits for them first",
                counted(self.lines_untold, "line", "lines")
            ));
        }
        told
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

    fn ages(&self) -> String {
        let [shortest, longest] = self.first_flower;
        format!(
            "{shortest:.1} and {longest:.1} years from sowing ({})",
            self.first_flower_of
        )
    }
}

impl Hold {
    fn partner(&self) -> String {
        self.with.clone().unwrap_or_else(|| "each other".to_owned())
    }
}
