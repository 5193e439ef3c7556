//! Parts of a cross as a grower names them: `X24-01.red`, or `X24-01` where the cross has only one such part.

use super::plants::kind_words;
use super::slip::{AS_PROBLEMS_SHOW, Slip};
use super::voice::{Words, words};
use crate::observation::seedling_trays::{SeedlingTray, every_tray};
use crate::registry::{CrossRow, LotRow, PodRow, PotRow, Registry, SowingRow, Target, ZoneRow};

/// A kind of part in words.
#[derive(Debug)]
pub struct Kind {
    /// The list of a cross page that holds them.
    pub(super) list: &'static str,
    /// What one is called.
    word: &'static str,
    /// The command that records one.
    recorded_by: &'static str,
    needed: &'static str,
}

/// A zone of a pollination.
pub const ZONE: Kind = Kind {
    list: "pollinations",
    word: "zone",
    recorded_by: "pollinate",
    needed: "a zone of a pollination, such as X24-01.A",
};
/// A seed lot.
pub const SEED_LOT: Kind = Kind {
    list: "seed_lots",
    word: "seed lot",
    recorded_by: "harvest",
    needed: "a seed lot, such as X24-01.L1",
};
/// A sowing.
pub const SOWING: Kind = Kind {
    list: "sowings",
    word: "sowing",
    recorded_by: "sow",
    needed: "a sowing, such as X24-01.S1",
};
/// A community pot.
pub const COMMUNITY_POT: Kind = Kind {
    list: "community_pots",
    word: "community pot",
    recorded_by: "prick",
    needed: "a community pot, such as X24-01.T1",
};

/// A record in a list of a cross page.
pub trait Part: Copy {
    /// The one that a code names; `None` for anything else.
    fn named(target: Target) -> Option<Self>;
    /// Those of a cross, in the order of its page.
    fn of_cross(registry: &Registry, cross: CrossRow) -> Vec<Self>;
    /// What it is.
    fn kind(self) -> &'static Kind;
    /// The cross, and the place in its list, from 0.
    fn stands(self) -> (CrossRow, usize);
    /// Its code on its page.
    fn own_code<'t>(self, registry: &Registry<'t>) -> &'t str;

    /// Its code with that of its cross: `X24-01.red`.
    fn code(self, registry: &Registry) -> String {
        let page = &registry[self.stands().0].page;
        format!("{}.{}", page.code, self.own_code(registry))
    }
}

/// Makes the place of a record a part: what a code of it names, its kind, all of a cross, the field of its code.
macro_rules! part {
    ($row:ident, $target:ident, $kind:ident, $all:ident, $code:ident) => {
        impl Part for $row {
            fn named(target: Target) -> Option<Self> {
                match target {
                    Target::$target(row) => Some(row),
                    _ => None,
                }
            }

            fn of_cross(registry: &Registry, cross: CrossRow) -> Vec<Self> {
                registry.$all(cross).map(|(row, _)| row).collect()
            }

            fn kind(self) -> &'static Kind {
                &$kind
            }

            fn stands(self) -> (CrossRow, usize) {
                (self.cross, self.at)
            }

            fn own_code<'t>(self, registry: &Registry<'t>) -> &'t str {
                registry[self].$code
            }
        }
    };
}

part!(ZoneRow, Zone, ZONE, zones, zone);
part!(LotRow, SeedLot, SEED_LOT, seed_lots, code);
part!(SowingRow, Sowing, SOWING, sowings, code);
part!(PotRow, CommunityPot, COMMUNITY_POT, community_pots, code);

impl Part for SeedlingTray {
    fn named(target: Target) -> Option<Self> {
        let sowing = SowingRow::named(target).map(SeedlingTray::Sowing);
        sowing.or_else(|| PotRow::named(target).map(SeedlingTray::Pot))
    }

    fn of_cross(registry: &Registry, cross: CrossRow) -> Vec<Self> {
        every_tray(registry, cross).collect()
    }

    fn kind(self) -> &'static Kind {
        match self {
            SeedlingTray::Sowing(_) => &SOWING,
            SeedlingTray::Pot(_) => &COMMUNITY_POT,
        }
    }

    fn stands(self) -> (CrossRow, usize) {
        match self {
            SeedlingTray::Sowing(row) => row.stands(),
            SeedlingTray::Pot(row) => row.stands(),
        }
    }

    fn own_code<'t>(self, registry: &Registry<'t>) -> &'t str {
        match self {
            SeedlingTray::Sowing(row) => row.own_code(registry),
            SeedlingTray::Pot(row) => row.own_code(registry),
        }
    }
}

/// The part that a code names; where several kinds will do, `kind` is the one that is meant first.
///
/// # Errors
/// If it names nothing or something else, a cross with no such part or several, or a part of another grower's cross.
pub fn part<P: Part>(registry: &Registry, typed: &str, kind: &Kind) -> Result<P, Slip> {
    let part: P = named_part(registry, typed, kind)?;
    let page = &registry[part.stands().0].page;
    let Some(by) = &page.told_by else {
        return Ok(part);
    };
    Err(Slip::contradicts(
        format!("{} of {}", part.kind().word, page.code),
        format!("{} is as told by the registry {}", page.code, by.registry),
        words!(
            "what became of its seed there is not yours to record; seed that came to you is its own{}";
            Words::or(format!(": podbook add-seed \"seed of {}\"", page.code), ", recorded at the computer")
        ),
    ))
}

