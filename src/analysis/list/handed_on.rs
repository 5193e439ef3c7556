//! What was sold or given away: plants, pieces of them, trays and seed.

use crate::observation::left_by_itself::fate_of_its_own;
use crate::observation::presence::is_over;
use crate::observation::seedling_trays::{SeedlingTray, every_tray};
use crate::record::{Day, Fate, HandedOn, Return};
use crate::registry::{CrossRow, Registry};

/// How much left.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Amount {
    /// All of it: a plant, a piece or a tray.
    Whole,
    /// So many seedlings of a pot, where the others stayed.
    Seedlings(u32),
    /// So many seeds of a lot, where the others stayed.
    Seeds(u32),
    /// All that was left of a seed lot.
    RestOfSeed,
}

/// One plant, piece, tray or seed lot of which something was sold or given away.
pub struct HandedOnLine<'r, 't> {
    /// Its code.
    pub code: String,
    /// How it left, and when.
    pub fate: &'r Fate<'t>,
    /// Who has it, what was asked for it and what went along.
    pub with: HandedOn<'r>,
    /// When it came back, as typed.
    pub back: Option<&'t str>,
    /// How much of it.
    pub amount: Amount,
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
        let fate = |tray: SeedlingTray| {
            let fate = tray.fate(registry)?;
            Some(Left::whole(tray.code(registry), fate, None))
        };
        let whole = every_tray(registry, cross).filter_map(fate);
        whole
            .chain(parts(registry, cross))
            .chain(seed(registry, cross))
            .map(move |of| (of, told))
    });
    let lines = plants
        .chain(trays)
        .filter(|(left, _)| is_over(registry, left.fate, today));
    let lines = lines.filter_map(|(left, told)| {
        let with = left.fate.handed_on()?;
        with.left_here(told).then_some(HandedOnLine {
            code: left.code,
            fate: left.fate,
            with,
            back: left.back,
            amount: left.amount,
        })
    });
    let mut lines: Vec<_> = lines.collect();
    lines.sort_by_key(|line| {
        let on = registry.when(line.fate.on());
        std::cmp::Reverse((on.last != Day::LAST, on.last, on.first))
    });
    lines
}

/// How something left.
struct Left<'r, 't> {
    code: String,
    fate: &'r Fate<'t>,
    back: Option<&'t str>,
    amount: Amount,
}

impl<'r, 't> Left<'r, 't> {
    fn whole(code: String, fate: &'r Fate<'t>, back: Option<&'t str>) -> Self {
        Left {
            code,
            fate,
            back,
            amount: Amount::Whole,
        }
    }
}

/// The seedlings that left a pot while others stayed.
fn parts<'r, 't>(
    registry: &'r Registry<'t>,
    cross: CrossRow,
) -> impl Iterator<Item = Left<'r, 't>> {
    let pots = registry.community_pots(cross);
    pots.flat_map(move |(row, pot)| {
        let code = SeedlingTray::Pot(row).code(registry);
        pot.gone.iter().map(move |part| Left {
            amount: Amount::Seedlings(part.count),
            ..Left::whole(code.clone(), &part.fate, None)
        })
    })
}

/// The seed that left its lot.
fn seed<'r, 't>(registry: &'r Registry<'t>, cross: CrossRow) -> impl Iterator<Item = Left<'r, 't>> {
    registry.seed_lots(cross).flat_map(move |(_, lot)| {
        let parts = lot.gone.iter();
        let parts = parts.map(|part| (Amount::Seeds(part.count), &part.fate));
        let rest = lot.fate.as_ref().map(|fate| (Amount::RestOfSeed, fate));
        parts.chain(rest).map(move |(amount, fate)| Left {
            amount,
            ..Left::whole(
                format!("{}.{}", registry[cross].page.code, lot.code),
                fate,
                None,
            )
        })
    })
}

/// How something left, now and before it came back.
fn left<'r, 't>(
    code: String,
    now: Option<&'r Fate<'t>>,
    before: &'r [Return<'t>],
) -> impl Iterator<Item = Left<'r, 't>> {
    let before = before.iter().map(|back| (&back.left, Some(back.on)));
    let all = now.map(|fate| (fate, None)).into_iter().chain(before);
    all.map(move |(fate, back)| Left::whole(code.clone(), fate, back))
}
