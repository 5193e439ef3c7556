//! The tag of a sowing or a community pot: it says of all seedlings in it what the tag of a plant says of one.

use super::answer::{Tag, Tags};
use super::parents::parents_by_code;
use super::rows::{month, names};
use crate::context::Context;
use crate::evidence::{Evidence, Unit};
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::provenance::{pot_sown, stages};
use crate::record::{Day, When};
use crate::registry::{PotRow, Registry, SowingRow};
use crate::wording::counted;

/// Tags of sowings and community pots; other units have none.
pub fn tray_tags(context: &Context, trays: &[Unit]) -> Tags {
    let (evidence, today) = (context.evidence(), context.today);
    let tags = trays.iter().filter_map(|&unit| match unit {
        Unit::Sowing(row) => Some(sowing(evidence, row)),
        Unit::Pot(row) => Some(pot(evidence, row, today)),
        _ => None,
    });
    Tags {
        tags: tags.collect(),
        size: String::new(),
    }
}

fn sowing(evidence: &Evidence, row: SowingRow) -> Tag {
    let registry = evidence.registry();
    let sowing = &registry[row];
    let seeds = sowing
        .seeds
        .map(|seeds| counted(seeds as usize, "seed", "seeds"));
    let unit = Unit::Sowing(row);
    Tag {
        sown: sown(stages(registry, row.cross, Some(row), None).sown),
        count: seeds,
        ..told(evidence, (unit, TopOf::Cross(row.cross)), sowing.code)
    }
}

fn pot(evidence: &Evidence, row: PotRow, today: Day) -> Tag {
    let registry = evidence.registry();
    let pot = &registry[row];
    let left = community_pot_left(registry, row, today).left;
    let unit = Unit::Pot(row);
    Tag {
        sown: sown(pot_sown(registry, row)),
        count: left.map(|left| match left {
            (least, most) if least == most => format!("{most} left"),
            (least, most) => format!("{least}–{most} left"),
        }),
        ..told(evidence, (unit, TopOf::Pot(row)), pot.code)
    }
}

fn sown(when: When) -> Option<String> {
    month(when).map(|month| format!("sown {month}"))
}

/// What the tags of all trays have: code, cross, name and mark.
fn told(evidence: &Evidence, (unit, top): (Unit, TopOf), code: &str) -> Tag {
    let registry: &Registry = evidence.registry();
    let page = unit.cross(registry).map(|cross| registry[cross].page.code);
    Tag {
        id: format!("{}.{code}", page.unwrap_or_default()),
        parents: parents_by_code(evidence, unit),
        names: names(evidence, unit, top),
        mark: registry.settings.registry.map(str::to_owned),
        ..Tag::default()
    }
}
