//! What a plant, pod or cross is truthfully called.

use super::caution::Weight;
use super::read::{NoteRow, hybrid_name_line};
use super::sheet::{Report, Sheet};
use crate::analysis::evidence::{EvidenceRow, evidence_row, probable_father};
use crate::analysis::hybrid_names::{HybridName, hybrid_names};
use crate::analysis::name::{self, Labels, LeftOut, NameAnswer, NameError, NameWishes, Tag};
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::{Formula, Rung, Writing, botanical, breeder, fit, purdy};
use crate::wording::{joined_if_any, quoted};
use serde::Serialize;

/// Characters from which on a formula is too long to be the first line: ten lines of 80.
const LONG_FORMULA: usize = 800;

/// Characters of the short form that then stands there.
const SHORT_FORMULA: usize = 240;

/// The name of one thing; every text in the style asked for.
#[derive(Serialize)]
pub struct NameReport {
    /// Code asked for.
    pub id: String,
    /// Breeder order with its basis.
    pub breeder: Option<String>,
    /// What stands on the first line in the place of a breeder order of more than ten lines.
    pub short: Option<String>,
    /// Botanical order.
    pub botanical: Option<String>,
    /// Purdy notation.
    pub purdy: Option<String>,
    /// The version for a tag, when one was asked for.
    pub tag: Option<TagText>,
    /// How surely its descent is known.
    pub evidence: EvidenceRow,
    /// The name or label as received, letter by letter.
    pub received: Option<String>,
    /// A nickname.
    pub nickname: Option<String>,
    /// Cultivar epithet of this very clone, in single quotes.
    pub cultivar: Option<String>,
    /// Hybrid names with exactly these parents.
    pub names: Vec<HybridName>,
    /// Facts to heed.
    pub notes: Vec<NoteRow>,
}

/// A text for a tag.
#[derive(Serialize)]
pub struct TagText {
    /// The text.
    pub text: String,
    /// What was left out.
    pub left_out: Vec<&'static str>,
}

/// Names one thing.
///
/// # Errors
/// In words, when the code names nothing that has a formula, or nothing fits the tag.
pub fn name(context: &Context, id: &str, wishes: NameWishes) -> Result<NameReport, String> {
    let unit = context.registry.target(id).and_then(Unit::of);
    let unit =
        unit.ok_or_else(|| format!("`{id}` is neither a plant, a pod nor a cross on record"))?;
    let answer = name::name(context, (unit, id), wishes);
    let answer = answer.map_err(|NameError::TagTooShort { most, least }| {
        format!(
            "not even the code alone fits {most} characters; a tag for {id} needs at least {least}"
        )
    })?;
    Ok(NameReport::of(context, (id, answer), wishes))
}

impl NameReport {
    fn of(context: &Context, (id, answer): (&str, NameAnswer), wishes: NameWishes) -> NameReport {
        let (evidence, names) = (context.evidence(), context.names());
        let writing = wishes.writing(context);
        let formula = &answer.formula;
        let say = |text: String| wishes.style.written(&text);
        let doubt = probable_father(evidence, answer.unit);
        let with_doubt = |text: String| text + doubt;
        let full = breeder(formula, &writing).ok().map(with_doubt);
        let is_long = |text: &String| text.chars().count() > LONG_FORMULA;
        let long = full
            .as_ref()
            .filter(|text| is_long(text) && answer.tag.is_none());
        let short = long.and_then(|_| short((id, doubt), formula, &writing));
        let hybrids = hybrid_names(Ok(answer.hybrids), &names.vocabulary().genus_short());
        let note = |note: crate::naming::Note| NoteRow {
            code: note.code.code(),
            text: say(note.text),
        };
        NameReport {
            id: say(id.to_owned()),
            short,
            breeder: full,
            botanical: botanical(formula, &writing).ok().map(with_doubt),
            purdy: purdy(formula).map(say).map(with_doubt),
            tag: answer.tag.map(tag_text),
            evidence: evidence_row(evidence, answer.unit).told(say),
            received: answer.labels.received.map(|text| say(text.to_owned())),
            nickname: answer.labels.nickname.map(|text| say(text.to_owned())),
            cultivar: cultivar(answer.labels).map(say),
            names: hybrids.into_iter().map(|name| name.each(say)).collect(),
            notes: answer.notes.into_iter().map(note).collect(),
        }
    }
}

/// What stands on the first line in the place of a formula that takes too many.
fn short((id, doubt): (&str, &str), formula: &Formula, writing: &Writing) -> Option<String> {
    let fitted = fit(formula, writing, SHORT_FORMULA, Some(id))?;
    Some(match fitted.rung {
        Rung::SeeCode => format!("a formula of {} generations", formula.generations()),
        _ => fitted.text + doubt,
    })
}

fn tag_text(tag: Tag) -> TagText {
    let left_out = tag.left_out.into_iter();
    TagText {
        text: tag.text,
        left_out: left_out.map(left_out_words).collect(),
    }
}

fn left_out_words(of: LeftOut) -> &'static str {
    match of {
        LeftOut::OfFormula(words) => words,
        LeftOut::Formula => "the formula: look it up under the code",
        LeftOut::ParentFurtherBack => "that a parent further back is one of several",
        LeftOut::HowSure => "how surely all this is known (see evidence)",
    }
}

fn cultivar(labels: Labels) -> Option<String> {
    let established = match labels.published {
        true => "",
        false => " (not published: not established)",
    };
    labels
        .cultivar
        .map(|epithet| format!("'{epithet}'{established}"))
}

impl NameReport {
    /// The name alone, one line to be pasted: the text for a tag where one was asked for, else the formula.
    pub fn alone(&self) -> String {
        let tag = self.tag.as_ref().map(|tag| tag.text.clone());
        let name = tag.or_else(|| self.breeder.clone());
        name.unwrap_or_else(|| "too long to write out".to_owned())
    }
}

impl Report for NameReport {
    fn sheet(&self) -> Sheet {
        let name = self.breeder.clone();
        let name = name.unwrap_or_else(|| "too long to write out".to_owned());
        let mut sheet = Sheet::new(match &self.tag {
            Some(tag) => tag.text.clone(),
            None => format!("{}: {}", self.id, self.short.as_ref().unwrap_or(&name)),
        });
        let left_out = self.tag.iter().flat_map(|tag| &tag.left_out);
        let in_full = (self.tag.is_some() || self.short.is_some()).then_some(name);
        let evidence = Some(self.evidence.words.clone()).filter(|words| !words.is_empty());
        let nickname = self.nickname.as_ref();
        let nickname = nickname.map(|name| format!("{name} (not a cultivar name)"));
        sheet.facts(
            None,
            [
                ("left out for the tag", joined_if_any(left_out, ", ")),
                ("in full", in_full),
                ("botanical order", self.botanical.clone()),
                ("Purdy notation", self.purdy.clone()),
                ("evidence", evidence),
                ("received as", self.received.as_deref().map(quoted)),
                ("cultivar", self.cultivar.clone()),
                ("nickname", nickname),
            ],
        );
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line),
        );
        for note in &self.notes {
            sheet.caution(Weight::Doubt, format!("{} [{}]", note.text, note.code));
        }
        sheet
    }
}
