//! A table as a workbook with one sheet (Office Open XML, ECMA-376): numbers are numbers, everything else is text, whatever
//! it begins with, and the headings stay in sight.

use super::folding::number_text;
use crate::report::Cell;
use crate::report::export::ExportTable;
use crate::text::{Xml, packed};
use std::fmt::Write;

/// Rows a sheet holds.
const ROWS: usize = 1_048_576;
/// Characters a cell holds.
const LETTERS: usize = 32_767;

const TYPES: &str = r#"<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>"#;
const RELATIONS: &str = r#"<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>"#;
const WORKBOOK: &str = r#"<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="podbook" sheetId="1" r:id="rId1"/></sheets></workbook>"#;
const OF_WORKBOOK: &str = r#"<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>"#;
const SHEET: &str = r#"<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><sheetData>"#;

/// The workbook.
///
/// # Errors
/// In words, when a sheet cannot hold the table.
pub fn workbook(table: &ExportTable) -> Result<Vec<u8>, String> {
    if table.plants.len() >= ROWS {
        return Err(format!(
            "a sheet holds {ROWS} rows, and there are {}; end FILE with .csv",
            table.plants.len() + 1
        ));
    }
    let mut sheet = SHEET.to_owned();
    let headings: Vec<Cell> = table.headings.iter().map(Cell::from).collect();
    row(&mut sheet, 1, &headings)?;
    for (number, &plant) in (2..).zip(&table.plants) {
        row(&mut sheet, number, &table.row(plant))?;
    }
    sheet.push_str("</sheetData></worksheet>");
    let parts = [
        ("[Content_Types].xml", TYPES),
        ("_rels/.rels", RELATIONS),
        ("xl/workbook.xml", WORKBOOK),
        ("xl/_rels/workbook.xml.rels", OF_WORKBOOK),
        ("xl/worksheets/sheet1.xml", &sheet),
    ];
    packed("", &parts.map(|(path, text)| (path, text.as_bytes())))
}

/// Adds a row; a cell that holds nothing is left out.
fn row(sheet: &mut String, number: usize, cells: &[Cell]) -> Result<(), String> {
    let _ = write!(sheet, r#"<row r="{number}">"#);
    for (at, cell) in cells.iter().enumerate() {
        let place = format!("{}{number}", letters(at));
        let value = match cell {
            Cell::Missing => continue,
            Cell::Number(value, _) if !value.is_finite() => continue,
            Cell::Number(value, decimals) => number_text(*value, *decimals).replace('−', "-"),
            Cell::Count(count) => count.to_string(),
            Cell::Text(text) => {
                words(sheet, &place, text)?;
                continue;
            }
        };
        let _ = write!(sheet, r#"<c r="{place}"><v>{value}</v></c>"#);
    }
    sheet.push_str("</row>");
    Ok(())
}

fn words(sheet: &mut String, place: &str, text: &str) -> Result<(), String> {
    if text.chars().count() > LETTERS {
        return Err(format!(
            "a cell holds {LETTERS} characters, and {place} has more; end FILE with .csv"
        ));
    }
    let text = Xml::of(text);
    let _ = write!(
        sheet,
        r#"<c r="{place}" t="inlineStr"><is><t xml:space="preserve">{text}</t></is></c>"#
    );
    Ok(())
}

/// 0 is `A`, 26 `AA`.
fn letters(at: usize) -> String {
    let own = char::from(b'A' + (at % 26) as u8);
    match at / 26 {
        0 => own.to_string(),
        before => format!("{}{own}", letters(before - 1)),
    }
}
