//! What numbers should ordered kinds (none, faint, clear, bold) be given?
//!
//! Normal scores from the pooled counts, so that steps between rare kinds are wide and the weighted mean is 0.

use super::distribution::{normal_density, normal_quantile};
use super::error::StatisticsError;

/// Scores for ordered kinds from their pooled counts, lowest kind first: the mean of a standard normal value within
/// the kind's share, so that the weighted mean is 0. A kind nobody showed takes the value at its boundary.
///
/// # Errors
/// Fewer than two kinds counted.
pub fn normal_scores(counts: &[u64]) -> Result<Vec<f64>, StatisticsError> {
    let kinds = counts.iter().filter(|&&count| count > 0).count();
    if kinds < 2 {
        return Err(StatisticsError::TooFew {
            found: kinds,
            needed: 2,
        });
    }
    let total = counts.iter().sum::<u64>() as f64;
    let density = |share: f64| {
        if share <= 0.0 || share >= 1.0 {
            0.0
        } else {
            normal_density(normal_quantile(share))
        }
    };
    let mut below = 0_u64;
    let mut scores = Vec::with_capacity(counts.len());
    for &count in counts {
        let from = below as f64 / total;
        below += count;
        let to = below as f64 / total;
        scores.push(if count > 0 {
            (density(from) - density(to)) / (to - from)
        } else {
            boundary(from)
        });
    }
    Ok(scores)
}

/// The boundary value, held within ±3 where an empty kind lies at an end.
fn boundary(share: f64) -> f64 {
    if share <= 0.0 {
        -3.0
    } else if share >= 1.0 {
        3.0
    } else {
        normal_quantile(share)
    }
}
