//! Descent of a million plants, as ratios within one run: medians of several rounds, seconds only for orientation.
//!
//! The nursery has 50 founders and 2,500 pods of 400; each pod's parents are drawn from kept plants of earlier pods.
//! The village has ten thousand plants in pods of one to three over many generations, each with most older plants above.

use std::collections::BinaryHeap;

use podbook::ancestry::{FounderDescent, Founders, Generations, Heterozygosities, Shares};
use podbook::kinship::Kinship;
use podbook::lineage::{Founding, Origin, Pedigree, PlantRow};

#[path = "../support/lot.rs"]
mod lot;
#[path = "../support/seconds.rs"]
mod seconds;

use lot::Lot;
use seconds::seconds;

const ROUNDS: usize = 5;

fn nursery(pods: usize, of: usize) -> Pedigree {
    let (mut lot, mut pedigree) = (Lot(1), Pedigree::with_capacity(pods * of + 50));
    let mut kept: Vec<PlantRow> = (0..50).map(|_| pedigree.add_founder()).collect();
    for _ in 0..pods {
        let [seed, pollen] = [0, 1].map(|_| Some(kept[lot.below(kept.len())]));
        let origin = pedigree.add_origin(Origin::certain(seed, pollen));
        let plants: Vec<PlantRow> = (0..of).map(|_| pedigree.add_offspring(origin)).collect();
        kept.push(plants[lot.below(of)]);
    }
    pedigree
}

fn village(plants: usize) -> Pedigree {
    let (mut lot, mut pedigree) = (Lot(2), Pedigree::with_capacity(plants));
    (0..200).for_each(|_| {
        pedigree.add_founder();
    });
    while pedigree.len() < plants {
        let window = pedigree.len().min(2_000);
        let [seed, pollen] =
            [0, 1].map(|_| Some(PlantRow((pedigree.len() - 1 - lot.below(window)) as u32)));
        let origin = pedigree.add_origin(Origin::certain(seed, pollen));
        (0..=lot.below(3)).for_each(|_| {
            pedigree.add_offspring(origin);
        });
    }
    pedigree
}

/// Seed and pollen parent of each plant, itself for a founder.
fn parent_table(pedigree: &Pedigree) -> Vec<[u32; 2]> {
    let parents = |plant: PlantRow| match pedigree.origin(plant) {
        Some(origin) => [
            origin.pairs[0].seed.unwrap().0,
            origin.pairs[0].pollen.unwrap().0,
        ],
        None => [plant.0; 2],
    };
    pedigree.plants().map(parents).collect()
}

/// The row walk of Meuwissen & Luo (1992) as written there: once per plant, with a queue of ancestors.
fn per_plant(parents: &[[u32; 2]]) -> Vec<f64> {
    let mut inbreeding: Vec<f64> = Vec::with_capacity(parents.len());
    let mut own: Vec<f64> = Vec::with_capacity(parents.len());
    let mut weight = vec![0.0; parents.len()];
    let mut queue = BinaryHeap::new();
    for (row, &[seed, pollen]) in parents.iter().enumerate() {
        if seed as usize == row {
            own.push(1.0);
            inbreeding.push(0.0);
            continue;
        }
        own.push(0.5 - 0.25 * (inbreeding[seed as usize] + inbreeding[pollen as usize]));
        let mut sum = 0.0;
        weight[row] = 1.0;
        queue.push(row as u32);
        while let Some(at) = queue.pop() {
            let part = std::mem::take(&mut weight[at as usize]);
            sum += part * part * own[at as usize];
            let [seed, pollen] = parents[at as usize];
            for parent in [seed, pollen].into_iter().filter(|&parent| parent != at) {
                if weight[parent as usize] == 0.0 {
                    queue.push(parent);
                }
                weight[parent as usize] += 0.5 * part;
            }
        }
        inbreeding.push(sum - 1.0);
    }
    inbreeding
}

