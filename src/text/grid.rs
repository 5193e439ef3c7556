//! A filled table as rows of cells: a spreadsheet (XLSX, ODS), or text whose cells are set apart by tabs, semicolons or
//! commas.
//!
//! Cells come as a person sees them: a number in its shortest form, a date as `2024-06-01`. What a cell means is left to
//! others. A table larger than anybody measures is refused before it fills the memory.

use super::cell_style::CellStyle;
use super::no_table::{Found, found};
use super::quotes::quotes_mended;
use super::refusal::system_words;
use calamine::{Data, Dimensions, Ods, Reader, Xlsx};
use std::fmt;
use std::io::Cursor;
use std::path::Path;

/// Most bytes of a file, and most rows, columns and cells of a sheet, that are read.
const MOST_BYTES: u64 = 32 << 20;
const MOST_ROWS: usize = 100_000;
const MOST_COLUMNS: usize = 250;
const MOST_CELLS: usize = 5_000_000;
/// Most sheets of one file that are read, and most cells that joined cells are filled into.
const MOST_SHEETS: usize = 100;
const MOST_JOINED: u64 = 1_000_000;

/// Lines by which it is judged what sets cells apart.
const JUDGED: usize = 50;

/// A row with something in it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct GridRow {
    /// Its number in the file, from 1.
    pub line: usize,
    /// Its cells, without blanks around them.
    pub cells: Vec<String>,
}

/// A sheet of a file.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct GridSheet {
    /// Its name; none in a file that has only one and gives it no name.
    pub name: Option<String>,
    /// Its rows.
    pub rows: Vec<GridRow>,
    /// Cells with a coloured ground, as line from 1 and place in the row from 0; none where colours are not looked at.
    pub coloured: Vec<(usize, usize)>,
    /// Lines with words that are struck through, from 1; none where that is not looked at.
    pub struck: Vec<usize>,
}

/// Why there is no table.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum NoGrid {
    /// The system refused, in its own words.
    Unread(String),
    /// It is no spreadsheet, or is damaged.
    NoSpreadsheet,
    /// It is something else than a table: what it is found to be.
    Found(Found),
    /// Its ending is that of a picture, a page or an archive.
    NoTable,
    /// It is not text in UTF-8.
    NoText,
    /// A quote is opened in this line, from 1, and not closed in its cell.
    QuoteOpen(usize),
    /// Larger than anybody measures.
    TooLarge,
    /// Nothing is in it.
    Empty,
}

impl fmt::Display for NoGrid {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoGrid::Unread(why) => write!(f, "could not be read: {why}"),
            NoGrid::NoSpreadsheet => write!(
                f,
                "is damaged, or is not the kind of spreadsheet its ending says\nsave it again as .xlsx, .ods or .csv"
            ),
            NoGrid::Found(found) => write!(
                f,
                "is {}, not a table that can be read\n{}",
                found.is, found.then
            ),
            NoGrid::NoTable => write!(
                f,
                "is no table\nsave the table as .xlsx, .ods, .csv or .tsv"
            ),
            NoGrid::NoText => write!(
                f,
                "is not text in UTF-8\nif it is a table, save it as \"CSV UTF-8\", .xlsx or .ods"
            ),
            NoGrid::QuoteOpen(line) => write!(
                f,
                "has a quote in line {line} that is not closed in its cell: the rows below would be lost in it\nclose it with a second \", or take it out"
            ),
            NoGrid::TooLarge => write!(
                f,
                "is too large: at most {MOST_ROWS} rows, {MOST_COLUMNS} columns and 32 MB are read\nsplit it, or delete what is not to be read"
            ),
            NoGrid::Empty => write!(
                f,
                "is empty\nthe first row holds the headings: plant, then what was read"
            ),
        }
    }
}

/// The rows of a file's first sheet, by its ending: `.xlsx`, `.ods`, and text for any other.
///
/// # Errors
/// If it cannot be read, is no table, is too large or is empty.
pub fn grid_of_file(path: &Path) -> Result<Vec<GridRow>, NoGrid> {
    let first = sheets(path, 1)?.into_iter().next();
    some(first.map(|sheet| sheet.rows).unwrap_or_default())
}

/// Every sheet of a file that has something in it; cells of XLSX that are joined downward each hold what the first holds.
///
/// # Errors
/// If it cannot be read, is no table, is too large or is empty.
pub fn sheets_of_file(path: &Path) -> Result<Vec<GridSheet>, NoGrid> {
    let mut sheets = sheets(path, MOST_SHEETS)?;
    sheets.retain(|sheet| !sheet.rows.is_empty());
    match sheets.is_empty() {
        true => Err(NoGrid::Empty),
        false => Ok(sheets),
    }
}

