//! What a selection is expected to pass on, as a table.

use crate::analysis::select::{LOW_AND_HIGH, SelectResponse};
use crate::report::table::Table;

/// The responses as a table.
pub(crate) fn response_table(told: &[SelectResponse], heritability: f64) -> Table {
    let (low, high) = LOW_AND_HIGH;
    let signed = |of: &SelectResponse, number: f64| {
        format!("{number:+.*}", usize::from(of.decimals)).replace('-', "−")
    };
    Table::of(told)
        .titled(format!(
            "What the choice is expected to pass on: heritability {heritability} assumed (in brackets {low} to {high}), both parents of those kept"
        ))
        .text("cross", |of| &of.cross)
        .text("trait", |of| &of.of)
        .figure("kept", |of| of.kept)
        .figure("of read", |of| of.read)
        .figure("above their siblings' mean", |of| {
            signed(of, of.above_siblings)
        })
        .figure("expected in their seedlings", |of| {
            let (low, high) = of.in_seedlings_between;
            let [mean, low, high] = [of.in_seedlings, low, high].map(|number| signed(of, number));
            format!("{mean} ({low} to {high})")
        })
        .into()
}
