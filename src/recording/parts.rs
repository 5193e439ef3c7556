//! Parts of a cross as a grower names them: `X24-01.red`, or `X24-01` where the cross has only one such part.

use super::plants::kind_words;
use super::slip::Slip;
use super::voice::{Words, words};
use crate::registry::{CrossRow, PodRow, Registry, Target};

/// Which list of a cross page a part stands in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// A zone of a pollination.
    Zone,
    /// A seed lot.
    SeedLot,
    /// A sowing.
    Sowing,
    /// A community pot.
    CommunityPot,
}

impl Part {
    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Part::Zone => "zone",
            Part::SeedLot => "seed lot",
            Part::Sowing => "sowing",
            Part::CommunityPot => "community pot",
        }
    }

    /// The command that records one.
    fn recorded_by(self) -> &'static str {
        match self {
            Part::Zone => "pollinate",
            Part::SeedLot => "harvest",
            Part::Sowing => "sow",
            Part::CommunityPot => "prick",
        }
    }

    fn needed(self) -> &'static str {
        match self {
            Part::Zone => "a zone of a pollination, such as X24-01.A",
            Part::SeedLot => "a seed lot, such as X24-01.L1",
            Part::Sowing => "a sowing, such as X24-01.S1",
            Part::CommunityPot => "a community pot, such as X24-01.T1",
        }
    }

    fn of(self, target: Target) -> Option<(CrossRow, usize)> {
        match (self, target) {
            (Part::Zone, Target::Zone(zone)) => Some((zone.cross, zone.at)),
            (Part::SeedLot, Target::SeedLot(lot)) => Some((lot.cross, lot.at)),
            (Part::Sowing, Target::Sowing(sowing)) => Some((sowing.cross, sowing.at)),
            (Part::CommunityPot, Target::CommunityPot(pot)) => Some((pot.cross, pot.at)),
            _ => None,
        }
    }

    /// The codes of a cross's parts of this kind, in the order of the page.
    pub fn codes<'t>(self, registry: &Registry<'t>, cross: CrossRow) -> Vec<&'t str> {
        let page = &registry[cross].page;
        match self {
            Part::Zone => page.pollinations.iter().map(|part| part.zone).collect(),
            Part::SeedLot => page.seed_lots.iter().map(|part| part.code).collect(),
            Part::Sowing => page.sowings.iter().map(|part| part.code).collect(),
            Part::CommunityPot => page.community_pots.iter().map(|part| part.code).collect(),
        }
    }
}

/// The cross, and the place in its list, of the part of one of some kinds that a code names.
///
/// # Errors
/// If it names nothing or something else, or a cross with no such part or several.
pub fn part(
    registry: &Registry,
    typed: &str,
    kinds: &[Part],
) -> Result<(Part, CrossRow, usize), Slip> {
    let (kind, cross, at) = named_part(registry, typed, kinds)?;
    let page = &registry[cross].page;
    match &page.told_by {
        None => Ok((kind, cross, at)),
        Some(by) => Err(Slip::contradicts(
            format!("{} of {}", kind.word(), page.code),
            format!("{} is as told by the registry {}", page.code, by.registry),
            words!(
                "what became of its seed there is not yours to record; seed that came to you is its own{}";
                Words::or(format!(": podbook add-seed \"seed of {}\"", page.code), ", recorded at the computer")
            ),
        )),
    }
}

fn named_part(
    registry: &Registry,
    typed: &str,
    kinds: &[Part],
) -> Result<(Part, CrossRow, usize), Slip> {
    let Some(target) = registry.target(typed) else {
        let cross = typed
            .rsplit_once('.')
            .and_then(|(cross, _)| registry.cross(cross));
        if let Some(cross) = cross.filter(|&cross| {
            kinds
                .iter()
                .all(|kind| kind.codes(registry, cross).is_empty())
        }) {
            return Err(none_of(registry, cross, kinds));
        }
        let near = near(registry, typed, kinds);
        return Err(Slip::unknown(registry, kinds[0].word(), typed, near));
    };
    for &kind in kinds {
        if let Some((cross, at)) = kind.of(target) {
            return Ok((kind, cross, at));
        }
    }
    if let (Target::Pod(pod), [Part::SeedLot]) = (target, kinds) {
        return Err(lots_of(registry, typed, pod));
    }
    let Target::Cross(cross) = target else {
        return Err(Slip::wrong_kind(
            typed,
            kind_words(target),
            kinds[0].needed(),
        ));
    };
    let there: Vec<(Part, usize, &str)> = kinds
        .iter()
        .flat_map(|&kind| {
            let codes = kind.codes(registry, cross).into_iter().enumerate();
            codes.map(move |(at, code)| (kind, at, code))
        })
        .collect();
    match there.as_slice() {
        [(kind, at, _)] => Ok((*kind, cross, *at)),
        [] => Err(none_of(registry, cross, kinds)),
        several => Err(Slip::ambiguous(
            kinds[0].word(),
            several
                .iter()
                .map(|(_, _, code)| format!("{typed}.{code}"))
                .collect(),
            "name the one that is meant",
        )),
    }
}

/// The refusal of a pod where its seed is meant: with the lots of its seed.
fn lots_of(registry: &Registry, typed: &str, pod: PodRow) -> Slip {
    let page = &registry[pod.cross].page;
    let pod = registry[pod].code;
    let lots = page.seed_lots.iter().filter(|lot| lot.pod == Some(pod));
    let lots: Vec<String> = lots
        .map(|lot| format!("{}.{}", page.code, lot.code))
        .collect();
    Slip::nothing(match lots.as_slice() {
        [] => words!(
            "{typed} is a pod, and no seed of it is on record\nrecord its seed first{}";
            Words::or(": podbook harvest", " under “Harvested”")
        ),
        [lot] => format!("{typed} is a pod\nname its seed lot, {lot}").into(),
        lots => format!(
            "{typed} is a pod\nname one of its seed lots: {}",
            lots.join(", ")
        )
        .into(),
    })
}

/// The refusal of a cross that has no part of the kinds asked for.
fn none_of(registry: &Registry, cross: CrossRow, kinds: &[Part]) -> Slip {
    let code = registry[cross].page.code;
    let (word, verb) = (kinds[0].word(), kinds[0].recorded_by());
    let by = format!(": podbook {verb}; `podbook show {code}` shows what there is");
    Slip::nothing(words!("{code} has no {word} on record\nrecord it first{}"; Words::or(&*by, "")))
}

/// Codes a mistyped one may have meant: for `X24-01.rde` the zones of X24-01.
fn near(registry: &Registry, typed: &str, kinds: &[Part]) -> Vec<String> {
    let cross = typed
        .rsplit_once('.')
        .and_then(|(cross, _)| registry.cross(cross));
    let all = registry.cross_rows();
    let crosses: Vec<CrossRow> = cross.map_or_else(|| all.collect(), |cross| vec![cross]);
    let codes = crosses.iter().flat_map(|&cross| {
        let page = registry[cross].page.code;
        let codes = kinds
            .iter()
            .flat_map(move |kind| kind.codes(registry, cross));
        codes.map(move |code| format!("{page}.{code}"))
    });
    let codes: Vec<String> = codes.collect();
    let nearest = crate::text::nearest(typed, codes.iter().map(String::as_str));
    match nearest.is_empty() {
        true => codes
            .into_iter()
            .take(if cross.is_some() { 3 } else { 0 })
            .collect(),
        false => nearest.into_iter().map(str::to_owned).collect(),
    }
}
