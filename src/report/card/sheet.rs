//! A card as text, to paste where no picture can go.

use super::answer::{Ancestor, Card, CardPhoto, TraitSeen};
use crate::report::fact::Fact;
use crate::report::{Report, Sheet, Weight};
use crate::wording::led_by;

/// Heading of the traits.
pub const TRAITS: &str = "As observed (may change)";

impl Card {
    /// The name without its italics.
    pub fn plain_name(&self) -> String {
        self.name.iter().map(|run| run.text.as_str()).collect()
    }

    /// Heading of the traits; of a piece it says that they were read on the whole plant.
    pub fn traits_heading(&self) -> String {
        match self.traits_of_the_whole {
            true => format!("{TRAITS}; which of its pieces was read is not recorded"),
            false => TRAITS.to_owned(),
        }
    }

    /// How surely the descent is known, with the weakest link where the sentence has more than one.
    pub fn evidence_lines(&self) -> Vec<String> {
        let mut lines = vec![self.evidence.words.clone()];
        if !self.weakest.is_empty() && self.evidence.words.contains("; ") {
            lines.push(format!("weakest link: {}", self.weakest));
        }
        lines.push(format!("fingerprint of its lineage: {}", self.fingerprint));
        lines
    }
}

impl TraitSeen {
    /// `4 clear bands, 2025-05-10, lower pitcher; 17 siblings: 1 to 4`.
    pub fn words(&self) -> String {
        let siblings = led_by("; ", self.siblings.as_ref());
        format!("{}, {}{siblings}", self.value, self.when)
    }
}

impl Ancestor {
    /// `♀ X18-01-4: N. …`, set in by its generation.
    pub fn words(&self) -> String {
        let side = self.side.map(|side| format!("{side} ")).unwrap_or_default();
        let name = Some(self.plain_name()).filter(|name| !name.is_empty());
        let name = led_by(": ", name);
        let indent = "   ".repeat(self.generation.saturating_sub(1));
        format!("{indent}{side}{}{name}", self.clone)
    }
}

impl Report for Card {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(format!("{}: {}", self.id, self.plain_name()));
        let mut first = vec![("also", self.also.clone())];
        let photo = self.photo.as_ref();
        first.push(("photo of this plant", photo.map(CardPhoto::taken)));
        first.extend(self.facts.iter().map(Fact::told));
        sheet.facts(None, first);
        let traits = self
            .traits
            .iter()
            .map(|of| (of.name.as_str(), Some(of.words())));
        sheet.facts(Some(&self.traits_heading()), traits);
        sheet.lines(Some("Evidence"), self.evidence_lines());
        let pedigree = self.ancestors.iter().map(Ancestor::words);
        sheet.lines(Some("Parents and their parents"), pedigree);
        sheet.facts(Some("Kept"), self.kept.iter().map(Fact::told));
        sheet.lines(Some("Grower"), self.grower.clone());
        sheet.cautions(Weight::Answer, &self.cautions);
        sheet
    }
}
