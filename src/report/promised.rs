//! Plants that were sold or given away and whose text would now read differently, with a slip for each.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::promised::Promised;
use crate::registry::Registry;
use crate::wording::{at_date, counted};
use serde::Serialize;

/// What was promised, and what holds no longer.
#[derive(Serialize)]
pub struct PromisedReport {
    /// Texts that would read differently now.
    pub changed: Vec<Slip>,
    /// Texts that still hold.
    pub unchanged: usize,
    /// Plants and pieces that left without a description on record.
    pub without: usize,
    /// Who corrects; for the slips.
    #[serde(skip)]
    pub grower: Option<String>,
    /// How to ask.
    #[serde(skip)]
    pub contact: Option<String>,
}

/// A correction for whoever has the plant now.
#[derive(Serialize)]
pub struct Slip {
    /// Code of the plant or piece.
    pub plant: String,
    /// When it left.
    pub on: String,
    /// What was said.
    pub was: String,
    /// What would be said now.
    pub now: String,
}

/// Words for what was promised.
pub fn promised(registry: &Registry, found: &Promised) -> PromisedReport {
    let slip = |changed: &crate::analysis::promised::Changed| Slip {
        plant: registry.code_of(changed.of),
        on: changed.on.clone(),
        was: changed.was.clone(),
        now: changed.now.clone(),
    };
    PromisedReport {
        changed: found.changed.iter().map(slip).collect(),
        unchanged: found.unchanged.len(),
        without: found.without.len(),
        grower: registry.settings.grower.as_deref().map(str::to_owned),
        contact: registry.settings.contact.as_deref().map(str::to_owned),
    }
}

impl Report for PromisedReport {
    fn sheet(&self) -> Sheet {
        let all = self.changed.len() + self.unchanged;
        let answer = match (all, self.changed.len()) {
            (0, _) => {
                "No plant that you sold or gave away has its description on record".to_owned()
            }
            (1, 0) => "1 plant left with its description on record; it would read the same today"
                .to_owned(),
            (_, 0) => {
                format!(
                    "{all} plants left with their descriptions on record; each would read the same today"
                )
            }
            (_, changed) => format!(
                "{changed} of {} that left with a description would now be described differently",
                counted(all, "plant", "plants")
            ),
        };
        let mut sheet = Sheet::new(answer);
        for slip in &self.changed {
            let (plant, left) = (&slip.plant, at_date(&slip.on));
            let title = format!("Correction for {plant}, which left {left}");
            let texts = [("it said", &slip.was), ("now", &slip.now)];
            let texts = texts.map(|(when, text)| (when, Some(text.clone())));
            sheet.facts(Some(&title), texts);
        }
        if self.without > 0 {
            let count = counted(self.without, "plant or piece", "plants or pieces");
            let words = "left without a description on record; `podbook gone` keeps it from now on";
            sheet.caution(Weight::LeftOut, format!("{count} {words}"));
        }
        sheet
    }

    /// A row a text; the headings alone where all texts still hold.
    fn spreadsheet(&self) -> Sheet {
        let mut sheet = Sheet::new("");
        sheet.table(
            Table::of(&self.changed)
                .text("plant", |slip| &slip.plant)
                .text("left on", |slip| &slip.on)
                .text("it said", |slip| &slip.was)
                .text("now", |slip| &slip.now),
        );
        sheet
    }

    fn is_bad_news(&self) -> bool {
        !self.changed.is_empty()
    }
}
