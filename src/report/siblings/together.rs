//! Traits read together, as a table and a line.

use crate::analysis::siblings::Together;
use crate::report::sheet::{Cell, Table};
use crate::wording::{listed, signed};

/// The pairs whose limits leave out zero, as a table.
pub fn together_table(pairs: &[Together]) -> Table {
    let mut table = Table::new(&["trait", "with", ">n", ">correlation (95 %)", "read at"]).titled(
        "Traits together: rank correlation of the plants read in both; below 0 one rises as the other falls",
    );
    for pair in pairs.iter().filter(|pair| pair.is_clear()) {
        let (low, high) = pair.between;
        table.row(vec![
            Cell::from(pair.first.as_str()),
            Cell::from(pair.second.as_str()),
            Cell::from(pair.n),
            Cell::from(format!(
                "{} ({} to {})",
                signed(pair.correlation, 2),
                signed(low, 2),
                signed(high, 2)
            )),
            Cell::from(pair.ages.to_string()),
        ]);
    }
    table
}

/// How many pairs are left in which no relation is clear.
pub fn unclear_words(pairs: &[Together]) -> Option<String> {
    let unclear = pairs.iter().filter(|pair| !pair.is_clear());
    let told: Vec<String> = unclear
        .map(|pair| format!("{} with {}", pair.first, pair.second))
        .collect();
    match &told[..] {
        [] => None,
        [_, _, _, ..] => Some(format!(
            "no clear relation in {} other pairs of traits",
            told.len()
        )),
        few => Some(format!("no clear relation: {}", listed(few))),
    }
}
