//! Puts into words what an outline found wrong with the shape of a text.

use super::finding::{Code, Finding};
use crate::text::outline::{Fault, FaultKind};
use crate::text::{FileId, Span};

impl Finding {
    /// The code of the finding for a kind of fault of shape.
    pub fn code_of_shape(kind: FaultKind) -> Code {
        Code(words(kind)[0])
    }

    /// The finding for a fault in the shape of a file's text.
    pub fn of_shape(fault: &Fault, file: FileId, text: &str) -> Self {
        let place = Span::new(file, fault.start..fault.end);
        let slice = text.get(place.range()).unwrap_or_default();
        let [code, title, needed] = words(fault.kind);
        let finding = Finding::fault(Code(code), title).at(place).needed(needed);
        let finding = match slice {
            "" => finding,
            slice => finding.found(format!("`{}`", shorten(slice))),
        };
        advise(finding, fault, slice)
    }
}

/// The code, the title and what was needed.
fn words(kind: FaultKind) -> [&'static str; 3] {
    use FaultKind::*;
    match kind {
        UnclosedBracket => [
            "unclosed-bracket",
            "this bracket is never closed",
            "its closing bracket",
        ],
        StrayBracket => [
            "stray-bracket",
            "this bracket closes nothing",
            "an opening bracket before it, or no bracket",
        ],
        UnclosedText => [
            "unclosed-text",
            "this text has no closing quotation mark",
            "a `\"` at its end",
        ],
        UnclosedComment => [
            "unclosed-comment",
            "this comment is never closed",
            "`*/` at its end",
        ],
        CurlyQuotes => [
            "curly-quotes",
            "typographic quotation marks",
            "straight quotation marks: \"…\"",
        ],
        HashRemark => [
            "hash-remark",
            "a remark cannot begin with `#`",
            "`//` before a remark",
        ],
        StrayCharacters => [
            "stray-characters",
            "these characters mean nothing here",
            "a value, a comma or a bracket",
        ],
        BareText => [
            "bare-text",
            "this looks like a text without quotation marks",
            "\"…\" around a text",
        ],
        NotANumber => [
            "not-a-number",
            "this is no number",
            "a number, or \"…\" around a date or another text",
        ],
        MissingComma => [
            "missing-comma",
            "a comma is missing",
            "a comma between two values",
        ],
        StrayComma => [
            "stray-comma",
            "a comma without a value before it",
            "a value, or no comma",
        ],
        MissingColon => [
            "missing-colon",
            "a colon is missing",
            "a colon between a name and its value",
        ],
        StrayColon => [
            "stray-colon",
            "a colon without a name before it",
            "a name before the colon, inside ( )",
        ],
        MissingValue => [
            "missing-value",
            "a name without a value",
            "a value after the colon",
        ],
        NamelessValue => [
            "nameless-value",
            "a value without a name among named ones",
            "`name: value`",
        ],
        QuotedName => [
            "quoted-name",
            "the name of a field in quotation marks",
            "the bare name",
        ],
        WrongMark => [
            "wrong-mark",
            "another mark belongs here",
            "`,` between two values, `:` between a name and its value",
        ],
        NestedTooDeep => [
            "nested-too-deep",
            "brackets are nested too deeply",
            "at most 64 brackets open at once",
        ],
        SecondValue => [
            "second-value",
            "something follows where the file should end",
            "one value, in one pair of brackets",
        ],
    }
}

/// What to do, and the other place that bears on it.
fn advise(finding: Finding, fault: &Fault, slice: &str) -> Finding {
    use FaultKind::*;
    let file = finding.place.map(|place| place.file);
    let other = file.zip(fault.other).map(|(file, at)| Span::at(file, at));
    match (fault.kind, other) {
        (UnclosedBracket, Some(noticed)) => {
            finding.related(noticed, "here it should have been closed by now")
        }
        (NestedTooDeep, Some(outermost)) => finding
            .related(outermost, "the outermost bracket still open")
            .help("close each bracket where its record ends, or take the brackets out")
            .help("until it is mended nothing on this page is read"),
        (MissingValue, _) => finding.help("write the value, or take the name and its colon out"),
        (CurlyQuotes, _) => {
            finding.help("some editors and telephones put them in; type `\"` instead")
        }
        (QuotedName, _) => finding.help(format!(
            "write {} instead of {slice}",
            slice.trim_matches('"')
        )),
        (HashRemark, _) => finding.help("write `//` instead of `#`"),
        (NotANumber, _) if looks_like_date(slice) => finding.help(format!("write \"{slice}\"")),
        (WrongMark, _) => finding.help(match slice {
            ";" => "write `,` instead of `;`",
            _ => "write `:` instead of `=`",
        }),
        (BareText, _) => finding.help(format!("write \"{slice}\"")),
        (SecondValue, Some(first)) => {
            finding.related(first, "the value that is the whole file starts here")
        }
        _ => finding,
    }
}

fn looks_like_date(word: &str) -> bool {
    word.matches('-').count() == 2
        && word
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'-')
}

/// At most the first 40 characters of the first line.
fn shorten(slice: &str) -> String {
    let line = slice.lines().next().unwrap_or_default();
    match line.char_indices().nth(40) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None if line.len() < slice.len() => format!("{line}…"),
        None => line.to_string(),
    }
}
