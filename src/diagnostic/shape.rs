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
            blank if blank.trim().is_empty() => finding
                .found(format!(
                    "a blank that is no plain one, {}",
                    by_number(blank)
                ))
                .help("type a plain blank instead"),
            slice => finding.found(format!("`{}`", shorten(slice))),
        };
        let finding = advise(finding, fault, slice);
        match stands_alone(text, place) {
            true => offer(finding, fault.kind, slice),
            false => finding,
        }
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
        SingleQuotes => [
            "single-quotes",
            "single quotation marks around a text",
            "double quotation marks: \"…\"",
        ],
        InchMark => [
            "inch-mark",
            "an inch mark ends this text too early",
            "`in` for inches: 1 1/8 in, or the unit in the heading",
        ],
        CommaInNumber => [
            "comma-in-number",
            "a comma inside a number",
            "no comma, since a comma ends the value",
        ],
        InnerQuotes => [
            "inner-quotes",
            "quotation marks inside this text look like its end",
            "\\\" for a quotation mark inside a text",
        ],
        WrongRemark => [
            "wrong-remark",
            "a remark begins with `//`",
            "`//` before a remark",
        ],
        StrayCharacters => [
            "stray-characters",
            "these characters have no meaning here",
            "a value, a comma or a bracket",
        ],
        BareText => [
            "bare-text",
            "this looks like a text without quotation marks",
            "\"…\" around a text",
        ],
        NotANumber => [
            "not-a-number",
            "this is not a number",
            "a number, or \"…\" around a date or another text",
        ],
        MissingComma => [
            "missing-comma",
            "a comma is missing",
            "a comma between two values",
        ],
        StrayComma => [
            "stray-comma",
            "this comma has no value before it",
            "a value, or no comma",
        ],
        MissingColon => [
            "missing-colon",
            "a colon is missing",
            "a colon between a name and its value",
        ],
        StrayColon => [
            "stray-colon",
            "this colon has no name before it",
            "a name before the colon, inside ( )",
        ],
        MissingValue => [
            "missing-value",
            "this name has no value",
            "a value after the colon",
        ],
        NamelessValue => [
            "nameless-value",
            "this value needs a name, as the others have",
            "`name: value`",
        ],
        SplitName => [
            "unknown-field",
            "a field's name is one word",
            "`_` between its parts",
        ],
        QuotedName => [
            "quoted-name",
            "a field name in quotation marks",
            "the bare name",
        ],
        WrongMark => [
            "wrong-mark",
            "wrong mark here",
            "`,` between two values, `:` between a name and its value",
        ],
        NestedTooDeep => [
            "nested-too-deep",
            "too many brackets are open at once",
            "at most 64 brackets open at once",
        ],
        SecondValue => [
            "second-value",
            "there is more text after the end of the record",
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
            .help("until this is fixed, nothing on this page is read"),
        (MissingValue, _) => finding.help("write the value, or take the name and its colon out"),
        (CurlyQuotes, _) => {
            finding.help("some editors and telephones put them in; type `\"` instead")
        }
        (QuotedName, _) => {
            let name = slice.trim_matches(['"', '\'']);
            let is_name = name.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_');
            match is_name && !name.is_empty() {
                true => finding.write_so(name, &format!(" instead of {slice}")),
                false => finding,
            }
        }
        (WrongRemark, _) => {
            let mark = ["<!--", "--", "/"]
                .into_iter()
                .find(|mark| slice.starts_with(mark));
            finding.help(format!("write `//` instead of `{}`", mark.unwrap_or("#")))
        }
        (WrongMark, _) => match slice {
            ";" => finding.write_so(",", " instead of ;"),
            _ => finding.write_so(":", " instead of ="),
        },
        (SecondValue, Some(first)) => {
            finding.related(first, "the value that is the whole file starts here")
        }
        _ => finding,
    }
}

/// Offers a text for a value at fault.
fn offer(finding: Finding, kind: FaultKind, slice: &str) -> Finding {
    use FaultKind::*;
    match kind {
        SingleQuotes => match inside_single(slice) {
            Some(text) => finding.write(format!("\"{text}\"")),
            None => finding,
        },
        InchMark => match inches_in_words(slice) {
            Some(text) => finding.write(text),
            None => finding.help("write in for the inch mark, and words about it into `note`"),
        },
        CommaInNumber if is_thousands(slice) => finding.write(slice.replace(',', "")),
        CommaInNumber => match slice.split_once(',') {
            Some((whole, part)) if !part.contains(',') => finding.help(format!(
                "write {whole}.{part}, or a whole number where no other may stand"
            )),
            _ => finding,
        },
        InnerQuotes => {
            let inside = slice[1..slice.len() - 1].replace("\\\"", "\"");
            finding.write(format!("\"{}\"", inside.replace('"', "\\\"")))
        }
        NotANumber if looks_like_date(slice) => finding.write(format!("\"{slice}\"")),
        BareText => finding.write(format!("\"{slice}\"")),
        _ => finding,
    }
}

/// The first character by its number in Unicode.
fn by_number(text: &str) -> String {
    let first = text.chars().next().unwrap_or_default();
    format!("U+{:04X}", u32::from(first))
}

/// Whether the commas in a number stand between thousands.
fn is_thousands(slice: &str) -> bool {
    let (first, rest) = slice.split_once(',').unwrap_or((slice, ""));
    let begins = (1..=3).contains(&first.len()) && !first.starts_with('0');
    begins && rest.split(',').all(|group| group.len() == 3)
}

/// Whether a value stands between what stands around values, so that another in its place would be read; the rest of a
/// text that lost one of its quotation marks does not.
fn stands_alone(text: &str, place: Span) -> bool {
    let (before, after) = (&text[..place.start as usize], &text[place.end as usize..]);
    let ends = |text: &str| {
        let text = text.trim_end();
        text.is_empty() || text.ends_with(['(', '[', '{', ':', ',', '=', ';'])
    };
    let opens = after.trim_start();
    ends(before) && (opens.is_empty() || opens.starts_with([',', ')', ']', '}', ':', '/', ';']))
}

/// What stands between single quotation marks, when it may stand between double ones as it is.
fn inside_single(slice: &str) -> Option<&str> {
    let text = slice.strip_prefix('\'')?.strip_suffix('\'')?;
    (!text.contains(['"', '\\'])).then_some(text)
}

/// A length in quotation marks with ` in` for the inch mark at its end; `None` when words follow the mark.
fn inches_in_words(slice: &str) -> Option<String> {
    let length = slice.strip_prefix('"')?.strip_suffix("\"\"")?;
    (!length.contains('"')).then(|| format!("\"{} in\"", length.trim_end()))
}

fn looks_like_date(word: &str) -> bool {
    word.matches('-').count() == 2
        && word
            .bytes()
            .all(|byte| byte.is_ascii_digit() || byte == b'-')
}

/// At most the first 40 characters of the first line.
pub fn shorten(slice: &str) -> String {
    let line = slice.lines().next().unwrap_or_default();
    match line.char_indices().nth(40) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None if line.len() < slice.len() => format!("{line}…"),
        None => line.to_string(),
    }
}
