//! What a selection is expected to pass on, as a table.

use crate::analysis::select::{LOW_AND_HIGH, SelectResponse};
use crate::report::sheet::{Cell, Table};

/// The responses as a table.
pub(crate) fn response_table(told: &[SelectResponse], heritability: f64) -> Table {
    let (low, high) = LOW_AND_HIGH;
    let mut table = Table::new(&[
        "cross",
        "trait",
        ">kept",
        ">of read",
        ">above their siblings' mean",
        ">expected in their seedlings",
    ])
    .titled(format!(
        "What the choice is expected to pass on: heritability {heritability} assumed (in brackets {low} to {high}), both parents of those kept"
    ));
    for of in told {
        let places = usize::from(of.decimals);
        let signed = |number: f64| format!("{number:+.places$}").replace('-', "−");
        table.row(vec![
            Cell::from(of.cross.as_str()),
            Cell::from(of.of.as_str()),
            Cell::from(of.kept),
            Cell::from(of.read),
            Cell::from(signed(of.above_siblings)),
            Cell::from(format!(
                "{} ({} to {})",
                signed(of.in_seedlings),
                signed(of.in_seedlings_between.0),
                signed(of.in_seedlings_between.1)
            )),
        ]);
    }
    table
}
