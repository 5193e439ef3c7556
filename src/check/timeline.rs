//! Do the dates of a cross follow one another: pollinated, harvested, sown, up, pricked out, counted?
//!
//! What happens to single plants is asked by `lives`.

use super::absent::{after_end, late};
use super::context::CheckContext;
use super::events::{Event, earliest};
use super::flowerings::bearers;
use crate::diagnostic::{Code, Finding, Severity};
use crate::observation::in_pod::LEAST_RIPENING;
use crate::observation::parent_of::mother;
use crate::record::{CommunityPot, CrossPage, Fate, Flowering, Pod, Pollination, Sowing, parents};
use crate::registry::{CrossRow, PlantRow, SowingRow};
use crate::text::FileId;

/// The dates of one cross.
pub(super) struct Timeline<'t> {
    /// For each sowing when it was sown, or else what is known to have come before.
    sown: Vec<Option<Event<'t>>>,
    /// Before which no seedling of the cross can have been.
    any: Option<Event<'t>>,
}

impl<'t> Timeline<'t> {
    /// The dates of a cross.
    pub fn of(context: &CheckContext<'_, 't>, cross: CrossRow) -> Timeline<'t> {
        let page = context.page(cross);
        let file = context.cross(cross).file;
        let sown: Vec<_> = page
            .sowings
            .iter()
            .map(|sowing| {
                sown(context, file, sowing).or_else(|| before_sowing(context, cross, sowing))
            })
            .collect();
        let dated: Option<Vec<Event>> = sown.iter().copied().collect();
        let any = dated
            .and_then(|dated| earliest(dated.into_iter()))
            .or_else(|| pollinated(context, cross, None));
        Timeline { sown, any }
    }

    /// Before which a seedling of a sowing, or of an unknown one, cannot have been.
    pub fn start(&self, sowing: Option<SowingRow>) -> Option<Event<'t>> {
        match sowing {
            Some(sowing) => self.sown[sowing.at],
            None => self.any,
        }
    }
}

/// When a plant began: it was sown, or its pod was harvested, or it was pollinated. `None` when no date is known, or
/// the plant may come from another cross.
pub(super) fn start_of<'t>(context: &CheckContext<'_, 't>, plant: PlantRow) -> Option<Event<'t>> {
    let registry = context.registry;
    let cross = registry.cross_of(plant)?;
    if registry.origin_of(plant) != Some(context.cross(cross).origin) {
        return None;
    }
    Timeline::of(context, cross).start(registry.road(plant).0)
}

/// Every order of dates on the page of a cross.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let mut found = Vec::new();
    for pollination in &context.page(cross).pollinations {
        found.extend(of_pollination(context, cross, pollination));
    }
    found.extend(of_pods(context, cross));
    for sowing in &context.page(cross).sowings {
        found.extend(of_sowing(context, cross, sowing));
    }
    found.extend(of_community_pots(context, cross));
    found.extend(parents_in_time(context, cross));
    found
}

fn of_pollination<'t>(
    context: &CheckContext<'_, 't>,
    cross: CrossRow,
    pollination: &Pollination<'t>,
) -> Vec<Finding> {
    let file = context.cross(cross).file;
    let mut found = Vec::new();
    let days: Vec<Event> = days(context, file, pollination).collect();
    if let (Some(first), Some(counted)) = (earliest(days.iter().copied()), pollination.counted)
        && let Some(counted) = Event::new(context, file, "pods were counted", counted)
    {
        found.extend(counted.must_follow(context, &first));
    }
    let spike = spike(context, cross, pollination);
    let opened =
        spike.and_then(|spike| spike.event(context, "the first flower opened", spike.of.opened));
    let over =
        spike.and_then(|spike| spike.event(context, "the last flower was over", spike.of.over));
    for day in &days {
        found.extend(opened.and_then(|opened| day.must_follow(context, &opened)));
        let late = over.and_then(|over| over.must_follow(context, day));
        found.extend(late.map(as_warning));
    }
    let lot = pollination
        .pollen
        .and_then(|code| context.registry.pollen_lot(code));
    if let (Some(lot), Some(pollen_file)) = (lot, context.registry.pollen_file) {
        let lot = &context.registry[lot];
        let event = |clause, text: Option<_>| {
            text.and_then(|t| Event::new(context, pollen_file, clause, t))
        };
        let collected = event("its pollen was collected", lot.collected);
        let finished = event("the envelope was finished", lot.finished);
        for day in &days {
            found.extend(collected.and_then(|collected| day.must_follow(context, &collected)));
            found.extend(finished.and_then(|finished| finished.must_follow(context, day)));
        }
    }
    found
}

