//! Which plants does no other plant beat in everything?
//!
//! The default view when no weights are stated. A plant is beaten by another that is at least as good in every trait
//! and better in one; plants exactly alike do not beat each other, so duplicates stay together. The second layer is
//! the front of what is left without the first, and so on.

use super::error::{StatisticsError, require};

/// For each plant the number of its layer, from 0; more is better in every trait.
///
/// # Errors
/// Plants with different numbers of traits, no trait, or a value that is not finite; unread plants are the caller's to
/// leave out.
pub fn layers(plants: &[Vec<f64>]) -> Result<Vec<usize>, StatisticsError> {
    let traits = plants.first().map_or(1, Vec::len);
    for plant in plants {
        require(plant, 1)?;
        if plant.len() != traits {
            return Err(StatisticsError::Unpaired {
                left: traits,
                right: plant.len(),
            });
        }
    }
    // Best first: a plant can only be beaten by one before it. Whoever is beaten by one of a layer is beaten by one of
    // every layer before it too, so its own is found by halving; the last of a layer come nearest and are asked first.
    let mut order: Vec<usize> = (0..plants.len()).collect();
    order.sort_by(|&a, &b| compare(&plants[b], &plants[a]));
    let mut layer = vec![0; plants.len()];
    let mut members: Vec<Vec<usize>> = Vec::new();
    for plant in order {
        let beaten = |by: &Vec<usize>| {
            let mut nearest = by.iter().rev();
            nearest.any(|&other| beats(&plants[other], &plants[plant]))
        };
        let own = members.partition_point(beaten);
        if own == members.len() {
            members.push(Vec::new());
        }
        members[own].push(plant);
        layer[plant] = own;
    }
    Ok(layer)
}

fn compare(a: &[f64], b: &[f64]) -> std::cmp::Ordering {
    let first = a
        .iter()
        .zip(b)
        .map(|(x, y)| x.total_cmp(y))
        .find(|order| order.is_ne());
    first.unwrap_or(std::cmp::Ordering::Equal)
}

fn beats(a: &[f64], b: &[f64]) -> bool {
    a.iter().zip(b).all(|(x, y)| x >= y) && a.iter().zip(b).any(|(x, y)| x > y)
}
