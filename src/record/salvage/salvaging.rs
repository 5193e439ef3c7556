//! The way from a file at fault to what is kept of it.

use super::kinds::{Kind, Page};
use super::marks::Marks;
use super::paper::rewrite;
use super::trial::{Trials, Verdict};
use crate::diagnostic::{Code, Finding};
use crate::record::read::typed;
use crate::text::outline::PartId;
use crate::text::{FileId, Outline, Sources, Span};
use ron::error::SpannedError;

/// Reads what can be read of a faulty file, and tells every fault.
pub(in crate::record) fn salvage<'t, P: Page<'t>>(
    sources: &'t Sources,
    file: FileId,
    error: &SpannedError,
) -> (Option<P>, Vec<Finding>) {
    let text = sources.text(file);
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
    trials.leave_out_spoilt();
    let page = stand_ins(&mut trials, root, P::KIND).and_then(|stand_ins| {
        let copy = rewrite(&outline, &trials.marks, &stand_ins);
        typed::<P>(sources.get(file).mend(copy)).ok()
    });
    let mut findings = trials.findings;
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
