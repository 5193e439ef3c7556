//! Cells about a cross or its seed that are not what the page of the cross says, or an earlier row of it.

use super::answer::{ImportRow, Why};
use super::corrected_by::{self, day_option, option};
use super::facts::RowFacts;
use super::index::folded;
use crate::record::CrossPage;
use crate::record::Holds::{
    self, Acquired, Germinated, Harvested, Label, Left, Pods, Pollinated, Seeds, Sown, Supplier,
};
use crate::registry::{CrossRow, Registry};
use std::collections::BTreeSet;

/// A cell that is not what is known of a cross: what its column holds, if it is one cell, the cell, and what is known.
pub(super) type OtherCell = (Option<Holds>, (String, Why));

/// Whether a cell is about the sowing, not about the cross.
pub(super) fn is_of_sowing((holds, _): &OtherCell) -> bool {
    matches!(holds, Some(Sown | Seeds | Germinated))
}

/// What is held against the page of a cross, before the counts of seedlings and behind them.
const ON_PAGE: [&[Holds]; 2] = [
    &[Pollinated, Harvested, Sown, Pods, Seeds],
    &[Left, Label, Supplier, Acquired],
];
/// What is held against an earlier row, before the counts of seedlings.
const IN_ROWS: [Holds; 8] = [
    Pollinated, Pods, Harvested, Seeds, Sown, Left, Label, Supplier,
];

/// What a row says of a cross, by what the column holds.
fn said(facts: &RowFacts, holds: Holds) -> Option<String> {
    match holds {
        Pollinated => facts.pollinated.clone(),
        Harvested => facts.harvested.clone(),
        Sown => facts.sown.clone(),
        Pods => facts.pods.map(|pods| pods.to_string()),
        Seeds => facts.seed_number().map(|seeds| seeds.to_string()),
        Left => facts.left.clone(),
        Label => facts.label.clone(),
        Supplier => facts.supplier.clone(),
        // Of seed that came; a cross that was made came on no day.
        Acquired => facts.acquired.clone().filter(|_| !facts.has_parents()),
        _ => None,
    }
}

/// Whether two cells say the same: one day, written so or another way, or one word.
fn is_same(registry: &Registry, holds: Holds, one: &str, other: &str) -> bool {
    match holds {
        Pollinated | Harvested | Sown | Acquired => registry.when(one) == registry.when(other),
        _ => folded(one) == folded(other),
    }
}

/// The counts of seedlings of a row, with their days.
fn counts(facts: &RowFacts) -> impl Iterator<Item = (Option<String>, u32)> {
    let own = facts.germinated.map(|up| (facts.counted.clone(), up));
    let dated = facts.counts.iter().map(|(on, up)| (Some(on.clone()), *up));
    own.into_iter().chain(dated)
}

/// The path of the page of a cross on record.
pub(super) fn page_of_cross(registry: &Registry, cross: CrossRow) -> String {
    registry.sources.get(registry[cross].file).path.clone()
}

/// The cells of a row that are not what the page of a cross says.
pub(super) fn cross_cells(
    registry: &Registry,
    cross: CrossRow,
    facts: &RowFacts,
) -> Vec<OtherCell> {
    let held = Held {
        registry,
        page: &registry[cross].page,
        path: page_of_cross(registry, cross),
        facts,
    };
    let [before, behind] = ON_PAGE.map(|all| all.iter().filter_map(|holds| held.cell(*holds)));
    before.chain(held.counts()).chain(behind).collect()
}

/// A row, and the page of the cross that it is held against.
struct Held<'a, 't> {
    registry: &'a Registry<'t>,
    page: &'a CrossPage<'t>,
    path: String,
    facts: &'a RowFacts,
}

impl Held<'_, '_> {
    /// A cell that is not among what is recorded, and no sum of it. Where something is recorded already, a command would set
    /// the new beside it: then the page is to be edited.
    fn cell(&self, holds: Holds) -> Option<OtherCell> {
        let own = said(self.facts, holds)?;
        let mut recorded = self.recorded(holds);
        let is_known = |of: &String| is_same(self.registry, holds, of, &own);
        let sums = match holds {
            Pods => vec![recorded.clone()],
            Seeds => self.seeds().to_vec(),
            _ => Vec::new(),
        };
        if recorded.iter().any(is_known) || sums.iter().any(|of| is_sum(&own, of)) {
            return None;
        }
        let command = match holds {
            Harvested | Pods | Seeds => self.harvest(),
            Sown => Some(self.sow()),
            _ => None,
        };
        let command = command.filter(|_| recorded.is_empty());
        // Seed of one pod stands with the pod and with its lot.
        recorded.dedup();
        let why = Why::Differs {
            recorded: (!recorded.is_empty()).then(|| recorded.join(", ")),
            by: command.unwrap_or_else(|| corrected_by::page(&self.path)),
        };
        Some((Some(holds), (own, why)))
    }

