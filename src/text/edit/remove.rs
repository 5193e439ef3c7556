//! Edits that take something out.

use super::apply::{Edit, EditFault};
use crate::text::outline::{Kind, Outline, PartId};

impl Outline<'_> {
    /// Takes out a field or an element with its comma, and the lines it leaves empty. Comments around it stay.
    ///
    /// # Errors
    /// If the part is the whole text's value, a key or value of a map, or the text has a fault of shape.
    pub fn remove(&self, part: PartId) -> Result<Vec<Edit>, EditFault> {
        self.sound()?;
        let around = self.part(part).parent().ok_or(EditFault::Outermost)?;
        if self.part(around).kind == Kind::Map {
            return Err(EditFault::NotAList);
        }
        let whole = self.part(part).whole();
        let taken = match self.comma_after(part) {
            Some(comma) if self.is_blank(whole.end..comma) => {
                vec![self.swept(whole.start, comma + 1)]
            }
            Some(comma) => vec![self.swept(whole.start, whole.end), (comma, comma + 1)],
            None => {
                let before = self
                    .children(around)
                    .take_while(|child| *child < part)
                    .last();
                let comma = before.and_then(|before| self.comma_after(before));
                let own = self.swept_back(whole.start, whole.end);
                comma
                    .map(|comma| (comma, comma + 1))
                    .into_iter()
                    .chain([own])
                    .collect()
            }
        };
        let edit = |(start, end)| Edit {
            start,
            end,
            text: String::new(),
        };
        Ok(taken.into_iter().map(edit).collect())
    }

    /// A range with the blanks after it, or with its whole lines if nothing else stands there.
    fn swept(&self, start: u32, end: u32) -> (u32, u32) {
        self.whole_lines(start, end)
            .unwrap_or_else(|| (start, self.after_blanks_in_line(end)))
    }

    /// A range with the blanks before it, or with its whole lines if nothing else stands there.
    fn swept_back(&self, start: u32, end: u32) -> (u32, u32) {
        self.whole_lines(start, end)
            .unwrap_or_else(|| (self.before_blanks_in_line(start), end))
    }
}
