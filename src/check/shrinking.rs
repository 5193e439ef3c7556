//! Does a plant shrink, from one reading to a later one, more than plants do?
//!
//! Asked of lengths of the plant, not of its pitchers, and only of plants of one piece: a cutting is smaller than the
//! plant it was taken from. Rows flagged for pests and readings far from those of siblings are left out, and so are two
//! readings with a mix-up between them that is not settled. When most
//! plants of a column shrink at once, it is the column that is in doubt, and it is reported once.

use super::context::CheckContext;
use super::misplaced_points::{far_off, length};
use crate::diagnostic::{Code, Finding};
use crate::observation::{says_pest, value};
use crate::record::{LengthUnit, When};
use crate::registry::{Column, CrossRow, PlantRow, Reading, SittingRow, TraitRow};
use std::collections::{BTreeMap, BTreeSet};

/// What of its earlier size a plant keeps at least, unless something is wrong (a judgement: a repotting may cost a
/// plant its older leaves, but new ones of half the size are seldom seen; common practice, no source).
pub const KEEPS: f64 = 0.5;
/// Plants of a column that must be compared before the column itself can be in doubt.
const FEWEST: usize = 4;

/// One length of a plant.
#[derive(Clone, Copy)]
struct Size {
    reading: Reading,
    when: When,
    cm: f64,
}

/// A plant that is smaller than it was.
struct Shrunk {
    before: Size,
    after: Size,
}

/// What was compared of one column of a sitting.
#[derive(Default)]
struct Compared {
    plants: usize,
    shrunk: Vec<Shrunk>,
}

/// The seedlings of a cross.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    of_plants(context, context.registry[cross].seedlings.iter().copied())
}

/// The founders.
pub(super) fn of_founders(context: &CheckContext) -> Vec<Finding> {
    of_plants(context, PlantRow::all(context.registry.founders().len()))
}

fn of_plants(context: &CheckContext, plants: impl Iterator<Item = PlantRow>) -> Vec<Finding> {
    if context.registry.readings.sittings().len() < 2 {
        return Vec::new();
    }
    let mut columns: BTreeMap<(SittingRow, u8), Compared> = BTreeMap::new();
    let mut far = Far {
        context,
        known: BTreeMap::new(),
    };
    for plant in plants {
        if context.registry.ramets(plant).len() > 1 {
            continue;
        }
        for sizes in sizes(context, &mut far, plant).into_values() {
            for pair in sizes
                .windows(2)
                .filter(|pair| pair[0].when.surely_before(pair[1].when))
                .filter(|pair| !is_mixed_up_between(context, plant, pair))
            {
                let of = (pair[1].reading.sitting, pair[1].reading.column);
                let compared = columns.entry(of).or_default();
                compared.plants += 1;
                if pair[1].cm < KEEPS * pair[0].cm {
                    let (before, after) = (pair[0], pair[1]);
                    compared.shrunk.push(Shrunk { before, after });
                }
            }
        }
    }
    columns
        .into_values()
        .flat_map(|column| told(context, column))
        .collect()
}

/// Whether a plant may have been mixed up between two readings, so that they may be of two plants.
fn is_mixed_up_between(context: &CheckContext, plant: PlantRow, pair: &[Size]) -> bool {
    let registry = context.registry;
    registry.open_mix_ups(plant).any(|muddle| {
        let on = registry.when(muddle.on);
        !on.surely_before(pair[0].when) && !pair[1].when.surely_before(on)
    })
}

/// The readings far from those of siblings, worked out once for a sitting.
struct Far<'g, 'r, 't> {
    context: &'g CheckContext<'r, 't>,
    known: BTreeMap<SittingRow, BTreeSet<(PlantRow, u8)>>,
}

impl Far<'_, '_, '_> {
    fn has(&mut self, reading: &Reading) -> bool {
        let context = self.context;
        let of_sitting = self.known.entry(reading.sitting).or_insert_with(|| {
            let head = &context.registry[reading.sitting];
            let far = far_off(context, head).into_iter();
            far.map(|(reading, _)| (reading.plant, reading.column))
                .collect()
        });
        of_sitting.contains(&(reading.plant, reading.column))
    }
}