/// Refuses a part of which another grower's registry told.
///
/// # Errors
/// With that registry.
pub fn is_own(registry: &Registry, part: impl Part) -> Result<(), Slip> {
    let page = &registry[part.stands().0].page;
    match &page.told_by {
        None => Ok(()),
        Some(by) => Err(Slip::contradicts(
            format!("{} was named", part.code(registry)),
            format!("{} is as told by the registry {}", page.code, by.registry),
            "what became of it there is not yours to record",
        )),
    }
}

/// The parts that lists of plants name, and the lists without them.
pub fn apart<P: Part>(registry: &Registry, lists: &[String]) -> (Vec<String>, Vec<P>) {
    let (mut rest, mut parts) = (Vec::new(), Vec::new());
    for list in lists {
        let before = parts.len();
        let mut others = Vec::new();
        for item in list.split(',').map(str::trim) {
            match registry.target(item).and_then(P::named) {
                Some(part) => parts.push(part),
                None => others.push(item),
            }
        }
        if parts.len() == before {
            rest.push(list.clone());
        } else if !others.is_empty() {
            rest.push(others.join(","));
        }
    }
    (rest, parts)
}

fn named_part<P: Part>(registry: &Registry, typed: &str, kind: &Kind) -> Result<P, Slip> {
    let Some(target) = registry.target(typed) else {
        let cross = cross_of(registry, typed);
        if let Some(cross) = cross.filter(|&cross| P::of_cross(registry, cross).is_empty()) {
            return Err(none_of(registry, cross, kind));
        }
        let near = near::<P>(registry, typed, kind);
        return Err(Slip::unknown(registry, kind.word, typed, near));
    };
    let cross = match (P::named(target), target) {
        (Some(part), _) => return Ok(part),
        (None, Target::Cross(cross)) => cross,
        (None, Target::Pod(pod)) if kind.list == SEED_LOT.list => {
            return Err(lots_of(registry, typed, pod));
        }
        _ => return Err(Slip::wrong_kind(typed, kind_words(target), kind.needed)),
    };
    let all = in_order::<P>(registry, cross, kind);
    let page = registry.sources.get(registry[cross].file);
    if all.len() < 2 && page.has_left_out(&[kind.word]) {
        return Err(one_unread(typed, kind, &page.path));
    }
    match all.as_slice() {
        [part] => Ok(*part),
        [] => Err(none_of(registry, cross, kind)),
        several => {
            let code = |part: &P| format!("{typed}.{}", part.own_code(registry));
            let choices = several.iter().map(code).collect();
            let is_one_kind = several.iter().all(|part| part.kind().list == kind.list);
            let what = if is_one_kind {
                kind.word
            } else {
                "sowing or pot"
            };
            let help = "name the one that is meant";
            Err(Slip::ambiguous(what, choices, help))
        }
    }
}

/// The parts of a cross, those of a kind first.
fn in_order<P: Part>(registry: &Registry, cross: CrossRow, kind: &Kind) -> Vec<P> {
    let mut all = P::of_cross(registry, cross);
    all.sort_by_key(|part| part.kind().list != kind.list);
    all
}

/// The cross before the point of a code.
fn cross_of(registry: &Registry, typed: &str) -> Option<CrossRow> {
    registry.cross(typed.rsplit_once('.')?.0)
}

/// The refusal of a pod where its seed is meant: with the lots of its seed.
fn lots_of(registry: &Registry, typed: &str, pod: PodRow) -> Slip {
    let of_pod = registry.seed_lots(pod.cross);
    let of_pod = of_pod.filter(|(_, lot)| lot.pod == Some(registry[pod].code));
    let lots: Vec<String> = of_pod.map(|(lot, _)| lot.code(registry)).collect();
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

/// The refusal of a cross without the code of a part, while a part was left out that may be meant.
fn one_unread(typed: &str, kind: &Kind, path: &str) -> Slip {
    let word = kind.word;
    Slip::Unread(words!(
        "which {word} of {typed} is meant is not known: {path} has one that could not be read\nmend that first{}, or give the code of the {word}";
        Words::or(" (`podbook check` shows the place)", AS_PROBLEMS_SHOW)
    ))
}

/// The refusal of a cross that has no part of the kind asked for.
fn none_of(registry: &Registry, cross: CrossRow, kind: &Kind) -> Slip {
    let code = registry[cross].page.code;
    let (word, verb) = (kind.word, kind.recorded_by);
    let by = format!(": podbook {verb}; `podbook show {code}` shows what there is");
    Slip::nothing(words!("{code} has no {word} on record\nrecord it first{}"; Words::or(&*by, "")))
}

/// Codes a mistyped one may have meant: for `X24-01.rde` the zones of X24-01.
fn near<P: Part>(registry: &Registry, typed: &str, kind: &Kind) -> Vec<String> {
    let cross = cross_of(registry, typed);
    let crosses: Vec<CrossRow> = match cross {
        Some(cross) => vec![cross],
        None => registry.cross_rows().collect(),
    };
    let parts = crosses
        .into_iter()
        .flat_map(|cross| in_order::<P>(registry, cross, kind));
    let codes: Vec<String> = parts.map(|part| part.code(registry)).collect();
    let nearest = crate::text::nearest(typed, codes.iter().map(String::as_str));
    match (nearest.as_slice(), cross) {
        ([], Some(_)) => codes.into_iter().take(3).collect(),
        ([], None) => Vec::new(),
        (near, _) => near.iter().map(|&code| code.to_owned()).collect(),
    }
}
