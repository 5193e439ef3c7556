//! The words for readings that are outside their trait, or were taken too early.

use super::values::{Misread, unit_meant};
use crate::diagnostic::{Code, Finding};
use crate::record::{Reads, Trait};
use crate::text::nearest;

/// What is told once for a column.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Remark {
    NoUnit,
    TooYoung,
    TooSmall,
    Doubtful,
}

/// The unit a trait is measured in, after a blank.
pub(super) fn unit_word(reads: &Reads) -> &'static str {
    use crate::record::MeasuredIn::*;
    match reads {
        Reads::Length(Mm) => " mm",
        Reads::Length(Cm) => " cm",
        Reads::Length(In) => " in",
        _ => "",
    }
}

/// The finding for a cell that gives no value.
pub(super) fn misread_words(cell: &str, declared: &Trait, misread: Misread) -> Finding {
    let name = &*declared.name;
    let outside = |needed: String| {
        Finding::fault(
            Code("outside-trait"),
            format!("this is no reading of {name}"),
        )
        .found(format!("`{cell}`"))
        .needed(needed)
    };
    match (misread, &declared.reads) {
        (Misread::NoStep, Reads::Scale(anchors)) => {
            let finding = outside(format!("a step from 1 to {}", anchors.len()));
            let anchors = anchors.iter().map(|anchor| &**anchor);
            match anchors.clone().position(|anchor| anchor == cell.trim()) {
                Some(at) => finding.help(format!("write {}", at + 1)),
                None => finding.help(steps(anchors)),
            }
        }
        (Misread::NoKind, Reads::Kinds(kinds)) => outside(format!("one of {}", kinds.join(", ")))
            .did_you_mean(nearest(cell, kinds.iter().copied())),
        (Misread::UnknownUnit, _) => Finding::fault(Code("unknown-unit"), "this unit is not known")
            .found(format!("`{cell}`"))
            .needed("mm, cm, m or in")
            .did_you_mean(unit_meant(cell)),
        (Misread::NotWhole, _) => outside("a whole number".into()),
        (Misread::OutOfRange, _) => {
            outside("0, or a number from 0.000000001 to 1000000000 in size".into())
        }
        (Misread::NoPlant, _) => outside("a length from 0 up, as a plant can have".into()),
        (_, Reads::Length(_)) => outside(
            "a length such as `9.6 cm`, `3 1/2 in` or, with a unit in the heading, `9.6`".into(),
        )
        .help("leave the cell empty, \"\", for what was not read"),
        _ => outside("a number".into()).help("leave the cell empty, \"\", for what was not read"),
    }
}

/// The anchors of a scale in one line: `1 plain, 2 ghost lines`.
fn steps<'a>(anchors: impl Iterator<Item = &'a str>) -> String {
    let steps: Vec<String> = anchors
        .enumerate()
        .map(|(at, anchor)| format!("{} {anchor}", at + 1))
        .collect();
    steps.join(", ")
}

/// The finding for what is told once of a column.
pub(super) fn remark_words(remark: Remark, declared: &Trait, count: usize) -> Finding {
    let name = &*declared.name;
    let cells = |rest: &str| match count {
        1 => format!("1 reading {rest}"),
        n => format!("{n} readings {rest}"),
    };
    match remark {
        Remark::NoUnit => Finding::note(Code("no-unit"), format!("{name} without a unit"))
            .found(cells("without a unit; the first is here"))
            .needed("`9.6 cm`, or the unit in the heading: `span cm`")
            .help("a bare number is kept as typed and left out of comparisons until somebody says"),
        Remark::TooYoung => Finding::note(
            Code("read-too-early"),
            format!("{name} was read on plants too young for it"),
        )
        .found(cells("too early; the first is here"))
        .needed(format!(
            "plants of {} months or more from sowing",
            declared.from_months.unwrap_or(0.0)
        ))
        .help("such readings say little about the grown plant"),
        Remark::TooSmall => Finding::note(
            Code("read-too-early"),
            format!("{name} was read on plants too small for it"),
        )
        .found(cells("too early; the first is here"))
        .needed(format!(
            "plants with a leaf span of {} cm or more",
            declared.from_span_cm.unwrap_or(0.0)
        ))
        .help("such readings say little about the grown plant"),
        Remark::Doubtful => Finding::note(
            Code("read-too-early"),
            format!("{name} is doubtful on plants so small"),
        )
        .found(cells("doubtful; the first is here"))
        .needed(format!(
            "plants with a leaf span of {} cm or more",
            declared.doubtful_under_span_cm.unwrap_or(0.0)
        ))
        .help("read it again when the plants are larger"),
    }
}
