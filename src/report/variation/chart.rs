//! The picture of which cross varies more: crosses as rows of dots over one axis.

use crate::analysis::variation::{CrossSpread, VariationReport};
use crate::report::chart::{ChartInterval, DotRow, VariationChart, plain_dots};
use crate::report::sheet::Report;
use crate::wording::{cv_words, upright};

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
        let limits = measure.and_then(|measure| measure.cv_between);
        let spread = spread.map_or(String::new(), |cv| {
            format!(", CV % {}", cv_words(cv, limits))
        });
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
    let ages = report.crosses.iter().filter(|_| report.comparable);
    let mut notes: Vec<String> = ages.map(|of| format!("{}: {}", of.id, of.at)).collect();
    notes.extend(report.cautions.iter().map(ToString::to_string));
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
        title: upright(report.sheet().answer),
        heading: report.shown.heading(),
        rows: report.crosses.iter().enumerate().map(row).collect(),
        notes,
    }
}
