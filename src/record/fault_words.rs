//! What the parse of a small file found wrong, in a grower's words: no type names and no terms of Rust.

use crate::record::listed::listed;
use ron::Error;

/// What was found and what was needed.
pub(super) fn fault_words(error: &Error) -> String {
    let needed = |what: &str| format!("needed {what}");
    match error {
        Error::NoSuchStructField {
            expected, found, ..
        } => format!(
            "found the name `{found}`, needed {}",
            listed(expected, "no name")
        ),
        Error::NoSuchEnumVariant {
            expected, found, ..
        } => format!(
            "found the word `{found}`, needed {}",
            listed(expected, "no name")
        ),
        Error::MissingStructField { field, .. } => format!("the field `{field}` is missing"),
        Error::DuplicateStructField { field, .. } => {
            format!("the field `{field}` stands there twice")
        }
        Error::InvalidEscape(_) => {
            "a backslash in a text that means nothing; write two for one".into()
        }
        Error::Eof => "the text ends too early: a bracket or quotation mark is not closed".into(),
        Error::ExpectedString => needed("a text in double quotes"),
        Error::ExpectedStringEnd => needed("a `\"` at the end of a text"),
        Error::ExpectedArray => needed("a list in square brackets: [ … ]"),
        Error::ExpectedArrayEnd => needed("`,` or `]`"),
        Error::ExpectedBoolean => needed("`true` or `false`"),
        Error::ExpectedComma => needed("a comma"),
        Error::ExpectedMapColon => needed("a colon after a name"),
        Error::ExpectedFloat | Error::FloatUnderscore => needed("a number such as 2.5"),
        Error::ExpectedInteger
        | Error::InvalidIntegerDigit { .. }
        | Error::IntegerOutOfBounds
        | Error::UnderscoreAtBeginning => needed("a whole number, not below 0"),
        Error::ExpectedMap | Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => {
            needed("round brackets: ( … )")
        }
        Error::ExpectedMapEnd | Error::ExpectedStructLikeEnd | Error::ExpectedOptionEnd => {
            needed("`)`")
        }
        Error::ExpectedDifferentStructName { found, .. } => {
            format!("found `{found}` before a bracket, needed the bracket alone")
        }
        Error::ExpectedDifferentLength { .. } => {
            needed("another number of values in these brackets")
        }
        Error::ExpectedIdentifier
        | Error::InvalidIdentifier(_)
        | Error::SuggestRawIdentifier(_) => needed("a name or a bare word"),
        Error::UnclosedBlockComment => {
            "a comment that is never closed; write `*/` at its end".into()
        }
        Error::TrailingCharacters => "there is more text after the end of the record".into(),
        Error::UnexpectedChar(letter) => format!("found `{letter}`, which means nothing here"),
        _ => needed("another value here"),
    }
}
