//! Genes dropped by lot down a hybrid pedigree with sib crosses and backcrosses, with a fixed seed: expectations lie
//! within two standard errors of what is counted. Of many true figures one in twenty falls outside two by chance, so
//! one in ten may, and none may fall outside four.

use podbook::ancestry::{
    Heterozygosities, Part, Shares, TraitVariance, two_copies, variance_from_parent,
};
use podbook::kinship::Kinship;
use podbook::lineage::{Founding, PlantRow};

use crate::shares::worked;
use crate::tables::SplitMix64;

/// A running mean with its standard error.
#[derive(Default, Clone)]
struct Mean {
    n: f64,
    sum: f64,
    squares: f64,
}

impl Mean {
    fn add(&mut self, value: f64) {
        self.n += 1.0;
        self.sum += value;
        self.squares += value * value;
    }

    /// How many standard errors an expectation lies from the mean.
    fn distance(&self, expected: f64) -> f64 {
        let mean = self.sum / self.n;
        let error = libm::sqrt((self.squares / self.n - mean * mean).max(0.0) / self.n);
        if (mean - expected).abs() < 1e-12 {
            0.0
        } else {
            (mean - expected).abs() / error
        }
    }
}

const ROUNDS: usize = 6_000;

#[test]
fn kinship_shares_heterozygosity_and_segregation() {
    let (named, founders, _) = worked();
    let pedigree = &named.pedigree;
    let names = [
        "F2_1", "BC1_A_1", "BC2_A", "F3_sib_1", "F4_sib", "BC1xBC1", "W4xW4", "W4xF1AC", "deep",
        "F5_mix",
    ];
    let plants: Vec<PlantRow> = names.iter().map(|name| named.row(name)).collect();
    let (species, traits) = (4, [1.0, 4.0]);
    let count = plants.len();
    let mut kin = vec![Mean::default(); count * count];
    let mut share = vec![Mean::default(); count * species];
    let mut differing = vec![Mean::default(); count];
    let mut spread = vec![Mean::default(); count];
    let mut rng = SplitMix64(12);
    for _ in 0..ROUNDS {
        let (copies, values) = drop_genes(&named, &mut rng, traits[0]);
        let founder = |copy: usize| copy / 2;
        for (i, &one) in plants.iter().enumerate() {
            let [a, b] = copies[one.index()];
            for (j, &other) in plants.iter().enumerate().take(i) {
                let alike = copies[other.index()]
                    .iter()
                    .map(|copy| usize::from(*copy == a) + usize::from(*copy == b));
                kin[i * count + j].add(alike.sum::<usize>() as f64 / 4.0);
            }
            for s in 0..species {
                share[i * species + s].add(
                    (f64::from(u8::from(founder(a) == s)) + f64::from(u8::from(founder(b) == s)))
                        / 2.0,
                );
            }
            let apart = founder(a) != founder(b);
            differing[i].add(f64::from(u8::from(apart)));
            // Squared distance of the two copies' values: 2 S between species, and what differs within.
            let between = if apart { 2.0 * traits[1] } else { 0.0 };
            let within = values[a] - values[b];
            spread[i].add(0.25 * (between + within * within));
        }
    }
    let kinship = Kinship::of(pedigree, &Founding::unrelated()).unwrap();
    let shares = Shares::of(pedigree, &founders);
    let heterozygosity = Heterozygosities::of(pedigree, &founders).unwrap();
    let copies = two_copies(pedigree, &founders, &plants).unwrap();
    let assumed = TraitVariance {
        within: &|_| traits[0],
        between: &|_, _| traits[1],
    };
    let (mut checked, mut outside) = (0, Vec::new());
    let mut check = |what: String, mean: &Mean, expected: f64| {
        checked += 1;
        let distance = mean.distance(expected);
        assert!(distance <= 4.0, "{what}: {distance} standard errors");
        if distance > 2.0 {
            outside.push((what, distance));
        }
    };
    for (i, &one) in plants.iter().enumerate() {
        for (j, &other) in plants.iter().enumerate().take(i) {
            check(
                format!("kinship {} {}", names[i], names[j]),
                &kin[i * count + j],
                kinship.pair(one, other),
            );
        }
        let composition = shares.composition(pedigree, one).unwrap();
        for s in 0..species {
            let expected = composition.share(Part::Species(s as u32)).as_f64();
            check(
                format!("share {} {s}", names[i]),
                &share[i * species + s],
                expected,
            );
        }
        check(
            format!("heterozygosity {}", names[i]),
            &differing[i],
            heterozygosity
                .heterozygosity(pedigree, &founders, one)
                .certain,
        );
        check(
            format!("segregation {}", names[i]),
            &spread[i],
            variance_from_parent(&copies[i], &assumed),
        );
    }
    assert_eq!(checked, 105);
    assert!(outside.len() <= checked / 10, "{outside:?}");
}

/// For each plant its two copies, numbered 2 × founder and one more, and for each copy a value of variance ½ V.
fn drop_genes(
    named: &crate::tables::Named,
    rng: &mut SplitMix64,
    variance: f64,
) -> (Vec<[usize; 2]>, Vec<f64>) {
    let mut copies: Vec<[usize; 2]> = Vec::new();
    for plant in named.pedigree.plants() {
        copies.push(match named.pedigree.origin(plant) {
            None => [2 * plant.index(), 2 * plant.index() + 1],
            Some(origin) => {
                let pair = origin.pairs[0];
                [pair.seed, pair.pollen].map(|parent| copies[parent.unwrap().index()][rng.below(2)])
            }
        });
    }
    // Uniform on ±√(3V/2) has variance V/2.
    let width = libm::sqrt(1.5 * variance);
    let values = (0..2 * named.pedigree.len())
        .map(|_| width * (2.0 * rng.unit() - 1.0))
        .collect();
    (copies, values)
}
