//! Puts into words what the typed parse found wrong with a value.

use super::kinds::Kind;
use super::unread_fields::{is_said_again, lowered};
use crate::diagnostic::{Code, Finding, shorten};
use crate::record::fault_words::fault_words;
use crate::record::listed::listed;
use crate::text::outline::{Kind as Shape, PartId};
use crate::text::{FileId, Outline, Span, nearest};
use ron::Error;

/// The words for faults of one file.
#[derive(Clone, Copy)]
pub(super) struct Told<'a, 't> {
    pub file: FileId,
    pub outline: &'a Outline<'t>,
}

/// A part at fault.
pub(super) struct Wrong<'a> {
    pub part: PartId,
    /// What it stands in, in words: `a seedling`.
    pub subject: String,
    /// What the typed parse says of another value in its place.
    pub trial: &'a dyn Fn(&str) -> Option<Result<(), Error>>,
}

/// Words of other formats for nothing, which are no text a grower meant.
const NOTHING: [&str; 5] = ["null", "nil", "none", "None", "NULL"];
/// A word no field knows; the parse then tells the words it does know.
const NO_WORD: &str = "no_such_word";

impl Told<'_, '_> {
    /// The bytes of a value; of a bracketed one only what opens it.
    pub fn value(self, part: PartId) -> Span {
        let place = self.outline.part(part);
        let range = if place.kind.is_bracketed() {
            place.start..place.open + 1
        } else {
            place.range()
        };
        Span::new(self.file, range)
    }

    fn name(self, part: PartId) -> Span {
        let label = self.outline.part(part).label();
        label.map_or_else(|| self.value(part), |label| Span::new(self.file, label))
    }

    /// The same field twice in one record of a kind.
    pub fn repeated_field(self, (part, first): (PartId, PartId), kind: &Kind) -> Finding {
        let name = self.outline.name(part).unwrap_or_default();
        let neither = lowered(kind, name) == Some(name) && !is_said_again(self.outline, part);
        let help = match neither {
            true => "keep the one that is right; until then neither is read",
            false => {
                "the second is left out; keep one, or put both into one list where the field is a list"
            }
        };
        Finding::fault(
            Code("repeated-field"),
            format!("the field `{name}` is here twice"),
        )
        .at(self.name(part))
        .found(format!("a second `{name}` in one record"))
        .needed("each field once")
        .help(help)
        .related(self.name(first), "first given here")
    }

    /// A field that must be there.
    pub fn missing(self, record: PartId, field: &str, subject: &str) -> Finding {
        Finding::fault(Code("missing-field"), format!("{subject} has no `{field}`"))
            .at(self.value(record))
            .found(format!("no field `{field}`"))
            .needed(format!("`{field}: …`"))
            .help(format!("add `{field}`"))
    }

    /// More faults than are reported.
    pub fn too_many(self, record: PartId, word: &str) -> Finding {
        Finding::fault(
            Code("many-faults"),
            format!("this {word} has more problems than are shown here"),
        )
        .at(self.value(record))
        .found("faults in nearly every field")
        .needed(format!("a {word}"))
        .help("correct those shown and run `podbook check` again")
    }

    /// Whatever the typed parse found wrong with a part.
    pub fn wrong(self, wrong: &Wrong, error: &Error) -> Finding {
        match error {
            Error::NoSuchStructField {
                expected, found, ..
            } => self.unknown_field(wrong, found, expected),
            Error::NoSuchEnumVariant {
                expected, found, ..
            } => self.unknown_word(wrong, found, expected),
            Error::ExpectedIdentifier | Error::SuggestRawIdentifier(_) => self.no_word(wrong),
            Error::InvalidValueForType { expected, .. } if expected == "a borrowed string" => {
                self.escaped(wrong)
            }
            Error::InvalidEscape(_) => self.bad_escape(wrong),
            Error::ExpectedDifferentStructName { found, .. } => self.name_before(wrong, found),
            Error::ExpectedString => self.no_text(wrong),
            Error::ExpectedArray => self.no_list(wrong),
            Error::ExpectedBoolean => self.no_boolean(wrong),
            error => self.wrong_kind(wrong, error),
        }
    }

    fn unknown_field(self, wrong: &Wrong, found: &str, expected: &[&str]) -> Finding {
        let found = self.outline.name(wrong.part).unwrap_or(found);
        let around = self.outline.part(wrong.part).parent();
        let siblings = around.into_iter().flat_map(|at| self.outline.children(at));
        let taken: Vec<&str> = siblings.filter_map(|at| self.outline.name(at)).collect();
        let free = expected
            .iter()
            .copied()
            .filter(|name| !taken.contains(name));
        Finding::fault(
            Code("unknown-field"),
            format!("{} has no field `{found}`", wrong.subject),
        )
        .at(self.name(wrong.part))
        .found(format!("`{found}`"))
        .needed(format!("one of {}", listed(expected, "nothing")))
        .did_you_mean(nearest(found, free))
    }

