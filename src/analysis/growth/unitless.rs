//! A bare number where a length was meant: what each unit would mean for the plant's growth, and which is likelier.
//!
//! The reading before it and the plant's earlier rate (else the mean rate of the other plants) say how large the plant
//! should be by then; a reading of the very same day says it outright. Each unit gives a rate; one is called probable when
//! its rate lies at least three times nearer to the expected one than any other, whichever of the recorded days are the
//! true ones. Until the grower confirms it the number is drawn hollow and left out of everything.

use crate::analysis::growth::grown::{Grown, Point};
use crate::analysis::growth::rates::slopes_allowed;
use crate::lineage::PlantRow;
use crate::observation::months::months;
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
    /// Least and most months since the reading before, none since one of the same day; `null` when there is none or an end
    /// of the dates is open.
    pub months_since: Option<(f64, f64)>,
    /// Least and greatest growth rate expected, per month; `null` beside a reading of the same day, too.
    pub expected_rate: Option<(f64, f64)>,
    /// Whether the expected rate is the plant's own (else the mean of the other plants of its group).
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
    /// Least and greatest growth rate since then, per month; `null` on the same day.
    pub rate: Option<(f64, f64)>,
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
    let rates = Rates::of(grown);
    let mut found = Vec::new();
    for &plant in plants {
        for bare in bare_numbers(registry, plant, index) {
            // Readings come by plant, so the plants stand in order.
            let at = grown.binary_search_by_key(&plant, |grown| grown.plant);
            let of = at.ok().map(|at| &grown[at]);
            found.push(weighed(registry, bare, of, &rates));
        }
    }
    found
}

/// The least and the greatest rates that the days allow of all plants that have one, added up.
struct Rates {
    plants: usize,
    sum: (f64, f64),
}

impl Rates {
    fn of(grown: &[Grown]) -> Rates {
        let each = grown.iter().filter_map(slopes_allowed);
        each.fold(
            Rates {
                plants: 0,
                sum: (0.0, 0.0),
            },
            |all, rate| Rates {
                plants: all.plants + 1,
                sum: (all.sum.0 + rate.0, all.sum.1 + rate.1),
            },
        )
    }

    /// Their mean without one plant; `None` when no other has a rate.
    fn of_others(&self, plant: Option<&Grown>) -> Option<(f64, f64)> {
        let own = plant.and_then(slopes_allowed);
        let (n, (least, most)) = match own {
            Some(own) => (self.plants - 1, (self.sum.0 - own.0, self.sum.1 - own.1)),
            None => (self.plants, self.sum),
        };
        (n > 0).then(|| (least / n as f64, most / n as f64))
    }
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

fn weighed(registry: &Registry, bare: Bare, grown: Option<&Grown>, rates: &Rates) -> Unitless {
    let before = grown.map(|grown| Grown {
        plant: grown.plant,
        scale: grown.scale,
        points: (grown.points.iter())
            .filter(|point| point.when.surely_before(bare.when))
            .copied()
            .collect(),
    });
    let same_day = |point: &&Point| point.when.is_exact() && point.when == bare.when;
    let same_day = grown.and_then(|grown| grown.points.iter().find(same_day));
    let last = same_day.or(before.as_ref().and_then(|before| before.points.last()));
    let since = last.and_then(|last| months(last.when, bare.when));
    let own = before.as_ref().and_then(slopes_allowed);
    let expected = match same_day {
        Some(_) => None,
        None => own.or_else(|| rates.of_others(grown)),
    };
    let guesses: Vec<Guess> = [LengthUnit::Cm, LengthUnit::In, LengthUnit::Mm]
        .map(|unit| Guess::of(bare.number * unit.cm(), unit, last, since))
        .into();
    let age = months(sown(registry, bare.plant), bare.when);
    let grown_since = match same_day {
        Some(_) => Some((0.0, 0.0)),
        None => since
            .zip(expected)
            .map(|(since, rate)| between_products(since, rate)),
    };
    Unitless {
        id: registry.code(bare.plant),
        on: crate::wording::days(bare.when),
        typed: bare.typed.to_owned(),
        number: bare.number,
        age: age.map(|(least, most)| (least + most) / 2.0),
        months_since: since,
        expected_rate: expected,
        own_rate: own.is_some() && same_day.is_none(),
        probably: last
            .zip(grown_since)
            .and_then(|(last, grown)| probable(&guesses, last.size, grown)),
        guesses,
    }
}

impl Guess {
    fn of(cm: f64, unit: LengthUnit, last: Option<&Point>, since: Option<(f64, f64)>) -> Guess {
        let rate = |(last, since): (&Point, (f64, f64))| {
            let grown = libm::log(cm / last.size);
            let (one, other) = (grown / since.0, grown / since.1);
            (one.min(other), one.max(other))
        };
        let since = since.filter(|(least, _)| *least > 0.0 && cm > 0.0);
        Guess {
            unit,
            cm,
            change: last.map(|last| cm - last.size),
            rate: last.zip(since).map(rate),
        }
    }
}

/// The least and the greatest product of a number of each range.
fn between_products(a: (f64, f64), b: (f64, f64)) -> (f64, f64) {
    let products = [a.0 * b.0, a.0 * b.1, a.1 * b.0, a.1 * b.1];
    let least = products.iter().copied().fold(f64::INFINITY, f64::min);
    (
        least,
        products.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    )
}

/// The unit whose size, on the logarithm, lies far nearer to the expected one than any other: as rates do, over the same
/// months. The growth for which that holds is one stretch, so its ends decide for all between them.
fn probable(guesses: &[Guess], last: f64, grown: (f64, f64)) -> Option<LengthUnit> {
    let nearest = |grown: f64| {
        let mut off: Vec<(f64, LengthUnit)> = guesses
            .iter()
            .filter(|guess| guess.cm > 0.0)
            .map(|guess| ((libm::log(guess.cm / last) - grown).abs(), guess.unit))
            .collect();
        off.sort_by(|a, b| a.0.total_cmp(&b.0));
        match off[..] {
            [(nearest, unit), (next, _), ..] if NEARER * nearest <= next => Some(unit),
            _ => None,
        }
    };
    nearest(grown.0).filter(|unit| nearest(grown.1) == Some(*unit))
}