fn report(what: &str, time: f64, base: f64, aim: Option<f64>) {
    let aim = aim.map_or(String::new(), |aim| format!("   aim at most {aim}"));
    println!("{what:<58} {time:>9.5} s   ratio {:>8.4}{aim}", time / base);
}

fn inbreeding_of_all(kinship: &Kinship, pedigree: &Pedigree) -> Vec<f64> {
    let plants = pedigree.plants();
    plants.map(|plant| kinship.inbreeding(plant)).collect()
}

/// The aims are for a nursery; a village shows what depth costs.
fn measure(name: &str, pedigree: &Pedigree, aims: [Option<f64>; 2]) {
    println!(
        "\n{name}: {} plants, {} pods",
        pedigree.len(),
        pedigree.origins().len()
    );
    let parents = parent_table(pedigree);
    let written = seconds(ROUNDS, || per_plant(&parents));
    let solved = Kinship::of(pedigree, &Founding::unrelated()).expect("solvable");
    let apart = per_plant(&parents)
        .into_iter()
        .zip(inbreeding_of_all(&solved, pedigree))
        .map(|(one, other)| (one - other).abs());
    println!(
        "largest difference between both methods {:.1e}",
        apart.fold(0.0, f64::max)
    );
    report(
        "inbreeding, row walk once per plant",
        written,
        written,
        None,
    );
    let here = seconds(ROUNDS, || {
        Kinship::of(pedigree, &Founding::unrelated())
            .map(|kinship| inbreeding_of_all(&kinship, pedigree))
    });
    report("inbreeding, once per pod", here, written, aims[0]);

    let x: Vec<f64> = (0..pedigree.len())
        .map(|row| (row % 11) as f64 - 5.0)
        .collect();
    let pass = seconds(ROUNDS, || {
        let of = |row: u32| x[row as usize];
        parents
            .iter()
            .zip(&x)
            .map(|(&[seed, pollen], own)| own - 0.5 * (of(seed) + of(pollen)))
            .collect::<Vec<f64>>()
    });
    report("one pass over the parent table", pass, pass, None);
    report("A x", seconds(ROUNDS, || solved.product(&x)), pass, aims[1]);

    let mut lot = Lot(3);
    let chosen: Vec<PlantRow> = (0..200)
        .map(|_| PlantRow(lot.below(pedigree.len()) as u32))
        .collect();
    report(
        "kinship of 200 × 200",
        seconds(ROUNDS, || solved.table(&chosen)),
        pass,
        None,
    );
    let marked = seconds(ROUNDS, || {
        let mut above = vec![false; parents.len()];
        chosen.iter().for_each(|plant| above[plant.index()] = true);
        for row in (0..parents.len()).rev() {
            if above[row] {
                parents[row]
                    .iter()
                    .for_each(|&parent| above[parent as usize] = true);
            }
        }
        above.iter().filter(|&&marked| marked).count()
    });
    report(
        "ancestors of 200, one pass over all plants",
        marked,
        marked,
        None,
    );
    report(
        "ancestors of 200",
        seconds(ROUNDS, || pedigree.with_ancestors(&chosen)),
        marked,
        None,
    );

    let founders: Founders = pedigree
        .plants()
        .filter(|&plant| pedigree.origin_row(plant).is_none())
        .map(|plant| (plant, FounderDescent::Species(plant.0 % 12)))
        .collect();
    report(
        "shares of all plants",
        seconds(ROUNDS, || Shares::of(pedigree, &founders)),
        pass,
        None,
    );
    report(
        "generations of all plants",
        seconds(ROUNDS, || Generations::of(pedigree)),
        pass,
        None,
    );
    report(
        "heterozygosity of all plants",
        seconds(ROUNDS, || Heterozygosities::of(pedigree, &founders)),
        written,
        None,
    );
}

fn main() {
    measure("nursery", &nursery(2_500, 400), [Some(0.25), Some(3.0)]);
    measure("village", &village(10_000), [None, None]);
}
