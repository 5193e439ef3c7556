//! Does one thread bear pollen of two crosses? Then the pods under it have two possible fathers, whatever their pages say.

use super::context::CheckContext;
use super::parents::parents;
use crate::diagnostic::{Code, Finding};
use crate::observation::spike_days::LAST_AT_MOST;
use crate::record::{Pollination, When};
use crate::registry::{CrossRow, PlantRow};
use std::collections::BTreeMap;

/// A pollination with its cross.
type Dusting<'r, 't> = (CrossRow, &'r Pollination<'t>);

/// Zones of one name on one seed parent, in two crosses, that may be the same flowers. Single letters are chosen by
/// podbook and begin anew with each cross.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let mut of_thread: BTreeMap<(PlantRow, &str), Vec<Dusting>> = BTreeMap::new();
    let mut found = Vec::new();
    for (cross, of) in context.registry.own_crosses() {
        let Some(mother) = mother(context, cross) else {
            continue;
        };
        let zones = of.page.pollinations.iter();
        for dusting in zones.filter(|of| !is_letter(of.zone)) {
            let before = of_thread.entry((mother, dusting.zone)).or_default();
            let mut others = before
                .iter()
                .filter(|(other, _)| has_other_parents(context, *other, cross));
            let same = others.find(|(_, other)| may_be_one(context, other, dusting));
            found.extend(same.and_then(|same| two_crosses(context, *same, (cross, dusting))));
            before.push((cross, dusting));
        }
    }
    found
}

/// Whether two crosses are of other parents: a pair that is crossed again has a page for each year.
fn has_other_parents(context: &CheckContext, one: CrossRow, other: CrossRow) -> bool {
    let pairs = |cross: CrossRow| &context.registry[context.cross(cross).origin].pairs;
    pairs(one) != pairs(other)
}

fn is_letter(zone: &str) -> bool {
    matches!(zone.as_bytes(), [letter] if letter.is_ascii_uppercase())
}

/// The seed parent, where it is certain.
fn mother(context: &CheckContext, cross: CrossRow) -> Option<PlantRow> {
    let parents = parents(context.page(cross));
    let mut mothers = parents.iter().filter(|of| of.bore_the_seed && of.certain);
    context.plant(mothers.next()?.code)
}

/// Whether two pollinations may be of the same flowers: piece and spike do not differ, and two days are near.
fn may_be_one(context: &CheckContext, one: &Pollination, other: &Pollination) -> bool {
    let differ = |one: Option<&str>, other: Option<&str>| {
        one.zip(other).is_some_and(|(one, other)| one != other)
    };
    let days = |of: &Pollination| -> Vec<When> {
        of.on.iter().filter_map(|day| context.when(day)).collect()
    };
    let near = |a: &When, b: &When| a.first.0 <= b.last.0.saturating_add(LAST_AT_MOST);
    let (days, others) = (days(one), days(other));
    let mut pairs = days.iter().flat_map(|a| others.iter().map(move |b| (a, b)));
    !differ(one.plant, other.plant)
        && !differ(one.spike, other.spike)
        && pairs.any(|(a, b)| near(a, b) && near(b, a))
}

fn two_crosses(context: &CheckContext, before: Dusting, now: Dusting) -> Option<Finding> {
    let code = |of: Dusting| format!("{}.{}", context.page(of.0).code, of.1.zone);
    let place = |of: Dusting| context.span(context.cross(of.0).file, of.1.zone);
    let finding = Finding::warning(
        Code("thread-of-two-crosses"),
        format!("{} and {} may be the same flowers", code(before), code(now)),
    )
    .at(place(now)?)
    .found("one thread on one plant, with pollen of two fathers")
    .needed("flowers of their own for each cross, or parents that say that the father is one of two")
    .help("if they are the same flowers, write `pollen_one_of` or `pollen_mixed` on one page; if not, give one zone another name, here and on its thread");
    Some(finding.related(place(before), "dusted with other pollen here"))
}
