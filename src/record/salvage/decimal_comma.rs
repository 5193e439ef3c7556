//! Numbers with decimal commas in a row of a sitting or in round brackets: RON reads two values for each.

use super::words::{Told, Wrong};
use crate::diagnostic::{Code, Finding};
use crate::text::Span;
use crate::text::outline::{Kind as Shape, PartId};

impl Told<'_, '_> {
    /// The two halves as one number, where the row has as many cells too many as it has such pairs. Both halves give the
    /// same finding, which is then reported once.
    pub(super) fn decimal_comma(self, wrong: &Wrong) -> Option<Finding> {
        let row = self.outline.part(wrong.part).parent()?;
        let cells: Vec<PartId> = self.outline.children(row).collect();
        let pairs = self.halves(&cells);
        let extra = cells.len().checked_sub(self.cells_of_a_row(row)?)?;
        if pairs.len() != extra {
            return None;
        }
        let of = |pair: &&[PartId; 2]| pair.contains(&wrong.part);
        let [whole, part] = *pairs.iter().find(of)?;
        let (start, end) = (self.outline.part(whole).start, self.outline.part(part).end);
        let number = [whole, part].map(|half| self.outline.slice(half));
        let finding = Finding::fault(
            Code("comma-in-number"),
            "a comma inside a number makes two cells of it",
        );
        let typed = number.join(",");
        Some(
            finding
                .at(Span::new(self.file, start..end))
                .found(format!("`{typed}`, which is read as two cells"))
                .needed("a number with a decimal point, in quotation marks")
                .write(format!("\"{}\"", number.join("."))),
        )
    }

    /// Numbers in round brackets with decimal commas in them, where there are as many pairs of halves as values too many,
    /// by the first of these.
    pub(super) fn decimal_commas(self, wrong: &Wrong) -> Option<Finding> {
        let group = self.outline.part(wrong.part).parent()?;
        let values: Vec<PartId> = self.outline.children(group).collect();
        let wanted = values.iter().position(|value| *value == wrong.part)?;
        let pairs = self.halves(&values);
        let start = self.outline.part(group).start;
        let mut text = self.outline.slice(group).to_owned();
        for [whole, _] in &pairs {
            let comma = (self.outline.part(*whole).end - start) as usize;
            text.replace_range(comma..comma + 1, ".");
        }
        let finding = Finding::fault(Code("comma-in-number"), "a comma inside a number");
        let finding = finding
            .at(Span::new(self.file, self.outline.part(group).range()))
            .found(format!("`{}`", self.outline.slice(group)))
            .needed("decimal points, since a comma ends the value");
        (pairs.len() == values.len() - wanted).then(|| finding.write(text))
    }

    /// Pairs of bare whole numbers with nothing but a comma between them.
    fn halves(self, cells: &[PartId]) -> Vec<[PartId; 2]> {
        let digits = |part: PartId| {
            let slice = self.outline.slice(part);
            self.outline.part(part).kind == Shape::Number
                && slice.bytes().all(|byte| byte.is_ascii_digit())
        };
        let adjoin = |pair: &&[PartId]| {
            let (end, start) = (
                self.outline.part(pair[0]).end,
                self.outline.part(pair[1]).start,
            );
            digits(pair[0])
                && digits(pair[1])
                && &self.outline.text()[end as usize..start as usize] == ","
        };
        let pairs = cells.windows(2).filter(adjoin);
        pairs.map(|pair| [pair[0], pair[1]]).collect()
    }

    /// How many cells the rows of the sitting have around one: the plant and one a column.
    fn cells_of_a_row(self, row: PartId) -> Option<usize> {
        let rows = self.outline.part(row).parent()?;
        let sitting = self.outline.part(rows).parent()?;
        let columns = self.outline.field(sitting, "columns")?;
        (self.outline.name(rows)? == "rows").then(|| self.outline.children(columns).count() + 1)
    }
}
