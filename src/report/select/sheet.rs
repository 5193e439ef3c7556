//! A proposal to keep, sell or cull, as a person reads it.

use crate::analysis::select::{
    Behind, Proposal, Quota, ReadNext, Reason, SelectCross, SelectReport, SelectRow,
};
use crate::report::caution::Weight;
use crate::report::select::response::response_table;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::wording::{counted, listed, signed};

/// Gains in the index that round to nothing are not told.
const WORTH_TELLING: f64 = 0.005;

impl Proposal {
    /// The word in the table.
    pub fn word(self) -> &'static str {
        match self {
            Proposal::Keep => "keep",
            Proposal::Sell => "sell",
            Proposal::LetGo => "cull",
            Proposal::ReadFirst => "read first",
        }
    }
}

impl Report for SelectReport {
    fn sheet(&self) -> Sheet {
        let told: Vec<String> = self.crosses.iter().map(tally_words).collect();
        let begins = match (self.applied, self.marked) {
            (false, _) => self.kept_words(),
            (true, 0) => "Nothing to mark, those to keep are marked already. ".to_owned(),
            (true, marked) => format!("Marked {} to keep. ", counted(marked, "plant", "plants")),
        };
        let mut sheet = Sheet::new(format!("{begins}{}", told.join("; ")));
        sheet.table(self.table());
        let needed: Vec<String> = self.needed.iter().map(|of| of.to_string()).collect();
        let said = |parts: &[String]| (!parts.is_empty()).then(|| parts.join(", "));
        sheet.facts(
            Some("Rules"),
            vec![
                ("weighed, per standard deviation", said(&self.weighed)),
                ("needed", said(&needed)),
                (
                    "room",
                    self.shelves
                        .map(|(taken, all)| format!("{taken:.2} of {all:.2} shelves")),
                ),
            ],
        );
        if !self.responses.is_empty() {
            sheet.table(response_table(&self.responses, self.heritability));
        }
        sheet.table(self.side_by_side());
        sheet.lines(None, self.read_at());
        if let Some(minutes) = self.minutes {
            sheet.lines(
                Some(&format!("To read next, in {minutes} minutes")),
                self.next(),
            );
        }
        sheet.cautions_of(&self.cautions);
        sheet.caution(Weight::Answer, "one reading is weak grounds for culling; the limits show reading error and what was not read");
        if !self.applied {
            sheet.caution(
                Weight::General,
                "nothing was written; --apply marks those to keep",
            );
        }
        sheet
    }
}

/// Plants that the first sentence names.
const NAMED: usize = 8;

impl SelectReport {
    /// `Keep X22-02-1 and X22-02-5. `; nothing where too many would be named.
    fn kept_words(&self) -> String {
        let kept = self
            .plants
            .iter()
            .filter(|row| row.proposal == Proposal::Keep);
        let kept: Vec<&str> = kept.map(|row| row.plant.as_str()).collect();
        match kept.len() {
            1..=NAMED => format!("Keep {}{}. ", listed(&kept), self.nearly_kept()),
            _ => String::new(),
        }
    }

    /// Plants past the quota that the readings do not show to be worse than the last one kept.
    fn nearly_kept(&self) -> String {
        let is_near = |row: &&SelectRow| {
            matches!(
                row.reason,
                Reason::Standing {
                    quota: Quota::Full(_, Behind::Equal(_) | Behind::NotSurely(_)),
                    ..
                }
            )
        };
        let near = self.plants.iter().filter(is_near);
        let near: Vec<&str> = near.map(|row| row.plant.as_str()).collect();
        match near.len() {
            0 => String::new(),
            1 => format!("; {} is not clearly worse than the last one kept", near[0]),
            2..=3 => format!(
                "; {} are not clearly worse than the last one kept",
                listed(&near)
            ),
            n => format!("; {n} others are not clearly worse than the last one kept"),
        }
    }

    fn table(&self) -> Table {
        let levels = !self.needed.is_empty();
        let mut headings = vec![
            "plant",
            ">index (95 %)",
            ">front (1 best)",
            "proposal",
            "reason",
        ];
        if levels {
            headings.insert(2, "needed levels");
        }
        let mut table = Table::new(&headings);
        for row in &self.plants {
            let index = row.index.map(|index| match row.index_between {
                Some((low, high)) if high > low => {
                    format!(
                        "{} ({} to {})",
                        signed(index, 1),
                        signed(low, 1),
                        signed(high, 1)
                    )
                }
                _ => signed(index, 1),
            });
            let mut cells = vec![
                Cell::from(row.plant.as_str()),
                match (index, row.read_elsewhere) {
                    (Some(index), _) => Cell::from(index),
                    (None, _) if self.weighed.is_empty() => Cell::Missing,
                    (None, true) => Cell::from("not comparable"),
                    (None, false) => Cell::from("unread"),
                },
                Cell::from(row.front),
                Cell::from(row.proposal.word()),
                Cell::from(row.reason.to_string()),
            ];
            if levels {
                cells.insert(2, Cell::from(row.levels.to_string()));
            }
            table.row(cells);
        }
        table
    }

    /// Index, levels and front side by side.
    fn side_by_side(&self) -> Table {
        let mut table = Table::new(&[
            "cross",
            ">here",
            ">quota",
            ">reach levels",
            ">on front",
            ">best by index on front",
            ">both sexes",
        ])
        .titled("Three ways side by side");
        for cross in &self.crosses {
            table.row(vec![
                Cell::from(cross.id.as_str()),
                Cell::from(cross.here),
                Cell::from(cross.quota),
                Cell::from((!self.needed.is_empty()).then_some(cross.pass_levels)),
                Cell::from(cross.on_front),
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
            ]);
        }
        table
    }

    /// At what age and on which days each cross was read.
    fn read_at(&self) -> Vec<String> {
        let crosses = self.crosses.iter();
        let read = crosses.flat_map(|cross| cross.read_at.iter().map(move |at| (&cross.id, at)));
        read.map(|(id, at)| format!("{id}, {at}")).collect()
    }

    fn next(&self) -> Vec<String> {
        let plants = self.plants.iter();
        let unjudged = plants.filter(|row| row.proposal == Proposal::ReadFirst);
        let unjudged: Vec<&str> = unjudged.map(|row| row.plant.as_str()).collect();
        let mut lines = Vec::new();
        if !unjudged.is_empty() {
            lines.push(format!(
                "cannot be judged before they are read: {}",
                listed(&unjudged)
            ));
        }
        let worth = |next: &&ReadNext| next.gain >= WORTH_TELLING;
        lines.extend(self.read_next.iter().filter(worth).map(|next| {
            format!(
                "{} ({} min), expected to raise the index of those kept by {:.2}",
                next.plant, next.minutes, next.gain
            )
        }));
        if lines.is_empty() {
            lines.push("no further reading is expected to change the choice".to_owned());
        }
        lines
    }
}

/// `3 to keep, 5 to sell` of a cross in words.
fn tally_words(cross: &SelectCross) -> String {
    let parts = [
        (cross.keep, Proposal::Keep),
        (cross.sell, Proposal::Sell),
        (cross.let_go, Proposal::LetGo),
        (cross.read_first, Proposal::ReadFirst),
    ];
    let told: Vec<String> = parts
        .iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, what)| format!("{} {n}", what.word()))
        .collect();
    let told = if told.is_empty() {
        "nothing to decide".to_owned()
    } else {
        told.join(", ")
    };
    format!(
        "{}: {told} of {}",
        cross.id,
        counted(cross.here, "plant", "plants")
    )
}
