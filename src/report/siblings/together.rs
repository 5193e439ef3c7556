//! Traits read together, as a table and a line.

use crate::analysis::siblings::Together;
use crate::report::table::Table;
use crate::wording::{listed, signed};

/// Heading of the correlations.
pub const TOGETHER: &str = "Traits together: rank correlation of the plants read in both; below 0 one rises as the other falls";

/// The pairs whose limits leave out zero, and those without limits, as a table.
pub fn together_table(pairs: &[Together]) -> Table {
    Table::of(pairs.iter().filter(|pair| pair.is_clear()))
        .titled(TOGETHER)
        .text("trait", |pair| &pair.first)
        .text("with", |pair| &pair.second)
        .figure("n", |pair| pair.n)
        .figure("correlation (95 %)", |pair| {
            let words = |of| signed(of, 2);
            let between = pair.between.map(|(low, high)| [low, high].map(words));
            let limits = between.map_or("no limits".to_owned(), |of| of.join(" to "));
            format!("{} ({limits})", words(pair.correlation))
        })
        .text("read at", |pair| pair.ages.to_string())
        .into()
}

/// Why some pairs have no limits.
pub fn no_limits_words(pairs: &[Together]) -> Option<&'static str> {
    pairs.iter().any(|pair| pair.between.is_none()).then_some(
        "no limits: where all plants stand in the same order in both, or in the reverse, the formula gives none",
    )
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
