//! What a plant, pod or cross is truthfully called.

use super::caution::Weight;
use super::read::{NoteRow, hybrid_name_line};
use super::sheet::{Report, Sheet};
use crate::analysis::evidence::{EvidenceRow, evidence_row, is_less_than_a_tag, probable_father};
use crate::analysis::hybrid_names::{HybridName, hybrid_names};
use crate::context::Context;
use crate::evidence::{Evidence, Strength, Unit};
use crate::naming::recorded::TopOf;
use crate::naming::{
    Fitted, Formula, Rung, Style, Writing, botanical, breeder, describe, fit, purdy, suggest,
};
use crate::registry::{PotRow, Registry};
use crate::wording::quoted;
use serde::Serialize;

/// Characters from which on a formula is too long to be the first line: ten lines of 80.
const LONG_FORMULA: usize = 800;

/// Characters of the short form that then stands there.
const SHORT_FORMULA: usize = 240;

/// How the name is wanted.
#[derive(Clone, Copy, Debug, Default)]
pub struct NameWishes {
    /// Text, ASCII, HTML or Markdown.
    pub style: Style,
    /// Characters of a tag, when it has to fit one.
    pub fit: Option<usize>,
    /// Whether parents bear their own codes.
    pub codes: bool,
    /// Whether parents are marked ♀ and ♂.
    pub sexes: bool,
    /// Whether the code stands in front of a tag.
    pub coded_tag: bool,
}

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
    let (registry, names) = (context.registry, context.names());
    let evidence = context.evidence();
    let unit = registry.target(id).and_then(Unit::of);
    let unit =
        unit.ok_or_else(|| format!("`{id}` is neither a plant, a pod nor a cross on record"))?;
    let top = unit.top();
    let formula = names.formula(top, wishes.codes);
    let writing = Writing {
        vocabulary: names.vocabulary(),
        style: wishes.style,
        sexes: wishes.sexes,
    };
    let tag = match wishes.fit {
        None => None,
        Some(most) => {
            let wanted = (id, wishes.coded_tag);
            Some(tag(evidence, unit, wanted, (&formula, &writing, most))?)
        }
    };
    let doubt = probable_father(evidence, unit);
    let with_doubt = |text: String| text + doubt;
    let full = breeder(&formula, &writing).ok().map(with_doubt);
    let is_long = |text: &String| text.chars().count() > LONG_FORMULA;
    let short = full
        .as_ref()
        .filter(|text| is_long(text) && tag.is_none())
        .and_then(|_| fit(&formula, &writing, SHORT_FORMULA, Some(id)))
        .map(|fitted| match fitted.rung {
            Rung::SeeCode => format!("a formula of {} generations", formula.generations()),
            _ => with_doubt(fitted.text),
        });
    let told = describe(formula.clone(), "", names.vocabulary());
    let (received, nickname, cultivar) = kept_labels(registry, top);
    let say = |text: String| wishes.style.written(&text);
    let genus = names.vocabulary().genus_short();
    let hybrids = hybrid_names(suggest(&formula, names.vocabulary()), &genus);
    Ok(NameReport {
        id: say(id.to_owned()),
        breeder: full,
        short,
        botanical: botanical(&formula, &writing).ok().map(with_doubt),
        purdy: purdy(&formula).map(say).map(with_doubt),
        tag,
        evidence: evidence_row(evidence, unit).told(say),
        received: received.map(say),
        nickname: nickname.map(say),
        cultivar: cultivar.map(say),
        names: hybrids.into_iter().map(|name| name.each(say)).collect(),
        notes: told
            .notes
            .into_iter()
            .map(|note| NoteRow {
                code: note.code.code(),
                text: say(note.text),
            })
            .collect(),
    })
}

