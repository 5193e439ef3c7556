//! What was sold or given away: plants, pieces of them and trays.

use crate::observation::left_by_itself::fate_of_its_own;
use crate::observation::presence::is_over;
use crate::observation::seedling_trays::{SeedlingTray, every_tray};
use crate::record::{Day, Fate, HandedOn, Return};
use crate::registry::Registry;

/// One plant, piece or tray that was sold or given away.
pub struct HandedOnLine<'r, 't> {
    /// Its code.
    pub code: String,
    /// How it left, and when.
    pub fate: &'r Fate<'t>,
    /// Who has it, what was asked for it and what went along.
    pub with: HandedOn<'r>,
    /// When it came back, as typed.
    pub back: Option<&'t str>,
}

/// What was sold or given away by a day, the latest first. What another grower let go is left out: of that, other
/// registries get the day alone.
pub fn handed_on<'r, 't>(registry: &'r Registry<'t>, today: Day) -> Vec<HandedOnLine<'r, 't>> {
    let plants = registry.plants().flat_map(|plant| {
        let told = registry.told_by(plant).is_some();
        let whole = registry.fate(plant);
        let whole = left(registry.code(plant), whole, registry.came_back(plant));
        let pieces = registry.each_ramet(plant);
        let pieces = pieces.flat_map(|(of, ramet)| {
            let by_itself = fate_of_its_own(registry, plant, ramet);
            left(registry.code_of(of), by_itself, &ramet.came_back)
        });
        let all: Vec<Left> = whole.chain(pieces).collect();
        all.into_iter().map(move |of| (of, told))
    });
    let trays = registry.cross_rows().flat_map(|cross| {
        let told = registry[cross].page.told_by.is_some();
        let fate = |tray: SeedlingTray| Some((tray.code(registry), tray.fate(registry)?, None));
        every_tray(registry, cross)
            .filter_map(fate)
            .map(move |of| (of, told))
    });
    let lines = plants
        .chain(trays)
        .filter(|((_, fate, _), _)| is_over(registry, fate, today));
    let lines = lines.filter_map(|((code, fate, back), told)| {
        let with = fate.handed_on()?;
        with.left_here(told).then_some(HandedOnLine {
            code,
            fate,
            with,
            back,
        })
    });
    let mut lines: Vec<_> = lines.collect();
    lines.sort_by_key(|line| {
        let on = registry.when(line.fate.on());
        std::cmp::Reverse((on.last != Day::LAST, on.last, on.first))
    });
    lines
}

/// A code, how what bears it left, and when it came back.
type Left<'r, 't> = (String, &'r Fate<'t>, Option<&'t str>);

/// How something left, now and before it came back.
fn left<'r, 't>(
    code: String,
    now: Option<&'r Fate<'t>>,
    before: &'r [Return<'t>],
) -> impl Iterator<Item = Left<'r, 't>> {
    let before = before.iter().map(|back| (&back.left, Some(back.on)));
    let all = now.map(|fate| (fate, None)).into_iter().chain(before);
    all.map(move |(fate, back)| (code.clone(), fate, back))
}
