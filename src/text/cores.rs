//! Work on many things alike, on all cores when there is enough of it.
//!
//! Starting the threads takes longer than reading a hobby registry, so a few things are done one after the other. The
//! answers stand in the order of the things either way.

use rayon::prelude::*;

/// Maps each thing; on all cores when `much` says that starting them pays.
pub fn on_cores<T: Sync, R: Send>(
    things: &[T],
    much: bool,
    of: impl Fn(&T) -> R + Sync + Send,
) -> Vec<R> {
    match much {
        true => things.par_iter().map(of).collect(),
        false => things.iter().map(of).collect(),
    }
}
