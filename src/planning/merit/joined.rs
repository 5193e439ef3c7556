//! Sparse rows: unknowns with values, added up.

/// Unknowns with values.
pub type Sparse = Vec<(u32, f64)>;

/// Adds up a sparse row, joining equal unknowns.
pub(super) fn joined(mut row: Sparse) -> Sparse {
    // Stable, so that sums are always taken in the same order.
    row.sort_by_key(|(unknown, _)| *unknown);
    row.dedup_by(|later, kept| {
        let same = later.0 == kept.0;
        if same {
            kept.1 += later.1;
        }
        same
    });
    row
}

/// A row gathered piece by piece.
pub(super) struct Gathered {
    sums: Vec<f64>,
    seen: Vec<bool>,
    touched: Vec<u32>,
}

impl Gathered {
    pub fn new(unknowns: usize) -> Gathered {
        Gathered {
            sums: vec![0.0; unknowns],
            seen: vec![false; unknowns],
            touched: Vec::new(),
        }
    }

    pub fn add(&mut self, row: &[(u32, f64)]) {
        for (at, part) in row {
            if !std::mem::replace(&mut self.seen[*at as usize], true) {
                self.touched.push(*at);
            }
            self.sums[*at as usize] += part;
        }
    }

    /// The row so far, in the order in which its unknowns first came; begins anew.
    pub fn take(&mut self) -> Sparse {
        let take = |at: u32| {
            self.seen[at as usize] = false;
            (at, std::mem::take(&mut self.sums[at as usize]))
        };
        self.touched.drain(..).map(take).collect()
    }
}