/// The lengths of one plant by trait, first day first.
fn sizes(context: &CheckContext, far: &mut Far, plant: PlantRow) -> BTreeMap<TraitRow, Vec<Size>> {
    let registry = context.registry;
    let mut of_trait: BTreeMap<TraitRow, Vec<Size>> = BTreeMap::new();
    for reading in registry.readings.of(plant) {
        let head = &registry[reading.sitting];
        let column = usize::from(reading.column);
        let Some(declared) = length(context, head, column).filter(|of| !of.of_pitcher) else {
            continue;
        };
        let Column::Trait { index, unit } = head.columns[column] else {
            continue;
        };
        let Ok(cm) = value(declared, registry.cell(reading), unit) else {
            continue;
        };
        let when = registry.when(head.sitting.on);
        of_trait
            .entry(index)
            .or_default()
            .push(Size { reading, when, cm });
    }
    of_trait.retain(|_, sizes| sizes.len() > 1);
    for sizes in of_trait.values_mut() {
        sizes.sort_by_key(|size| (size.when.first, size.when.last, size.reading.sitting));
        let falls = sizes.windows(2).any(|pair| pair[1].cm < KEEPS * pair[0].cm);
        if falls {
            sizes.retain(|size| !far.has(&size.reading) && !is_flagged(context, size));
        }
    }
    of_trait
}

/// Whether pests were seen on the plant that day.
fn is_flagged(context: &CheckContext, size: &Size) -> bool {
    let registry = context.registry;
    let head = &registry[size.reading.sitting];
    let is_pest = |reading: &Reading| {
        let column = head.columns.get(usize::from(reading.column));
        reading.sitting == size.reading.sitting && column == Some(&Column::Pest)
    };
    let mut pests = registry.readings.of(size.reading.plant).filter(is_pest);
    pests.any(|reading| says_pest(registry.cell(reading)))
}

/// Each plant that shrank, or the column once when most of its plants did.
fn told(context: &CheckContext, column: Compared) -> Vec<Finding> {
    let many = column.shrunk.len() >= FEWEST && 2 * column.shrunk.len() > column.plants;
    if many {
        return vec![column_told(context, &column)];
    }
    column
        .shrunk
        .iter()
        .map(|shrunk| plant_told(context, shrunk))
        .collect()
}

fn plant_told(context: &CheckContext, shrunk: &Shrunk) -> Finding {
    let code = context.registry.code(shrunk.after.reading.plant);
    finding(context, shrunk, format!("{code} is less than half the size it was"))
        .help("is one of the two a slip of the pen, or of another plant? a plant cut back, or hurt by pests, gets a `pest` or `note` on its row")
}

fn column_told(context: &CheckContext, column: &Compared) -> Finding {
    let title = format!(
        "{} of {} plants are less than half the size they were",
        column.shrunk.len(),
        column.plants
    );
    finding(context, &column.shrunk[0], title).help(
        "the first is shown; is the unit of one of the two sittings wrong, or were rows mixed up?",
    )
}

/// The finding with both places, and whether inches would explain it.
fn finding(context: &CheckContext, shrunk: &Shrunk, title: String) -> Finding {
    let registry = context.registry;
    let (before, after) = (&shrunk.before, &shrunk.after);
    let typed = |size: &Size| registry.cell(size.reading).to_owned();
    let head = |size: &Size| &registry[size.reading.sitting];
    let place = |size: &Size| {
        let file = head(size).file;
        let own = context.span(file, registry.cell(size.reading));
        own.or_else(|| context.span(file, head(size).sitting.on))
    };
    let mut finding = Finding::warning(Code("plant-shrinks"), title)
        .at(place(after))
        .found(format!(
            "`{}` on {}, and `{}` before on {}",
            typed(after),
            head(after).sitting.on,
            typed(before),
            head(before).sitting.on
        ))
        .needed(format!("{:.1} cm or more", KEEPS * before.cm));
    let as_inches = after.cm * LengthUnit::In.cm();
    if (0.9 * before.cm..=1.5 * before.cm).contains(&as_inches) {
        finding = finding.help(format!(
            "read as inches it would be {as_inches:.1} cm: were inches written as centimetres?"
        ));
    }
    finding.related(place(before), "read here before")
}
