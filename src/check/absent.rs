//! Was a plant here when something is said to have been done with it: not after its end, nor between the day it left and the
//! day it came back?

use super::context::{CheckContext, fate_words};
use super::events::Event;
use crate::diagnostic::{Code, Finding, Severity};
use crate::record::{Fate, Return};
use crate::registry::PlantRow;
use crate::text::FileId;

/// The finding when something was done with a plant after it had died or left, or while it was away.
pub(super) fn after_end(context: &CheckContext, plant: PlantRow, done: &Event) -> Option<Finding> {
    let (fate, returns) = (
        context.registry.fate(plant),
        context.registry.came_back(plant),
    );
    // Most plants are here and never left, and most events of the others came before: no code is written for them.
    let file = match fate.is_some() || !returns.is_empty() {
        true => context.anchor(plant)?.file,
        false => return None,
    };
    let end = fate.and_then(|fate| {
        let (word, on) = fate_words(fate);
        Event::new(context, file, word, on)
    });
    let is_late = end.is_some_and(|end| end.surely_before(done));
    let ended = fate.filter(|_| is_late);
    if ended.is_none() && returns.is_empty() {
        return None;
    }
    let code = context.registry.code(plant);
    let late = ended.and_then(|fate| late(context, (&code, file), fate, done));
    late.or_else(|| while_away(context, (&code, file), returns, done))
}

/// The finding of something that was done surely after an end.
pub(super) fn late<'t>(
    context: &CheckContext<'_, 't>,
    (code, file): (&str, FileId),
    fate: &Fate<'t>,
    done: &Event,
) -> Option<Finding> {
    let (word, on) = fate_words(fate);
    let end = Event::new(context, file, word, on).filter(|end| end.surely_before(done))?;
    let severity = match is_dead(fate) {
        true => Severity::Fault,
        false => Severity::Warning,
    };
    let title = format!("{} after {code} {word}", done.clause);
    let finding = Finding::new(severity, Code("after-the-end"), title)
        .at(context.span(done.file, done.text))
        .found(format!("`{}`", done.text))
        .needed(format!("{} or earlier", end.when.last))
        .help("was it another plant, or one of its pieces? each piece under `ramets` has a `fate` of its own");
    Some(finding.related(context.span(file, on), format!("{code} {word}")))
}

/// The warning when something was done with a plant or piece between the day it left and the day it came back.
pub(super) fn while_away<'t>(
    context: &CheckContext<'_, 't>,
    (code, file): (&str, FileId),
    returns: &[Return<'t>],
    done: &Event,
) -> Option<Finding> {
    returns.iter().find_map(|back| {
        let (word, on) = fate_words(&back.left);
        let left = Event::new(context, file, word, on)?;
        let came = Event::new(context, file, "came back", back.on)?;
        if !(left.surely_before(done) && done.surely_before(&came)) {
            return None;
        }
        let title = format!("{} while {code} was away", done.clause);
        let finding = Finding::warning(Code("while-away"), title)
            .at(context.span(done.file, done.text))
            .found(format!("`{}`", done.text))
            .needed(format!(
                "{} or earlier, or {} or later",
                left.when.last, came.when.first
            ))
            .help("one of the three dates is wrong, or it was another plant; what whoever had it saw or did belongs in the `note` of `came_back`")
            .related(context.span(file, on), format!("{code} {word}"));
        Some(finding.related(context.span(file, back.on), format!("{code} came back")))
    })
}

/// The finding when a plant or piece is said to have come back that was neither sold nor given away.
pub(super) fn never_handed_on(
    context: &CheckContext,
    (code, file): (&str, FileId),
    back: &Return,
) -> Option<Finding> {
    let fate = &back.left;
    let (word, on) = fate_words(fate);
    if fate.handed_on().is_some() {
        return None;
    }
    let (severity, help) = match fate {
        fate if is_dead(fate) => (
            Severity::Fault,
            "if it is alive, take out `came_back` and `fate` of its record; else look at the tag: is it another plant?",
        ),
        _ => (
            Severity::Warning,
            "one that was lost and found again has no `fate` any more, and no `came_back`",
        ),
    };
    let title = format!("{code} came back, but its record says that it {word}");
    let finding = Finding::new(severity, Code("not-handed-on"), title)
        .at(context.span(file, back.on))
        .found(format!("`left` says that it {word}"))
        .needed("`left: sold(…)` or `left: given(…)`")
        .help(help);
    Some(finding.related(context.span(file, on), format!("it {word}")))
}

/// Whether a fate is the end of a life.
fn is_dead(fate: &Fate) -> bool {
    matches!(fate, Fate::Died { .. } | Fate::Culled { .. })
}
