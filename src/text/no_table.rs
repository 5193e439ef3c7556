//! What a file holds that is named like a table and is none: by the bytes it begins with.

use super::conflicts::conflicts;

/// What was found, in words, and what to do about it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Found {
    /// What it is.
    pub is: &'static str,
    /// What to do.
    pub then: &'static str,
}

const SAVE: &str = "open it in a spreadsheet, and save the table as .xlsx, .ods or \"CSV UTF-8\"";
const TYPE: &str =
    "write the table into a spreadsheet, one plant a row, and save it as .xlsx, .ods or .csv";
const RENAME: &str = "if it is a workbook, give it the ending .xlsx or .ods; else unpack it";

/// A table that came out of git with both copies of some lines.
const BOTH_COPIES: Found = Found {
    is: "a table that git could not join, with both copies of some lines",
    then: "keep the lines that are right, and delete those that begin with <<<<<<<, ======= and >>>>>>>",
};

/// Beginnings of files that are not text.
const BYTES: [(&[u8], &str, &str); 9] = [
    (b"PK\x03\x04", "a packed file, such as a workbook", RENAME),
    (
        b"\xd0\xcf\x11\xe0",
        "a workbook or document of the old kind",
        SAVE,
    ),
    (b"\x89PNG", "a picture (PNG)", TYPE),
    (b"\xff\xd8\xff", "a picture (JPEG)", TYPE),
    (b"GIF8", "a picture (GIF)", TYPE),
    (b"%PDF", "a PDF", TYPE),
    (b"{\\rtf", "a document (RTF)", TYPE),
    (b"\xff\xfe", "text in UTF-16", SAVE),
    (b"\xfe\xff", "text in UTF-16", SAVE),
];
/// Bytes in which a web page is looked for.
const LOOKED_AT: usize = 1_000;

/// What a file is, where it is no table of text.
pub(super) fn found(bytes: &[u8]) -> Option<Found> {
    let begins = BYTES.iter().find(|(begin, ..)| bytes.starts_with(begin));
    if let Some((_, is, then)) = begins {
        return Some(Found { is, then });
    }
    let text = std::str::from_utf8(bytes).ok()?;
    let text = text.trim_start_matches('\u{feff}').trim();
    if !conflicts(text).is_empty() {
        return Some(BOTH_COPIES);
    }
    let first: String = text.chars().take(LOOKED_AT).collect();
    let first = first.to_lowercase();
    let is_page = first.starts_with("<!doctype") || first.contains("<html");
    let mut signs = first.chars().filter(|c| !c.is_whitespace());
    let is = match (signs.next()?, signs.next()?, text.chars().last()?) {
        ('<', ..) if is_page || first.contains("<table") => "a web page (HTML)",
        ('<', _, '>') => "a page of markup (XML)",
        ('{', '"', '}') | ('[', '{' | '[' | '"', ']') => "a page of data (JSON)",
        _ => return None,
    };
    Some(Found { is, then: SAVE })
}
