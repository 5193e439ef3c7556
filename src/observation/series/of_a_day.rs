//! Several readings of one plant on one day are one: which of them is nearer the truth is not on record, and the order in
//! which sittings stand on a page says nothing.

use crate::observation::series::readings::{Comparable, TraitReadings};
use crate::record::PitcherType;

/// Makes one of the readings of a plant that are of one day and one age class of pitcher: their mean, of steps and kinds
/// what all of them say. Steps and kinds that are unlike are taken out; returns how many readings those were. Readings
/// come by plant and then by day.
pub fn one_a_day(readings: &mut Vec<Comparable>, has_mean: bool) -> usize {
    let same = |a: &Comparable, b: &Comparable| (a.plant, a.when) == (b.plant, b.when);
    if readings.windows(2).all(|pair| !same(&pair[0], &pair[1])) {
        return 0;
    }
    let is_juvenile = |of: &Comparable| of.pitcher == Some(PitcherType::Juvenile);
    let key = |of: &Comparable| (of.plant, of.when, is_juvenile(of));
    readings.sort_by_key(key);
    let (mut of_days, mut unlike) = (Vec::with_capacity(readings.len()), 0);
    for day in readings.chunk_by(|a, b| key(a) == key(b)) {
        match one_of(day, has_mean) {
            Some(of_day) => of_days.push(of_day),
            None => unlike += day.len(),
        }
    }
    *readings = of_days;
    unlike
}

impl TraitReadings {
    /// All readings, by plant and then by day, of each day one; and how many said unlike things on one day.
    pub fn by_plant_and_day(&self) -> (Vec<Comparable>, usize) {
        let mut readings = self.by_plant();
        let unlike = one_a_day(&mut readings, self.has_mean);
        (readings, unlike)
    }
}

fn one_of(day: &[Comparable], has_mean: bool) -> Option<Comparable> {
    let [first, .., last] = day else {
        return day.first().copied();
    };
    let all_say = |value: f64| day.iter().all(|of| of.value == value);
    let value = match has_mean {
        true if !all_say(first.value) => mean(day),
        _ => first.value,
    };
    (has_mean || all_say(value)).then_some(Comparable {
        value,
        also_in: Some(last.sitting),
        pitcher: (first.pitcher).filter(|_| day.iter().all(|of| of.pitcher == first.pitcher)),
        pest: day.iter().any(|of| of.pest),
        doubtful: day.iter().any(|of| of.doubtful),
        ..*first
    })
}

/// Added up from the least, so that the order on the page makes no difference in the last digit.
fn mean(day: &[Comparable]) -> f64 {
    let mut values: Vec<f64> = day.iter().map(|of| of.value).collect();
    values.sort_by(f64::total_cmp);
    values.iter().sum::<f64>() / values.len() as f64
}
