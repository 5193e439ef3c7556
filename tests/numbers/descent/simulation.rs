//! Genes dropped by lot down a hybrid pedigree with sib crosses and backcrosses, with a fixed seed. Kinship, shares,
//! heterozygosity and segregation variance, each summed over the plants with unlike weights, lie within two standard
//! errors of what is counted. Of the many single figures one in twenty falls outside two by chance however true it is,
//! so one in ten may, and none may fall outside four.

use podbook::ancestry::{
    Heterozygosities, Part, Shares, TraitVariance, two_copies, variance_from_parent,
};
use podbook::kinship::Kinship;
use podbook::lineage::{Founding, PlantRow};

use crate::shares::share_of;
use crate::shares::worked;
use crate::tables::SplitMix64;
use podbook::numeric::nearest;

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
/// Kinship, shares, heterozygosity, segregation variance.
const KINDS: usize = 4;

/// Sums of each kind's figures with weights of both signs, so that no constant sum, such as that of all shares, and no
/// pair of opposite errors hides a fault.
#[derive(Default)]
struct Weighted {
    added: [u32; KINDS],
    sums: [f64; KINDS],
}

impl Weighted {
    fn add(&mut self, kind: usize, value: f64) {
        self.added[kind] += 1;
        let place = f64::from(self.added[kind]);
        self.sums[kind] += value * 2.0 * libm::sin(5.0 * place);
    }
}

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
    let mut whole = vec![Mean::default(); KINDS];
    let mut rng = SplitMix64(12);
    for _ in 0..ROUNDS {
        let (copies, values) = drop_genes(&named, &mut rng, traits[0]);
        let mut of_round = Weighted::default();
        let founder = |copy: usize| copy / 2;
        for (i, &one) in plants.iter().enumerate() {
            let [a, b] = copies[one.index()];
            for (j, &other) in plants.iter().enumerate().take(i) {
                let alike = copies[other.index()]
                    .iter()
                    .map(|copy| usize::from(*copy == a) + usize::from(*copy == b));
                let alike = alike.sum::<usize>() as f64 / 4.0;
                kin[i * count + j].add(alike);
                of_round.add(0, alike);
            }
            for s in 0..species {
                let from = (f64::from(u8::from(founder(a) == s))
                    + f64::from(u8::from(founder(b) == s)))
                    / 2.0;
                share[i * species + s].add(from);
                of_round.add(1, from);
            }
            let apart = founder(a) != founder(b);
            differing[i].add(f64::from(u8::from(apart)));
            of_round.add(2, f64::from(u8::from(apart)));
            // Squared distance of the two copies' values: 2 S between species, and what differs within.
            let between = if apart { 2.0 * traits[1] } else { 0.0 };
            let within = values[a] - values[b];
            spread[i].add(0.25 * (between + within * within));
            of_round.add(3, 0.25 * (between + within * within));
        }
        for (mean, sum) in whole.iter_mut().zip(of_round.sums) {
            mean.add(sum);
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
    let mut expected_of = Weighted::default();
    let mut check = |kind: usize, what: String, mean: &Mean, expected: f64| {
        checked += 1;
        expected_of.add(kind, expected);
        let distance = mean.distance(expected);
        assert!(distance <= 4.0, "{what}: {distance} standard errors");
        if distance > 2.0 {
            outside.push((what, distance));
        }
    };
    for (i, &one) in plants.iter().enumerate() {
        for (j, &other) in plants.iter().enumerate().take(i) {
            check(
                0,
                format!("kinship {} {}", names[i], names[j]),
                &kin[i * count + j],
                kinship.pair(one, other),
            );
        }
        let composition = shares.composition(pedigree, one).unwrap();
        for s in 0..species {
            let expected = nearest(&share_of(&composition, Part::Species(s as u32)));
            check(
                1,
                format!("share {} {s}", names[i]),
                &share[i * species + s],
                expected,
            );
        }
        check(
            2,
            format!("heterozygosity {}", names[i]),
            &differing[i],
            heterozygosity
                .heterozygosity(pedigree, &founders, one)
                .certain,
        );
        check(
            3,
            format!("segregation {}", names[i]),
            &spread[i],
            variance_from_parent(&copies[i], &assumed),
        );
    }
    assert_eq!(checked, 105);
    for (kind, (mean, expected)) in whole.iter().zip(expected_of.sums).enumerate() {
        let distance = mean.distance(expected);
        assert!(distance <= 2.0, "kind {kind}: {distance} standard errors");
    }
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
