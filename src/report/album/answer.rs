//! What was written, in words.

use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::wording::{counted, listed};
use serde::Serialize;

/// What an album for anybody leaves out, a line each.
pub const LEFT_OUT: [&str; 5] = [
    "where plants came from and who has them now, prices, and the grower's name and contact",
    "the names of places and shelves, and treatments on record for a place alone",
    "remarks, reasons, the words on tags of plants that left, and who read or named a plant",
    "papers, claims about places in the wild, suppliers' codes and words of batches",
    "the season's work and what `podbook check` finds",
];

/// An album that was written.
#[derive(Serialize)]
pub struct AlbumReport {
    /// The folder.
    pub folder: String,
    /// Pages in it.
    pub pages: usize,
    /// Plants with a page.
    pub plants: usize,
    /// Crosses with a page.
    pub crosses: usize,
    /// Photos in it.
    pub photos: usize,
    /// What was left out because others are to read it, a line each; empty for the grower's own.
    pub left_out: Vec<&'static str>,
}

impl Report for AlbumReport {
    fn sheet(&self) -> Sheet {
        let parts = [
            counted(self.plants, "plant", "plants"),
            counted(self.crosses, "cross", "crosses"),
            counted(self.photos, "photo", "photos"),
        ];
        let mut sheet = Sheet::new(format!(
            "Wrote an album of {} into {}: open index.html in it with a browser",
            listed(&parts),
            self.folder
        ));
        let left_out = self.left_out.iter().copied();
        sheet.lines(Some("Left out, since others may read it"), left_out);
        let look = match self.left_out.is_empty() {
            true => "suppliers, places and remarks are in it: for others make one with --public",
            false => {
                "names as received, nicknames, photos and what plants were treated with are shown as recorded: look through them before you publish"
            }
        };
        sheet.caution(Weight::Answer, look);
        sheet
    }
}
