//! Crosses in rows: how far each came.

use super::shared::{formula_of, shortened};
use crate::analysis::list;
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::TopOf;
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{at_least, counted, days};
use serde::Serialize;

/// A list of crosses.
#[derive(Serialize)]
pub struct CrossList {
    /// Rows in the order of their codes.
    pub crosses: Vec<CrossLine>,
    /// Species whose names are in doubt, one line each.
    pub cautions: Vec<String>,
    /// Seedlings with a number of all of them.
    #[serde(skip)]
    numbered: usize,
    /// Of those, here today.
    #[serde(skip)]
    here: usize,
}

/// One cross.
#[derive(Serialize)]
pub struct CrossLine {
    /// Code.
    pub id: String,
    /// Formula of its seedlings.
    pub name: String,
    /// How surely their descent is known, in few words.
    pub evidence: String,
    /// First to last day of pollination.
    pub pollinated: Option<String>,
    /// Pods on record.
    pub pods: usize,
    /// Seeds sown; `null` when not counted.
    pub sown: Option<u32>,
    /// Whether the seeds of some sowing were not counted, so that there were at least as many.
    pub sown_is_minimum: bool,
    /// Seedlings that came up; `null` when not counted.
    pub germinated: Option<u32>,
    /// Whether the seedlings of some sowing were not counted, so that there were at least as many.
    pub germinated_is_minimum: bool,
    /// Seedlings with a number.
    pub numbered: usize,
    /// Of those, here today.
    pub here: usize,
    /// Of those that are here, kept.
    pub kept: usize,
}

/// Lists crosses.
pub fn crosses(context: &Context) -> CrossList {
    let answer = list::crosses(context);
    let tops = answer.crosses.iter().map(|of| TopOf::Cross(of.cross));
    CrossList {
        cautions: context.names().doubts(tops),
        crosses: answer.crosses.iter().map(|of| line(context, of)).collect(),
        numbered: answer.numbered,
        here: answer.here,
    }
}

fn line(context: &Context, of: &list::CrossLine) -> CrossLine {
    CrossLine {
        id: context.registry[of.cross].page.code.to_owned(),
        name: formula_of(context, TopOf::Cross(of.cross)),
        evidence: context.evidence().short(Unit::Cross(of.cross)),
        pollinated: of.pollinated.map(days),
        pods: of.pods,
        sown: of.sown.map(|total| total.count),
        sown_is_minimum: of.sown.is_some_and(|total| total.is_minimum),
        germinated: of.germinated.map(|total| total.count),
        germinated_is_minimum: of.germinated.is_some_and(|total| total.is_minimum),
        numbered: of.numbered,
        here: of.here,
        kept: of.kept,
    }
}

impl Report for CrossList {
    fn sheet(&self) -> Sheet {
        let here = match (self.here, self.numbered) {
            (0, 1) => "not".to_owned(),
            (1, 1) => "which is".to_owned(),
            (here, _) => format!("{here} of them"),
        };
        let mut sheet = Sheet::new(format!(
            "{} with {}, {} in the collection",
            counted(self.crosses.len(), "cross", "crosses"),
            counted(self.numbered, "numbered seedling", "numbered seedlings"),
            here,
        ));
        sheet.table_if_any(
            Table::of(&self.crosses)
                .text("cross", |cross| &cross.id)
                .figure("pods", |cross| cross.pods)
                .figure("seeds sown", |cross| {
                    cross.sown.map(|of| at_least(of, cross.sown_is_minimum))
                })
                .figure("germinated", |cross| {
                    let up = cross.germinated;
                    up.map(|of| at_least(of, cross.germinated_is_minimum))
                })
                .figure("numbered", |cross| cross.numbered)
                .figure("here", |cross| cross.here)
                .figure("kept", |cross| cross.kept)
                .text("pollinated", |cross| &cross.pollinated)
                .text("name", |cross| &cross.name)
                .text("evidence", |cross| &cross.evidence),
        );
        if !self.crosses.is_empty() {
            sheet.brief_table(self.short_rows());
        }
        sheet.cautions(Weight::Doubt, &self.cautions);
        sheet
    }
}

/// Crosses of which a screen has rows.
const SHORT_ROWS: usize = 20;

/// Letters of a name that a row of a screen holds.
const SHORT_NAME: usize = 60;

impl CrossList {
    /// A line for each cross, as many as a screen holds: what is here of it, and the beginning of its name.
    fn short_rows(&self) -> Table {
        Table::of(self.crosses.iter().take(SHORT_ROWS))
            .text("cross", |cross| &cross.id)
            .figure("up", |cross| {
                let up = cross.germinated;
                up.map(|of| at_least(of, cross.germinated_is_minimum))
            })
            .figure("numbered", |cross| cross.numbered)
            .figure("here", |cross| cross.here)
            .figure("kept", |cross| cross.kept)
            .text("parents", |cross| {
                let (parents, _) = cross
                    .evidence
                    .split_once(';')
                    .unwrap_or((&cross.evidence, ""));
                parents.to_owned()
            })
            .text("name", |cross| shortened(&cross.name, SHORT_NAME))
            .more(self.crosses.len().saturating_sub(SHORT_ROWS))
            .into()
    }
}
