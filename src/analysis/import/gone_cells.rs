//! What became of a plant, by the cells of its row: how it went, when, and to whom.

use super::answer::{ColumnTaken, Why};
use super::cell_words::{fate_and_rest, is_here};
use super::cells::{Row, RowReader, first};
use super::dates::is_blank;
use super::ends::{End, contradiction, the_end};
use super::facts::FateRead;
use crate::record::{Holds, RowClass, When};

impl RowReader<'_, '_> {
    /// What became of a plant: a word, with a day or `to somebody` behind it. What is not understood is said to be so.
    pub fn status(&self, column: &ColumnTaken, cell: &str, out: &mut Row) {
        if is_blank(cell) {
            return;
        }
        if is_here(cell) {
            return out.ends.push(End::of(column, cell, None));
        }
        let own = cell.split_once(" (").map(|(words, _)| words);
        let own = own.filter(|_| self.table.is_own_sheet);
        let Some((word, rest)) = fate_and_rest(own.unwrap_or(cell)) else {
            self.doubt(RowClass::Other, column, cell, Why::NoStatus, out);
            return;
        };
        let on = match rest.strip_prefix("to ") {
            Some(who) if !who.trim().is_empty() => {
                first(&mut out.facts.to, Some(who.trim().to_owned()));
                None
            }
            _ if rest.is_empty() => None,
            _ => self.date(column, rest.trim_start_matches("on "), out),
        };
        let on = on.unwrap_or_else(|| "?".to_owned());
        let fate = FateRead { word, on };
        out.ends.push(End::of(column, cell, Some(fate)));
    }

    /// A column headed `died` or `sold`: a day, or a word that it did.
    pub fn left(&self, column: &ColumnTaken, word: &'static str, cell: &str, out: &mut Row) {
        let lower = cell.to_lowercase();
        if is_blank(cell) && cell != "?" || ["no", "n", "false", "0"].contains(&lower.as_str()) {
            return;
        }
        let said = ["yes", "y", "x", "true", "1", "✓", "?", word];
        let on = match said.contains(&lower.as_str()) {
            true => None,
            false => self.date(column, cell, out),
        };
        let on = on.unwrap_or_else(|| "?".to_owned());
        let fate = FateRead { word, on };
        out.ends.push(End::of(column, cell, Some(fate)));
    }

    /// What became of the plant by all its cells. Where they contradict each other, the earlier end counts if the row comes:
    /// with it the plant was gone.
    pub fn ended(&self, out: &mut Row) {
        let when = |text: &str| When::read(text, self.registry.settings.hemisphere).ok();
        let ends = std::mem::take(&mut out.ends);
        if let Some((one, other)) = contradiction(&ends, when) {
            let why = Why::Contradicts(other.heading.clone(), other.cell.clone());
            let column = self.table.columns.iter().find(|of| of.at == one.at);
            if let Some(column) = column {
                self.doubt(RowClass::Contradiction, column, &one.cell, why, out);
            }
        }
        out.facts.fate = the_end(ends, when);
    }

    /// Somebody it was sold or given to says that it went, though no day is said.
    pub fn went(&self, out: &mut Row) {
        let heading = self.table.columns.iter().find(|of| of.holds == Holds::To);
        let heading = heading
            .map(|of| of.heading.to_lowercase())
            .unwrap_or_default();
        let word = match heading.as_str() {
            words if words.contains("sold") || words.contains("buyer") => "sold",
            words if words.contains("given") => "given",
            _ => return,
        };
        if out.facts.to.is_some() && out.facts.fate.is_none() {
            let on = "?".to_owned();
            out.facts.fate = Some(FateRead { word, on });
        }
    }

    /// A plant does not leave before it comes.
    pub fn in_order(&self, out: &mut Row) {
        let when = |text: &str| When::read(text, self.registry.settings.hemisphere).ok();
        let (Some(came), Some(fate)) = (&out.facts.acquired, &out.facts.fate) else {
            return;
        };
        let (Some(came), Some(left)) = (when(came), when(&fate.on)) else {
            return;
        };
        if left.surely_before(came) {
            let found = fate.on.clone();
            let column = self
                .table
                .columns
                .iter()
                .find(|of| matches!(of.holds, Holds::Died | Holds::Sold | Holds::Given));
            if let Some(column) = column {
                self.doubt(RowClass::Other, column, &found, Why::LeftBeforeItCame, out);
            }
            if let Some(fate) = &mut out.facts.fate {
                fate.on = "?".to_owned();
            }
        }
    }
}
