//! Fields that stand on a record and could not be read, though what they say only lowers a claim: what was built on the
//! record without them would be surer than the record.

use super::codes::coded;
use super::kinds::Kind;
use super::marks::Marks;
use crate::text::outline::{FaultKind, PartId};
use crate::text::{LeftOut, Outline, Source, UNREAD_LISTS, UNREAD_PLACE, nearest};
use ron::Error;

/// What is open while a field cannot be read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Open {
    /// How surely the parents, or a name, are known.
    Doubt,
    /// Where the thing stands.
    Place,
}
use Open::{Doubt, Place};

/// By the word of a kind of record, its fields that only lower a claim, or without which its place is not known.
const FIELDS: [(&str, &[&str], Open); 12] = [
    (
        "cross",
        &["parents", "confidence", "told_by", "pollinations"],
        Doubt,
    ),
    (
        "pollination",
        &[
            "pollen",
            "pollen_told_by",
            "control_flowers",
            "control_set",
            "spike_control_flowers",
            "spike_control_set",
            "spike_control_by_days",
            "spike_control_covered",
            "same_flowers",
        ],
        Doubt,
    ),
    ("community pot", &["one_of", "muddled"], Doubt),
    ("seedling", &["one_of", "muddled"], Doubt),
    ("pollen lot", &["told_by"], Doubt),
    ("species", &["doubtful", "doubt"], Doubt),
    ("seedling", &["place", "ramets", "pots"], Place),
    ("clone", &["ramets", "pots"], Place),
    ("ramet", &["place", "pots"], Place),
    ("potting", &["place"], Place),
    ("sowing", &["place"], Place),
    ("community pot", &["place"], Place),
];

/// Fields without which another of the record is surer than it was written, each with that other, which is then not read
/// either. Of a field that stands twice neither is.
const LOWERED: [(&str, &str, &str); 8] = [
    ("cross", "parents", "parents"),
    ("cross", "confidence", "confidence"),
    ("clone", "confidence", "confidence"),
    ("clone", "told_by", "confidence"),
    ("identification", "confidence", "confidence"),
    ("pollen lot", "from", "from"),
    ("flowering", "seen_by", "sex"),
    ("seed lot", "estimated", "seeds"),
];

/// The field that is not read where this one could not be.
pub(super) fn lowered(kind: &Kind, field: &str) -> Option<&'static str> {
    let of_kind = || LOWERED.iter().filter(|(word, ..)| *word == kind.word);
    let meant = meant(kind, field, of_kind().map(|(_, name, _)| *name))?;
    of_kind()
        .find(|(_, name, _)| *name == meant)
        .map(|(.., of)| *of)
}

/// What is open of a record without this field.
fn open_without(kind: &Kind, field: &str) -> Option<Open> {
    let of_kind = || FIELDS.iter().filter(|(word, ..)| *word == kind.word);
    let names = of_kind().flat_map(|(_, names, _)| names.iter().copied());
    let meant = meant(kind, field, names)?;
    of_kind()
        .find(|(_, names, _)| names.contains(&meant))
        .map(|(.., open)| *open)
}

/// Which of some fields of a kind a name is, or was meant to be: a name that the kind has is meant as it stands.
fn meant(
    kind: &Kind,
    name: &str,
    of: impl Iterator<Item = &'static str> + Clone,
) -> Option<&'static str> {
    if let Some(same) = of.clone().find(|field| *field == name) {
        return Some(same);
    }
    let known = fields(kind);
    let near = (!known.contains(&name)).then(|| nearest(name, known.iter().copied()))?;
    near.into_iter()
        .find_map(|near| of.clone().find(|field| *field == near))
}

/// All fields of a kind, as its typed parse tells them.
fn fields(kind: &Kind) -> &'static [&'static str] {
    match (kind.trial)("(no_such_field:0)").map_err(|error| error.code) {
        Err(Error::NoSuchStructField { expected, .. }) => expected,
        _ => &[],
    }
}

