//! An answer in its form: bytes that only the writers of this floor can make.
//!
//! Whatever a record holds, it comes here as plain values and leaves through the type of its form: lines through
//! [`Terminal`], cells of CSV, values of DOT, text of XML, strings of JSON. So no text of a registry reaches a file, a
//! pipe or a terminal as it was typed.

use super::scene::{Photo, Scene};
use super::{
    PngRefusal, card, csv, dot, ics, json, pdf, pedigree_text, png, registration, screen, slips,
    svg, text, xlsx,
};
use crate::record::Day;
use crate::report::card::Card;
use crate::report::due::CalendarEntry;
use crate::report::export::ExportTable;
use crate::report::promised::PromisedReport;
use crate::report::registration::RegistrationReport;
use crate::report::{PedigreeDrawing, Plain, Report};
use crate::text::Terminal;
use std::collections::BTreeSet;

/// The bytes of an answer.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Written {
    bytes: Vec<u8>,
    /// Letters that stand in it as boxes.
    not_drawn: BTreeSet<char>,
}

impl From<Vec<u8>> for Written {
    fn from(bytes: Vec<u8>) -> Self {
        Self {
            bytes,
            not_drawn: BTreeSet::new(),
        }
    }
}

impl Written {
    /// Lines for a terminal.
    pub fn text(lines: &Terminal) -> Self {
        Self::from(lines.as_bytes().to_vec())
    }

    /// The sheets of reports, one after the other, at most `width` columns wide.
    pub fn sheets<R: Report>(reports: &[R], width: usize) -> Self {
        let sheets = reports
            .iter()
            .map(|report| text::sheet(&report.sheet(), width));
        Self::text(&Terminal::lines(&sheets.collect::<Vec<_>>().join("\n")))
    }

    /// One screen of each report, one after the other.
    pub fn screens<R: Report>(reports: &[R], width: usize) -> Self {
        let screens = reports
            .iter()
            .map(|report| screen::screen(&report.screen(), width));
        Self::text(&Terminal::lines(&screens.collect::<Vec<_>>().join("\n")))
    }

    /// The tables of reports, one after the other.
    pub fn csv<R: Report>(reports: &[R]) -> Self {
        let tables = reports
            .iter()
            .map(|report| csv::sheet(&report.spreadsheet()));
        Self::from(tables.collect::<Vec<_>>().join("\r\n").into_bytes())
    }

    /// One table, for another program.
    pub fn csv_table(table: &ExportTable) -> Self {
        Self::from(csv::export(table))
    }

    /// One table as a workbook.
    ///
    /// # Errors
    /// In words, when a sheet cannot hold it.
    pub fn workbook(table: &ExportTable) -> Result<Self, String> {
        xlsx::workbook(table).map(Self::from)
    }

    /// A report as JSON, or several in a list; a single one stands alone.
    ///
    /// # Errors
    /// In words, as [`json::report`].
    pub fn json<R: Report>(reports: &[R]) -> Result<Self, String> {
        let text = match reports {
            [one] => json::report(one),
            all => json::reports(all),
        };
        text.map(|text| Self::from(text.into_bytes()))
            .map_err(|error| error.to_string())
    }

    /// Any plain value as JSON.
    ///
    /// # Errors
    /// In words, as [`json::value`].
    pub fn json_value(value: &impl Plain) -> Result<Self, String> {
        json::value(value)
            .map(|text| Self::from(text.into_bytes()))
            .map_err(|error| error.to_string())
    }

    /// A picture as SVG.
    pub fn svg(scene: &Scene) -> Self {
        Self {
            bytes: svg(scene).into_bytes(),
            not_drawn: not_drawn(std::slice::from_ref(scene)),
        }
    }

    /// A picture as PNG, `scale` dots to a point.
    ///
    /// # Errors
    /// As [`png`].
    pub fn png(scene: &Scene, scale: f64) -> Result<Self, PngRefusal> {
        let not_drawn = not_drawn(std::slice::from_ref(scene));
        let bytes = png(scene, scale)?;
        Ok(Self { bytes, not_drawn })
    }

    /// Pictures as PDF, one a page.
    pub fn pdf(scenes: &[Scene]) -> Self {
        Self {
            bytes: pdf(scenes),
            not_drawn: not_drawn(scenes),
        }
    }

    /// A card as one HTML page.
    pub fn html(of: &Card, photo: Option<&Photo>) -> Self {
        Self::from(card::html(of, photo).into_bytes())
    }

    /// A pedigree in the DOT language.
    pub fn dot(drawing: &PedigreeDrawing) -> Self {
        Self::from(dot(drawing).into_bytes())
    }

    /// The draft of a registration as a form in Markdown.
    pub fn registration(of: &RegistrationReport) -> Self {
        Self::from(registration::form(of).into_bytes())
    }

    /// Correction slips in Markdown.
    pub fn slips(of: &PromisedReport, today: Day) -> Self {
        Self::from(slips::slips(of, today).into_bytes())
    }

    /// Entries as a calendar; `today` is its stamp.
    pub fn calendar(entries: &[CalendarEntry], today: Day) -> Self {
        Self::from(ics::calendar(entries, today).into_bytes())
    }

    /// A pedigree in lines, at most `width` columns wide.
    pub fn pedigree(drawing: &PedigreeDrawing, width: usize) -> Self {
        Self::text(&Terminal::lines(&pedigree_text(drawing, width)))
    }

    /// What this program says of itself, such as its manual page; nothing of a registry stands in it.
    pub fn manual(bytes: Vec<u8>) -> Self {
        Self::from(bytes)
    }

    /// The bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The letters of it that the typeface of pictures has no drawing of, so that a box stands for each.
    pub fn not_drawn(&self) -> &BTreeSet<char> {
        &self.not_drawn
    }
}

fn not_drawn(scenes: &[Scene]) -> BTreeSet<char> {
    scenes.iter().flat_map(Scene::not_drawn).collect()
}