/// A spike of a plant.
#[derive(Clone, Copy)]
struct SpikeOf<'r, 't> {
    plant: PlantRow,
    of: &'r Flowering<'t>,
}

impl<'t> SpikeOf<'_, 't> {
    fn event(
        self,
        context: &CheckContext<'_, 't>,
        clause: &'static str,
        on: Option<&'t str>,
    ) -> Option<Event<'t>> {
        Event::new(context, context.anchor(self.plant)?.file, clause, on?)
    }
}

/// The order is right if the later of two entries is: one of them was typed with a wrong day, and nothing is left out for it.
fn as_warning(finding: Finding) -> Finding {
    Finding {
        severity: Severity::Warning,
        ..finding
    }
}

/// The spike that a pollination names; `None` unless one spike alone has that code.
fn spike<'r, 't>(
    context: &CheckContext<'r, 't>,
    cross: CrossRow,
    pollination: &Pollination<'t>,
) -> Option<SpikeOf<'r, 't>> {
    let spike = pollination.spike?;
    let bearers = bearers(context, cross, pollination)?;
    let flowerings = bearers.iter().flat_map(|&plant| {
        let flowerings = context.registry.flowerings(plant).iter();
        flowerings.map(move |flowering| (plant, flowering))
    });
    let mut named = flowerings.filter(|(_, of)| of.code == Some(spike));
    let (plant, of) = named.next().filter(|_| named.next().is_none())?;
    Some(SpikeOf { plant, of })
}

/// The days of a pollination.
fn days<'t>(
    context: &CheckContext<'_, 't>,
    file: FileId,
    pollination: &Pollination<'t>,
) -> impl Iterator<Item = Event<'t>> {
    let days = pollination.on.iter();
    days.filter_map(move |on| Event::new(context, file, "flowers were pollinated", on))
}

/// The first pollination of a zone, or of the cross when the zone is not known; `None` when one of them has no date.
fn pollinated<'t>(
    context: &CheckContext<'_, 't>,
    cross: CrossRow,
    zone: Option<&str>,
) -> Option<Event<'t>> {
    let page = context.page(cross);
    let file = context.cross(cross).file;
    let of_zone: Vec<_> = page
        .pollinations
        .iter()
        .filter(|p| zone.is_none_or(|zone| p.zone == zone))
        .collect();
    if of_zone.iter().any(|p| p.on.is_empty()) {
        return None;
    }
    earliest(of_zone.into_iter().flat_map(|p| days(context, file, p)))
}

fn of_pods(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let file = context.cross(cross).file;
    let pods = context.page(cross).pods.iter();
    pods.filter_map(|pod| {
        let harvested = Event::new(context, file, "the pod was harvested", pod.harvested?)?;
        let pollinated = pollinated(context, cross, pod.zone)?;
        let early = harvested.must_follow(context, &pollinated);
        early.or_else(|| too_short_to_ripen(context, &pollinated, &harvested))
    })
    .collect()
}

/// The warning when even the longest time the dates allow is too short for a pod.
fn too_short_to_ripen(
    context: &CheckContext,
    pollinated: &Event,
    harvested: &Event,
) -> Option<Finding> {
    let (_, most) = pollinated.when.days_until(harvested.when)?;
    if most >= LEAST_RIPENING {
        return None;
    }
    let days = if most == 1 { "day" } else { "days" };
    let finding = Finding::warning(
        Code("too-short-to-ripen"),
        "the pod had too little time to ripen",
    )
    .at(context.span(harvested.file, harvested.text))
    .found(format!("{most} {days} at most from pollination to harvest"))
    .needed("three weeks or more; two to four months are usual (common practice)")
    .help("check both dates, their year, and the `hemisphere` of registry.ron, by which seasons are read");
    Some(finding.related(
        context.span(pollinated.file, pollinated.text),
        pollinated.clause,
    ))
}

