//! Cells of a further row of a cross that no earlier row of it in the tables has.

use super::answer::{CorrectedBy, ImportRow, Why};
use super::cross_cells::counts;
use super::facts::RowFacts;
use super::index::folded;
use super::known_crosses::OtherCell;
use crate::record::Holds;
use crate::registry::Registry;

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
