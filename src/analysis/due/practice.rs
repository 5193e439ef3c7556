//! How long things take by common practice, in days; none of it has a source.

/// From pollination to a set that can be counted.
pub const COUNT_SET: (i32, i32) = (7, 21);
/// From harvest to sowing.
pub const SOW: (i32, i32) = (0, 30);
/// From sowing to the first seedlings.
pub const GERMINATION: (i32, i32) = (28, 84);
