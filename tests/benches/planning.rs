//! A season of 40 females by 40 males in 200 pots against a general integer solver at the same optimum, and four million
//! pairings scored: ratios within one run, medians of several rounds, seconds only for orientation.

use std::hint::black_box;
use std::time::Instant;

use podbook::planning::pairs::best_pairs;
use podbook::planning::search::{Asked, search};
use podbook::planning::season::Season;

#[path = "../numbers/planning/nursery.rs"]
mod nursery;
#[path = "../numbers/planning/solver.rs"]
mod solver;

use nursery::{Draw, nursery};
use solver::{General, Solver};

fn seconds<T>(rounds: usize, mut work: impl FnMut() -> T) -> f64 {
    let mut times: Vec<f64> = (0..rounds)
        .map(|_| {
            let start = Instant::now();
            black_box(work());
            start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[rounds / 2]
}

fn compare(name: &str, season: &Season) {
    let own = search(season, Asked::default(), &mut |_| true);
    let general = General.best(season).expect("the season has a plan");
    assert!(
        own.proved && (own.plans[0].value - general).abs() < 1e-5,
        "{name}: {} against {general}",
        own.plans[0].value
    );
    let ours = seconds(5, || search(season, Asked::default(), &mut |_| true));
    let theirs = seconds(1, || General.best(season));
    println!(
        "{name}: {:.0} times as fast ({ours:.5} s, {} steps, general {theirs:.3} s)",
        theirs / ours,
        own.steps
    );
}

fn main() {
    let equal = {
        let mut season = nursery((40, 40), 200, 1);
        season
            .pairings
            .iter_mut()
            .for_each(|pairing| pairing.pots = 10);
        season
    };
    compare("40 x 40, 200 pots, ten to a pod", &equal);
    compare(
        "40 x 40, 200 pots, 6 to 20 to a pod",
        &nursery((40, 40), 200, 1),
    );
    let capped = {
        let mut season = equal.clone();
        season.limits.inbreeding = Some(0.125);
        (
            season.limits.lines_through_seed,
            season.limits.lines_through_pollen,
        ) = (vec![0, 1, 2], vec![0, 1, 2]);
        season
    };
    compare(
        "the same, three lines to keep, a cap on inbreeding",
        &capped,
    );

    let (seeds, pollens) = (2_000, 2_000);
    let mut draw = Draw(9);
    let merit: Vec<f64> = (0..seeds + pollens)
        .map(|_| f64::from(draw.below(1_000)))
        .collect();
    let score = |seed: usize, pollen: usize| Some(0.5 * (merit[seed] + merit[seeds + pollen]));
    let kept = seconds(5, || best_pairs(seeds, pollens, 100, score));
    let sorted = seconds(3, || {
        let mut all: Vec<(usize, usize, f64)> = (0..seeds)
            .flat_map(|s| (0..pollens).map(move |p| (s, p)))
            .map(|(s, p)| (s, p, score(s, p).unwrap()))
            .collect();
        all.sort_by(|a, b| b.2.total_cmp(&a.2).then((a.0, a.1).cmp(&(b.0, b.1))));
        all.truncate(100);
        all
    });
    println!(
        "4,000,000 pairings scored, the best 100 kept: {:.1} times as fast as sorting all ({kept:.4} s)",
        sorted / kept
    );
}
