//! What founders and seedlings that come in have in common, and the record of a founder.

use crate::analysis::import::{FateRead, RowFacts};
use crate::record::Sex;
use crate::recording::written::RonRecord;

/// A plant of a row with everything that further rows say of it.
pub(super) struct NewPlant<'i> {
    /// Its own row.
    pub facts: &'i RowFacts,
    /// What became of it, by its own row or a further one.
    pub fate: Option<(&'i FateRead, Option<&'i str>)>,
    /// The cells of all its rows.
    pub sources: Vec<&'i str>,
}

impl<'i> NewPlant<'i> {
    /// A plant as its own row has it.
    pub fn of(facts: &'i RowFacts, source: &'i str) -> NewPlant<'i> {
        NewPlant {
            facts,
            fate: fate_of(facts),
            sources: vec![source],
        }
    }

    /// Adds what a further row says.
    pub fn add(&mut self, facts: &'i RowFacts, source: &'i str) {
        self.fate = self.fate.or(fate_of(facts));
        self.sources.push(source);
    }

    /// The fields behind the name of the plant.
    pub fn parts(&self, record: RonRecord) -> RonRecord {
        let facts = self.facts;
        let fate = self.fate.map(|(fate, to)| fate_record(fate, to));
        record
            .value_if("flowerings", facts.sex.map(flowering))
            .value_if("pots", pot(facts).map(|pot| format!("[{pot}]")))
            .value_if("fate", fate)
            .text("note", &self.sources.join(" "))
    }

    /// The record of a founder under a code and a name.
    pub fn founder(&self, code: &str, name: &str) -> String {
        let facts = self.facts;
        let at = facts.place.as_ref().map(|place| {
            let ramet = RonRecord::new().text("code", "a").value("made", "original");
            format!("[{}]", ramet.text("place", place).line())
        });
        let confidence = if name == "?" { "unknown" } else { "claim" };
        let record = RonRecord::new()
            .text("code", code)
            .text("received", name)
            .text_if("from", facts.supplier.as_ref())
            .text_if("on", facts.acquired.as_ref())
            .value_if("form", facts.form)
            .text_if("supplier_code", facts.supplier_code.as_ref())
            .value("confidence", confidence)
            .text_if("locality", facts.locality.as_ref())
            .value_if("ramets", at);
        self.parts(record).line()
    }
}

fn fate_of(facts: &RowFacts) -> Option<(&FateRead, Option<&str>)> {
    facts.fate.as_ref().map(|fate| (fate, facts.to.as_deref()))
}

/// What became of a plant, as the files write it.
pub(super) fn fate_record(fate: &FateRead, to: Option<&str>) -> String {
    let to = to.filter(|_| matches!(fate.word, "sold" | "given"));
    let why = match fate.word {
        "died" => Some("cause"),
        "culled" => Some("reason"),
        _ => None,
    };
    let record = RonRecord::new().text("on", &fate.on).text_if("to", to);
    let record = match (why, &fate.cause) {
        (Some(why), Some(cause)) => record.text(why, cause),
        _ => record,
    };
    record.named(fate.word)
}

/// A sex without the day and the way it was seen.
fn flowering(sex: Sex) -> String {
    let record = RonRecord::new()
        .value("sex", sex.word())
        .value("seen_by", "unsaid");
    format!(
        "[{}]",
        record
            .text("note", "the table does not say when or how it was seen")
            .line()
    )
}

fn pot(facts: &RowFacts) -> Option<String> {
    let pot = facts.pot.as_ref()?;
    let on = facts.potted.as_deref().unwrap_or("?");
    Some(RonRecord::new().text("on", on).text("pot", pot).line())
}