    fn unknown_word(self, wrong: &Wrong, found: &str, expected: &[&str]) -> Finding {
        let place = self.outline.part(wrong.part);
        let end = place.start + found.len() as u32;
        Finding::fault(Code("unknown-word"), self.title(wrong, "a known word"))
            .at(Span::new(self.file, place.start..end.min(place.end)))
            .found(format!("`{found}`"))
            .needed(format!("one of {}", listed(expected, "nothing")))
            .did_you_mean(word_meant(found, expected))
    }

    /// A value where a bare word should stand.
    fn no_word(self, wrong: &Wrong) -> Finding {
        if let Some(finding) = self.no_name(wrong) {
            return finding;
        }
        let Some(Err(Error::NoSuchEnumVariant { expected, .. })) = (wrong.trial)(NO_WORD) else {
            return self.kind_finding(wrong, "a word", "a bare word");
        };
        let finding = self.kind_finding(
            wrong,
            "a bare word",
            &format!(
                "one of {}, without quotation marks",
                listed(expected, "nothing")
            ),
        );
        let text = self.inside(wrong.part);
        if expected.contains(&text) {
            finding.write_so(text, " without quotation marks")
        } else if self.outline.text()[self.outline.part(wrong.part).end as usize..].starts_with('(')
        {
            // What belongs before a bracket is not what may stand alone.
            finding
        } else {
            finding.did_you_mean(nearest(text, expected.iter().copied()))
        }
    }

    fn escaped(self, wrong: &Wrong) -> Finding {
        let title = self.title(wrong, "a text without backslashes");
        Finding::fault(Code("escaped-code"), title)
            .at(self.value(wrong.part))
            .found(self.found(wrong.part))
            .needed("a code or date as it goes on the tag, without `\\`")
            .help("free text such as a note may hold \\\" and \\\\; codes and dates may not")
    }

    fn bad_escape(self, wrong: &Wrong) -> Finding {
        Finding::fault(Code("bad-escape"), "a backslash without a meaning")
            .at(self.value(wrong.part))
            .found(self.found(wrong.part))
            .needed("\\\" for a quotation mark, \\\\ for a backslash, \\n for a new line")
            .help("write two backslashes for one")
    }

    fn name_before(self, wrong: &Wrong, found: &str) -> Finding {
        if self.outline.part(wrong.part).kind == Shape::Word {
            return self.kind_finding(wrong, "round brackets", &self.example(wrong, ""));
        }
        Finding::fault(
            Code("name-before-bracket"),
            format!("{} has no name before its bracket", wrong.subject),
        )
        .at(self.value(wrong.part))
        .found(format!("`{found}(`"))
        .needed("`(`")
        .help(format!("take `{found}` out"))
    }

    fn no_text(self, wrong: &Wrong) -> Finding {
        if let Some(finding) = self.decimal_comma(wrong) {
            return finding;
        }
        let finding = self.kind_finding(wrong, "a text", "a text in quotation marks: \"…\"");
        let part = self.outline.part(wrong.part);
        match part.kind {
            Shape::Char => {
                let inside = self.outline.slice(wrong.part).trim_matches('\'');
                self.offered(
                    finding.renamed(Code("single-quotes")),
                    wrong,
                    format!("\"{inside}\""),
                )
            }
            Shape::Word if NOTHING.contains(&self.outline.slice(wrong.part)) => {
                finding.help("leave the field out where there is nothing to say")
            }
            Shape::Number | Shape::Word => self.offered(
                finding,
                wrong,
                format!("\"{}\"", self.outline.slice(wrong.part)),
            ),
            _ => finding,
        }
    }

    /// Offers a text in place of a value where the typed parse takes it.
    fn offered(self, finding: Finding, wrong: &Wrong, text: String) -> Finding {
        match (wrong.trial)(&text) {
            Some(Ok(())) => finding.write(text),
            _ => finding,
        }
    }

    fn no_list(self, wrong: &Wrong) -> Finding {
        let finding = self.kind_finding(wrong, "a list", "a list in square brackets: [ … ]");
        let part = self.outline.part(wrong.part);
        if part.kind.is_bracketed() || part.end - part.start > 30 {
            finding.help("put [ ] around it")
        } else {
            let list = format!("[{}]", self.outline.slice(wrong.part));
            self.offered(finding, wrong, list)
        }
    }

