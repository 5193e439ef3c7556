//! The tag of each plant or piece.

use super::answer::{Tag, TagName, Tags};
use super::parents::parents_by_code;
use crate::analysis::evidence::probable_father;
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::naming::recorded::TopOf;
use crate::naming::{Fitted, Writing, ladder, runs};
use crate::observation::provenance::sown;
use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Day, Sex, When};
use crate::registry::PlantOrRamet;

/// More letters than the largest tag holds; a longer formula is not written out.
const MOST_LETTERS: usize = 400;

/// Tags of plants or of single pieces; the size and the versions printed come when they are composed.
pub fn tags(context: &Context, plants: &[PlantOrRamet]) -> Tags {
    let evidence = context.evidence();
    let tags = plants.iter().map(|&of| tag(evidence, of));
    Tags {
        tags: tags.collect(),
        size: String::new(),
    }
}

fn tag(evidence: &Evidence, of: PlantOrRamet) -> Tag {
    let (registry, plant) = (evidence.registry(), of.plant);
    Tag {
        id: registry.code_of(of),
        parents: parents_by_code(evidence, Unit::Plant(plant)),
        names: names(evidence, Unit::Plant(plant), TopOf::Plant(plant)),
        printed: None,
        sown: month(sown(registry, plant)).map(|month| format!("sown {month}")),
        count: None,
        sex: match sex_seen(registry, plant) {
            SexSeen::Certain(Sex::Female) => Some("♀"),
            SexSeen::Certain(Sex::Male) => Some("♂"),
            SexSeen::Guess(..) | SexSeen::Unsexed | SexSeen::Contradicted | SexSeen::MixedUp => {
                None
            }
        },
        mark: registry.settings.registry.map(str::to_owned),
    }
}

/// Every version of the name, each with the doubt that a formula has no sign for.
pub(super) fn names(evidence: &Evidence, unit: Unit, top: TopOf) -> Vec<TagName> {
    let names = evidence.names();
    let Some(formula) = names.short_formula(top, MOST_LETTERS) else {
        return Vec::new();
    };
    let writing = Writing::in_runs(names.vocabulary());
    let doubt = probable_father(evidence, unit);
    let told = |fitted: Fitted| TagName {
        text: runs(&(fitted.text + doubt)),
        left_out: fitted.left_out,
    };
    let versions = ladder(&formula, &writing, MOST_LETTERS);
    versions.into_iter().map(told).collect()
}

/// A date as a month, a year or from month to month; `None` when it is not known.
pub(super) fn month(when: When) -> Option<String> {
    let cut = |day: Day| {
        let day = day.to_string();
        day.rsplit_once('-')
            .map_or(day.clone(), |(month, _)| month.to_owned())
    };
    let (first, last) = (cut(when.first), cut(when.last));
    match (when.first == Day::FIRST, when.last == Day::LAST) {
        (true, true) => None,
        (true, false) => Some(format!("by {last}")),
        (false, true) => Some(format!("after {first}")),
        _ if first == last => Some(first),
        _ => Some(
            match (first.strip_suffix("-01"), last.strip_suffix("-12")) {
                (Some(year), Some(same)) if year == same => year.to_owned(),
                _ => format!("{first} to {last}"),
            },
        ),
    }
}
