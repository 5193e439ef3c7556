//! Where words stand, as a person reads it.

use crate::analysis::find::{Field, FindReport, RecordKind};
use crate::report::as_text::in_words;
use crate::report::caution::Weight;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{counted, listed};

in_words!(RecordKind {
    RecordKind::Founder => "founder",
    RecordKind::Seedling => "seedling",
    RecordKind::Ramet => "piece",
    RecordKind::Cross => "cross",
    RecordKind::Zone => "zone",
    RecordKind::Pod => "pod",
    RecordKind::SeedLot => "seed lot",
    RecordKind::Sowing => "sowing",
    RecordKind::CommunityPot => "community pot",
    RecordKind::Pollen => "pollen",
    RecordKind::Sitting => "sitting",
    RecordKind::Species => "species",
    RecordKind::Place => "place",
});

in_words!(Field {
    Field::Code => "code",
    Field::Name => "name",
    Field::Received => "received as",
    Field::Nickname => "nickname",
    Field::Epithet => "epithet",
    Field::Label => "label",
    Field::Goal => "goal",
    Field::Place => "place",
    Field::Treated => "treated",
    Field::Spike => "spike",
    Field::MixedUp => "mixed up",
    Field::From => "from",
    Field::To => "to",
    Field::Note => "note",
});

impl Report for FindReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        sheet.table_if_any(
            Table::of(&self.hits)
                .text("code", |hit| &hit.code)
                .text("record", |hit| hit.record.to_string())
                .text("field", |hit| hit.field.to_string())
                .text("words around", |hit| &hit.around),
        );
        sheet.cautions(Weight::Doubt, &self.cautions);
        sheet
    }
}

impl FindReport {
    fn answer(&self) -> String {
        let words: Vec<String> = self.words.iter().map(|word| format!("`{word}`")).collect();
        let words = listed(&words);
        let of = counted(self.records, "record", "records");
        if !self.unread.is_empty() {
            return format!(
                "{words} was not found, and may be on a page that could not be read: {}",
                self.unread.join("; ")
            );
        }
        match (&self.hits[..], &self.near[..]) {
            ([], []) => format!("None of {of} holds {words}"),
            ([], near) => format!(
                "None of {of} holds {words}; nearest codes: {}",
                listed(near)
            ),
            ([only], _) => format!("1 of {of} holds {words}: {}", only.code),
            (all, _) => format!(
                "{} of {of} hold {words}; the first is {}",
                all.len(),
                all[0].code
            ),
        }
    }
}
