//! The pollinations of a cross, with what only pages that stay behind say of them.

use super::closure::Lineage;
use super::codes::Codes;
use crate::evidence::{
    Controls, controls_on_other_pages, crosses_with_controls, pollen_teller, zone_code,
};
use crate::record::Pollination;
use crate::recording::written::{RonRecord, texts};
use crate::registry::{CrossRow, Registry, ZoneRow};

/// The pollinations as they are written; without a lineage zones of other crosses are named only where the record does.
pub fn pollinations(
    registry: &Registry,
    (cross, lineage): (CrossRow, Option<&Lineage>),
    codes: &Codes,
) -> Vec<String> {
    let with_controls = match lineage {
        Some(lineage) => &lineage.with_controls,
        None => &crosses_with_controls(registry),
    };
    // Of two pages that come along each says it of the other.
    let stays = |of: &ZoneRow| lineage.is_some_and(|all| !all.crosses.contains(&of.cross));
    let elsewhere = |zone: ZoneRow| {
        let other = lineage?.shared.get(&zone).filter(|of| stays(of))?;
        Some(zone_code(registry, *other))
    };
    let zones = registry.zones(cross);
    let zones = zones.map(|(zone, of)| {
        let told = of.same_flowers.map(str::to_owned);
        let of_others = OfOthers {
            controls: controls_on_other_pages(registry, zone, with_controls),
            pollen_teller: pollen_teller(registry, of),
            same_flowers: told.or_else(|| elsewhere(zone)),
        };
        pollination(of, &of_others, codes)
    });
    zones.collect()
}

/// What other records say of a pollination, which stay at home.
struct OfOthers<'t> {
    /// Controls of its spike on pages of other crosses.
    controls: Option<Controls>,
    /// Who told whose pollen was in the envelope; the rest of that is the grower's own business.
    pollen_teller: Option<&'t str>,
    /// A zone of another cross that may be the same flowers.
    same_flowers: Option<String>,
}

/// A pollination with its controls.
fn pollination(of: &Pollination, others: &OfOthers, codes: &Codes) -> String {
    let controls = others.controls;
    // Where no spike is named it follows from that.
    let by_days = controls.is_some_and(|of| of.by_days) && of.spike.is_some();
    let under_cover = controls.is_some_and(|of| of.under_cover);
    let same_flowers = others.same_flowers.as_deref().map(|zone| codes.of(zone));
    RonRecord::new()
        .text("zone", of.zone)
        .text_if("plant", of.plant.map(|plant| codes.of(plant)))
        .text_if("spike", of.spike)
        .value_if("on", (!of.on.is_empty()).then(|| texts(&of.on)))
        .text_if("pollen_told_by", others.pollen_teller)
        .value_if("flowers", of.flowers)
        .value_if("set", of.set)
        .text_if("counted", of.counted)
        .value_if("covered", of.covered)
        .value_if("control_flowers", of.control_flowers)
        .value_if("control_set", of.control_set)
        .value_if("spike_control_flowers", controls.and_then(|of| of.flowers))
        .value_if("spike_control_set", controls.map(|of| of.set))
        .value_if("spike_control_by_days", by_days.then_some("true"))
        .value_if("spike_control_covered", under_cover.then_some("true"))
        .text_if("same_flowers", same_flowers)
        .line()
}
