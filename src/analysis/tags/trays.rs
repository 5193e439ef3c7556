//! The tag of a sowing or a community pot: it says of all seedlings in it what the tag of a plant says of one.

use super::answer::{Tag, Tags};
use super::parents::parents_by_code;
use super::rows::{month, names};
use crate::evidence::{Evidence, Unit};
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::provenance::stages;
use crate::record::{Day, When};
use crate::registry::{CrossRow, Registry};
use crate::wording::counted;

/// Tags of sowings and community pots; other units have none.
pub fn tray_tags(evidence: &Evidence, trays: &[Unit], today: Day) -> Tags {
    let tags = trays.iter().filter_map(|&unit| match unit {
        Unit::Sowing(cross, at) => Some(sowing(evidence, (cross, at))),
        Unit::Pot(cross, at) => Some(pot(evidence, (cross, at), today)),
        _ => None,
    });
    Tags {
        tags: tags.collect(),
        size: String::new(),
    }
}

fn sowing(evidence: &Evidence, (cross, at): (CrossRow, usize)) -> Tag {
    let registry = evidence.registry();
    let page = &registry[cross].page;
    let sowing = &page.sowings[at];
    let seeds = sowing
        .seeds
        .map(|seeds| counted(seeds as usize, "seed", "seeds"));
    let unit = Unit::Sowing(cross, at);
    Tag {
        sown: sown(stages(registry, page, Some(at), None).sown),
        count: seeds,
        ..told(evidence, (unit, TopOf::Cross(cross)), sowing.code)
    }
}

fn pot(evidence: &Evidence, (cross, at): (CrossRow, usize), today: Day) -> Tag {
    let registry = evidence.registry();
    let page = &registry[cross].page;
    let pot = &page.community_pots[at];
    let sowings = page.sowings.iter();
    let from = pot
        .sowing
        .and_then(|code| sowings.clone().position(|of| of.code == code));
    let left = community_pot_left(registry, cross, pot, today).left;
    let unit = Unit::Pot(cross, at);
    Tag {
        sown: sown(stages(registry, page, from, None).sown),
        count: left.map(|left| match left {
            (least, most) if least == most => format!("{most} left"),
            (least, most) => format!("{least}–{most} left"),
        }),
        ..told(evidence, (unit, TopOf::Pot(cross, at as u32)), pot.code)
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
