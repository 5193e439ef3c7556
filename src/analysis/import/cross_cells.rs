//! Cells about a cross or its seed that are not what the page of the cross says, or an earlier row of it.

use super::answer::{CorrectedBy, ImportRow, Why};
use super::facts::RowFacts;
use super::index::folded;
use crate::record::{CrossPage, Holds};
use crate::registry::{CrossRow, Registry};

/// A cell that is not what is known of a cross: what its column holds, if it is one cell, the cell, and what is known.
pub(super) type OtherCell = (Option<Holds>, (String, Why));

/// A row, and the cross on record that it is held against.
struct Held<'a, 't> {
    registry: &'a Registry<'t>,
    cross: CrossRow,
    page: &'a CrossPage<'t>,
    facts: &'a RowFacts,
}

/// The cells of a row that are not what the page of a cross says.
pub(super) fn cross_cells(
    registry: &Registry,
    cross: CrossRow,
    facts: &RowFacts,
) -> Vec<OtherCell> {
    let page = &registry[cross].page;
    let held = Held {
        registry,
        cross,
        page,
        facts,
    };
    let mut cells: Vec<OtherCell> = held.days().into_iter().flatten().collect();
    cells.extend(held.numbers().into_iter().flatten());
    cells.extend(held.counts());
    cells.extend(held.words().into_iter().flatten());
    cells
}

/// The path of the page of a cross on record.
pub(super) fn page_of_cross(registry: &Registry, cross: CrossRow) -> String {
    registry.sources.get(registry[cross].file).path.clone()
}

/// The counts of seedlings of a row, with their days.
fn counts(facts: &RowFacts) -> impl Iterator<Item = (Option<String>, u32)> {
    let own = facts.germinated.map(|up| (facts.counted.clone(), up));
    let dated = facts.counts.iter().map(|(on, up)| (Some(on.clone()), *up));
    own.into_iter().chain(dated)
}

impl Held<'_, '_> {
    fn days(&self) -> [Option<OtherCell>; 3] {
        let (page, facts) = (self.page, self.facts);
        let pollinated = page
            .pollinations
            .iter()
            .flat_map(|of| of.on.iter().copied());
        let harvested = page.pods.iter().filter_map(|of| of.harvested);
        let sown = page.sowings.iter().filter_map(|of| of.on);
        let (harvest, sow) = (self.harvest(), self.sow());
        [
            self.day(Holds::Pollinated, &facts.pollinated, pollinated, None),
            self.day(Holds::Harvested, &facts.harvested, harvested, harvest),
            self.day(Holds::Sown, &facts.sown, sown, sow),
        ]
    }

