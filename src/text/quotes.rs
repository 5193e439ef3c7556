//! Quotes of a table of text: a lone `"` is a ditto mark, and one that is opened and never closed must not swallow the rows
//! below it.

/// What stands after reading a line from a place: its cells, and where a quote is still open.
struct Scan {
    cells: usize,
    /// Place of the quote that is not closed.
    open: Option<usize>,
    /// Places of quotes that stand for themselves.
    lone: Vec<usize>,
}

/// The text with every quote that stands for itself written as a quoted quote; line breaks stay where they are.
///
/// # Errors
/// The line, from 1, of a quote that is not closed, or that holds rows of the table.
pub(super) fn quotes_mended(text: &str, mark: u8) -> Result<String, usize> {
    let width = usual_width(text, mark);
    let mut out = String::with_capacity(text.len());
    let (mut at, mut line) = (0, 1);
    while at < text.len() {
        let end = line_end(text, at);
        let row = &text[at..end];
        let lone = lone_quotes(row, mark, width);
        let scan = scan(row, mark, lone);
        let mut until = end;
        let mut literal = scan.lone;
        if let Some(open) = scan.open {
            match closed_below(text, at + open, mark, width) {
                Some(closes) => until = closes,
                None if mark == b'\t' => literal.push(open),
                None => return Err(line),
            }
        }
        write_row(&mut out, &text[at..until], &literal, mark);
        line += text[at..until].matches('\n').count();
        at = until;
    }
    Ok(out)
}

/// Whether lone quotes of a line stand for themselves: always between tabs; between commas where the line has its usual
/// number of cells only so, because `", big"` begins with such a quote too.
fn lone_quotes(row: &str, mark: u8, width: Option<usize>) -> bool {
    let (strict, lone) = (scan(row, mark, false), scan(row, mark, true));
    let fits = |of: &Scan| of.open.is_none() && width.is_none_or(|width| of.cells == width);
    mark == b'\t' || lone.open.is_none() && !fits(&strict) && (fits(&lone) || strict.open.is_some())
}

/// Cells of most lines without a quote; none where there is no such line.
fn usual_width(text: &str, mark: u8) -> Option<usize> {
    let plain = text
        .lines()
        .filter(|line| !line.contains('"') && !line.trim().is_empty());
    let mut counts = std::collections::BTreeMap::<usize, usize>::new();
    for line in plain {
        *counts.entry(marks(line, mark) + 1).or_default() += 1;
    }
    counts
        .into_iter()
        .max_by_key(|&(_, many)| many)
        .map(|(width, _)| width)
}

fn marks(line: &str, mark: u8) -> usize {
    line.bytes().filter(|byte| *byte == mark).count()
}

fn line_end(text: &str, at: usize) -> usize {
    text[at..]
        .find('\n')
        .map_or(text.len(), |place| at + place + 1)
}

/// Whether a cell ends at a place.
fn ends(bytes: &[u8], at: usize, mark: u8) -> bool {
    bytes
        .get(at)
        .is_none_or(|&byte| byte == mark || byte == b'\n' || byte == b'\r')
}

/// Reads one line; a cell that is only a quote stands for itself if `lone`.
fn scan(row: &str, mark: u8, lone: bool) -> Scan {
    let bytes = row.as_bytes();
    let mut found = Scan {
        cells: 1,
        open: None,
        lone: Vec::new(),
    };
    let (mut at, mut begins) = (0, true);
    while at < bytes.len() {
        if begins && bytes[at] == b'"' {
            if lone && ends(bytes, at + 1, mark) {
                found.lone.push(at);
                at += 1;
            } else if let Some(closes) = closing(bytes, at) {
                at = closes + 1;
            } else {
                found.open = Some(at);
                return found;
            }
            begins = false;
            continue;
        }
        begins = bytes[at] == mark;
        found.cells += usize::from(begins);
        at += 1;
    }
    found
}

/// Where the quote opened at a place closes: at the next that is not doubled.
fn closing(bytes: &[u8], open: usize) -> Option<usize> {
    let mut at = open + 1;
    while at < bytes.len() {
        match (bytes[at], bytes.get(at + 1)) {
            (b'"', Some(b'"')) => at += 2,
            (b'"', _) => return Some(at),
            _ => at += 1,
        }
    }
    None
}

/// The end of the row whose quote closes on a line below, unless the quote would hold rows of the table.
fn closed_below(text: &str, open: usize, mark: u8, width: Option<usize>) -> Option<usize> {
    let mut open = open;
    loop {
        let closes = closing(text.as_bytes(), open)?;
        // A quote right before words opens a cell of its own: the one above was never closed.
        let ends_a_cell = ends(text.as_bytes(), closes + 1, mark);
        // Behind the quote the row may go on, with a further quote that is open over lines.
        let end = line_end(text, closes);
        let inside = &text[open + 1..closes];
        if !ends_a_cell || has_rows(inside, mark, width) && !is_prose(inside, mark) {
            return None;
        }
        match scan(&text[closes + 1..end], mark, false).open {
            Some(next) => open = closes + 1 + next,
            None => return Some(end),
        }
    }
}

/// Whether what stands in quotes over several lines holds rows of the table.
fn has_rows(inside: &str, mark: u8, width: Option<usize>) -> bool {
    let is_row =
        |line: &str| width.is_some_and(|width| width > 1 && tight_marks(line, mark) + 1 >= width);
    match mark {
        b'\t' => inside.contains('\t'),
        _ => inside.lines().skip(1).any(is_row),
    }
}

/// Whether what stands in quotes is a remark, however many commas its lines have: none of them begins as rows do, with a
/// code, a number or a day, and the quote that closes it is no sign of inches.
fn is_prose(inside: &str, mark: u8) -> bool {
    let first = |line: &str| line.split(char::from(mark)).next().unwrap_or("").to_owned();
    let begins_a_row = |line: &str| {
        let cell = first(line);
        cell.trim().is_empty() || cell.contains(|c: char| c.is_ascii_digit())
    };
    mark != b'\t'
        && !inside.ends_with(|c: char| c.is_ascii_digit())
        && !inside.lines().skip(1).any(begins_a_row)
}

/// Marks with no blank behind them: a comma in a sentence has one.
fn tight_marks(line: &str, mark: u8) -> usize {
    let bytes = line.as_bytes();
    let at = (0..bytes.len()).filter(|&at| bytes[at] == mark);
    at.filter(|&at| bytes.get(at + 1) != Some(&b' ')).count()
}

/// Writes a row; the cell of a quote that stands for itself is quoted, and its quotes doubled.
fn write_row(out: &mut String, row: &str, literal: &[usize], mark: u8) {
    let mut from = 0;
    for &at in literal {
        let length = (at..row.len()).find(|&end| ends(row.as_bytes(), end, mark));
        let end = length.unwrap_or(row.len());
        out.push_str(&row[from..at]);
        out.push('"');
        out.push_str(&row[at..end].replace('"', "\"\""));
        out.push('"');
        from = end;
    }
    out.push_str(&row[from..]);
}
