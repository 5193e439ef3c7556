//! Merit from 100,000 readings against two general ways through the full mixed-model equations: conjugate gradients on
//! the sparse matrix, and a sparse factorisation. Ratios within one run, at the same solution; seconds for orientation.
//!
//! The general ways get their matrix built for them and the time for that is not counted; ours starts from readings and
//! relatives. Conjugate gradients stop where they agree with ours to a millionth of a genetic standard deviation.

use faer::prelude::Solve;
use faer::sparse::{SparseColMat, Triplet};
use podbook::kinship::Kinship;
use podbook::lineage::{Founding, Origin, Pedigree, PlantRow};
use podbook::planning::merit::{Design, Reading, Relatives, Solved, Variances};

#[path = "../../support/lot.rs"]
mod lot;
#[path = "../../support/predicted.rs"]
mod predicted;
#[path = "../../support/seconds.rs"]
mod seconds;

use lot::Lot;
use predicted::predict;
use seconds::seconds;

const ROUNDS: usize = 3;
const SPECIES: usize = 8;
const SITTINGS: usize = 60;

impl Lot {
    /// About normal, standard deviation 1: twelve even draws.
    fn error(&mut self) -> f64 {
        let draw = |lot: &mut Lot| lot.below(1 << 20) as f64 / f64::from(1 << 20);
        (0..12).map(|_| draw(self)).sum::<f64>() - 6.0
    }
}

/// A nursery with its readings.
struct World {
    relatives: Relatives,
    design: Design,
    variances: Variances,
}

/// 40 founders; the parents of a pod are drawn among founders and one kept plant of each pod before it. Every seedling
/// is read `times` times. Columns: mean, age and its square, each centred; sitting, pod, shares of species.
fn world(pods: usize, of: usize, times: usize) -> World {
    let (mut lot, mut pedigree) = (Lot(1), Pedigree::with_capacity(pods * of + 40));
    let mut kept: Vec<PlantRow> = (0..40).map(|_| pedigree.add_founder()).collect();
    let mut shares: Vec<[f64; SPECIES]> = Vec::new();
    let mut merit: Vec<f64> = Vec::new();
    for row in 0..40 {
        shares.push(std::array::from_fn(|species| {
            f64::from(u8::from(species == row % SPECIES))
        }));
        merit.push(lot.error());
    }
    let mut pod_of = vec![usize::MAX; 40];
    for pod in 0..pods {
        let [seed, pollen] = [0, 1].map(|_| kept[lot.below(kept.len())]);
        let origin = pedigree.add_origin(Origin::certain(Some(seed), Some(pollen)));
        let plants: Vec<PlantRow> = (0..of).map(|_| pedigree.add_offspring(origin)).collect();
        for _ in &plants {
            let mean = |of: &dyn Fn(usize) -> f64| 0.5 * (of(seed.index()) + of(pollen.index()));
            shares.push(std::array::from_fn(|s| mean(&|row| shares[row][s])));
            merit.push(mean(&|row| merit[row]) + 0.7 * lot.error());
            pod_of.push(pod);
        }
        kept.push(plants[lot.below(of)]);
    }
    let relatives = relatives(&pedigree);
    let (first_sitting, first_pod) = (3, 3 + SITTINGS);
    let first_species = first_pod + pods;
    let mut group_of = vec![None; 3];
    group_of.extend(vec![Some(0); SITTINGS]);
    group_of.extend(vec![Some(1); pods]);
    group_of.extend(vec![Some(2); SPECIES]);
    let mut readings = Vec::new();
    for (row, merit) in merit.iter().enumerate().skip(40) {
        let permanent = 0.7 * lot.error();
        for _ in 0..times {
            let sitting = lot.below(SITTINGS);
            let age = 2.0 * sitting as f64 / SITTINGS as f64 - 1.0;
            readings.push(Reading {
                plant: row as u32,
                value: merit + permanent + age + 0.9 * lot.error(),
                columns: vec![
                    (1, age),
                    (2, age * age - 1.0 / 3.0),
                    ((first_sitting + sitting) as u32, 1.0),
                ],
            });
        }
    }
    let families = (0..pods).map(|pod| {
        let mut columns = vec![(0, 1.0), ((first_pod + pod) as u32, 1.0)];
        let of = shares[40 + pod * of].iter().enumerate();
        let of = of.filter(|(_, share)| **share > 0.0);
        columns.extend(of.map(|(s, share)| ((first_species + s) as u32, *share)));
        columns
    });
    let family_of = pod_of
        .iter()
        .map(|pod| (*pod < pods).then_some(*pod as u32));
    World {
        relatives,
        design: Design {
            families: families.collect(),
            family_of: family_of.collect(),
            readings,
            group_of,
        },
        // Heritability 0.4, permanent 0.2, sitting and pod 0.05 each, of a whole of 2.5; species as wide as the whole.
        variances: Variances {
            additive: 1.0,
            permanent: 0.5,
            residual: 0.75,
            groups: vec![0.125, 0.125, 2.5],
        },
    }
}

