//! Tags as a list: what each says at the size asked for.

use super::sheet::{Report, Sheet, Table};
use crate::analysis::tags::Tags;
use crate::wording::counted;

impl Report for Tags {
    fn sheet(&self) -> Sheet {
        let count = counted(self.tags.len(), "tag", "tags");
        let mut sheet = Sheet::new(format!(
            "{count} of {} as they would be printed; `-o tags.pdf` writes them",
            self.size
        ));
        // A tag is of a plant, which has a sex, or of a tray, which has a count.
        let is_trays = self.tags.iter().any(|tag| tag.count.is_some());
        let last = if is_trays { "holds" } else { "sex" };
        let mut table = Table::new(&["tag", "name on it", "parents", "sown", last]);
        for tag in &self.tags {
            let name = tag.printed.map(|version| tag.names[version].plain());
            let sown = tag.sown.as_deref();
            let sown = sown.map(|sown| sown.trim_start_matches("sown ").to_owned());
            table.row(vec![
                tag.id.as_str().into(),
                name.into(),
                tag.parents.clone().into(),
                sown.into(),
                match is_trays {
                    true => tag.count.clone().into(),
                    false => tag.sex.into(),
                },
            ]);
        }
        sheet.table(table);
        sheet
    }
}
