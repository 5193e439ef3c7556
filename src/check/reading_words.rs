//! The words for readings that are outside their trait, or were taken too early.

use crate::diagnostic::{Code, Finding};
use crate::observation::{Misread, value};
use crate::record::{Length, Reads, Trait};
use crate::text::nearest;

/// What is reported once for a column.
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
            format!("this is not a valid reading of {name}"),
        )
        .found(format!("`{cell}`"))
        .needed(needed)
    };
    match (misread, &declared.reads) {
        (Misread::NoStep, Reads::Scale(anchors)) => {
            let finding = outside(format!("a step from 1 to {}", anchors.len()));
            let anchors = anchors.iter().map(|anchor| &**anchor);
            match anchors.clone().position(|anchor| anchor == cell.trim()) {
                Some(at) => finding.write((at + 1).to_string()),
                None => finding.help(steps(anchors)),
            }
        }
        (Misread::NoKind, Reads::Kinds(kinds)) => outside(format!("one of {}", kinds.join(", ")))
            .did_you_mean(nearest(cell, kinds.iter().copied())),
        (Misread::UnknownUnit, _) if cell.trim_end().ends_with('?') => {
            outside("the number alone, with its unit".into())
                .renamed(Code("words-around-number"))
                .write(cell.trim().trim_end_matches('?').trim_end())
                .help("put a doubt about it in a `note` column")
        }
        (Misread::UnknownUnit, _) => Finding::fault(Code("unknown-unit"), "this unit is not known")
            .found(format!("`{cell}`"))
            .needed("mm, cm, m or in")
            .did_you_mean(unit_meant(cell)),
        (Misread::NotWhole, _) => outside("a whole number".into()),
        (Misread::OutOfRange, _) => {
            outside("0, or a number from 0.000000001 to 1000000000 in size".into())
        }
        (Misread::NoPlant, Reads::Count) => outside("a whole number from 0 up".into()),
        (Misread::NoPlant, _) => outside("a length above 0, as a plant can have".into())
            .help("leave the cell empty, \"\", for what was not there"),
        (Misread::ThousandsOrDecimals, _) => thousands_or_decimals(cell, declared),
        (Misread::NoNumber, _) if number_within(cell, declared).is_some() => {
            let number = number_within(cell, declared).unwrap_or_default();
            outside("the number alone, with its unit".into())
                .renamed(Code("words-around-number"))
                .write(number)
                .help("put words about it in a `note` column")
        }
        (_, Reads::Length(_)) => outside(
            "a length such as `9.6 cm`, `3 1/2 in` or, with a unit in the heading, `9.6`".into(),
        )
        .help("leave the cell empty, \"\", for what was not read"),
        _ => outside("a number".into()).help("leave the cell empty, \"\", for what was not read"),
    }
}

/// What of a cell is a value, when words stand before it: `about 9.6 cm`.
fn number_within<'c>(cell: &'c str, declared: &Trait) -> Option<&'c str> {
    let start = cell.find(|c: char| c.is_ascii_digit())?;
    let number = cell[start..].trim_end();
    // A letter that touches the digits may stand for one of them, as in `l2.5`.
    let is_of_number = |c: char| c.is_alphabetic() || matches!(c, '-' | '−' | '.');
    let words = !cell[..start].ends_with(is_of_number);
    (words && is_value(declared, number)).then_some(number)
}

/// Whether a text is a value of a trait, be its unit known or not.
fn is_value(declared: &Trait, text: &str) -> bool {
    matches!(
        value(declared, text, None),
        Ok(_) | Err(Misread::UnitUnknown)
    )
}

/// A comma before three digits: a thousandfold difference hangs on it.
fn thousands_or_decimals(cell: &str, declared: &Trait) -> Finding {
    let cell = cell.trim();
    let finding = Finding::fault(
        Code("comma-in-number"),
        "this comma may set off thousands or decimals",
    )
    .found(format!("`{cell}`"))
    .needed("a number without a comma before exactly three digits");
    let meant = [
        (cell.replacen(',', "", 1), " if it sets off thousands"),
        (cell.replacen(',', ".", 1), " if it sets off decimals"),
    ];
    let meant = meant
        .into_iter()
        .filter(|(text, _)| is_value(declared, text));
    meant.fold(finding, |finding, (text, when)| {
        finding.write_so(text, when)
    })
}

/// A length whose unit is misspelt, with the units that may be meant.
pub(super) fn unit_meant(text: &str) -> Vec<String> {
    let unit = text.trim_start_matches(|c: char| !c.is_alphabetic());
    let number = text[..text.len() - unit.len()].trim();
    let units = nearest(unit, ["mm", "cm", "m", "in", "inches"]).into_iter();
    let lengths = units.map(|unit| format!("{number} {unit}"));
    lengths
        .filter(|length| Length::read(length).is_ok())
        .collect()
}

/// The anchors of a scale in one line: `1 plain, 2 ghost lines`.
fn steps<'a>(anchors: impl Iterator<Item = &'a str>) -> String {
    let steps: Vec<String> = anchors
        .enumerate()
        .map(|(at, anchor)| format!("{} {anchor}", at + 1))
        .collect();
    steps.join(", ")
}

/// The finding for what is reported once for a column.
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
            .help("a number without a unit is kept as typed and left out of comparisons until the unit is known"),
        Remark::TooYoung => Finding::note(
            Code("read-too-early"),
            format!("{name} was read on plants too young for it"),
        )
        .found(cells("too early; the first is here"))
        .needed(format!(
            "plants of {} months or more from sowing",
            declared.from_months.unwrap_or(0.0)
        ))
        .help("such readings say little about the adult plant"),
        Remark::TooSmall => Finding::note(
            Code("read-too-early"),
            format!("{name} was read on plants too small for it"),
        )
        .found(cells("too early; the first is here"))
        .needed(format!(
            "plants with a leaf span of {} cm or more",
            declared.from_span_cm.unwrap_or(0.0)
        ))
        .help("such readings say little about the adult plant"),
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
