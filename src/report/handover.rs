//! A lineage handed over, and one that is verified.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use crate::recording::handover::grouped;
use crate::wording::{counted, joined, listed};
use serde::Serialize;

/// What was not compared beside the pages.
const BESIDE: &str = "(the .ron pages), not the card, the pedigree or pictures beside them: `podbook card` in the folder writes the card anew from the records";
/// What is left out on these pages.
const NOT_COMPARED: &str = "The same day written in two ways counts as equal, and order does not count. Not compared: who recorded what (`told_by`), and settings in registry.ron that change no name and no date";
/// What a fingerprint of the first form does not cover.
const RECORDS_ONLY: &str = "This fingerprint was taken by an earlier podbook. Not compared: the names in species.ron and the hemisphere in registry.ron, by which labels and seasons are read, and the words above the records in lineage.txt. In it the order of records counts, and the spelling of dates. A plant that is handed over anew has a fingerprint that covers names and seasons too";

/// A lineage that was written into a folder.
#[derive(Serialize)]
pub struct HandoverReport {
    /// Code of the plant.
    pub plant: String,
    /// The folder.
    pub folder: String,
    /// The same packed into one file, where that was asked for.
    pub zip: Option<String>,
    /// The fingerprint, sixteen hexadecimal digits.
    pub fingerprint: String,
    /// Founders, seedlings and crosses in it.
    pub founders: usize,
    /// Seedlings in it, the plant itself among them.
    pub seedlings: usize,
    /// Crosses in it.
    pub crosses: usize,
    /// Code of the plant or the piece that was named.
    #[serde(skip)]
    pub named: String,
    /// What became of that, where it is no longer here.
    pub gone: Option<String>,
    /// The files, in the order in which they were written.
    pub files: Vec<String>,
}

impl Report for HandoverReport {
    fn sheet(&self) -> Sheet {
        let parts = [
            counted(self.founders, "founder", "founders"),
            counted(self.seedlings, "seedling", "seedlings"),
            counted(self.crosses, "cross", "crosses"),
        ];
        let mut sheet = Sheet::new(format!(
            "Wrote the lineage of {} into {}: {}",
            self.plant,
            self.folder,
            listed(&parts)
        ));
        let files = self.files.iter();
        let with_it =
            files.filter(|file| file.starts_with("card.") || file.starts_with("pedigree."));
        sheet.facts(
            None,
            [
                ("fingerprint", Some(grouped(&self.fingerprint))),
                ("with it", Some(joined(with_it, ", "))),
                ("packed", self.zip.clone()),
            ],
        );
        let gone = self.gone.iter();
        let gone = gone.map(|gone| format!("{} is no longer here: {gone}", self.named));
        sheet.cautions(Weight::Answer, gone);
        sheet.caution(
            Weight::General,
            "Left out: suppliers, buyers, prices, places, goals, notes, photos but the one on the card, and names of species that the lineage does not have. Kept, as part of the facts: words of tags, localities, words of batches, what opinions are based on, where an epithet was looked up, and codes of other registries. Read it before you hand it over",
        );
        sheet.caution(
            Weight::General,
            "The fingerprint shows that a lineage was not changed; it does not prove that it is true",
        );
        sheet
    }
}

/// A folder that was compared with its fingerprint.
#[derive(Serialize)]
pub struct VerifiedReport {
    /// Code of the plant.
    pub plant: String,
    /// The fingerprint that is printed in the folder.
    pub printed: String,
    /// The fingerprint of the pages as they are; none when the plant is not on them.
    pub found: Option<String>,
    /// The fingerprint asked about, when one was given.
    pub asked: Option<String>,
    /// Records that differ from those the fingerprint was taken of.
    pub differ: Vec<String>,
    /// Whether the records in the folder are those the printed fingerprint was taken of.
    pub sheet_is_whole: bool,
    /// The piece that lineage.txt names above its records, where none of them says so.
    pub piece_not_covered: Option<String>,
    /// Whether the fingerprint is of the first form, which does not cover what labels and seasons mean.
    pub is_of_records_only: bool,
}

impl VerifiedReport {
    /// Whether everything belongs together.
    pub fn belongs_together(&self) -> bool {
        let asked = self
            .asked
            .as_ref()
            .is_none_or(|asked| *asked == self.printed);
        asked && self.folder_agrees()
    }

    /// Whether the pages and the records are those of the printed fingerprint, whatever digits were asked about.
    fn folder_agrees(&self) -> bool {
        self.sheet_is_whole && self.found.as_ref() == Some(&self.printed)
    }
}

impl Report for VerifiedReport {
    fn sheet(&self) -> Sheet {
        let shown = |digits: &String| grouped(digits);
        let (plant, printed) = (&self.plant, grouped(&self.printed));
        let asked = self.asked.as_ref().map(shown);
        let mut sheet = Sheet::new(match (&asked, self.belongs_together()) {
            (_, true) => format!("{plant}: the records match the fingerprint"),
            (Some(asked), false) if self.folder_agrees() => format!(
                "{plant}: the digits you typed, {asked}, are not the fingerprint of this folder, {printed}: mistyped, or from another card"
            ),
            (_, false) => {
                format!("{plant}: the records do not match the fingerprint")
            }
        });
        let found = self.found.as_ref().map(shown);
        let found = found.unwrap_or_else(|| "the plant is not on them".to_owned());
        sheet.facts(
            None,
            [
                ("fingerprint", Some(printed)),
                ("asked about", asked),
                ("of the pages", Some(found)),
            ],
        );
        sheet.lines(
            (!self.differ.is_empty()).then_some("Records that differ"),
            self.differ.clone(),
        );
        if !self.sheet_is_whole {
            sheet.caution(
                Weight::Answer,
                "lineage.txt itself was changed: its records do not match its fingerprint, or its words are not those podbook writes",
            );
        }
        let piece = self.piece_not_covered.iter();
        let piece = piece.map(|piece| {
            format!("lineage.txt names the piece {piece}, but this fingerprint does not cover which piece came")
        });
        sheet.cautions(Weight::Answer, piece);
        if self.is_of_records_only {
            sheet.caution(Weight::Answer, RECORDS_ONLY);
        }
        let names = match self.is_of_records_only {
            true => "",
            false => " and the names they are read by",
        };
        let compared = format!("podbook compared the records{names} {BESIDE}");
        sheet.caution(Weight::Answer, compared);
        if !self.is_of_records_only {
            sheet.caution(Weight::General, NOT_COMPARED);
        }
        sheet.caution(
            Weight::General,
            "This says nothing about whether the lineage is true: the grower who recorded it answers for that",
        );
        sheet
    }

    fn is_bad_news(&self) -> bool {
        !self.belongs_together()
    }
}