    fn no_boolean(self, wrong: &Wrong) -> Finding {
        let finding = self.kind_finding(wrong, "true or false", "`true` or `false`");
        match self.inside(wrong.part).to_lowercase().as_str() {
            "yes" | "y" | "true" | "1" => finding.write("true"),
            "no" | "n" | "false" | "0" => finding.write("false"),
            _ => finding,
        }
    }

    /// Numbers, brackets and all else.
    fn wrong_kind(self, wrong: &Wrong, error: &Error) -> Finding {
        let is_number = self.outline.part(wrong.part).kind == Shape::Number;
        match error {
            Error::IntegerOutOfBounds => self.out_of_bounds(wrong),
            Error::ExpectedInteger | Error::InvalidIntegerDigit { .. } => {
                self.no_number(wrong, "a whole number")
            }
            Error::ExpectedComma | Error::InvalidValueForType { .. } if is_number => {
                self.no_number(wrong, "a whole number")
            }
            Error::ExpectedFloat | Error::FloatUnderscore => self.no_number(wrong, "a number"),
            Error::ExpectedNamedStructLike(_) => {
                self.kind_finding(wrong, "a record", &self.example(wrong, ""))
            }
            Error::ExpectedStructLike | Error::ExpectedMap => {
                let tag = self.outline.tag(wrong.part).unwrap_or("");
                self.kind_finding(wrong, "round brackets", &self.example(wrong, tag))
            }
            Error::ExpectedStructLikeEnd | Error::ExpectedArrayEnd => {
                let needed = "nothing more inside these brackets";
                let too_many = || self.kind_finding(wrong, "fewer values", needed);
                self.decimal_commas(wrong).unwrap_or_else(too_many)
            }
            Error::ExpectedDifferentLength { expected, .. } => {
                let count = expected.rsplit(' ').next().unwrap_or("other");
                self.kind_finding(
                    wrong,
                    "another number of values",
                    &format!("{count} values in round brackets"),
                )
            }
            Error::ExpectedComma if self.outline.tag(wrong.part).is_some() => {
                let tag = self.outline.tag(wrong.part).unwrap_or("");
                self.kind_finding(
                    wrong,
                    "a word alone",
                    &format!("`{tag}` without brackets after it"),
                )
            }
            error => {
                let words = fault_words(error);
                let needed = words.strip_prefix("needed ").unwrap_or(&words);
                self.kind_finding(wrong, "another value", needed)
            }
        }
    }

    /// A value of another kind than is needed.
    pub fn kind_finding(self, wrong: &Wrong, what: &str, needed: &str) -> Finding {
        Finding::fault(Code("wrong-kind"), self.title(wrong, what))
            .at(self.value(wrong.part))
            .found(self.found(wrong.part))
            .needed(needed)
    }

    /// "`seeds` needs a whole number", named by the field the part stands in.
    pub fn title(self, wrong: &Wrong, what: &str) -> String {
        if let Some(name) = self.outline.name(wrong.part) {
            return format!("`{name}` needs {what}");
        }
        let around = std::iter::successors(Some(wrong.part), |at| self.outline.part(*at).parent());
        match around.take(4).find_map(|at| self.outline.name(at)) {
            Some(name) => format!("an entry of `{name}` needs to be {what}"),
            None => format!("{what} is needed here"),
        }
    }

    /// What stands there, in words.
    pub fn found(self, part: PartId) -> String {
        let slice = self.outline.slice(part);
        let tag = self.outline.tag(part);
        match self.outline.part(part).kind {
            Shape::Text => format!("the text {}", shorten(slice)),
            Shape::Number => format!("the number {}", shorten(slice)),
            Shape::Word => format!("the word `{}`", shorten(slice)),
            Shape::List => "a list in square brackets".into(),
            Shape::Map => "a group in curly brackets".into(),
            Shape::Struct | Shape::Tuple => match tag {
                Some(tag) => format!("`{tag}( … )`"),
                None => "a group in round brackets".into(),
            },
            Shape::Char => format!("the character {}", shorten(slice)),
            Shape::Bytes => "bytes".into(),
        }
    }

    /// The text of a value without quotation marks.
    pub fn inside(&self, part: PartId) -> &str {
        self.outline.slice(part).trim_matches('"')
    }
}

/// The words that one may mean; where it differs from one in its capitals alone, that one.
fn word_meant<'w>(found: &str, known: &[&'w str]) -> Vec<&'w str> {
    let same = known.iter().find(|word| word.eq_ignore_ascii_case(found));
    same.map_or_else(|| nearest(found, known.iter().copied()), |same| vec![same])
}