fn sheets(path: &Path, most: usize) -> Result<Vec<GridSheet>, NoGrid> {
    let unread = |error: std::io::Error| NoGrid::Unread(system_words(&error));
    if std::fs::metadata(path).map_err(unread)?.len() > MOST_BYTES {
        return Err(NoGrid::TooLarge);
    }
    let bytes = std::fs::read(path).map_err(unread)?;
    let ending = path.extension().and_then(|ending| ending.to_str());
    match ending.map(str::to_lowercase).as_deref() {
        Some("xlsx") => xlsx(bytes, most),
        Some("ods") => ods(bytes, most),
        Some(
            "svg" | "png" | "jpg" | "jpeg" | "pdf" | "html" | "htm" | "ron" | "json" | "xml"
            | "zip" | "doc" | "docx" | "xls" | "md",
        ) => Err(found(&bytes).map_or(NoGrid::NoTable, NoGrid::Found)),
        ending => Ok(vec![GridSheet {
            name: None,
            coloured: Vec::new(),
            struck: Vec::new(),
            rows: cut(&bytes, (ending == Some("tsv")).then_some(b'\t'))?,
        }]),
    }
}

/// The rows of a text: what most of its first lines hold sets its cells apart, a tab, a semicolon or a comma.
///
/// # Errors
/// If it is no text, is too large or is empty.
pub fn grid_of_text(bytes: &[u8]) -> Result<Vec<GridRow>, NoGrid> {
    cut(bytes, None)
}

/// What sets cells apart in most of the first lines; the first of equals is a tab, then a semicolon, then a comma.
fn mark_of(text: &str) -> u8 {
    let first = || {
        text.lines()
            .filter(|line| !line.trim().is_empty())
            .take(JUDGED)
    };
    let lines = |mark: u8| {
        first()
            .filter(|line| line.as_bytes().contains(&mark))
            .count()
    };
    let marks = [b',', b';', b'\t'];
    marks
        .into_iter()
        .max_by_key(|mark| lines(*mark))
        .unwrap_or(b',')
}

fn cut(bytes: &[u8], mark: Option<u8>) -> Result<Vec<GridRow>, NoGrid> {
    if let Some(found) = found(bytes) {
        return Err(NoGrid::Found(found));
    }
    let text = std::str::from_utf8(bytes).map_err(|_| NoGrid::NoText)?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.contains('\0') {
        return Err(NoGrid::NoText);
    }
    let mark = mark.unwrap_or_else(|| mark_of(text));
    let text = &*quotes_mended(text, mark).map_err(NoGrid::QuoteOpen)?;
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(mark)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let (mut kept, mut line, mut counted) = (Kept::default(), 1, 0);
    for record in reader.records() {
        let record = record.map_err(|_| NoGrid::NoText)?;
        // A record may be said to begin at the line break before it.
        let begins = record.position().map_or(0, |place| place.byte() as usize);
        let breaks = text.as_bytes()[begins..].iter();
        let begins = begins + breaks.take_while(|byte| b"\r\n".contains(byte)).count();
        line += text.as_bytes()[counted..begins]
            .iter()
            .filter(|byte| **byte == b'\n')
            .count();
        counted = begins;
        kept.keep(line, record.iter().map(str::to_owned).collect())?;
    }
    some(kept.rows)
}

/// The first sheets of an XLSX file, read cell by cell: one cell far away must not make a table of all between.
fn xlsx(bytes: Vec<u8>, most: usize) -> Result<Vec<GridSheet>, NoGrid> {
    let no = |_: calamine::XlsxError| NoGrid::NoSpreadsheet;
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(no)?;
    let mut sheets = Vec::new();
    for name in book.sheet_names().into_iter().take(most) {
        let mut sheet = xlsx_sheet(&mut book, &name)?;
        let joined = book.merge_cells_by_sheet_name(&name).map_err(no)?;
        sheet.rows = filled_down(sheet.rows, &joined)?;
        sheets.push(sheet);
    }
    Ok(sheets)
}

fn xlsx_sheet(book: &mut Xlsx<Cursor<Vec<u8>>>, name: &str) -> Result<GridSheet, NoGrid> {
    let no = |_: calamine::XlsxError| NoGrid::NoSpreadsheet;
    let mut cells = book.worksheet_cells_reader(name).map_err(no)?;
    let styles: Vec<CellStyle> = cells.styles().iter().map(CellStyle::of).collect();
    let (mut kept, mut row, mut line) = (Kept::default(), Vec::new(), 0);
    let (mut coloured, mut struck) = (Vec::new(), Vec::new());
    while let Some((cell, style)) = cells.next_cell_with_style_id().map_err(no)? {
        let (at, column) = cell.get_position();
        let style = styles.get(style).copied().unwrap_or_default();
        if style.is_coloured && (column as usize) < MOST_COLUMNS && coloured.len() < MOST_CELLS {
            coloured.push((at as usize + 1, column as usize));
        }
        let value = Data::from(cell.get_value().clone());
        let mut words = shown(&value);
        if matches!(value, Data::DateTime(_) | Data::DateTimeIso(_)) {
            words = style.seen(&words).to_owned();
        }
        if words.is_empty() {
            continue;
        }
        if at as usize != line {
            kept.keep(line + 1, std::mem::take(&mut row))?;
            line = at as usize;
        }
        if style.is_struck && struck.last() != Some(&(line + 1)) {
            struck.push(line + 1);
        }
        put(&mut row, column as usize, words)?;
    }
    kept.keep(line + 1, row)?;
    Ok(GridSheet {
        name: Some(name.to_owned()),
        rows: kept.rows,
        coloured,
        struck,
    })
}

