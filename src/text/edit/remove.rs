//! Edits that take something out.

use super::apply::{Edit, EditFault};
use crate::text::outline::{Kind, Outline, PartId};

impl Outline<'_> {
    /// Takes out a field or an element with its comma, and the lines it leaves empty. Comments around it stay, and so do
    /// those inside.
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
        let comments = self.comments_in(whole.clone());
        if !comments.is_empty() {
            return Ok(self.only_comments_left(around, part, comments.trim_start()));
        }
        let taken = match self.comma_after(part) {
            Some(comma) if self.is_blank(whole.end..comma) => {
                vec![self.swept(whole.start, comma + 1)]
            }
            Some(comma) => vec![self.swept(whole.start, whole.end), (comma, comma + 1)],
            None => {
                let comma = self.comma_before(around, part);
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

    /// Puts the comments inside a part in its place, and takes out its comma.
    fn only_comments_left(&self, around: PartId, part: PartId, comments: &str) -> Vec<Edit> {
        let whole = self.part(part).whole();
        let comma = self
            .comma_after(part)
            .or_else(|| self.comma_before(around, part));
        let comma = comma.map(|comma| Edit {
            start: comma,
            end: comma + 1,
            text: String::new(),
        });
        let own = Edit {
            start: whole.start,
            end: whole.end,
            text: comments.to_owned(),
        };
        comma.into_iter().chain([own]).collect()
    }

    /// The comma before the last part of a bracket.
    fn comma_before(&self, around: PartId, part: PartId) -> Option<u32> {
        let before = self.children(around).take_while(|child| *child < part);
        self.comma_after(before.last()?)
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
