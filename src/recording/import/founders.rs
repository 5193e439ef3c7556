//! What founders and seedlings that come in have in common, and the record of a founder.

use crate::analysis::import::{ELSEWHERE, RowFacts};
use crate::record::Sex;
use crate::recording::written::RonRecord;

/// A plant of a row with everything that further rows say of it.
pub(super) struct NewPlant<'i> {
    /// Its own row.
    pub facts: &'i RowFacts,
    /// The row that says what became of it, its own or a further one.
    pub gone: Option<&'i RowFacts>,
    /// The cells of all its rows.
    pub sources: Vec<&'i str>,
}

impl<'i> NewPlant<'i> {
    /// A plant as its own row has it.
    pub fn of(facts: &'i RowFacts, source: &'i str) -> NewPlant<'i> {
        NewPlant {
            facts,
            gone: gone(facts),
            sources: vec![source],
        }
    }

    /// Adds what a further row says.
    pub fn add(&mut self, facts: &'i RowFacts, source: &'i str) {
        self.gone = self.gone.or(gone(facts));
        self.sources.push(source);
    }

    /// The fields behind the name of the plant.
    pub fn parts(&self, record: RonRecord) -> RonRecord {
        let facts = self.facts;
        let fate = self.gone.and_then(fate_record);
        record
            .value_if("flowerings", facts.sex.map(flowering))
            .value_if("pots", pot(facts).map(|pot| format!("[{pot}]")))
            .value_if("fate", fate)
            .value_if("kept", facts.kept.then_some("()"))
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

fn gone(facts: &RowFacts) -> Option<&RowFacts> {
    facts.fate.is_some().then_some(facts)
}

/// What became of a plant, as the files write it; none where a row does not say it.
pub(super) fn fate_record(facts: &RowFacts) -> Option<String> {
    let fate = facts.fate.as_ref()?;
    let record = RonRecord::new().text("on", &fate.on);
    let why = match fate.word {
        "died" => "cause",
        "culled" => "reason",
        "lost" => "note",
        ELSEWHERE => return Some(ELSEWHERE.to_owned()),
        _ => {
            let record = record
                .text_if("label", facts.left_label.as_ref())
                .text_if("to", facts.to.as_ref())
                .text_if("price", facts.price.as_ref());
            return Some(record.named(fate.word));
        }
    };
    let record = record.text_if(why, fate.cause.as_ref());
    Some(record.named(fate.word))
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
