//! A plant arrives: a founder with a code of the grower's own and the name it came under.

use super::place::first_piece;
use crate::recording::codes::{free_founder_code, given_or, reads_as_another};
use crate::recording::draft::Draft;
use crate::recording::names::names_taken_in;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::recording::written::RonRecord;

/// A founder that came.
#[derive(Clone, Debug, Default)]
pub struct Add {
    /// Its code; the next free one of its species if not given.
    pub code: Option<String>,
    /// The name it came under, letter by letter.
    pub name: String,
    /// Whom it came from; private.
    pub from: Option<String>,
    /// What it came as: a word of the files, such as `cutting`.
    pub form: Option<&'static str>,
    /// How its name is known: a word of the files, such as `tag`.
    pub known_by: Option<&'static str>,
    /// The supplier's code.
    pub supplier_code: Option<String>,
    /// The same words on two founders mean one batch of seed.
    pub batch: Option<String>,
    /// Where the line was collected, as claimed.
    pub locality: Option<String>,
    /// Papers that came with it.
    pub papers: Option<String>,
    /// Where it stands.
    pub place: Option<String>,
    /// When it came; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Add {
    /// Writes the founder.
    ///
    /// # Errors
    /// If the code cannot be one or is taken, there is no name, or the date cannot be read.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let name = self.name.trim();
        if name.is_empty() {
            return Err(Slip::missing(
                "the name the plant came under",
                "it in quotes, such as \"N. ventricosa\"; write \"?\" when there was no label",
            ));
        }
        if self.code.is_none() && is_form_of_code(name) {
            return Err(Slip::missing(
                &format!("the name that {name} came under"),
                Words::or(
                    format!("it in quotes behind the code, such as {name} \"N. ventricosa\""),
                    format!("{name} as the code, and the name on its label"),
                ),
            ));
        }
        if name == "?" && self.known_by == Some("tag") {
            return Err(Slip::contradicts(
                "--known-by tag",
                "\"?\" says that there was no label",
                "write the name on the tag, or leave --known-by out",
            ));
        }
        let code = given_or(registry, ("plant", self.code.as_deref()), || {
            free_founder_code(registry, name)
        })?;
        let on = draft.day(&self.on)?;
        let record = RonRecord::new()
            .text("code", &code)
            .text("received", name)
            .text_if("from", self.from.as_ref())
            .text("on", &on.text)
            .value_if("form", self.form)
            .text_if("supplier_code", self.supplier_code.as_ref())
            .text_if("batch", self.batch.as_ref())
            .value_if("confidence", self.known_by)
            .text_if("locality", self.locality.as_ref())
            .text_if("papers", self.papers.as_ref())
            .text_if("note", self.note.as_ref())
            .value_if("ramets", self.place.as_deref().map(first_piece));
        let mut remarks = names_taken_in(draft, name)?;
        remarks.extend(reads_as_another(registry, &code));
        draft.clones()?.append("clones", &[record.line()])?;
        let (about, name) = (vec![code.clone()], name.to_owned());
        let recorded = Recorded::of(
            What::Arrived {
                code: code.clone(),
                name,
            },
            about,
            on.text,
        );
        Ok(recorded.tag(code, "tag").remarks(remarks))
    }
}

/// Whether a word has the form of the codes that podbook gives to founders, such as `Ven9`: then the name was left out.
fn is_form_of_code(word: &str) -> bool {
    let letters = word.trim_end_matches(|c: char| c.is_ascii_digit());
    let is_numbered = letters.len() < word.len();
    is_numbered && !letters.is_empty() && letters.chars().all(char::is_alphabetic)
}
