//! The way from a file at fault to what is kept of it.

use super::blanked_copy::rewrite;
use super::case::Verdict;
use super::case::left_out;
use super::compact::offset;
use super::foreign::{foreign, misfiled};
use super::kinds::{Kind, Page};
use super::marks::Marks;
use super::parents_repair::mother;
use super::told::Told;
use super::trial::Trials;
use crate::diagnostic::{Code, Finding};
use crate::record::fault_words::fault_words;
use crate::record::typed::typed;
use crate::text::outline::{FaultKind, Kind as Shape, PartId};
use crate::text::{FileId, Outline, Sources, Span};
use ron::error::SpannedError;

/// Reads what can be read of a faulty file, and tells every fault.
pub(in crate::record) fn salvage<'t, P: Page<'t>>(
    sources: &'t Sources,
    (file, text): (FileId, &'t str),
    error: &SpannedError,
) -> (Option<P>, Vec<Finding>) {
    if let Some(finding) = foreign(file, text, P::KIND.word) {
        return (None, vec![finding]);
    }
    let outline = Outline::of(text);
    let mut trials = Trials {
        file,
        outline: &outline,
        marks: Marks::new(&outline, P::KIND),
        findings: Told::of_shape(&outline, file),
    };
    let Some(root) = outline.root() else {
        let mut findings = trials.findings.into_vec();
        // A text given up has no part either, and says why.
        if !outline
            .faults()
            .iter()
            .any(|fault| fault.kind == FaultKind::NestedTooDeep)
        {
            findings.push(empty_page(file, text, P::KIND));
        }
        return (None, findings);
    };
    if let Some(finding) = misfiled((&outline, file), root, P::KIND.word) {
        return (None, vec![finding]);
    }
    if is_without_brackets(&outline, root) {
        return (None, vec![no_brackets(&outline, file, P::KIND)]);
    }
    trials.leave_out_spoilt();
    let page = stand_ins(&mut trials, root, P::KIND).and_then(|stand_ins| {
        let copy = rewrite(&outline, &trials.marks, &stand_ins);
        let mut page = typed::<P>(sources.get(file).mend(copy)).ok()?;
        if stand_ins.iter().any(|field| field.starts_with("parents:")) {
            page.parents_stood_in(mother(&outline, root));
        }
        Some(page)
    });
    let mut findings = trials.findings.into_vec();
    if findings.is_empty() {
        findings.push(untold((file, text), error));
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

/// A file without any record. An empty one is what a full disk or a broken copy leaves.
fn empty_page(file: FileId, text: &str, kind: &Kind) -> Finding {
    let finding = Finding::fault(Code("empty-file"), "this file holds no record")
        .at(Span::at(file, 0))
        .needed(format!("a {} in round brackets: ( … )", kind.word));
    let finding = match text.trim().is_empty() {
        true => finding
            .found("nothing")
            .help("if it held records, take the file from your copy of the registry"),
        false => finding.found("only remarks"),
    };
    finding.help("write the record, or delete the file")
}

/// A fault that only the parse of the whole file sees.
fn untold((file, text): (FileId, &str), error: &SpannedError) -> Finding {
    let offset = offset(text, error);
    let rest = &text[offset..];
    let blanks = rest.len() - rest.trim_start().len();
    Finding::fault(Code("broken-file"), "this file cannot be read")
        .at(Span::at(file, (offset + blanks) as u32))
        .found(fault_words(&error.code))
        .needed("values, commas and brackets as in docs/files.md")
}
