//! A proposal to keep, sell or let go, as a person reads it.

use super::keep::{KeepReport, Proposal, tally_words};
use super::sheet::{Cell, Report, Sheet, Table};

impl Proposal {
    /// The word in the table.
    pub fn word(self) -> &'static str {
        match self {
            Proposal::Keep => "keep",
            Proposal::Sell => "sell",
            Proposal::LetGo => "let go",
            Proposal::ReadFirst => "read first",
        }
    }
}

impl Report for KeepReport {
    fn sheet(&self) -> Sheet {
        let told: Vec<String> = self.crosses.iter().map(tally_words).collect();
        let verb = if self.applied { "Marked" } else { "Proposed" };
        let mut sheet = Sheet::new(format!("{verb}: {}", told.join("; ")));
        let said = |parts: &[String]| (!parts.is_empty()).then(|| parts.join(", "));
        sheet.facts(
            Some("Rules"),
            vec![
                ("weighed, per standard deviation", said(&self.weighed)),
                ("needed", said(&self.needed)),
                (
                    "room",
                    self.shelves
                        .map(|(taken, all)| format!("{taken:.2} of {all:.2} shelves")),
                ),
            ],
        );
        sheet.table(self.table());
        sheet.table(self.side_by_side());
        if let Some(minutes) = self.minutes {
            sheet.lines(
                Some(&format!("To read next, in {minutes} minutes")),
                self.next(),
            );
        }
        for caution in &self.cautions {
            sheet.caution(caution.clone());
        }
        sheet.caution("one reading is little to let a plant go on; the limits show reading error and what was not read");
        if !self.applied {
            sheet.caution("nothing was written; --apply marks those to keep");
        }
        sheet
    }
}

impl KeepReport {
    fn table(&self) -> Table {
        let mut table = Table::new(&[
            "plant",
            ">index (95 %)",
            "levels",
            ">front",
            "proposal",
            "reason",
        ]);
        for row in &self.plants {
            let index = row.index.map(|index| match row.index_between {
                Some((low, high)) if high > low => {
                    format!("{} ({} to {})", signed(index), signed(low), signed(high))
                }
                _ => signed(index),
            });
            table.row(vec![
                Cell::from(row.plant.as_str()),
                Cell::from(index.unwrap_or_else(|| "unread".to_owned())),
                Cell::from(row.levels.as_str()),
                Cell::from(row.front),
                Cell::from(row.proposal.word()),
                Cell::from(row.reason.as_str()),
            ]);
        }
        table
    }

    /// Index, levels and front side by side.
    fn side_by_side(&self) -> Table {
        let mut table = Table::new(&[
            "cross",
            ">here",
            ">quota",
            ">reach every level",
            ">on the front",
            ">best by index on the front",
            ">both sexes",
            "read",
        ])
        .titled("Three ways side by side");
        for cross in &self.crosses {
            let front = self
                .plants
                .iter()
                .filter(|row| {
                    row.front == Some(1) && cross.id.split('.').next() == Some(row.cross.as_str())
                })
                .count();
            table.row(vec![
                Cell::from(cross.id.as_str()),
                Cell::from(cross.here),
                Cell::from(cross.quota),
                Cell::from(cross.pass_levels),
                Cell::from(front),
                Cell::from(
                    cross
                        .quota
                        .map(|quota| format!("{} of {quota}", cross.index_on_front)),
                ),
                Cell::from(
                    cross
                        .both_sexes
                        .map(|chance| format!("{:.0} %", chance * 100.0)),
                ),
                Cell::from(cross.read_at.join("; ")),
            ]);
        }
        table
    }

    fn next(&self) -> Vec<String> {
        if self.read_next.is_empty() {
            return vec!["no further reading is expected to change the choice".to_owned()];
        }
        self.read_next
            .iter()
            .map(|next| {
                format!(
                    "{} ({} min), expected to raise the index of those kept by {:.2}",
                    next.plant, next.minutes, next.gain
                )
            })
            .collect()
    }
}

/// One decimal with its sign, as the tables write it.
fn signed(number: f64) -> String {
    let text = format!("{number:+.1}");
    match text.as_str() {
        "-0.0" => "+0.0".to_owned(),
        _ => text.replace('-', "−"),
    }
}
