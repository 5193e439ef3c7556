//! Tags as a list: what each says at the size asked for.

use super::cell::Cell;
use super::sheet::{Report, Sheet};
use super::table::Table;
use crate::analysis::tags::Tags;
use crate::wording::counted;

impl Report for Tags {
    fn sheet(&self) -> Sheet {
        let count = counted(self.tags.len(), "tag", "tags");
        let mut sheet = Sheet::new(format!(
            "{count} of {}, as printed; `-o tags.pdf` writes them",
            self.size
        ));
        // A tag is of a plant, which has a sex, or of a tray, which has a count.
        let is_trays = self.tags.iter().any(|tag| tag.count.is_some());
        let last = if is_trays { "holds" } else { "sex" };
        sheet.table(
            Table::of(&self.tags)
                .text("tag", |tag| &tag.id)
                .text("name on it", |tag| {
                    tag.printed.map(|version| tag.names[version].plain())
                })
                .text("parents", |tag| &tag.parents)
                .text("sown", |tag| {
                    Some(tag.sown.as_deref()?.trim_start_matches("sown "))
                })
                .text(last, |tag| match is_trays {
                    true => Cell::from(&tag.count),
                    false => Cell::from(tag.sex),
                }),
        );
        sheet
    }
}
