//! Edits that put something in: another value, a field, an element.

use super::apply::{Edit, EditFault};
use crate::text::outline::{Kind, Outline, PartId};

/// What goes into a bracket: for a field its name and colon, else nothing; and the value.
struct New<'v> {
    name: &'v str,
    value: &'v str,
}

impl Outline<'_> {
    /// Puts another value in the place of one. Its later lines are indented as the line it goes into; comments inside the
    /// old value stay behind the new one.
    ///
    /// # Errors
    /// If `value` is not one RON value without comments around it.
    pub fn replace(&self, part: PartId, value: &str) -> Result<Edit, EditFault> {
        let place = self.part(part);
        let mut text = self.fitted(value, self.indent_of_line(place.whole().start))?;
        if place.kind.is_bracketed() {
            text.push_str(&self.comments_in(place.start..place.end));
        }
        Ok(Edit {
            start: place.start,
            end: place.end,
            text,
        })
    }

    /// Sets a field of a struct: replaces its value, or adds it after the last field.
    ///
    /// # Errors
    /// As [`Outline::replace`], or if the part is not a struct.
    pub fn set_field(
        &self,
        record: PartId,
        name: &str,
        value: &str,
    ) -> Result<Vec<Edit>, EditFault> {
        match self.field(record, name) {
            Some(field) => Ok(vec![self.replace(field, value)?]),
            None => self.insert_field(record, name, value),
        }
    }

    /// Adds a field after the last one of a struct.
    ///
    /// # Errors
    /// As [`Outline::replace`], or if the part is not a struct or has the field already, or the text has a fault of
    /// shape.
    pub fn insert_field(
        &self,
        record: PartId,
        name: &str,
        value: &str,
    ) -> Result<Vec<Edit>, EditFault> {
        if self.part(record).kind != Kind::Struct {
            return Err(EditFault::NotAStruct);
        }
        if let Some(field) = self.field(record, name) {
            return Err(EditFault::FieldExists(self.part(field).whole()));
        }
        self.put_last(
            record,
            New {
                name: &format!("{name}: "),
                value,
            },
        )
    }

    /// Adds an element after the last one of a list.
    ///
    /// # Errors
    /// As [`Outline::replace`], or if the part is not a list, or the text has a fault of shape.
    pub fn append(&self, list: PartId, value: &str) -> Result<Vec<Edit>, EditFault> {
        if self.part(list).kind != Kind::List {
            return Err(EditFault::NotAList);
        }
        self.put_last(list, New { name: "", value })
    }

    /// Adds elements after the last one of a list that has some: each in a line of its own where the last one begins its
    /// line, else in the same line.
    ///
    /// # Errors
    /// As [`Outline::append`], or if the list is empty.
    pub fn append_more(&self, list: PartId, values: &[String]) -> Result<Edit, EditFault> {
        self.sound()?;
        let last = self.children(list).last().ok_or(EditFault::NotAList)?;
        let end = self.part(last).end;
        let (between, indent) = match self.begins_line(last) {
            true => {
                let indent = self.indent_of_line(self.part(last).whole().start);
                (format!("{}{indent}", self.line_break()), indent)
            }
            false => (" ".to_owned(), self.indent_of_line(end)),
        };
        let mut text = String::new();
        for value in values {
            text.push(',');
            text.push_str(&between);
            text.push_str(&self.fitted(value, indent)?);
        }
        Ok(Edit {
            start: end,
            end,
            text,
        })
    }

    fn put_last(&self, bracket: PartId, new: New) -> Result<Vec<Edit>, EditFault> {
        self.sound()?;
        let place = self.part(bracket);
        let close = place.end - 1;
        match self.children(bracket).last() {
            None if !self.has_break(place.open..close) => self.put_in_empty(bracket, new),
            Some(last)
                if !self.has_break(self.part(last).end..close) && !self.begins_line(last) =>
            {
                self.put_in_line(bracket, last, new)
            }
            last => self.put_in_lines(bracket, last, new),
        }
    }

    /// Into `[]`, or `[ /* a comment */ ]`.
    fn put_in_empty(&self, bracket: PartId, new: New) -> Result<Vec<Edit>, EditFault> {
        let place = self.part(bracket);
        let (open, close) = (place.open + 1, place.end - 1);
        let value = self.fitted(new.value, self.indent_of_line(place.open))?;
        let blank = if self.is_blank(open..close) { "" } else { " " };
        let at = self.before_blanks(open..close);
        Ok(vec![Edit {
            start: at,
            end: at,
            text: format!("{blank}{}{value}", new.name),
        }])
    }

    /// After the last value, in the same line.
    fn put_in_line(&self, bracket: PartId, last: PartId, new: New) -> Result<Vec<Edit>, EditFault> {
        let (close, end) = (self.part(bracket).end - 1, self.part(last).end);
        let value = self.fitted(new.value, self.indent_of_line(close))?;
        let comma = self.comma_after(last);
        let at = self.before_blanks(comma.map_or(end, |comma| comma + 1)..close);
        let trailing = if comma.is_some() { "," } else { "" };
        let put = Edit {
            start: at,
            end: at,
            text: format!(" {}{value}{trailing}", new.name),
        };
        Ok(missing_comma(comma, end).into_iter().chain([put]).collect())
    }

    /// After the last value and the comments after it, in a line of its own.
    fn put_in_lines(
        &self,
        bracket: PartId,
        last: Option<PartId>,
        new: New,
    ) -> Result<Vec<Edit>, EditFault> {
        let place = self.part(bracket);
        let close = place.end - 1;
        let indent = match self
            .children(bracket)
            .filter(|child| self.begins_line(*child))
            .last()
        {
            Some(child) => self
                .indent_of_line(self.part(child).whole().start)
                .to_string(),
            None => format!("{}{}", self.indent_of_line(place.open), self.indent_step()),
        };
        let value = self.fitted(new.value, &indent)?;
        let comma = last.and_then(|last| self.comma_after(last));
        let at = self.line_end_before(place.open + 1..close);
        let trailing = if comma.is_some() || last.is_none() {
            ","
        } else {
            ""
        };
        let line_break = self.line_break();
        // A closing bracket in the line of its opening one's comment must come into a line of its own.
        let shut = if self.has_break(at..close) || last.is_some() {
            ""
        } else {
            line_break
        };
        let text = format!("{line_break}{indent}{}{value}{trailing}{shut}", new.name);
        let put = Edit {
            start: at,
            end: at,
            text,
        };
        let missing = last.and_then(|last| missing_comma(comma, self.part(last).end));
        Ok(missing.into_iter().chain([put]).collect())
    }
}

/// The comma to put after the last value if it has none.
fn missing_comma(comma: Option<u32>, end: u32) -> Option<Edit> {
    let put = Edit {
        start: end,
        end,
        text: ",".to_string(),
    };
    comma.is_none().then_some(put)
}
