//! Tags as a list: what each would say in full, before any of it has to find room.

use super::sheet::{Report, Sheet, Table};
use crate::analysis::tags::Tags;
use crate::wording::counted;

impl Report for Tags {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(counted(self.tags.len(), "tag", "tags"));
        let mut table = Table::new(&["tag", "name", "parents", "sown", "sex"]);
        for tag in &self.tags {
            let name = tag.names.first().map(|name| name.plain());
            let sown = tag.sown.as_deref();
            let sown = sown.map(|sown| sown.trim_start_matches("sown ").to_owned());
            table.row(vec![
                tag.id.as_str().into(),
                name.into(),
                tag.parents.clone().into(),
                sown.into(),
                tag.sex.into(),
            ]);
        }
        sheet.table(table);
        sheet
    }
}
