//! A species: what the list of this registry says of it.

use super::answer::ShowReport;
use super::screen::Screen;
use crate::record::Sureness;
use crate::report::caution::{RankedCaution, Weight};
use crate::report::fact::fact;

impl Screen<'_, '_, '_> {
    /// A species of the registry's list.
    pub fn species(&self, epithet: &str) -> ShowReport {
        let Some(row) = self
            .registry
            .taxa
            .species
            .iter()
            .find(|row| row.epithet == epithet)
        else {
            return ShowReport::default();
        };
        let sureness = match row.sureness {
            Sureness::High => "high",
            Sureness::Medium => "medium",
            Sureness::Low => "low",
            Sureness::Unsaid => "not said",
        };
        let facts = [
            fact("authors", row.authors.as_deref()),
            fact("year", row.year.map(|year| year.to_string())),
            fact(
                "altitude of wild plants",
                row.elevation_m.map(|(low, high)| format!("{low}–{high} m")),
            ),
            fact("area", row.area.as_deref()),
            fact("treaty appendix, by the list used", row.appendix),
            fact("status", row.status.as_deref().map(in_words)),
            fact("how sure all this is", Some(sureness)),
            fact("evidence", row.evidence.as_deref().map(in_words)),
            fact("source", row.source.as_deref()),
            fact("note", row.note.as_deref()),
        ];
        let doubt = self.names.vocabulary().doubt(epithet).into_iter().collect();
        let mut cautions: Vec<RankedCaution> = RankedCaution::doubts(doubt).collect();
        if row.appendix.is_some() {
            cautions.push(RankedCaution::new(
                Weight::General,
                "lists change and countries may be stricter: ask your CITES management authority",
            ));
        }
        ShowReport {
            id: epithet.to_owned(),
            what: "species",
            name: format!("{} {epithet}", self.names.vocabulary().genus_short()),
            facts: facts.into_iter().flatten().collect(),
            cautions,
            ..ShowReport::default()
        }
    }
}

/// The words of the starter list as a reader would say them; those of other lists as they stand.
fn in_words(of_list: &str) -> &str {
    match of_list {
        "believed-accepted" => "believed to be an accepted name",
        "partly-confirmed" => "partly confirmed by a source",
        "confirmed" => "confirmed by a source",
        "disputed-or-unconfirmed" => "disputed or unconfirmed",
        "memory" => "from memory, checked against no source",
        other => other,
    }
}