/// Gives every row of cells that are joined downward what the first of them holds; a title joined sideways stays one cell.
fn filled_down(mut rows: Vec<GridRow>, joined: &[Dimensions]) -> Result<Vec<GridRow>, NoGrid> {
    let tall = joined
        .iter()
        .map(|of| u64::from(of.end.0.saturating_sub(of.start.0)));
    if tall.sum::<u64>() > MOST_JOINED {
        return Err(NoGrid::TooLarge);
    }
    for of in joined.iter().filter(|of| of.end.0 > of.start.0) {
        let (top, column) = (of.start.0 as usize + 1, of.start.1 as usize);
        let at = rows.partition_point(|row| row.line < top);
        let first = rows.get(at).filter(|row| row.line == top);
        let Some(words) = first.and_then(|row| row.cells.get(column)).cloned() else {
            continue;
        };
        let below = rows[at + 1..].iter_mut();
        for row in below.take_while(|row| row.line <= of.end.0 as usize + 1) {
            put(&mut row.cells, column, words.clone())?;
        }
    }
    Ok(rows)
}

/// The first sheets of an ODS file.
fn ods(bytes: Vec<u8>, most: usize) -> Result<Vec<GridSheet>, NoGrid> {
    let no = |_: calamine::OdsError| NoGrid::NoSpreadsheet;
    let mut book: Ods<_> = Ods::new(Cursor::new(bytes)).map_err(no)?;
    let mut sheets = Vec::new();
    for name in book.sheet_names().into_iter().take(most) {
        let range = book.worksheet_range(&name).map_err(no)?;
        let (from, first) = range.start().unwrap_or((0, 0));
        let mut kept = Kept::default();
        for (at, cells) in range.rows().enumerate() {
            let mut row = Vec::new();
            for (column, cell) in cells.iter().enumerate() {
                let words = shown(cell);
                if !words.is_empty() {
                    put(&mut row, first as usize + column, words)?;
                }
            }
            kept.keep(from as usize + at + 1, row)?;
        }
        sheets.push(GridSheet {
            name: Some(name),
            rows: kept.rows,
            coloured: Vec::new(),
            struck: Vec::new(),
        });
    }
    Ok(sheets)
}

fn put(row: &mut Vec<String>, column: usize, words: String) -> Result<(), NoGrid> {
    if column >= MOST_COLUMNS {
        return Err(NoGrid::TooLarge);
    }
    if row.len() <= column {
        row.resize(column + 1, String::new());
    }
    row[column] = words;
    Ok(())
}

/// The rows kept so far, and their cells.
#[derive(Default)]
struct Kept {
    rows: Vec<GridRow>,
    cells: usize,
}

impl Kept {
    /// Keeps a row that has something in it.
    fn keep(&mut self, line: usize, cells: Vec<String>) -> Result<(), NoGrid> {
        let cells: Vec<String> = cells.iter().map(|cell| cell.trim().to_owned()).collect();
        if cells.iter().all(String::is_empty) {
            return Ok(());
        }
        self.cells += cells.len();
        let many = self.rows.len() >= MOST_ROWS || self.cells > MOST_CELLS;
        if many || cells.len() > MOST_COLUMNS {
            return Err(NoGrid::TooLarge);
        }
        self.rows.push(GridRow { line, cells });
        Ok(())
    }
}

fn some(rows: Vec<GridRow>) -> Result<Vec<GridRow>, NoGrid> {
    match rows.is_empty() {
        true => Err(NoGrid::Empty),
        false => Ok(rows),
    }
}

/// A cell as a person sees it.
fn shown(cell: &Data) -> String {
    match cell {
        Data::Empty => String::new(),
        Data::String(text) => text.clone(),
        Data::Int(number) => number.to_string(),
        // The shortest digits that mean this very number: `3`, `5.1`.
        Data::Float(number) => number.to_string(),
        Data::Bool(flag) => if *flag { "TRUE" } else { "FALSE" }.to_owned(),
        // A formula that points at a blank cell gives 0.
        Data::DateTime(moment) if moment.is_datetime() && moment.as_f64() == 0.0 => String::new(),
        Data::DateTime(moment) if moment.is_datetime() => {
            let (year, month, day, ..) = moment.to_ymd_hms_milli();
            format!("{year:04}-{month:02}-{day:02}")
        }
        Data::DateTime(moment) => moment.as_f64().to_string(),
        Data::DateTimeIso(text) => match text.split('T').next().unwrap_or("") {
            // The same 0 as a date of `.ods`.
            "1899-12-30" => String::new(),
            day => day.to_owned(),
        },
        Data::DurationIso(text) => text.clone(),
        Data::Error(error) => error.to_string(),
    }
}
