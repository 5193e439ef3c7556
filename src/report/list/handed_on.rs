//! What was sold or given away, in rows.

use crate::analysis::list;
use crate::context::Context;
use crate::observation::standing::fate_and_day;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::{Columns, Table};
use crate::wording::at_date;
use serde::Serialize;

/// A list of plants, pieces and trays that were sold or given away.
#[derive(Serialize)]
pub struct HandedOnList {
    /// The latest first; those of which the day is not known last.
    pub handed_on: Vec<HandedOnLine>,
    /// What the reader should know first.
    pub about: &'static str,
    /// How many were sold, and how many given away: of a part of a pot its seedlings, else one.
    #[serde(skip)]
    counts: [usize; 2],
}

/// One of them.
#[derive(Serialize)]
pub struct HandedOnLine {
    /// Code of the plant, the piece or the tray.
    pub id: String,
    /// How it left, and when; how many seedlings of a pot left, if the others stayed; when it came back, if it did.
    pub status: String,
    /// Who has it.
    pub to: Option<String>,
    /// What was asked for it.
    pub price: Option<String>,
    /// The words on the tag it left with.
    pub label: Option<String>,
    /// The text that went along.
    pub said: Option<String>,
}

/// Lists what was sold or given away.
pub fn handed_on(context: &Context) -> HandedOnList {
    let lines = list::handed_on(context.registry, context.today);
    let line = |of: &list::HandedOnLine| {
        let own = |words: Option<&str>| words.map(str::to_owned);
        HandedOnLine {
            id: of.code.clone(),
            status: match (of.part, of.back) {
                (Some(part), _) => format!("{part} {}", fate_and_day(of.fate)),
                (None, None) => fate_and_day(of.fate),
                (None, Some(back)) => {
                    format!("{}; back {}", fate_and_day(of.fate), at_date(back))
                }
            },
            to: own(of.with.to),
            price: own(of.with.price),
            label: own(of.with.label),
            said: own(of.with.said),
        }
    };
    HandedOnList {
        handed_on: lines.iter().map(line).collect(),
        about: "private: buyers and prices are in it",
        counts: [true, false].map(|is_sold| {
            let such = lines.iter().filter(|of| of.with.is_sold == is_sold);
            such.map(|of| of.part.map_or(1, |part| part as usize)).sum()
        }),
    }
}

/// Rows of a screen.
const SHORT_ROWS: usize = 24;

impl HandedOnList {
    fn head(&self) -> Sheet {
        let [sold, given] = self.counts;
        let mut sheet = Sheet::new(format!("{sold} sold, {given} given away; {}", self.about));
        if !self.handed_on.is_empty() {
            sheet.next = Some("podbook promised".to_owned());
        }
        sheet
    }

    fn rows(&self, rows: usize) -> Columns<&HandedOnLine> {
        Table::of(self.handed_on.iter().take(rows))
            .text("code", |of| &of.id)
            .text("left", |of| &of.status)
            .text("to", |of| &of.to)
            .text("price", |of| &of.price)
            .text("tag", |of| &of.label)
    }
}

impl Report for HandedOnList {
    fn sheet(&self) -> Sheet {
        let mut sheet = self.screen();
        let all = self.rows(self.handed_on.len());
        sheet.table_if_any(all.text("text that went along", |of| &of.said));
        sheet
    }

    fn screen(&self) -> Sheet {
        let mut sheet = self.head();
        let more = self.handed_on.len().saturating_sub(SHORT_ROWS);
        sheet.brief_table_if_any(self.rows(SHORT_ROWS).more(more));
        sheet
    }
}
