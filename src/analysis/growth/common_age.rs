//! The age at which groups can best be compared, where sizes may be interpolated; one tray as it was read is the
//! question of `report/common_age.rs`.
//!
//! Every age at which a plant was read is tried. First the most plants of the smallest group: ages with nine tenths of
//! that number, or one plant fewer of five or more, count as equal, so that one death does not drive the comparison back
//! to the cradle. Among those an age
//! at which plants were read goes before one that needs interpolation, and then the latest. All of it is a rule of
//! this program, told in `docs/numbers.md`.

use crate::analysis::growth::grown::Grown;
use crate::observation::moment::NEAR;
use crate::statistics::nearly_all;

struct Candidate {
    age: f64,
    /// Plants with a size in the smallest group.
    present: usize,
    /// Whether nearly all of these were read near the age, in every group.
    read: bool,
}

/// The best common age in months; `None` if at no age every group has a plant with a size.
pub fn common_age(groups: &[&[Grown]]) -> Option<f64> {
    let spans: Vec<Spans> = groups.iter().map(|group| Spans::of(group)).collect();
    let each_once = spans
        .iter()
        .flat_map(|spans| spans.read.chunk_by(|a, b| a == b));
    let mut ages: Vec<f64> = each_once.map(|same| same[0]).collect();
    ages.sort_unstable_by(f64::total_cmp);
    ages.dedup();
    let candidate = |age: f64| Candidate {
        age,
        present: spans.iter().map(|s| s.present(age)).min().unwrap_or(0),
        read: (spans.iter()).all(|s| nearly_all(s.read_near(age), s.present(age))),
    };
    let mut kept: Vec<Candidate> = ages.into_iter().map(candidate).collect();
    let most = kept.iter().map(|c| c.present).max().filter(|&n| n > 0)?;
    kept.retain(|c| nearly_all(c.present, most));
    let as_read = |c: &&Candidate| c.read;
    let latest = |a: &&Candidate, b: &&Candidate| a.age.total_cmp(&b.age);
    let chosen = kept.iter().filter(as_read).max_by(latest);
    chosen.or_else(|| kept.iter().max_by(latest)).map(|c| c.age)
}

/// The ages at which a plant of every group was read, earliest first; of ages too near to tell apart the latest.
pub fn ages_read_in_all(groups: &[&[Grown]]) -> Vec<f64> {
    let spans: Vec<Spans> = groups.iter().map(|group| Spans::of(group)).collect();
    let mut ages: Vec<f64> = spans.iter().flat_map(|spans| spans.read.clone()).collect();
    ages.sort_unstable_by(|a, b| b.total_cmp(a));
    ages.dedup();
    let mut told: Vec<f64> = Vec::new();
    for age in ages {
        let apart = told.last().is_none_or(|later| later - age > NEAR);
        if apart && spans.iter().all(|of| of.read_near(age) > 0) {
            told.push(age);
        }
    }
    told.reverse();
    told
}

/// Ages of a group, each list sorted.
struct Spans {
    first: Vec<f64>,
    last: Vec<f64>,
    read: Vec<f64>,
    /// The ages within which a reading of a plant stands as it was read, from where and until where.
    near: [Vec<f64>; 2],
}

impl Spans {
    fn of(group: &[Grown]) -> Spans {
        let sorted = |mut ages: Vec<f64>| {
            ages.sort_unstable_by(f64::total_cmp);
            ages
        };
        let known = || group.iter().filter_map(Grown::known_ages);
        let near: Vec<[f64; 2]> = group.iter().flat_map(near_readings).collect();
        let points = group.iter().flat_map(|grown| &grown.points);
        Spans {
            first: sorted(known().map(|span| span.low).collect()),
            last: sorted(known().map(|span| span.high).collect()),
            read: sorted(points.filter_map(|point| point.middle_age()).collect()),
            near: [0, 1].map(|end| sorted(near.iter().map(|of| of[end]).collect())),
        }
    }

    fn present(&self, age: f64) -> usize {
        let begun = self.first.partition_point(|&first| first <= age);
        begun - self.last.partition_point(|&last| last < age)
    }

    /// Plants read near an age, each once however often it was read.
    fn read_near(&self, age: f64) -> usize {
        let begun = self.near[0].partition_point(|&from| from <= age);
        begun - self.near[1].partition_point(|&until| until < age)
    }
}

/// The ages within which a plant was read near: those of readings that lie close together as one.
fn near_readings(grown: &Grown) -> Vec<[f64; 2]> {
    let ages = grown.points.iter().filter_map(|point| point.middle_age());
    let mut ages: Vec<f64> = ages.collect();
    ages.sort_unstable_by(f64::total_cmp);
    let mut near: Vec<[f64; 2]> = Vec::new();
    for age in ages {
        match near.last_mut() {
            Some([_, until]) if *until >= age - NEAR => *until = age + NEAR,
            _ => near.push([age - NEAR, age + NEAR]),
        }
    }
    near
}
