//! What a season asks of a plan beside pots and seed parents, as rows `Σ weight · pods ≤ room`.

use super::domain::Domain;
use super::units::{IntegerModel, KINSHIP_BITS};

/// Everything that is priced where pots and seed parents are kept: pollen, lines, what must be made, totals, kinship.
pub(super) struct Duties {
    pub rows: Vec<Row>,
    /// For each choice its rows with its weight in them.
    ends: Vec<usize>,
    weights: Vec<(u32, i64)>,
}

/// One row.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub room: i64,
    /// A weight of this size counts as one pod does elsewhere.
    pub unit: f64,
    /// The heaviest pod there can be, in units.
    pub heaviest: f64,
}

/// Bits of a unit of kinship: pods a few hundredths beyond the cap weigh like one pod.
const KINSHIP_UNIT: f64 = (1u64 << 35) as f64;

impl Duties {
    pub fn of(model: &IntegerModel) -> Self {
        let pods = |room: u32| Row {
            room: i64::from(room),
            unit: 1.0,
            heaviest: 1.0,
        };
        let at_least = |least: u32| Row {
            room: -i64::from(least),
            unit: 1.0,
            heaviest: 1.0,
        };
        let lots = 0;
        let donors = lots + model.lot_uses.len();
        let seed_lines = donors + model.donor_uses.len();
        let donor_lines = seed_lines + model.seed_lines;
        let demands = donor_lines + model.donor_lines;
        let most = demands + model.demands.len();
        let mut rows: Vec<Row> = model.lot_uses.iter().map(|&uses| pods(uses)).collect();
        rows.extend(model.donor_uses.iter().map(|&uses| pods(uses)));
        rows.extend((seed_lines..demands).map(|_| at_least(1)));
        rows.extend(model.demands.iter().map(|demand| at_least(demand.least)));
        rows.extend([pods(model.most), at_least(model.fewest)]);
        let kinship = (model.kinship_load()).map(|load| {
            rows.push(Row {
                room: model.capacities[load],
                unit: KINSHIP_UNIT,
                // A kinship of 1.
                heaviest: libm::ldexp(1.0, KINSHIP_BITS) / KINSHIP_UNIT,
            });
            (load, rows.len() - 1)
        });
        let (mut ends, mut weights) = (Vec::new(), Vec::new());
        for choice in &model.choices {
            let donor = model.lot_donor[choice.lot];
            let mut add = |row: usize, weight: i64| weights.push((row as u32, weight));
            add(lots + choice.lot, 1);
            add(donors + donor, 1);
            if let Some(line) = model.seed_line[choice.seed] {
                add(seed_lines + line, -1);
            }
            if let Some(line) = model.donor_line[donor] {
                add(donor_lines + line, -1);
            }
            if let Some(demand) = choice.demand {
                add(demands + demand, -1);
            }
            add(most, 1);
            add(most + 1, -1);
            if let Some((load, row)) = kinship {
                add(row, choice.loads[load]);
            }
            ends.push(weights.len());
        }
        Self {
            rows,
            ends,
            weights,
        }
    }

    /// Rows of a choice with its weight in them.
    pub fn of_choice(&self, at: usize) -> &[(u32, i64)] {
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        &self.weights[start..self.ends[at]]
    }

    /// What a plan leaves of each row; negative where it breaks it.
    pub fn room(&self, sent: &[u32]) -> Vec<i128> {
        let mut room: Vec<i128> = self.rows.iter().map(|row| i128::from(row.room)).collect();
        for (at, &pods) in sent.iter().enumerate().filter(|(_, pods)| **pods > 0) {
            for &(row, weight) in self.of_choice(at) {
                room[row as usize] -= i128::from(weight) * i128::from(pods);
            }
        }
        room
    }

    /// What is left of each choice's own range when the fewest pods of a domain are made: pods that may be added without
    /// breaking the row of its lot or donor. `None` if the fewest pods already break one of those.
    pub fn ranges(&self, model: &IntegerModel, domain: &Domain) -> Option<Vec<u32>> {
        let room = self.room(&domain.least);
        let uses = model.lot_uses.len() + model.donor_uses.len();
        if room[..uses].iter().any(|room| *room < 0) {
            return None;
        }
        let of = |(at, choice): (usize, &super::units::Choice)| {
            let donor = model.lot_uses.len() + model.lot_donor[choice.lot];
            let rest = room[choice.lot].min(room[donor]);
            let rest = u32::try_from(rest).unwrap_or(u32::MAX);
            (domain.most[at] - domain.least[at]).min(rest)
        };
        Some(model.choices.iter().enumerate().map(of).collect())
    }
}
