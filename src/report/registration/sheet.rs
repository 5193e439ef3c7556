//! The draft as a screen.

use super::answer::RegistrationReport;
use crate::report::caution::Weight;
use crate::report::{Report, Sheet};
use crate::wording::counted;

impl RegistrationReport {
    /// What still has to be added by hand.
    pub fn missing(&self) -> usize {
        self.items.iter().filter(|of| of.missing.is_some()).count()
    }
}

impl Report for RegistrationReport {
    fn sheet(&self) -> Sheet {
        let (id, all, open) = (&self.id, self.items.len(), self.missing());
        let asked = format!("{all} things a registration asks for");
        let still = format!("{} still to be added", counted(open, "is", "are"));
        let epithet = self.epithet.as_deref().unwrap_or("the epithet");
        let mut sheet = Sheet::new(match open {
            _ if self.refused => {
                format!("{epithet} cannot be used as the epithet of {id}; of {asked}, {still}")
            }
            0 => format!("{id}: all {asked} are on record"),
            _ => format!("{id}: of {asked}, {still} by hand"),
        });
        let add = self
            .items
            .iter()
            .filter_map(|of| Some((of.asked, Some(of.missing?.to_owned()))));
        sheet.facts(Some("To add"), add);
        let recorded = self.items.iter().filter(|of| !of.recorded.is_empty());
        let recorded = recorded.map(|of| (of.asked, Some(of.recorded.join("; "))));
        sheet.facts(Some("On record"), recorded);
        if let Some(away) = &self.away {
            sheet.caution(Weight::Answer, away.clone());
        }
        sheet.cautions(Weight::Doubt, &self.doubts);
        sheet.caution(
            Weight::Answer,
            "only the registration authority can say whether the epithet is free, and what the form must look like; ask it first",
        );
        sheet.caution(
            Weight::General,
            "this is a draft to finish by hand: `-o draft.md` writes it as a form; nothing is sent anywhere",
        );
        sheet
    }

    fn is_bad_news(&self) -> bool {
        self.refused
    }
}
