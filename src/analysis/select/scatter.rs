//! The plants of a proposal by two traits: where each stands, and which no other surpasses in both.

use super::answer::{Proposal, SelectRow};

/// A place where one plant stands, or several that were read alike.
#[derive(Clone, Debug)]
pub struct ScatterPlace<'r> {
    /// The first trait and the second.
    pub at: (f64, f64),
    /// The plants there, in the order of the proposal; at least one.
    pub plants: Vec<&'r SelectRow>,
    /// Whether one of them is to be kept.
    pub is_kept: bool,
    /// Whether no sibling beats them in both traits.
    pub is_on_front: bool,
}

/// A place for all plants that stand there; those of whom one trait was not read stand nowhere.
pub fn scatter_places(plants: &[SelectRow]) -> Vec<ScatterPlace<'_>> {
    let mut places: Vec<ScatterPlace> = Vec::new();
    for row in plants {
        let [Some(x), Some(y)] = row.readings[..] else {
            continue;
        };
        let is_kept = row.proposal == Proposal::Keep;
        match places.iter_mut().find(|place| place.at == (x, y)) {
            Some(place) => {
                place.plants.push(row);
                place.is_kept |= is_kept;
            }
            None => places.push(ScatterPlace {
                at: (x, y),
                plants: vec![row],
                is_kept,
                is_on_front: row.front == Some(1),
            }),
        }
    }
    places
}

/// The corners of the front, from the least to the most across: what no plant goes beyond.
pub fn scatter_front(places: &[ScatterPlace], less_is_better: bool) -> Vec<(f64, f64)> {
    let on_front = places.iter().filter(|place| place.is_on_front);
    let mut places: Vec<(f64, f64)> = on_front.map(|place| place.at).collect();
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut corners = Vec::new();
    for (rank, &place) in places.iter().enumerate() {
        if let Some(&before) = rank.checked_sub(1).and_then(|before| places.get(before)) {
            corners.push(match less_is_better {
                true => (place.0, before.1),
                false => (before.0, place.1),
            });
        }
        corners.push(place);
    }
    corners
}
