//! Small writers of workbooks, after ECMA-376 (XLSX) and OpenDocument 1.3 (ODS): only what a table needs. A library that
//! writes workbooks would bring more crates than this file has lines.

use std::io::{Cursor, Write};
use zip::write::{SimpleFileOptions, ZipWriter};

/// A cell of a workbook.
#[derive(Clone)]
pub enum Put {
    /// Nothing.
    Empty,
    /// Words.
    Text(String),
    /// A number.
    Number(f64),
    /// A day as XLSX counts it, shown as a date; in ODS the date itself.
    Day(u32, &'static str),
    /// Words on a coloured ground.
    Coloured(&'static str),
    /// Words on a white ground.
    White(&'static str),
    /// Words that are struck through.
    Struck(&'static str),
    /// A day as XLSX counts it, of which the month and year are shown; in ODS the date itself.
    Month(u32, &'static str),
    /// A day as XLSX counts it, of which the day and month are shown; in ODS the date itself.
    WithoutYear(u32, &'static str),
}

impl From<&str> for Put {
    fn from(words: &str) -> Put {
        match words {
            "" => Put::Empty,
            words => Put::Text(words.to_owned()),
        }
    }
}

/// A sheet.
#[derive(Clone, Default)]
pub struct PutSheet {
    pub name: &'static str,
    pub rows: Vec<Vec<Put>>,
    /// Cells that are joined, such as `A2:A4`.
    pub joined: Vec<&'static str>,
}

/// A sheet of words, one line a row, cells between strokes.
pub fn sheet(name: &'static str, lines: &[&str]) -> PutSheet {
    let row = |line: &&str| line.split('|').map(Put::from).collect();
    PutSheet {
        name,
        rows: lines.iter().map(row).collect(),
        joined: Vec::new(),
    }
}

fn escaped(words: &str) -> String {
    words
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('"', "&quot;")
}

fn zipped(files: &[(&str, String)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (path, text) in files {
        zip.start_file(*path, SimpleFileOptions::default())
            .expect("a file begins");
        zip.write_all(text.as_bytes()).expect("a file is written");
    }
    zip.finish().expect("the workbook ends").into_inner()
}

/// A workbook as XLSX.
pub fn xlsx(sheets: &[PutSheet]) -> Vec<u8> {
    let main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    let relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    let package = "http://schemas.openxmlformats.org/package/2006";
    let numbered = || sheets.iter().enumerate().map(|(at, sheet)| (at + 1, sheet));
    let listed: String = numbered()
        .map(|(n, of)| {
            format!(
                "<sheet name=\"{}\" sheetId=\"{n}\" r:id=\"rId{n}\"/>",
                of.name
            )
        })
        .collect();
    let targets: String = numbered()
        .map(|(n, _)| format!("<Relationship Id=\"rId{n}\" Type=\"{relations}/worksheet\" Target=\"worksheets/sheet{n}.xml\"/>"))
        .collect();
    let styles = sheets.len() + 1;
    let kinds: String = numbered()
        .map(|(n, _)| format!("<Override PartName=\"/xl/worksheets/sheet{n}.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml\"/>"))
        .collect();
    let mut files = vec![
        (
            "[Content_Types].xml",
            format!(
                "<Types xmlns=\"{package}/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/>{kinds}</Types>"
            ),
        ),
        (
            "_rels/.rels",
            format!(
                "<Relationships xmlns=\"{package}/relationships\"><Relationship Id=\"rId1\" Type=\"{relations}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
            ),
        ),
        (
            "xl/workbook.xml",
            format!(
                "<workbook xmlns=\"{main}\" xmlns:r=\"{relations}\"><sheets>{listed}</sheets></workbook>"
            ),
        ),
        (
            "xl/_rels/workbook.xml.rels",
            format!(
                "<Relationships xmlns=\"{package}/relationships\">{targets}<Relationship Id=\"rId{styles}\" Type=\"{relations}/styles\" Target=\"styles.xml\"/></Relationships>"
            ),
        ),
        // Style 1 shows a number as a date (format 14), style 2 has a yellow ground, style 3 a white one, style 4 shows a
        // month and its year (format 17), style 5 a day and its month (format 16), style 6 strikes words through.
        (
            "xl/styles.xml",
            format!(
                "<styleSheet xmlns=\"{main}\"><fonts count=\"2\"><font/><font><strike/></font></fonts><fills count=\"3\"><fill/><fill><patternFill patternType=\"solid\"><fgColor rgb=\"FFFFFF00\"/></patternFill></fill><fill><patternFill patternType=\"solid\"><fgColor rgb=\"FFFFFFFF\"/></patternFill></fill></fills><cellXfs count=\"7\"><xf numFmtId=\"0\"/><xf numFmtId=\"14\" applyNumberFormat=\"1\"/><xf numFmtId=\"0\" fillId=\"1\" applyFill=\"1\"/><xf numFmtId=\"0\" fillId=\"2\" applyFill=\"1\"/><xf numFmtId=\"17\" applyNumberFormat=\"1\"/><xf numFmtId=\"16\" applyNumberFormat=\"1\"/><xf numFmtId=\"0\" fontId=\"1\" applyFont=\"1\"/></cellXfs></styleSheet>"
            ),
        ),
    ];
    let pages: Vec<(String, String)> = numbered()
        .map(|(n, of)| {
            (
                format!("xl/worksheets/sheet{n}.xml"),
                format!(
                    "<worksheet xmlns=\"{main}\"><sheetData>{}</sheetData>{}</worksheet>",
                    xlsx_rows(of),
                    joined(of)
                ),
            )
        })
        .collect();
    files.extend(
        pages
            .iter()
            .map(|(path, text)| (path.as_str(), text.clone())),
    );
    zipped(&files)
}

fn xlsx_rows(sheet: &PutSheet) -> String {
    let cell = |row: usize, column: usize, cell: &Put| {
        let at = format!("{}{}", char::from(b'A' + column as u8), row + 1);
        match cell {
            Put::Empty => String::new(),
            Put::Text(words) => format!(
                "<c r=\"{at}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{}</t></is></c>",
                escaped(words)
            ),
            Put::Coloured("") => format!("<c r=\"{at}\" s=\"2\"/>"),
            Put::Coloured(words) => words_in(&at, 2, words),
            Put::White(words) => words_in(&at, 3, words),
            Put::Struck(words) => words_in(&at, 6, words),
            Put::Month(day, _) => format!("<c r=\"{at}\" s=\"4\"><v>{day}</v></c>"),
            Put::WithoutYear(day, _) => format!("<c r=\"{at}\" s=\"5\"><v>{day}</v></c>"),
            Put::Number(number) => format!("<c r=\"{at}\"><v>{number}</v></c>"),
            Put::Day(day, _) => format!("<c r=\"{at}\" s=\"1\"><v>{day}</v></c>"),
        }
    };
    let mut out = String::new();
    for (row, cells) in sheet.rows.iter().enumerate() {
        let cells: String = cells
            .iter()
            .enumerate()
            .map(|(column, of)| cell(row, column, of))
            .collect();
        out.push_str(&format!("<row r=\"{}\">{cells}</row>", row + 1));
    }
    out
}

fn words_in(at: &str, style: usize, words: &str) -> String {
    let words = escaped(words);
    format!("<c r=\"{at}\" s=\"{style}\" t=\"inlineStr\"><is><t>{words}</t></is></c>")
}

fn joined(sheet: &PutSheet) -> String {
    if sheet.joined.is_empty() {
        return String::new();
    }
    let cells: String = sheet
        .joined
        .iter()
        .map(|of| format!("<mergeCell ref=\"{of}\"/>"))
        .collect();
    format!(
        "<mergeCells count=\"{}\">{cells}</mergeCells>",
        sheet.joined.len()
    )
}

/// A workbook as ODS.
pub fn ods(sheets: &[PutSheet]) -> Vec<u8> {
    let cell = |cell: &Put| match cell {
        Put::Empty => "<table:table-cell/>".to_owned(),
        Put::Text(words) => text_cell(words),
        Put::Coloured(words) | Put::White(words) | Put::Struck(words) => text_cell(words),
        Put::Number(number) => format!(
            "<table:table-cell office:value-type=\"float\" office:value=\"{number}\"><text:p>{number}</text:p></table:table-cell>"
        ),
        Put::Day(_, day) | Put::Month(_, day) | Put::WithoutYear(_, day) => format!(
            "<table:table-cell office:value-type=\"date\" office:date-value=\"{day}\"><text:p>{day}</text:p></table:table-cell>"
        ),
    };
    let row = |row: &Vec<Put>| {
        let cells: String = row.iter().map(cell).collect();
        format!("<table:table-row>{cells}</table:table-row>")
    };
    let table = |of: &PutSheet| {
        let rows: String = of.rows.iter().map(row).collect();
        format!(
            "<table:table table:name=\"{}\">{rows}</table:table>",
            of.name
        )
    };
    let tables: String = sheets.iter().map(table).collect();
    let space = "urn:oasis:names:tc:opendocument:xmlns";
    let kind = "application/vnd.oasis.opendocument.spreadsheet";
    zipped(&[
        ("mimetype", kind.to_owned()),
        (
            "META-INF/manifest.xml",
            format!(
                "<manifest:manifest xmlns:manifest=\"{space}:manifest:1.0\"><manifest:file-entry manifest:full-path=\"/\" manifest:media-type=\"{kind}\"/><manifest:file-entry manifest:full-path=\"content.xml\" manifest:media-type=\"text/xml\"/></manifest:manifest>"
            ),
        ),
        (
            "content.xml",
            format!(
                "<office:document-content xmlns:office=\"{space}:office:1.0\" xmlns:table=\"{space}:table:1.0\" xmlns:text=\"{space}:text:1.0\"><office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>"
            ),
        ),
    ])
}

fn text_cell(words: &str) -> String {
    format!(
        "<table:table-cell office:value-type=\"string\"><text:p>{}</text:p></table:table-cell>",
        escaped(words)
    )
}
