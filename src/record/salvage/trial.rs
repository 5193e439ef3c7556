//! One record tried alone, again and again, until every fault in it is reported.

use super::case::{Case, Verdict, left_out};
use super::compact::{Addition, Compact, From, compact, offset};
use super::kinds::Kind;
use super::marks::{Marks, spoils_value};
use super::told::Told as Findings;
use super::unread_fields::{is_said_again, lowered};
use super::words::{Told, Wrong};
use crate::text::outline::{FaultKind, PartId};
use crate::text::{FileId, Outline};
use ron::Error;
use ron::error::SpannedError;

/// Faults reported for one record before the rest of it is passed over.
const MOST_FAULTS: usize = 100;
/// Pieces of text tried over all trials of one record: each fault costs a trial of the whole of it.
const MOST_TRIED: usize = 1_000_000;

/// Values for a field of any type, to see whether a record lacks anything besides.
const ANY_VALUE: [&str; 7] = [
    "\"\"",
    "0",
    "[]",
    "false",
    "unknown",
    "plant(\"\")",
    "count",
];

/// The records of one file, tried one by one.
pub(super) struct Trials<'a, 't> {
    pub file: FileId,
    pub outline: &'a Outline<'t>,
    pub marks: Marks,
    pub findings: Findings,
}

impl<'t> Trials<'_, 't> {
    /// Leaves out what faults of shape have spoilt, told already.
    pub fn leave_out_spoilt(&mut self) {
        for fault in self.outline.faults() {
            if spoils_value(fault.kind)
                && let Some(part) = self.outline.at(fault.start)
            {
                let part = self.marks.separable(self.outline, part);
                self.marks.leave_out(part);
            }
        }
    }

    /// Tries one record and tells every fault in it.
    pub fn examine(&mut self, record: PartId, kind: &'static Kind) -> Verdict {
        match self.examine_page(record, kind) {
            Some(_) => Verdict::Kept,
            None => Verdict::Lost,
        }
    }

    /// Tries a record and tells every fault in it; gives the fields that stand in for lost ones, or `None` when it
    /// cannot be kept.
    pub fn examine_page(&mut self, record: PartId, kind: &'static Kind) -> Option<Vec<String>> {
        self.leave_out_lowered(record, kind);
        let whole = compact(self.outline, &self.marks, record, &[]);
        let Err(first) = (kind.trial)(&whole.text) else {
            return Some(Vec::new());
        };
        let mut case = Case {
            kind,
            record,
            additions: Vec::new(),
            explained: self.spoilt_fields(record),
            faulty: Vec::new(),
            findings: Vec::new(),
        };
        self.misread_parents(&mut case);
        self.repeated_fields(&mut case);
        self.tell_all(&mut case, whole, first);
        self.marks.restore();
        case.additions.clear();
        let kept = self.keep_what_is_sound(&mut case);
        if kept == Verdict::Lost && case.findings.is_empty() {
            self.tell_loss(record, kind);
        }
        case.tell_outcome(self.outline, kept);
        let told = case.findings.drain(..).map(|(_, finding)| finding);
        self.findings.extend(told);
        (kept == Verdict::Kept).then(|| {
            let additions = case.additions.iter();
            additions
                .map(|a| format!("{}:{}", a.field, a.value))
                .collect()
        })
    }

    /// Leaves out what would be surer than it was written without the fields that are left out.
    fn leave_out_lowered(&mut self, record: PartId, kind: &Kind) {
        let fields: Vec<PartId> = self.outline.children(record).collect();
        let is_lost = |field: &&PartId| {
            self.marks.is_left_out(**field) && !is_said_again(self.outline, **field)
        };
        let lost = fields.iter().filter(is_lost);
        let names = lost.filter_map(|field| lowered(kind, self.outline.name(*field)?));
        let names: Vec<&str> = names.collect();
        let surer = |field: &&PartId| {
            names
                .iter()
                .any(|of| self.outline.name(**field) == Some(of))
        };
        for field in fields.iter().filter(surer) {
            self.marks.leave_out(*field);
        }
    }

    /// Says at the fault of shape that cost a record that it did.
    fn tell_loss(&mut self, record: PartId, kind: &Kind) {
        let place = self.outline.part(record);
        let faults = self.outline.faults();
        let first = faults.partition_point(|fault| fault.start < place.start);
        let concerns = |kind: FaultKind| spoils_value(kind) || kind == FaultKind::MissingValue;
        let inside = faults[first..]
            .iter()
            .take_while(|fault| fault.start <= place.end);
        if let Some(at) = inside.map(|fault| fault.kind).position(concerns)
            && let Some(finding) = self.findings.shape_mut(first + at)
        {
            finding.help.push(left_out(kind));
        }
    }

    /// Fields that are not there because of a fault of shape.
    fn spoilt_fields(&self, record: PartId) -> Vec<(PartId, String)> {
        let place = self.outline.part(record);
        let mut fields: Vec<(PartId, String)> = Vec::new();
        for part in (record.0..self.outline.past(record)).map(PartId) {
            if self.marks.is_left_out(part)
                && let (Some(name), Some(around)) =
                    (self.outline.name(part), self.outline.part(part).parent())
            {
                fields.push((around, name.to_owned()));
            }
        }
        let faults = self.outline.faults();
        let first = faults.partition_point(|fault| fault.start < place.start);
        for fault in faults[first..]
            .iter()
            .take_while(|fault| fault.start <= place.end)
        {
            let valueless = fault.kind == FaultKind::MissingValue;
            if let (true, Some(name)) = (valueless, fault.other)
                && let Some(around) = self.outline.record_at(name)
            {
                fields.push((around, self.word_at(name).to_owned()));
            }
        }
        fields
    }

    fn word_at(&self, at: u32) -> &'t str {
        let rest = &self.outline.text()[at as usize..];
        let end = rest
            .find(|c: char| !(c.is_alphanumeric() || c == '_'))
            .unwrap_or(rest.len());
        &rest[..end]
    }

    /// Fields given twice in one record: the outline shows them, and the first is kept.
    fn repeated_fields(&mut self, case: &mut Case) {
        let mut fields: Vec<(PartId, &str, PartId)> = Vec::new();
        let mut next = case.record.0;
        while next < self.outline.past(case.record) {
            let part = PartId(next);
            if self.marks.is_left_out(part) {
                next = self.outline.past(part);
                continue;
            }
            next += 1;
            let around = self.outline.part(part).parent();
            if let (Some(name), Some(around)) = (self.outline.name(part), around)
                // Records inside are examined on their own.
                && (around == case.record || self.marks.kind(around).is_none())
            {
                fields.push((around, name, part));
            }
        }
        fields.sort_unstable();
        for pair in fields.windows(2) {
            let ((around, name, first), (other, again, part)) = (pair[0], pair[1]);
            if (around, name) == (other, again) {
                if case.findings.len() < MOST_FAULTS {
                    let finding = self.told().repeated_field((part, first), case.kind);
                    case.findings.push((part, finding));
                }
                self.marks.cut(part);
                case.faulty.push(part);
            }
        }
    }

    fn told(&self) -> Told<'_, 't> {
        Told {
            file: self.file,
            outline: self.outline,
        }
    }

    /// Tells the faults one by one, cutting each out before the next trial.
    fn tell_all(&mut self, case: &mut Case, whole: Compact, first: SpannedError) {
        let most = (MOST_TRIED / whole.pieces()).clamp(3, MOST_FAULTS);
        let mut text = whole;
        let mut error = first;
        if !case.faulty.is_empty() || !case.findings.is_empty() {
            text = compact(self.outline, &self.marks, case.record, &case.additions);
            match (case.kind.trial)(&text.text) {
                Ok(()) => return,
                Err(next) => error = next,
            }
        }
        loop {
            if case.findings.len() >= most {
                let finding = self.told().too_many(case.record, case.kind.word);
                case.findings.push((case.record, finding));
                return;
            }
            let at = text.origin(&error);
            let go_on = match (&error.code, at) {
                (Error::MissingStructField { field, .. }, From::Value(part)) => {
                    self.tell_missing(case, part, field)
                }
                _ => self.tell_fault(case, &text, &error, at),
            };
            if !go_on {
                return;
            }
            text = compact(self.outline, &self.marks, case.record, &case.additions);
            match (case.kind.trial)(&text.text) {
                Ok(()) => return,
                Err(next) => error = next,
            }
        }
    }

    /// Tells a fault of a field or value and cuts it out; false when nothing is left to try.
    fn tell_fault(
        &mut self,
        case: &mut Case,
        text: &Compact,
        error: &SpannedError,
        at: From,
    ) -> bool {
        let (From::Name(part) | From::Value(part)) = at else {
            return false;
        };
        let wrong = Wrong {
            part,
            subject: case.subject(self.outline, part),
            trial: &|word| {
                let (start, end) = text.range(part)?;
                let text = format!("{}{word}{}", &text.text[..start], &text.text[end..]);
                match (case.kind.trial)(&text) {
                    // What is wrong elsewhere does not speak against the word.
                    Err(error) if offset(&text, &error) <= start + word.len() => {
                        Some(Err(error.code))
                    }
                    _ => Some(Ok(())),
                }
            },
        };
        let finding = self.told().wrong(&wrong, &error.code);
        case.findings.push((part, finding));
        let cut = match at {
            From::Name(part) => part,
            _ => self.marks.removable(self.outline, part),
        };
        case.explain(self.outline, cut, &error.code);
        case.faulty.push(self.marks.separable(self.outline, cut));
        if cut == case.record || self.marks.is_cut(cut) {
            return false;
        }
        self.marks.cut(cut);
        true
    }

    /// Tells that a field is missing and adds one; false when no value fits.
    fn tell_missing(&mut self, case: &mut Case, record: PartId, field: &str) -> bool {
        let explained = case
            .explained
            .iter()
            .any(|(around, name)| *around == record && name == field);
        if !explained {
            let subject = case.word(self.outline, record);
            let mut finding = self.told().missing(record, field, &subject);
            if record != case.record {
                finding
                    .help
                    .push(format!("until this is fixed, {subject} is left out"));
            }
            case.findings.push((record, finding));
        }
        if record != case.record {
            case.faulty.push(self.marks.separable(self.outline, record));
        }
        for value in ANY_VALUE {
            case.additions.push(Addition {
                to: record,
                field: field.to_owned(),
                value,
            });
            let text = compact(self.outline, &self.marks, case.record, &case.additions);
            let fits = match (case.kind.trial)(&text.text) {
                Ok(()) => true,
                Err(error) => {
                    let at = text.origin(&error);
                    at != From::Added
                }
            };
            if fits {
                return true;
            }
            case.additions.pop();
        }
        false
    }

    /// Leaves the faulty fields out for good, with more of what is around them where they were needed.
    fn keep_what_is_sound(&mut self, case: &mut Case) -> Verdict {
        for part in case.faulty.drain(..) {
            if part == case.record {
                return Verdict::Lost;
            }
            self.marks.leave_out(part);
        }
        self.leave_out_lowered(case.record, case.kind);
        // Each round leaves out one more field; a record that needs more rounds than faults are told of it is lost.
        let mut rounds = 0;
        loop {
            let text = compact(self.outline, &self.marks, case.record, &case.additions);
            let Err(error) = (case.kind.trial)(&text.text) else {
                return Verdict::Kept;
            };
            if case.stand_in(&error.code) {
                continue;
            }
            let at = text.origin(&error);
            let part = match at {
                From::Value(part) | From::Name(part) => self.marks.separable(self.outline, part),
                From::Added => case.record,
            };
            if part == case.record || self.marks.is_left_out(part) {
                return Verdict::Lost;
            }
            self.marks.leave_out(part);
            rounds += 1;
            if rounds >= (MOST_TRIED / text.pieces()).clamp(3, MOST_FAULTS) {
                return Verdict::Lost;
            }
        }
    }
}
