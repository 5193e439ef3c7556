//! The formula of one unit and the names it bears beside it.

use super::error::NameError;
use super::tag::{Tag, tag};
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::TopOf;
use crate::naming::{Formula, Note, Style, Suggestion, Writing, describe, suggest};
use crate::registry::{PotRow, Registry};

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

impl NameWishes {
    /// How a formula is to be written, with the names of a registry.
    pub fn writing<'v>(self, context: &'v Context) -> Writing<'v> {
        Writing {
            vocabulary: context.names().vocabulary(),
            style: self.style,
            sexes: self.sexes,
        }
    }
}

/// What one unit is called.
pub struct NameAnswer<'r> {
    /// What was asked for.
    pub unit: Unit,
    /// Its formula.
    pub formula: Formula,
    /// The version for a tag, when one was asked for.
    pub tag: Option<Tag>,
    /// Names it bears beside the formula.
    pub labels: Labels<'r>,
    /// Hybrid names with exactly these parents.
    pub hybrids: Vec<Suggestion>,
    /// Facts to heed.
    pub notes: Vec<Note>,
}

/// Names a plant or a cross bears beside its formula.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Labels<'r> {
    /// The name or label as received, letter by letter.
    pub received: Option<&'r str>,
    /// A nickname.
    pub nickname: Option<&'r str>,
    /// The epithet of a cultivar that is this very clone.
    pub cultivar: Option<&'r str>,
    /// Whether that epithet is published, and so established.
    pub published: bool,
}

/// Names one unit, whose code is `id`.
///
/// # Errors
/// When nothing fits the tag.
pub fn name<'r>(
    context: &Context<'r, '_>,
    (unit, id): (Unit, &str),
    wishes: NameWishes,
) -> Result<NameAnswer<'r>, NameError> {
    let names = context.names();
    let formula = names.formula(unit.top(), wishes.codes);
    let writing = wishes.writing(context);
    let tag = |most: usize| {
        let evidence = context.evidence();
        tag(
            (evidence, unit),
            (id, wishes.coded_tag),
            (&formula, &writing, most),
        )
    };
    let tag = wishes.fit.map(tag).transpose()?;
    Ok(NameAnswer {
        unit,
        tag,
        labels: labels(context.registry, unit.top()),
        hybrids: suggest(&formula, names.vocabulary()).unwrap_or_default(),
        notes: describe(formula.clone(), "", names.vocabulary())
            .notes
            .into_iter()
            .chain(names.filial_by_label(unit.top()))
            .collect(),
        formula,
    })
}

fn labels<'r>(registry: &'r Registry, top: TopOf) -> Labels<'r> {
    match top {
        TopOf::Plant(plant) => {
            let founder = registry.founder(plant);
            let cultivar = registry.cultivar(plant);
            Labels {
                received: founder.map(|founder| &*founder.received),
                nickname: registry.nickname(plant),
                cultivar: cultivar.map(|cultivar| &*cultivar.epithet),
                published: cultivar.is_some_and(|cultivar| cultivar.published.is_some()),
            }
        }
        TopOf::Cross(cross) | TopOf::Pot(PotRow { cross, .. }) => Labels {
            received: registry[cross].page.received.as_deref(),
            ..Labels::default()
        },
    }
}
