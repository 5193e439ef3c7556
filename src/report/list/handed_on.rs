//! What was sold or given away, in rows.

use crate::analysis::list::{self, Amount};
use crate::context::Context;
use crate::observation::standing::fate_and_day;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::{Columns, Table};
use crate::wording::{at_date, counted};
use serde::Serialize;
use std::collections::BTreeSet;

/// A list of plants, pieces, trays and seed that were sold or given away.
#[derive(Serialize)]
pub struct HandedOnList {
    /// The latest first; those of which the day is not known last.
    pub handed_on: Vec<HandedOnLine>,
    /// What the reader should know first.
    pub about: &'static str,
    /// How many were sold, and how many given away: of a part of a pot its seedlings, else one. Seed is not counted in.
    #[serde(skip)]
    counts: [usize; 2],
    /// Seed lots of which some was.
    #[serde(skip)]
    seed_lots: usize,
}

/// One of them.
#[derive(Serialize)]
pub struct HandedOnLine {
    /// Code of the plant, the piece, the tray or the seed lot.
    pub id: String,
    /// How it left, and when; how many seedlings of a pot or seeds of a lot left, if the others stayed; when it came back, if it
    /// did.
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
            status: {
                let back = of.back.map(|back| format!("; back {}", at_date(back)));
                let amount = amount_words(of.amount);
                format!(
                    "{amount}{}{}",
                    fate_and_day(of.fate),
                    back.unwrap_or_default()
                )
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
            such.map(|of| match of.amount {
                Amount::Whole => 1,
                Amount::Seedlings(part) => part as usize,
                Amount::Seeds(_) | Amount::RestOfSeed => 0,
            })
            .sum()
        }),
        seed_lots: {
            let of_seed = |of: &&list::HandedOnLine| {
                matches!(of.amount, Amount::Seeds(_) | Amount::RestOfSeed)
            };
            let codes = lines.iter().filter(of_seed).map(|of| &of.code);
            codes.collect::<BTreeSet<_>>().len()
        },
    }
}

/// What stands before the fate: `5 ` seedlings, `30 seeds `.
fn amount_words(amount: Amount) -> String {
    match amount {
        Amount::Whole => String::new(),
        Amount::Seedlings(part) => format!("{part} "),
        Amount::Seeds(part) => format!("{} ", counted(part as usize, "seed", "seeds")),
        Amount::RestOfSeed => "rest of the seed ".to_owned(),
    }
}

/// Rows of a screen.
const SHORT_ROWS: usize = 24;

impl HandedOnList {
    fn head(&self) -> Sheet {
        let [sold, given] = self.counts;
        let seed = match self.seed_lots {
            0 => String::new(),
            lots => format!(", seed of {}", counted(lots, "lot", "lots")),
        };
        let left = format!("{sold} sold, {given} given away{seed}");
        let mut sheet = Sheet::new(format!("{left}; {}", self.about));
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