/// What is open in a page because fields, lists or the ends of brackets could not be read: the code of each kept record and
/// its kind, or that it lacks a place, or that the page may hold more records than were read; with the byte where that is.
pub(super) fn unread_fields(source: &Source, outline: &Outline, marks: &Marks) -> LeftOut {
    let page = Kept {
        source,
        outline,
        marks,
    };
    let mut open = LeftOut::new();
    for record in (0..outline.parts().len() as u32).map(PartId) {
        let Some(kind) = marks.kind(record).filter(|_| page.is_kept(record)) else {
            continue;
        };
        for field in outline
            .children(record)
            .filter(|field| page.is_unread(*field))
        {
            let place = outline.part(field).whole().start;
            let name = outline.name(field).unwrap_or_default();
            let (code, what) = match open_without(kind, name) {
                Some(Doubt) => (page.code(record, kind), kind.word),
                Some(Place) => (String::new(), UNREAD_PLACE),
                None if Some(record) == outline.root() && page.may_hold_records(field) => {
                    (String::new(), UNREAD_LISTS)
                }
                None => continue,
            };
            open.entry((code, what)).or_insert(place);
        }
    }
    if let Some(at) = page.swallowed() {
        open.entry((String::new(), UNREAD_LISTS)).or_insert(at);
    }
    open
}

/// Whether the same field stands in its record once more, letter by letter.
pub(super) fn is_said_again(outline: &Outline, field: PartId) -> bool {
    let said = |of: PartId| (outline.name(of), outline.slice(of));
    let record = outline.part(field).parent();
    let mut fields = record
        .into_iter()
        .flat_map(|record| outline.children(record));
    fields.any(|other| other != field && said(other) == said(field))
}

/// A page beside what was kept of it.
struct Kept<'a, 't> {
    source: &'a Source,
    outline: &'a Outline<'t>,
    marks: &'a Marks,
}

impl Kept<'_, '_> {
    /// Whether a value, or a field with its name, stands in what was kept.
    fn is_kept(&self, part: PartId) -> bool {
        let place = self.outline.part(part);
        // A name in quotation marks is kept without them.
        let at = match place.label() {
            Some(label) => label.start + 1,
            None if place.kind.is_bracketed() => place.open,
            None => place.start,
        };
        let byte = self.source.kept().as_bytes().get(at as usize);
        byte.is_some_and(|byte| !byte.is_ascii_whitespace())
    }

    /// Whether a field was left out, or something in it; of a list of records a whole record.
    fn is_unread(&self, field: PartId) -> bool {
        let inside = (field.0 + 1..self.outline.past(field)).map(PartId);
        if is_said_again(self.outline, field) {
            return false;
        }
        let is_whole = match self.marks.is_list(field) {
            true => self
                .outline
                .children(field)
                .all(|record| self.is_kept(record)),
            false => inside.into_iter().all(|part| self.is_kept(part)),
        };
        !self.is_kept(field) || !is_whole
    }

    /// The code of a record, that of its page for the page itself.
    fn code(&self, record: PartId, kind: &Kind) -> String {
        let of_page = || (kind.word == "cross").then(|| self.outline.field(record, "code"))?;
        let code = coded(self.outline, self.marks, record).map(|(_, code)| code);
        let code = code.or_else(of_page);
        let text = code.map(|code| self.outline.slice(code).trim_matches('"'));
        text.unwrap_or_default().to_owned()
    }

    /// Whether a field of a page that was left out may be a list of records with codes.
    fn may_hold_records(&self, field: PartId) -> bool {
        let name = self.outline.name(field);
        let is_other = name.is_some_and(|name| name == "sittings");
        self.outline.part(field).kind.is_bracketed() && !self.is_kept(field) && !is_other
    }

    /// Where a bracket, a quotation mark or a remark without its end begins, when brackets behind it were not kept.
    fn swallowed(&self) -> Option<u32> {
        use FaultKind::{
            SecondValue, StrayBracket, UnclosedBracket, UnclosedComment, UnclosedText,
        };
        let swallows = [
            SecondValue,
            StrayBracket,
            UnclosedBracket,
            UnclosedComment,
            UnclosedText,
        ];
        let mut faults = self.outline.faults().iter();
        let first = faults.find(|fault| swallows.contains(&fault.kind))?;
        let brackets = |text: &str| text.matches('(').count();
        (brackets(&self.source.text) > brackets(self.source.kept())).then_some(first.start)
    }
}