    /// What the page says of the same.
    fn recorded(&self, holds: Holds) -> Vec<String> {
        let page = self.page;
        let pods = || page.pods.iter();
        let (lots, sowings) = (page.seed_lots.iter(), page.sowings.iter());
        match holds {
            Pollinated => words(page.pollinations.iter().flat_map(|of| &of.on)),
            Harvested => words(pods().filter_map(|of| of.harvested)),
            Sown => words(sowings.filter_map(|of| of.on)),
            Pods => {
                let none_set = page.pollinations.iter().filter(|of| of.set == Some(0));
                let capsules = pods().filter_map(|of| of.capsules);
                words(capsules.chain(none_set.filter_map(|of| of.set)))
            }
            Seeds => self.seeds().concat(),
            Left => words(lots.filter_map(|of| of.left.as_deref())),
            Label => words(page.received.as_deref()),
            Supplier => words(page.from.as_deref()),
            Acquired => words(lots.filter_map(|of| of.came)),
            _ => Vec::new(),
        }
    }

    /// The seed of lots, of pods and of sowings: the same seed, so that the numbers of one kind add up, and no others.
    fn seeds(&self) -> [Vec<String>; 3] {
        let page = self.page;
        [
            words(page.seed_lots.iter().filter_map(|of| of.seeds)),
            words(page.pods.iter().filter_map(|of| of.seeds)),
            words(page.sowings.iter().filter_map(|of| of.seeds)),
        ]
    }

    /// Counts of seedlings that no sowing has.
    fn counts(&self) -> impl Iterator<Item = OtherCell> {
        let tallies = || self.page.sowings.iter().flat_map(|of| &of.germinated);
        let is_known = move |(on, up): &(Option<String>, u32)| {
            let day = on.as_deref().map(|on| self.registry.when(on));
            let mut same = tallies().filter(|of| of.count == *up);
            same.any(|of| day.is_none_or(|day| self.registry.when(of.on) == day))
        };
        let new = counts(self.facts).filter(move |of| !is_known(of));
        new.map(|(on, up)| {
            // A day that is not on record may be that of one more sowing.
            let further = usize::from(self.cell(Sown).is_some());
            let of = self.part(self.page.sowings.len() + further);
            let by = corrected_by::count(&of, up, on.as_deref());
            let why = Why::Differs { recorded: None, by };
            (Some(Germinated), (up.to_string(), why))
        })
    }

    /// The harvest that the row says, where none is recorded and there is a zone to harvest.
    fn harvest(&self) -> Option<String> {
        let (page, facts) = (self.page, self.facts);
        let can_be = page.pods.is_empty() && !page.pollinations.is_empty();
        can_be.then(|| {
            let zone = self.part(page.pollinations.len());
            let capsules = option("capsules", facts.pods);
            let seeds = option("seeds", facts.seed_number());
            let on = day_option(facts.harvested.as_deref());
            format!("podbook harvest {zone}{capsules}{seeds}{on}")
        })
    }

    /// The sowing that the row says. Without a seed lot nothing on record can be sown before the harvest is recorded.
    fn sow(&self) -> String {
        let lot = self.part(self.page.seed_lots.len());
        let seeds = option("seeds", self.facts.sown_seeds());
        let on = day_option(self.facts.sown.as_deref());
        format!("podbook sow {lot}{seeds}{on}")
    }

    /// The code of a zone, seed lot or sowing: that of the cross, unless there are several.
    fn part(&self, several: usize) -> String {
        one_of(self.page.code, several)
    }
}

/// The code of a part of a cross: that of the cross, unless there are several.
fn one_of(code: &str, several: usize) -> String {
    match several {
        0 | 1 => code.to_owned(),
        _ => format!("{code}.…"),
    }
}

fn words(all: impl IntoIterator<Item = impl ToString>) -> Vec<String> {
    all.into_iter().map(|of| of.to_string()).collect()
}

/// Whether a number is the sum of some.
fn is_sum(own: &str, recorded: &[String]) -> bool {
    let numbers: Option<Vec<u64>> = recorded.iter().map(|of| of.parse().ok()).collect();
    let sum = numbers
        .filter(|of| !of.is_empty())
        .map(|of| of.iter().sum());
    sum.is_some_and(|sum: u64| own.parse() == Ok(sum))
}

/// The cells of a row that no row before it has; `place` is that of the first, which begins the cross with this code.
pub(super) fn begun_cells(
    registry: &Registry,
    code: &str,
    place: &(String, usize),
    before: &[&ImportRow],
    facts: &RowFacts,
) -> Vec<OtherCell> {
    let why = |there, by| Why::DiffersFrom {
        row: place.clone(),
        there,
        by,
    };
    let cells = IN_ROWS.iter().filter_map(|&holds| {
        let own = said(facts, holds)?;
        let mut all = before.iter().filter_map(|row| said(&row.facts, holds));
        let is_known = all.any(|there| is_same(registry, holds, &there, &own));
        let page = corrected_by::page(&format!("crosses/{code}.ron"));
        let there = said(&before[0].facts, holds);
        (!is_known).then(|| (Some(holds), (own, why(there, page))))
    });
    let known: Vec<_> = before.iter().flat_map(|row| counts(&row.facts)).collect();
    let new = counts(facts).filter(|of| !known.contains(of));
    let sown = before.iter().map(|row| &row.facts).chain([facts]);
    let sown: BTreeSet<&String> = sown.filter_map(|facts| facts.sown.as_ref()).collect();
    let new = new.map(|(on, up)| {
        let of = one_of(code, sown.len());
        let there = known.first().map(|(_, up)| up.to_string());
        let by = corrected_by::count(&of, up, on.as_deref());
        (Some(Germinated), (up.to_string(), why(there, by)))
    });
    cells.chain(new).collect()
}