fn relatives(pedigree: &Pedigree) -> Relatives {
    let kinship = Kinship::of(pedigree, &Founding::unrelated()).expect("solvable");
    let parts = kinship.inverse_parts().expect("not singular");
    let mut relatives = Relatives {
        sources: vec![Vec::new(); parts.len()],
        mendelian_variance: vec![1.0; parts.len()],
    };
    for part in parts.contributions {
        let sources = part
            .sources
            .into_iter()
            .map(|(row, share)| (row as u32, share));
        relatives.sources[part.row] = sources.collect();
        relatives.mendelian_variance[part.row] = part.mendelian_variance;
    }
    relatives
}

/// The full equations as written in a textbook: columns, merit of every plant, what is permanent of every plant read.
struct Full {
    size: usize,
    columns: usize,
    /// Lower triangle with the diagonal, joined, sorted by row and column.
    lower: Vec<(u32, u32, f64)>,
    right: Vec<f64>,
}

fn full(world: &World) -> Full {
    let (design, v) = (&world.design, &world.variances);
    let columns = design.group_of.len();
    let plants = world.relatives.mendelian_variance.len();
    let size = columns + 2 * plants;
    let mut entries: Vec<(u32, u32, f64)> = Vec::new();
    let mut right = vec![0.0; size];
    let mut outer = |row: &[(u32, f64)], weight: f64| {
        for (a, x) in row {
            for (b, y) in row.iter().filter(|(b, _)| b <= a) {
                entries.push((*a, *b, weight * x * y));
            }
        }
    };
    for (column, group) in design.group_of.iter().enumerate() {
        if let Some(group) = group {
            outer(&[(column as u32, 1.0)], 1.0 / v.groups[*group]);
        }
    }
    for plant in 0..plants {
        let mut row = vec![((columns + plant) as u32, 1.0)];
        let sources = world.relatives.sources[plant].iter();
        row.extend(sources.map(|(of, part)| (columns as u32 + of, -part)));
        outer(
            &row,
            1.0 / (world.relatives.mendelian_variance[plant] * v.additive),
        );
        outer(
            &[((columns + plants + plant) as u32, 1.0)],
            1.0 / v.permanent,
        );
    }
    for reading in &design.readings {
        let mut row = reading.columns.clone();
        let family = design.family_of[reading.plant as usize].expect("every plant read has one");
        row.extend(&design.families[family as usize]);
        row.push((columns as u32 + reading.plant, 1.0));
        row.push(((columns + plants) as u32 + reading.plant, 1.0));
        outer(&row, 1.0 / v.residual);
        for (at, part) in &row {
            right[*at as usize] += part * reading.value / v.residual;
        }
    }
    entries.sort_unstable_by_key(|(row, column, _)| (*row, *column));
    entries.dedup_by(|later, kept| {
        let same = (later.0, later.1) == (kept.0, kept.1);
        if same {
            kept.2 += later.2;
        }
        same
    });
    Full {
        size,
        columns,
        lower: entries,
        right,
    }
}

/// A general sparse matrix by rows, both triangles.
struct Rows {
    starts: Vec<usize>,
    columns: Vec<u32>,
    values: Vec<f64>,
    diagonal: Vec<f64>,
}

impl Rows {
    fn of(full: &Full) -> Rows {
        let mut both: Vec<(u32, u32, f64)> = full.lower.clone();
        let upper = full.lower.iter().filter(|(a, b, _)| a != b);
        both.extend(upper.map(|(a, b, value)| (*b, *a, *value)));
        both.sort_unstable_by_key(|(row, column, _)| (*row, *column));
        let mut starts = vec![0; full.size + 1];
        both.iter()
            .for_each(|(row, ..)| starts[*row as usize + 1] += 1);
        (0..full.size).for_each(|row| starts[row + 1] += starts[row]);
        let mut diagonal = vec![1.0; full.size];
        for (a, b, value) in &full.lower {
            if a == b {
                diagonal[*a as usize] = *value;
            }
        }
        Rows {
            starts,
            columns: both.iter().map(|(_, column, _)| *column).collect(),
            values: both.iter().map(|(.., value)| *value).collect(),
            diagonal,
        }
    }

    fn times(&self, x: &[f64], out: &mut [f64]) {
        for (row, out) in out.iter_mut().enumerate() {
            let range = self.starts[row]..self.starts[row + 1];
            let columns = &self.columns[range.clone()];
            *out = columns
                .iter()
                .zip(&self.values[range])
                .map(|(column, value)| value * x[*column as usize])
                .sum();
        }
    }

