//! Crosses in rows: how far each came.

use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::naming::{Writing, formula_only};
use crate::observation::presence::{Presence, presence};
use crate::observation::provenance::stages;
use crate::observation::tally::{germinated, seeds_sown};
use crate::record::When;
use crate::registry::{Cross, CrossRow};
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{counted, days};
use serde::Serialize;

/// A list of crosses.
#[derive(Serialize)]
pub struct CrossList {
    /// Rows in the order of their codes.
    pub crosses: Vec<CrossLine>,
    /// Species whose names are in doubt, one line each.
    pub cautions: Vec<String>,
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
    /// Seedlings that came up; `null` when not counted.
    pub germinated: Option<u32>,
    /// Seedlings with a number.
    pub numbered: usize,
    /// Of those, here today.
    pub here: usize,
    /// Of those, kept.
    pub kept: usize,
}

/// Lists crosses.
pub fn crosses(context: &Context) -> CrossList {
    let (registry, names, today) = (context.registry, context.names(), context.today);
    let evidence = context.evidence();
    let line = |(at, cross): (CrossRow, &Cross)| {
        let page = &cross.page;
        let formula = names.formula(TopOf::Cross(at), false);
        let here = |&&plant: &&PlantRow| presence(registry, plant, today) == Presence::Here;
        let pollinated = stages(registry, at, None, None).pollinated;
        CrossLine {
            id: page.code.to_owned(),
            name: formula_only(&formula, &Writing::plain(names.vocabulary()))
                .unwrap_or_else(|long| long.to_string()),
            evidence: evidence.short(Unit::Cross(at)),
            pollinated: (pollinated != When::UNKNOWN).then(|| days(pollinated)),
            pods: page.pods.len(),
            sown: seeds_sown(page),
            germinated: germinated(page),
            numbered: cross.seedlings.len(),
            here: cross.seedlings.iter().filter(here).count(),
            kept: cross
                .seedlings
                .iter()
                .filter(|&&plant| registry.is_kept(plant))
                .count(),
        }
    };
    let all = registry.cross_rows();
    CrossList {
        cautions: names.doubts(all.map(TopOf::Cross)),
        crosses: registry.all_crosses().map(line).collect(),
    }
}

impl Report for CrossList {
    fn sheet(&self) -> Sheet {
        let seedlings: usize = self.crosses.iter().map(|cross| cross.numbered).sum();
        let here: usize = self.crosses.iter().map(|cross| cross.here).sum();
        let mut sheet = Sheet::new(format!(
            "{} with {}, {here} of them in the collection",
            counted(self.crosses.len(), "cross", "crosses"),
            counted(seedlings, "numbered seedling", "numbered seedlings"),
        ));
        sheet.table_if_any(
            Table::of(&self.crosses)
                .text("cross", |cross| &cross.id)
                .figure("pods", |cross| cross.pods)
                .figure("seeds sown", |cross| cross.sown)
                .figure("germinated", |cross| cross.germinated)
                .figure("numbered", |cross| cross.numbered)
                .figure("here", |cross| cross.here)
                .figure("kept", |cross| cross.kept)
                .text("pollinated", |cross| &cross.pollinated)
                .text("name", |cross| &cross.name)
                .text("evidence", |cross| &cross.evidence),
        );
        self.cautions
            .iter()
            .for_each(|doubt| sheet.caution(Weight::Doubt, doubt));
        sheet
    }
}