fn sown<'t>(
    context: &CheckContext<'_, 't>,
    file: FileId,
    sowing: &Sowing<'t>,
) -> Option<Event<'t>> {
    Event::new(context, file, "the seed was sown", sowing.on?)
}

/// What is known to have come before a sowing: the harvest of its pod, or else the pollination, or the seed's arrival.
fn before_sowing<'t>(
    context: &CheckContext<'_, 't>,
    cross: CrossRow,
    sowing: &Sowing<'t>,
) -> Option<Event<'t>> {
    let page = context.page(cross);
    let lot = sowing
        .lot
        .and_then(|code| page.seed_lots.iter().find(|lot| lot.code == code));
    let code = sowing.pod.or(lot.and_then(|lot| lot.pod));
    let pod = match code {
        Some(code) => page.pods.iter().find(|pod| pod.code == code),
        None if page.pods.len() == 1 => page.pods.first(),
        None => None,
    };
    let file = context.cross(cross).file;
    pod.and_then(|pod| Event::new(context, file, "the pod was harvested", pod.harvested?))
        .or_else(|| pollinated(context, cross, pod.and_then(|pod| pod.zone)))
        .or_else(|| Event::new(context, file, "the seed came", lot?.came?))
}

fn of_sowing<'t>(
    context: &CheckContext<'_, 't>,
    cross: CrossRow,
    sowing: &Sowing<'t>,
) -> Vec<Finding> {
    let file = context.cross(cross).file;
    let before = before_sowing(context, cross, sowing);
    let sown = sown(context, file, sowing);
    let mut found: Vec<Finding> = Vec::new();
    found.extend(sown.and_then(|sown| sown.must_follow(context, &before?)));
    let Some(start) = sown.or(before) else {
        return found;
    };
    let up = sowing.germinated.iter().map(|tally| tally.on);
    let up = up.filter_map(|on| Event::new(context, file, "seedlings were up", on));
    let moved = sowing.pricked_out.iter().map(|pricking| pricking.on);
    let moved = moved.filter_map(|on| Event::new(context, file, "seedlings were pricked out", on));
    let taken: Vec<Event> = up.chain(moved).collect();
    let end = ended(context, file, sowing.fate.as_ref(), "the sowing ended");
    let later = taken.iter().chain(&end);
    found.extend(later.filter_map(|later| later.must_follow(context, &start)));
    found.extend(before_end(context, end, &taken));
    found
}

/// The end of a sowing or a community pot.
fn ended<'t>(
    context: &CheckContext<'_, 't>,
    file: FileId,
    fate: Option<&Fate<'t>>,
    clause: &'static str,
) -> Option<Event<'t>> {
    Event::new(context, file, clause, fate?.on())
}

/// What is said to have happened after an end.
fn before_end(context: &CheckContext, end: Option<Event>, events: &[Event]) -> Vec<Finding> {
    let Some(end) = end else { return Vec::new() };
    let events = events.iter();
    events
        .filter_map(|event| end.must_follow(context, event))
        .collect()
}

fn of_community_pots(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let page = context.page(cross);
    let file = context.cross(cross).file;
    let timeline = Timeline::of(context, cross);
    let mut found = Vec::new();
    for community_pot in &page.community_pots {
        let sowing = community_pot
            .sowing
            .and_then(|code| {
                context
                    .registry
                    .sowings(cross)
                    .find(|(_, of)| of.code == code)
            })
            .map(|(sowing, _)| sowing);
        let foreign = community_pot.one_of.iter().any(|pod| pod.contains('.'));
        let alive = community_pot.alive.iter().filter(|tally| tally.count > 0);
        let alive = alive.map(|tally| tally.on);
        let alive =
            alive.filter_map(|on| Event::new(context, file, "a community pot was counted", on));
        let filled = filled_on(page, community_pot);
        let filled =
            filled.filter_map(|on| Event::new(context, file, "seedlings were pricked out", on));
        let gone = community_pot.gone.iter().map(|part| part.fate.on());
        let gone = gone.filter_map(|on| Event::new(context, file, "seedlings left the pot", on));
        let alive: Vec<Event> = alive.chain(filled).chain(gone).collect();
        let fate = community_pot.fate.as_ref();
        let end = ended(context, file, fate, "the community pot ended");
        found.extend(before_end(context, end, &alive));
        if let Some(start) = timeline.start(sowing).filter(|_| !foreign) {
            let later = alive.iter().chain(&end);
            found.extend(later.filter_map(|later| later.must_follow(context, &start)));
        }
    }
    found
}

