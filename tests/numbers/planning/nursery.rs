//! Large seasons drawn by lot, the same everywhere.

use podbook::planning::season::*;

/// Linear congruential.
pub struct Draw(pub u64);

impl Draw {
    pub fn below(&mut self, bound: u32) -> u32 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % u64::from(bound)) as u32
    }
}

/// Females by males with merits, inbreeding in sixteenths, pots by female.
pub fn nursery(size: (usize, usize), pots: u64, seed: u64) -> Season {
    let mut draw = Draw(seed);
    let (females, males) = size;
    let mut merit = |n: usize| -> Vec<f64> {
        (0..n)
            .map(|_| f64::from(draw.below(10_000)) / 100.0)
            .collect()
    };
    let (of_females, of_males) = (merit(females), merit(males));
    let mut season = Season {
        seed_parents: (0..females)
            .map(|_| SeedParent {
                pods: 1 + draw.below(3),
                line: Some(draw.below(3)),
            })
            .collect(),
        donors: (0..males)
            .map(|_| Donor {
                uses: 1 + draw.below(4),
                line: Some(draw.below(3)),
            })
            .collect(),
        lots: (0..males)
            .map(|donor| Lot {
                donor,
                uses: 1 + draw.below(3),
            })
            .collect(),
        ..Season::default()
    };
    let sizes: Vec<u32> = (0..females).map(|_| 6 + draw.below(15)).collect();
    for seed in 0..females {
        #[allow(clippy::needless_range_loop)]
        for lot in 0..males {
            let inbreeding = f64::from(draw.below(5)) / 16.0;
            let spread = f64::from(draw.below(1_000)) / 100.0;
            let value = 0.5 * (of_females[seed] + of_males[lot]) + spread - 40.0 * inbreeding;
            let mut pairing = Pairing::new(seed, lot, value, sizes[seed]);
            (pairing.inbreeding, pairing.kinship) = (inbreeding, f64::from(draw.below(16)) / 64.0);
            season.pairings.push(pairing);
        }
    }
    season.limits.pots = Some(pots);
    season
}
