//! Does each cultivar epithet belong to one plant, and can it stand?
//!
//! Seedlings never inherit an epithet, however alike they are: only ramets of the plant carry it.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::naming::{Action, Context, Rule, judge, recorded};
use crate::record::Cultivar;
use crate::registry::PlantRow;
use crate::text::Span;
use std::collections::BTreeMap;

/// Every cultivar epithet of the registry.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let registry = context.registry;
    let mut bearers: BTreeMap<String, Vec<PlantRow>> = BTreeMap::new();
    for plant in registry.plants() {
        if let Some(cultivar) = registry.cultivar(plant) {
            let epithet = cultivar.epithet.trim().to_lowercase();
            bearers.entry(epithet).or_default().push(plant);
        }
    }
    if bearers.is_empty() {
        return Vec::new();
    }
    let vocabulary = recorded::vocabulary(registry);
    let asked = Context::new(&vocabulary);
    let mut found = Vec::new();
    for plants in bearers.values() {
        for (at, &plant) in plants.iter().enumerate() {
            let Some(cultivar) = registry.cultivar(plant) else {
                continue;
            };
            found.extend(judged(context, plant, cultivar, &asked));
            let Some(&first) = plants[..at].first() else {
                continue;
            };
            let teller = |of: PlantRow| registry.told_by(of).map(|told| told.registry);
            let before = plants[..at].iter();
            let of_one_grower = before.copied().find(|of| teller(*of) == teller(plant));
            found.push(match of_one_grower {
                Some(first) => inherited(context, first, plant, cultivar),
                None => of_two_growers(context, first, plant, cultivar),
            });
        }
    }
    found
}

fn place(context: &CheckContext, plant: PlantRow, cultivar: &Cultivar) -> Option<Span> {
    let file = context.anchor(plant)?.file;
    let own = context.span(file, &cultivar.epithet);
    own.or_else(|| context.registry.place(plant))
}

/// One epithet on two plants.
fn inherited(
    context: &CheckContext,
    first: PlantRow,
    plant: PlantRow,
    cultivar: &Cultivar,
) -> Finding {
    let registry = context.registry;
    let sibling = registry.origin_of(plant).is_some()
        && registry.origin_of(plant) == registry.origin_of(first);
    let (one, other) = (registry.code(first), registry.code(plant));
    let title = if sibling {
        format!("a seedling cannot have the epithet of its sibling {one}")
    } else {
        format!("one epithet on two plants: {one} and {other}")
    };
    let finding = Finding::fault(Code("epithet-on-two-plants"), title)
        .help("seedlings never inherit an epithet; if both are pieces of one clone, list them under `ramets` of one record");
    on_both(context, finding, first, (plant, cultivar))
}

/// One epithet that two growers gave to a plant each: neither can mend what the other recorded.
fn of_two_growers(
    context: &CheckContext,
    first: PlantRow,
    plant: PlantRow,
    cultivar: &Cultivar,
) -> Finding {
    let registry = context.registry;
    let (one, other) = (registry.code(first), registry.code(plant));
    let finding = Finding::warning(
        Code("epithet-of-two-growers"),
        format!("two growers gave one epithet to two plants: {one} and {other}"),
    )
    .help("only one of the two can keep it: ask the other grower whether theirs is published, before yours goes on a tag");
    on_both(context, finding, first, (plant, cultivar))
}

/// A finding of an epithet, with its place on either plant.
fn on_both(
    context: &CheckContext,
    finding: Finding,
    first: PlantRow,
    (plant, cultivar): (PlantRow, &Cultivar),
) -> Finding {
    let registry = context.registry;
    let of_first = registry.cultivar(first);
    let of_first = of_first.and_then(|cultivar| place(context, first, cultivar));
    finding
        .at(place(context, plant, cultivar))
        .found(format!("'{}'", &*cultivar.epithet))
        .needed("an epithet on one plant and its pieces")
        .related(
            of_first.or_else(|| registry.place(first)),
            "on this plant too",
        )
}

/// What the rules on epithets say; that it is used once is asked above.
fn judged(
    context: &CheckContext,
    plant: PlantRow,
    cultivar: &Cultivar,
    asked: &Context,
) -> Vec<Finding> {
    let judgement = judge(&cultivar.epithet, asked);
    let place = place(context, plant, cultivar);
    let told = judgement
        .remarks
        .iter()
        .filter(|remark| remark.rule != Rule::Unique)
        .filter_map(|remark| match remark.action {
            Action::Refuse => Some(
                Finding::warning(Code("epithet-refused"), "this cannot be a cultivar epithet")
                    .at(place)
                    .found(format!("'{}'", &*cultivar.epithet))
                    .needed(remark.text.clone())
                    .help(
                        "`podbook epithet` lists the rules that apply; write a nickname under `nickname`",
                    ),
            ),
            Action::Mend => Some(
                Finding::note(Code("epithet-to-mend"), "this epithet is not written this way")
                    .at(place)
                    .found(format!("'{}'", &*cultivar.epithet))
                    .needed(format!("'{}'", judgement.epithet))
                    .help(remark.text.clone()),
            ),
            _ => None,
        });
    told.collect()
}