/// The days on which seedlings were pricked out into a community pot that was not counted then.
fn filled_on<'p, 't>(
    page: &'p CrossPage<'t>,
    pot: &'p CommunityPot<'t>,
) -> impl Iterator<Item = &'t str> {
    let sowings = page.sowings.iter();
    let sowings = sowings.filter(|sowing| Some(sowing.code) == pot.sowing);
    let pricked = sowings.flat_map(|sowing| &sowing.pricked_out);
    let into = pricked.filter(|of| of.to.as_deref() == Some(pot.code));
    let days = into.map(|of| of.on);
    days.filter(|on| pot.alive.iter().all(|tally| tally.on != *on))
}

/// Whether the parents were there, and still there, when the flowers were pollinated.
pub(super) fn parents_in_time(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let page = context.page(cross);
    let file = context.cross(cross).file;
    let mut found = Vec::new();
    for parent in parents(page).iter().filter(|parent| parent.certain) {
        let Some(plant) = context.plant(parent.code) else {
            continue;
        };
        let start = start_of(context, plant);
        let days = page
            .pollinations
            .iter()
            .flat_map(|p| days(context, file, p));
        for day in days {
            if let Some(start) = &start {
                let late = day.must_follow(context, start);
                found.extend(late.map(|finding| younger(finding, parent.code)));
            }
            if parent.bore_the_seed && !crossed_elsewhere(context, page, plant) {
                found.extend(after_end(context, plant, &day));
            }
        }
        if parent.bore_the_seed && !crossed_elsewhere(context, page, plant) {
            let late = harvests(context, file, page.pods.iter());
            let late = late.iter().filter_map(|of| after_end(context, plant, of));
            found.extend(late.map(as_warning));
        }
    }
    let zones = page.pollinations.iter();
    found.extend(zones.flat_map(|zone| harvested_off_gone_piece(context, cross, zone)));
    found
}

/// The harvests of a zone on a piece that had died or left by then, while its plant has no end on record.
fn harvested_off_gone_piece(
    context: &CheckContext,
    cross: CrossRow,
    zone: &Pollination,
) -> Vec<Finding> {
    let (registry, of) = (context.registry, context.cross(cross));
    let bearer = mother(registry, of, zone).filter(|of| registry.fate(of.plant).is_none());
    let fate = bearer.and_then(|of| registry.ramet(of)?.fate.as_ref());
    let file = bearer.and_then(|of| context.anchor(of.plant));
    let (Some(bearer), Some(fate), Some(anchor), None) = (bearer, fate, file, &of.page.told_by)
    else {
        return Vec::new();
    };
    let pods = of.page.pods.iter();
    let pods = pods.filter(|pod| pod.zone == Some(zone.zone));
    let code = registry.code_of(bearer);
    let days = harvests(context, of.file, pods);
    let after = days
        .iter()
        .filter_map(|on| late(context, (&code, anchor.file), fate, on));
    after.map(as_warning).collect()
}

/// The harvests of pods.
fn harvests<'p, 't: 'p>(
    context: &CheckContext<'_, 't>,
    file: FileId,
    pods: impl Iterator<Item = &'p Pod<'t>>,
) -> Vec<Event<'t>> {
    let days = pods.filter_map(|pod| pod.harvested);
    days.filter_map(|on| Event::new(context, file, "the pod was harvested", on))
        .collect()
}

/// Whether another grower made the cross on a plant that had left us: it flowered with them.
fn crossed_elsewhere(context: &CheckContext, page: &CrossPage, plant: PlantRow) -> bool {
    let fate = context.registry.fate(plant);
    let has_left =
        fate.is_some_and(|fate| !matches!(fate, Fate::Died { .. } | Fate::Culled { .. }));
    page.told_by.is_some() && (has_left || !context.registry.came_back(plant).is_empty())
}

fn younger(mut finding: Finding, code: &str) -> Finding {
    finding.title = format!("the parent {code} was crossed before it was sown");
    finding
}
