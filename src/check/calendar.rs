//! Can what `registry.ron` says of its own name, of intervals, pots and shelves be so?

use super::context::{Anchor, CheckContext};
use super::setting::out_of_range;
use crate::diagnostic::Finding;
use crate::record::RegistryPage;

/// Most days of an interval.
const MOST_DAYS: u32 = 36_500;
/// Width below which nothing is a pot or a shelf, cm.
const LEAST_CM: f64 = 0.5;
/// Most months, or centimetres of a shelf.
const MOST: f64 = 10_000.0;

/// What cannot be.
pub(super) fn calendar<'t>(context: &CheckContext<'_, 't>, anchor: Anchor<'t>) -> Vec<Finding> {
    let settings = &context.registry.settings;
    let blank = settings.registry.filter(|name| name.trim().is_empty());
    let blank = blank.map(|name| {
        let needed = "a name that other growers know it by, or no `registry` at all";
        out_of_range(context, anchor, "registry", &format!("`{name}`"), needed)
    });
    let mut found: Vec<Finding> = blank.into_iter().collect();
    for (field, (least, most)) in intervals(settings) {
        if least > most || most > MOST_DAYS {
            let needed = format!("least and most days, the smaller first, up to {MOST_DAYS}");
            let typed = format!("({least}, {most})");
            let path = format!("intervals.{field}");
            found.push(out_of_range(context, anchor, &path, &typed, &needed));
        }
    }
    for (path, number, least) in numbers(settings) {
        if !(least..=MOST).contains(&number) {
            let needed = format!("a number from {least} to {MOST}");
            found.push(out_of_range(
                context,
                anchor,
                &path,
                &number.to_string(),
                &needed,
            ));
        }
    }
    found
}

/// Every interval that is set.
fn intervals(settings: &RegistryPage) -> Vec<(&'static str, (u32, u32))> {
    let of = &settings.intervals;
    let all = [
        ("pods_ripen", of.pods_ripen),
        ("dust_again", of.dust_again),
        ("count_set", of.count_set),
        ("sow", of.sow),
        ("germination", of.germination),
        ("count_again", of.count_again),
        ("prick_out", of.prick_out),
        ("rooting", of.rooting),
    ];
    let set = all.into_iter();
    set.filter_map(|(field, days)| Some((field, days?)))
        .collect()
}

/// Every age and width, with the least it can be.
fn numbers(settings: &RegistryPage) -> Vec<(String, f64, f64)> {
    let mut all = Vec::new();
    for (at, months) in settings.intervals.sittings_at_months.iter().enumerate() {
        all.push((format!("intervals.sittings_at_months[{at}]"), *months, 0.0));
    }
    for (at, step) in settings.pot_steps.iter().enumerate() {
        let path = |field| format!("pot_steps[{at}].{field}");
        all.push((path("from_months"), step.from_months, 0.0));
        all.push((path("pot_cm"), step.pot_cm, LEAST_CM));
    }
    for (at, shelf) in settings.shelves.iter().enumerate() {
        let path = |field| format!("shelves[{at}].{field}");
        all.push((path("width_cm"), shelf.width_cm, LEAST_CM));
        all.push((path("depth_cm"), shelf.depth_cm, LEAST_CM));
    }
    all
}
