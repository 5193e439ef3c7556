//! What a grower of a few years meets: seedlings counted twice and out of order, trays without a place for plants, pieces that
//! are given away and come home, dates in words.

use crate::small_records::{holds, of, said};

#[test]
fn the_largest_of_running_totals_counts() {
    let top = of(
        r#"sowings: [(code: "S1", on: "2025-11-01", seeds: 40, place: "tent",
        germinated: [(on: "2026-02-20", count: 12), (on: "2026-02", count: 9)])]"#,
    );
    let due = said(&top, "due");
    holds(&due, &["prick out K.S1 12 seedlings", "not: 9 seedlings"]);
}
