//! A bare number where a length was meant: what each unit would mean for the plant's growth, and which is likelier.
//!
//! The reading before it and the plant's earlier rate (else the mean rate of its group) say how large the plant should
//! be by then. Each unit gives a rate; one is called probable when its rate lies at least three times nearer to the
//! expected one than the next. Until the grower confirms it the number is drawn hollow and left out of everything.

use crate::analysis::growth::grown::Grown;
use crate::analysis::growth::rates::slope;
use crate::lineage::PlantRow;
use crate::observation::months::{MONTH, months};
use crate::observation::provenance::sown;
use crate::record::{Length, LengthUnit, Reads, When};
use crate::registry::{Column, Registry, TraitRow};
use serde::Serialize;

/// How many times nearer than the next a unit's rate must lie to be called probable.
const NEARER: f64 = 3.0;

/// A length without a unit.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Unitless {
    /// The plant's code.
    pub id: String,
    /// Day of the sitting, as a range in words.
    pub on: String,
    /// As typed.
    pub typed: String,
    /// The number.
    pub number: f64,
    /// Age in months, middle of what the dates allow.
    pub age: Option<f64>,
    /// Months since the reading before; `null` when there is none.
    pub months_since: Option<f64>,
    /// Growth rate expected, per month, and where it is from.
    pub expected_rate: Option<f64>,
    /// Whether the expected rate is the plant's own (else that of its group).
    pub own_rate: bool,
    /// What each unit would mean.
    pub guesses: Vec<Guess>,
    /// The probable unit, if one stands out.
    pub probably: Option<LengthUnit>,
}

/// What one unit would mean.
#[derive(Clone, Copy, PartialEq, Debug, Serialize)]
pub struct Guess {
    /// The unit.
    pub unit: LengthUnit,
    /// The size in cm.
    pub cm: f64,
    /// Change since the reading before, cm.
    pub change: Option<f64>,
    /// Growth rate since then, per month.
    pub rate: Option<f64>,
}

/// A bare number of a plant.
#[derive(Clone, Copy)]
struct Bare<'b> {
    plant: PlantRow,
    when: When,
    typed: &'b str,
    number: f64,
}

/// The bare numbers of some plants, with what each unit would mean; sizes of `grown` in cm.
pub fn unitless(
    registry: &Registry,
    plants: &[PlantRow],
    index: TraitRow,
    grown: &[Grown],
) -> Vec<Unitless> {
    if !matches!(registry[index].reads, Reads::Length(_)) {
        return Vec::new();
    }
    let group_rate = mean(grown.iter().filter_map(slope));
    let mut found = Vec::new();
    for &plant in plants {
        for bare in bare_numbers(registry, plant, index) {
            // Readings come by plant, so the plants stand in order.
            let at = grown.binary_search_by_key(&plant, |grown| grown.plant);
            let of = at.ok().map(|at| &grown[at]);
            found.push(weighed(registry, bare, of, group_rate));
        }
    }
    found
}

fn mean(rates: impl Iterator<Item = f64>) -> Option<f64> {
    let rates: Vec<f64> = rates.collect();
    (!rates.is_empty()).then(|| rates.iter().sum::<f64>() / rates.len() as f64)
}

fn bare_numbers<'r>(registry: &'r Registry, plant: PlantRow, wanted: TraitRow) -> Vec<Bare<'r>> {
    let mut found = Vec::new();
    for reading in registry.readings.of(plant) {
        let head = &registry[reading.sitting];
        let Column::Trait { index, unit: None } = head.columns[usize::from(reading.column)] else {
            continue;
        };
        let typed = registry.cell(reading);
        if index == wanted
            && let Ok(Length { number, unit: None }) = Length::read(typed)
        {
            let when = registry.when(head.sitting.on);
            found.push(Bare {
                plant,
                when,
                typed,
                number,
            });
        }
    }
    found
}

fn weighed(
    registry: &Registry,
    bare: Bare,
    grown: Option<&Grown>,
    group_rate: Option<f64>,
) -> Unitless {
    let before = grown.map(|grown| Grown {
        plant: grown.plant,
        scale: grown.scale,
        points: grown
            .points
            .iter()
            .filter(|point| point.when.surely_before(bare.when))
            .copied()
            .collect(),
    });
    let last = before.as_ref().and_then(|before| before.points.last());
    let since = last.and_then(|last| {
        let days = f64::from(bare.when.first.0) / 2.0 + f64::from(bare.when.last.0) / 2.0;
        Some(days / MONTH - last.month()?).filter(|months| months.is_finite() && *months > 0.0)
    });
    let own = before.as_ref().and_then(slope);
    let guess = |unit: LengthUnit| {
        let cm = bare.number * unit.cm();
        Guess {
            unit,
            cm,
            change: last.map(|last| cm - last.size),
            rate: last
                .zip(since)
                .filter(|_| cm > 0.0)
                .map(|(last, since)| libm::log(cm / last.size) / since),
        }
    };
    let guesses: Vec<Guess> = [LengthUnit::Cm, LengthUnit::In, LengthUnit::Mm]
        .map(guess)
        .into();
    let expected = own.or(group_rate);
    let age = months(sown(registry, bare.plant), bare.when);
    Unitless {
        id: registry.code(bare.plant),
        on: crate::wording::days(bare.when),
        typed: bare.typed.to_owned(),
        number: bare.number,
        age: age.map(|(least, most)| (least + most) / 2.0),
        months_since: since,
        expected_rate: expected,
        own_rate: own.is_some(),
        probably: expected.and_then(|rate| probable(&guesses, rate)),
        guesses,
    }
}

/// The unit whose rate lies far nearer to the expected one than any other.
fn probable(guesses: &[Guess], expected: f64) -> Option<LengthUnit> {
    let mut off: Vec<(f64, LengthUnit)> = guesses
        .iter()
        .filter_map(|guess| Some(((guess.rate? - expected).abs(), guess.unit)))
        .collect();
    off.sort_by(|a, b| a.0.total_cmp(&b.0));
    match off[..] {
        [(nearest, unit), (next, _), ..] if NEARER * nearest <= next => Some(unit),
        _ => None,
    }
}
