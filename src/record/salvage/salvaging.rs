//! The way from a file at fault to what is kept of it.

use super::case::left_out;
use super::couple::mother;
use super::foreign::foreign;
use super::kinds::{Kind, Page};
use super::marks::Marks;
use super::paper::rewrite;
use super::trial::{Trials, Verdict};
use crate::diagnostic::{Code, Finding};
use crate::record::read::typed;
use crate::text::outline::{Kind as Shape, PartId};
use crate::text::{FileId, Outline, Sources, Span};
use ron::error::SpannedError;
use std::collections::BTreeMap;

/// Reads what can be read of a faulty file, and tells every fault.
pub(in crate::record) fn salvage<'t, P: Page<'t>>(
    sources: &'t Sources,
    file: FileId,
    error: &SpannedError,
) -> (Option<P>, Vec<Finding>) {
    let text = sources.text(file);
    if let Some(finding) = foreign(file, text, P::KIND.word) {
        return (None, vec![finding]);
    }
    let outline = Outline::of(text);
    let mut trials = Trials {
        file,
        outline: &outline,
        marks: Marks::new(&outline, P::KIND),
        findings: Vec::new(),
    };
    let shape = outline.faults().iter();
    trials.findings = shape
        .map(|fault| Finding::of_shape(fault, file, text))
        .collect();
    let Some(root) = outline.root() else {
        trials.findings.push(empty_page(file, P::KIND));
        return (None, trials.findings);
    };
    if is_without_brackets(&outline, root) {
        return (None, vec![no_brackets(&outline, file, P::KIND)]);
    }
    trials.leave_out_spoilt();
    let page = stand_ins(&mut trials, root, P::KIND).and_then(|stand_ins| {
        let copy = rewrite(&outline, &trials.marks, &stand_ins);
        let mut page = typed::<P>(sources.get(file).mend(copy)).ok()?;
        if stand_ins.iter().any(|field| field.starts_with("parents:")) {
            let parents = outline.field(root, "parents");
            page.parents_stood_in(parents.and_then(|parents| mother(&outline, parents)));
        }
        Some(page)
    });
    let mut findings = folded(trials.findings, outline.faults().len());
    if findings.is_empty() {
        findings.push(untold(sources, file, error));
    }
    (page, findings)
}

/// Examines every record, those inside others first, and the page last; what stands in for its lost fields, or `None`
/// when the page is lost.
fn stand_ins(trials: &mut Trials, root: PartId, page: &'static Kind) -> Option<Vec<String>> {
    let past = trials.outline.past(root);
    for record in (root.0 + 1..past).rev().map(PartId) {
        if let Some(kind) = trials.marks.kind(record)
            && !trials.marks.is_left_out(record)
            && trials.examine(record, kind) == Verdict::Lost
        {
            trials.marks.leave_out(record);
        }
    }
    trials.examine_page(root, page)
}

/// Whether the file begins with a field's name where its bracket should be.
fn is_without_brackets(outline: &Outline, root: PartId) -> bool {
    let place = outline.part(root);
    let rest = outline.text()[place.end as usize..].trim_start();
    place.kind == Shape::Word && rest.starts_with([':', '='])
}

/// The one finding for a file whose outermost brackets are missing.
fn no_brackets(outline: &Outline, file: FileId, kind: &Kind) -> Finding {
    let text = outline.text();
    let start = outline.parts().first().map_or(0, |first| first.start);
    let name = text[start as usize..]
        .split([':', '='])
        .next()
        .unwrap_or("");
    let name = name.trim_end();
    Finding::fault(Code("no-brackets"), "the file is not in round brackets")
        .at(Span::new(file, start..start + name.len() as u32))
        .found(format!("`{name}` where `(` should stand"))
        .needed(format!("a {} in round brackets: ( … )", kind.word))
        .help("write `(` before the first name and `)` after the last value")
        .help(left_out(kind))
}

/// How many faults of shape of one kind are told of a file.
const SHAPE_FAULTS: usize = 20;

/// How many of one kind are told; a habit of the whole file is told once.
fn most_told(code: Code) -> usize {
    match code.0 {
        "inch-mark" | "single-quotes" => 1,
        _ => SHAPE_FAULTS,
    }
}

/// The findings, of which the first are those of shape; of many of one kind only the first, with how many more.
fn folded(findings: Vec<Finding>, of_shape: usize) -> Vec<Finding> {
    let mut seen: BTreeMap<Code, (usize, usize)> = BTreeMap::new();
    let mut kept: Vec<Finding> = Vec::new();
    for (at, finding) in findings.into_iter().enumerate() {
        if at >= of_shape {
            kept.push(finding);
            continue;
        }
        let (count, last) = seen.entry(finding.code).or_default();
        *count += 1;
        if *count <= most_told(finding.code) {
            *last = kept.len();
            kept.push(finding);
        }
    }
    for (code, (count, last)) in seen {
        if let Some(more) = count.checked_sub(most_told(code)).filter(|more| *more > 0) {
            kept[last]
                .help
                .push(format!("and {more} more of the same kind in this file"));
        }
    }
    kept
}

/// A file without any record.
fn empty_page(file: FileId, kind: &Kind) -> Finding {
    Finding::fault(Code("empty-file"), "this file holds no record")
        .at(Span::at(file, 0))
        .found("nothing, or only remarks")
        .needed(format!("a {} in round brackets: ( … )", kind.word))
        .help("write the record, or delete the file")
}

/// A fault that only the parse of the whole file sees.
fn untold(sources: &Sources, file: FileId, error: &SpannedError) -> Finding {
    let source = sources.get(file);
    let start = error.span.start;
    let offset = source.offset(start.line as u32, start.col as u32);
    let rest = source.text.get(offset as usize..).unwrap_or("");
    let blanks = rest.len() - rest.trim_start().len();
    Finding::fault(Code("broken-file"), "this file cannot be read")
        .at(Span::at(file, offset + blanks as u32))
        .found(error.code.to_string())
        .needed("values, commas and brackets as in docs/files.md")
}
