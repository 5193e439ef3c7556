//! The picture of which cross varies more: crosses as rows of dots over one axis.

use crate::analysis::variation::{Caution, CrossSpread, VariationReport};
use crate::report::chart::{ChartInterval, DotRow, VariationChart, plain_dots};
use crate::wording::upright;

/// The crosses side by side as a picture. What is expected of a later cross is drawn from the measured spread of the
/// first.
pub fn variation_chart(report: &VariationReport) -> VariationChart {
    let first = report.crosses.first();
    let row = |(place, cross): (usize, &CrossSpread)| {
        let measure = cross.measure.as_ref();
        let ratio = place
            .checked_sub(1)
            .and_then(|place| report.against_first[place].expected);
        let expected = ratio.filter(|_| report.comparable);
        let expected = expected.zip(first).and_then(|(ratio, first)| {
            report
                .scale
                .expected_range(&cross.values, &first.values, ratio)
        });
        let spread = measure.and_then(|measure| measure.cv);
        let spread = spread.map_or(String::new(), |cv| format!(", CV {:.0} %", cv * 100.0));
        DotRow {
            label: cross.label.clone(),
            // Plants of different ages share no axis.
            dots: match report.comparable {
                true => plain_dots(&cross.values),
                false => Vec::new(),
            },
            interval: measure
                .filter(|_| report.comparable)
                .and_then(ChartInterval::of_mean),
            expected,
            remark: match report.comparable {
                true => format!("n {}{spread}", cross.n),
                false => format!("n {}{spread}, {}: not drawn", cross.n, cross.at),
            },
        }
    };
    let mut notes: Vec<String> = report.cautions.iter().map(Caution::to_string).collect();
    if report
        .against_first
        .iter()
        .any(|ratio| ratio.expected.is_some() && report.comparable)
    {
        notes.push(
            "dotted: where ancestry expects 95 % of the siblings, from the spread of the first cross".to_owned(),
        );
    }
    VariationChart {
        title: upright("How much the crosses vary"),
        heading: report.shown.heading(),
        rows: report.crosses.iter().enumerate().map(row).collect(),
        notes,
    }
}