/// The text of a tag. A father whom stray pollen puts in doubt is called so on the tag itself.
fn tag(
    evidence: &Evidence,
    unit: Unit,
    (id, coded): (&str, bool),
    (formula, writing, most): (&Formula, &Writing, usize),
) -> Result<TagText, String> {
    let doubt = probable_father(evidence, unit);
    let fitted = |most: usize| fitted(formula, writing, most, (id, coded));
    let with_doubt = most.checked_sub(doubt.chars().count());
    let with_doubt = with_doubt
        .and_then(fitted)
        .filter(|fitted| fitted.rung != Rung::SeeCode);
    let says_so = with_doubt.is_some();
    let fitted = with_doubt.or_else(|| fitted(most));
    let mut fitted = fitted.ok_or_else(|| {
        let least = id.chars().count();
        format!(
            "not even the code alone fits {most} characters; a tag for {id} needs at least {least}"
        )
    })?;
    if says_so {
        fitted.text.push_str(doubt);
    }
    let further = evidence.further(unit).map(|further| further.strength);
    if further == Some(Strength::OneOfSeveral) {
        fitted
            .left_out
            .push("that a parent further back is one of several");
    }
    if is_less_than_a_tag(evidence, unit) {
        fitted
            .left_out
            .push("how surely all this is known (see evidence)");
    }
    Ok(TagText {
        text: fitted.text,
        left_out: fitted.left_out,
    })
}

/// The version for a tag, with the code in front of it where that was asked for and there is room.
fn fitted(
    formula: &Formula,
    writing: &Writing,
    most: usize,
    (id, coded): (&str, bool),
) -> Option<Fitted> {
    let front = id.chars().count() + 1;
    let short = (coded && most > front)
        .then(|| fit(formula, writing, most - front, None))
        .flatten();
    if let Some(short) = short {
        return Some(Fitted {
            text: format!("{} {}", writing.style.written(id), short.text),
            ..short
        });
    }
    fit(formula, writing, most, Some(id))
        .filter(|short| !coded || short.rung == Rung::SeeCode)
        .or_else(|| see_code_alone(id, most, writing.style))
}

fn see_code_alone(id: &str, most: usize, style: Style) -> Option<Fitted> {
    (id.chars().count() <= most).then(|| Fitted {
        text: style.written(id),
        rung: Rung::SeeCode,
        left_out: vec!["the formula: look it up under the code"],
    })
}

fn kept_labels(
    registry: &Registry,
    top: TopOf,
) -> (Option<String>, Option<String>, Option<String>) {
    match top {
        TopOf::Plant(plant) => {
            let received = registry
                .founder(plant)
                .map(|founder| founder.received.to_string());
            let nickname = registry.nickname(plant).map(str::to_owned);
            let cultivar = registry.cultivar(plant).map(|cultivar| {
                let established = if cultivar.published.is_some() {
                    ""
                } else {
                    " (not published: not established)"
                };
                format!("'{}'{established}", &*cultivar.epithet)
            });
            (received, nickname, cultivar)
        }
        TopOf::Cross(cross) | TopOf::Pot(PotRow { cross, .. }) => {
            let page = &registry[cross].page;
            (
                page.received.as_ref().map(|label| label.to_string()),
                None,
                None,
            )
        }
    }
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
        let name = self
            .breeder
            .clone()
            .unwrap_or_else(|| "too long to write out".into());
        let mut sheet = Sheet::new(match &self.tag {
            Some(tag) => tag.text.clone(),
            None => format!("{}: {}", self.id, self.short.as_ref().unwrap_or(&name)),
        });
        let left_out = self
            .tag
            .as_ref()
            .map(|tag| tag.left_out.join(", "))
            .filter(|text| !text.is_empty());
        sheet.facts(
            None,
            vec![
                ("left out for the tag", left_out),
                (
                    "in full",
                    self.tag
                        .as_ref()
                        .map(|_| ())
                        .or(self.short.as_ref().map(|_| ()))
                        .map(|()| name),
                ),
                ("botanical order", self.botanical.clone()),
                ("Purdy notation", self.purdy.clone()),
                (
                    "evidence",
                    Some(self.evidence.words.clone()).filter(|text| !text.is_empty()),
                ),
                ("received as", self.received.as_deref().map(quoted)),
                ("cultivar", self.cultivar.clone()),
                (
                    "nickname",
                    self.nickname
                        .as_ref()
                        .map(|nickname| format!("{nickname} (not a cultivar name)")),
                ),
            ],
        );
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line).collect(),
        );
        for note in &self.notes {
            sheet.caution(Weight::Doubt, format!("{} [{}]", note.text, note.code));
        }
        sheet
    }
}