    /// Conjugate gradients (Hestenes & Stiefel 1952) scaled by the diagonal, until `done` says so of the solution.
    fn solve(&self, right: &[f64], mut done: impl FnMut(usize, &[f64], f64) -> bool) -> usize {
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let mut x = vec![0.0; right.len()];
        let mut residual = right.to_vec();
        let scaled =
            |r: &[f64]| -> Vec<f64> { r.iter().zip(&self.diagonal).map(|(r, d)| r / d).collect() };
        let mut z = scaled(&residual);
        let mut along = z.clone();
        let mut product = vec![0.0; right.len()];
        let mut level = dot(&residual, &z);
        let first = level;
        for round in 1..20_000 {
            self.times(&along, &mut product);
            let step = level / dot(&along, &product);
            x.iter_mut().zip(&along).for_each(|(x, a)| *x += step * a);
            residual
                .iter_mut()
                .zip(&product)
                .for_each(|(r, p)| *r -= step * p);
            z = scaled(&residual);
            let next = dot(&residual, &z);
            if done(round, &x, next / first) {
                return round;
            }
            let turn = next / level;
            along
                .iter_mut()
                .zip(&z)
                .for_each(|(a, z)| *a = z + turn * *a);
            level = next;
        }
        panic!("conjugate gradients do not settle");
    }
}

fn apart(merit: &[f64], of: impl Fn(usize) -> f64) -> f64 {
    let differences = merit
        .iter()
        .enumerate()
        .map(|(row, value)| (value - of(row)).abs());
    differences.fold(0.0, f64::max)
}

fn measure(name: &str, world: &World) {
    let plants = world.relatives.mendelian_variance.len();
    let wanted: Vec<(u32, Vec<(u32, f64)>)> = (0..plants as u32).map(|row| (row, vec![])).collect();
    println!(
        "\n{name}: {} readings, {plants} plants, {} columns",
        world.design.readings.len(),
        world.design.group_of.len()
    );
    let solved = || -> Vec<f64> {
        let solved = Solved::of(&world.relatives, &world.design, &world.variances).expect("solved");
        (0..plants as u32)
            .map(|row| solved.merit(row, &[]))
            .collect()
    };
    let ours = solved();
    let time = seconds(ROUNDS, solved);
    println!("merit of all plants, ours, from the readings on {time:>9.4} s");

    let full = full(world);
    let rows = Rows::of(&full);
    println!(
        "full equations: {} unknowns, {} entries",
        full.size,
        rows.values.len()
    );
    // The residual at which the solution agrees to a millionth; looked for once, not timed.
    let mut enough = 0.0;
    rows.solve(&full.right, |round, x, left| {
        enough = left;
        round % 10 == 0 && apart(&ours, |row| x[full.columns + row]) < 1e-6
    });
    let mut rounds = 0;
    let gradients = seconds(ROUNDS, || {
        rounds = rows.solve(&full.right, |_, _, left| left <= enough)
    });
    println!(
        "conjugate gradients on them, {rounds} rounds         {gradients:>9.4} s   ours {:>6.1} times as fast   aim 3",
        gradients / time
    );

    let triplets: Vec<Triplet<usize, usize, f64>> = full
        .lower
        .iter()
        .map(|(a, b, value)| Triplet::new(*a as usize, *b as usize, *value))
        .collect();
    let matrix = SparseColMat::<usize, f64>::try_new_from_triplets(full.size, full.size, &triplets)
        .expect("sorted entries make a matrix");
    let right = faer::Mat::from_fn(full.size, 1, |row, _| full.right[row]);
    let factored = || {
        let factor = matrix
            .sp_cholesky(faer::Side::Lower)
            .expect("positive definite");
        factor.solve(&right)
    };
    let theirs = factored();
    let difference = apart(&ours, |row| theirs[(full.columns + row, 0)]);
    assert!(difference < 1e-7, "apart by {difference:e}");
    let factorisation = seconds(ROUNDS, factored);
    println!(
        "sparse factorisation (faer) of them              {factorisation:>9.4} s   ours {:>6.1} times as fast   aim 10",
        factorisation / time
    );
    println!("largest difference of any merit {difference:.1e} genetic standard deviations");
    let with_errors = seconds(ROUNDS, || {
        predict(&world.relatives, &world.design, &world.variances, &wanted)
    });
    println!("ours with the standard error of every plant      {with_errors:>9.4} s");
}

fn main() {
    measure(
        "250 pods of 100, each plant read four times",
        &world(250, 100, 4),
    );
    measure(
        "2,500 pods of 20, each plant read twice",
        &world(2_500, 20, 2),
    );
}
