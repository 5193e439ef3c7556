//! Is the file something else with the name of a page: a spreadsheet, or a text in another encoding?

use crate::diagnostic::{Code, Finding};
use crate::text::outline::PartId;
use crate::text::{FileId, Outline, Span};

/// Lines looked at to see whether a file is a table.
const LINES: usize = 20;
/// Bytes looked at to see whether a file is in UTF-16.
const HEAD: usize = 400;

/// The one finding for a file that was never a page; `None` for any other. `word` names the page.
pub(super) fn foreign(file: FileId, text: &str, word: &str) -> Option<Finding> {
    let place = Span::new(file, 0..first_line(text).len() as u32);
    let needed = format!("a {word} in round brackets: ( … )");
    if text.starts_with("PK\u{3}\u{4}") {
        let finding = Finding::fault(
            Code("spreadsheet-file"),
            "this is a spreadsheet, not a page",
        );
        return Some(
            finding
                .at(Span::at(file, 0))
                .found("the bytes of a packed workbook")
                .needed(needed)
                .help("write the page as plain text; keep the workbook outside the registry"),
        );
    }
    if text[..text.floor_char_boundary(HEAD.min(text.len()))].contains("\0\0\0") {
        return Some(
            Finding::fault(Code("empty-file"), "this file holds no text")
                .at(Span::at(file, 0))
                .found("zero bytes, as a power cut or a full disk may leave them")
                .needed(needed)
                .help("take the file from your copy of the registry"),
        );
    }
    if is_in_one_line(text) {
        return Some(
            Finding::fault(Code("old-line-ends"), "the remarks of this file have no end")
                .at(place)
                .found("line ends of old Macs (CR alone): the first remark, `//`, goes on to the end of the file")
                .needed("line ends of Unix (LF) or Windows (CR LF)")
                .help("save the file again with one of these line ends: nothing in it is lost"),
        );
    }
    if is_utf16(text) {
        return Some(
            Finding::fault(Code("not-utf8"), "this file is in UTF-16")
                .at(Span::at(file, 0))
                .found("a text in UTF-16")
                .needed("a text in UTF-8")
                .help("save the file again with the encoding UTF-8"),
        );
    }
    let separator = separator(text)?;
    Some(
        Finding::fault(Code("spreadsheet-file"), "this is a table from a spreadsheet, not a page")
            .at(place)
            .found(format!("lines of values with {separator} between them"))
            .needed(needed)
            .help("copy a page, such as crosses/page-to-copy.txt, and type the values into it; a line of readings becomes a row: [\"1\", \"9.6 cm\"]")
            .help("keep the table outside the registry, or with another extension such as .csv"),
    )
}

/// The one finding for a page of another kind in the folder of crosses; `None` for any other.
pub(super) fn misfiled(
    (outline, file): (&Outline, FileId),
    root: PartId,
    word: &str,
) -> Option<Finding> {
    const PAGES: [(&str, &str); 4] = [
        ("clones", "clones.ron"),
        ("lots", "pollen.ron"),
        ("species", "species.ron"),
        ("traits", "registry.ron"),
    ];
    let has = |name: &str| outline.field(root, name);
    let is_right = word != "cross" || has("code").or(has("parents")).is_some();
    let (field, page) = PAGES
        .into_iter()
        .find(|(field, _)| has(field).is_some())
        .filter(|_| !is_right)?;
    let label = outline.part(has(field)?).label()?;
    Some(
        Finding::fault(Code("stray-file"), format!("this is {page} in the folder of crosses"))
            .at(Span::new(file, label))
            .found(format!("`{field}`, which only {page} has"))
            .needed("a page of a cross under crosses/")
            .help(format!("move it out of crosses/ and name it {page}; where there is a {page}, put the records of both into one")),
    )
}

/// Whether the lines of a page with remarks end in a way that no reader of it knows.
fn is_in_one_line(text: &str) -> bool {
    text.contains('\r') && !text.contains('\n') && text.contains("//")
}

fn first_line(text: &str) -> &str {
    text.lines().next().unwrap_or_default()
}

/// Latin letters in UTF-16 without a mark at the start: every other byte is 0.
fn is_utf16(text: &str) -> bool {
    let head = &text.as_bytes()[..text.len().min(HEAD)];
    let zeros = head.iter().filter(|byte| **byte == 0).count();
    zeros > 1 && 3 * zeros > head.len()
}

/// What separates the values of a table; `None` for a text that is none: a page has a bracket or a name and a colon
/// before its first value.
fn separator(text: &str) -> Option<&'static str> {
    let lines: Vec<&str> = text
        .lines()
        .filter(|line| !line.trim().is_empty())
        .take(LINES)
        .collect();
    let first = lines.first()?.trim_start();
    let is_page = |line: &&str| line.starts_with(['(', '[', '{', ')', ']', '}', '/', '#']);
    let names_a_field = first
        .find(|c: char| !c.is_alphanumeric() && c != '_')
        .is_some_and(|end| first[end..].trim_start().starts_with([':', '=', '(']));
    if names_a_field
        || lines
            .iter()
            .map(|line| line.trim_start())
            .any(|line| is_page(&line))
    {
        return None;
    }
    let separators = [('\t', "tabs"), (';', "semicolons"), (',', "commas")];
    let held = separators.into_iter().find(|(mark, _)| {
        let several = first.matches(*mark).count() > 1;
        lines.iter().all(|line| line.contains(*mark)) && (lines.len() > 1 || several)
    });
    held.map(|(_, name)| name)
}