    /// A day that is not among those recorded; `command` records it where none is.
    fn day<'d>(
        &self,
        holds: Holds,
        cell: &Option<String>,
        recorded: impl Iterator<Item = &'d str>,
        command: Option<CorrectedBy>,
    ) -> Option<OtherCell> {
        let found = cell.clone()?;
        let recorded: Vec<&str> = recorded.collect();
        let on = self.registry.when(&found);
        let is_same = recorded.iter().any(|day| self.registry.when(day) == on);
        (!is_same).then(|| self.cell(holds, found, &recorded, command))
    }

    fn numbers(&self) -> [Option<OtherCell>; 2] {
        let page = self.page;
        let capsules = page.pods.iter().filter_map(|of| of.capsules);
        let none_set = page.pollinations.iter().filter_map(|of| of.set);
        let pods: Vec<u32> = capsules.chain(none_set.filter(|set| *set == 0)).collect();
        let of_lots = page.seed_lots.iter().filter_map(|of| of.seeds);
        let of_pods = page.pods.iter().filter_map(|of| of.seeds);
        let of_sowings = page.sowings.iter().filter_map(|of| of.seeds);
        let seeds: Vec<u32> = of_lots.chain(of_pods).chain(of_sowings).collect();
        let own = self.facts.seed_number();
        [
            self.number(Holds::Pods, self.facts.pods, &pods),
            self.number(Holds::Seeds, own, &seeds),
        ]
    }

    /// A number that is neither among those recorded nor their sum.
    fn number(&self, holds: Holds, own: Option<u32>, recorded: &[u32]) -> Option<OtherCell> {
        let own = own?;
        let sum: u64 = recorded.iter().map(|of| u64::from(*of)).sum();
        let is_same = recorded.contains(&own) || !recorded.is_empty() && sum == u64::from(own);
        let words: Vec<String> = recorded.iter().map(u32::to_string).collect();
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        (!is_same).then(|| self.cell(holds, own.to_string(), &words, self.harvest()))
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
            let of = self.part(self.page.sowings.len());
            let by = CorrectedBy::Count { of, up, on };
            let why = Why::Differs { recorded: None, by };
            (Some(Holds::Germinated), (up.to_string(), why))
        })
    }

    fn words(&self) -> [Option<OtherCell>; 3] {
        let (page, facts) = (self.page, self.facts);
        let left = page.seed_lots.iter().filter_map(|of| of.left.as_deref());
        let left: Vec<&str> = left.collect();
        let received: Vec<&str> = page.received.as_deref().into_iter().collect();
        let from: Vec<&str> = page.from.as_deref().into_iter().collect();
        [
            self.word(Holds::Left, &facts.left, &left),
            self.word(Holds::Label, &facts.label, &received),
            self.word(Holds::Supplier, &facts.supplier, &from),
        ]
    }

    fn word(&self, holds: Holds, cell: &Option<String>, recorded: &[&str]) -> Option<OtherCell> {
        let found = cell.clone()?;
        let is_same = recorded.iter().any(|of| folded(of) == folded(&found));
        (!is_same).then(|| self.cell(holds, found, recorded, None))
    }

    /// Where something is recorded already, a command would set the new beside it: then the page is to be edited.
    fn cell(
        &self,
        holds: Holds,
        found: String,
        recorded: &[&str],
        command: Option<CorrectedBy>,
    ) -> OtherCell {
        let page = || CorrectedBy::Page(page_of_cross(self.registry, self.cross));
        let command = command.filter(|_| recorded.is_empty());
        let why = Why::Differs {
            recorded: (!recorded.is_empty()).then(|| recorded.join(", ")),
            by: command.unwrap_or_else(page),
        };
        (Some(holds), (found, why))
    }

    /// The harvest that the row says, where none is recorded and there is a zone to harvest.
    fn harvest(&self) -> Option<CorrectedBy> {
        let (page, facts) = (self.page, self.facts);
        let can_be = page.pods.is_empty() && !page.pollinations.is_empty();
        can_be.then(|| CorrectedBy::Harvest {
            zone: self.part(page.pollinations.len()),
            capsules: facts.pods,
            seeds: facts.seed_number(),
            on: facts.harvested.clone(),
        })
    }

    /// The sowing that the row says. Without a seed lot nothing on record can be sown before the harvest is recorded.
    fn sow(&self) -> Option<CorrectedBy> {
        Some(CorrectedBy::Sow {
            lot: self.part(self.page.seed_lots.len()),
            seeds: self.facts.sown_seeds(),
            on: self.facts.sown.clone(),
        })
    }

    /// The code of a zone, seed lot or sowing: that of the cross, unless there are several.
    fn part(&self, several: usize) -> String {
        let code = self.page.code;
        match several {
            0 | 1 => code.to_owned(),
            _ => format!("{code}.…"),
        }
    }
}

/// What a row says of a cross, by what its column holds.
type Said = (Holds, fn(&RowFacts) -> Option<String>);

/// What is held against the rows before.
const SAID: [Said; 8] = [
    (Holds::Pollinated, |of| of.pollinated.clone()),
    (Holds::Pods, |of| of.pods.map(|pods| pods.to_string())),
    (Holds::Harvested, |of| of.harvested.clone()),
    (Holds::Seeds, |of| {
        of.seed_number().map(|seeds| seeds.to_string())
    }),
    (Holds::Sown, |of| of.sown.clone()),
    (Holds::Left, |of| of.left.clone()),
    (Holds::Label, |of| of.label.clone()),
    (Holds::Supplier, |of| of.supplier.clone()),
];

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
    let cells = SAID.iter().filter_map(|(holds, of)| {
        let own = of(facts)?;
        let same = |there: String| match holds {
            Holds::Pollinated | Holds::Harvested | Holds::Sown => {
                registry.when(&there) == registry.when(&own)
            }
            _ => folded(&there) == folded(&own),
        };
        let mut all = before.iter().filter_map(|row| of(&row.facts));
        let page = CorrectedBy::Page(format!("crosses/{code}.ron"));
        let is_new = !all.any(same);
        is_new.then(|| (Some(*holds), (own, why(of(&before[0].facts), page))))
    });
    let known: Vec<_> = before.iter().flat_map(|row| counts(&row.facts)).collect();
    let new = counts(facts).filter(|of| !known.contains(of));
    let new = new.map(|(on, up)| {
        let of = code.to_owned();
        let there = known.first().map(|(_, up)| up.to_string());
        let by = CorrectedBy::Count { of, up, on };
        (Some(Holds::Germinated), (up.to_string(), why(there, by)))
    });
    cells.chain(new).collect()
}
