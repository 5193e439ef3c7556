//! What became of the seed of a cross, a pod or a sowing: every count with what it is counted out of.
//!
//! A stage that was not counted is missing, never zero, and a count larger than the one it comes from is shown as it stands,
//! with a caution. Seedlings that are still only a count (community pots) stand beside the numbered ones and are never added
//! to them. How siblings differ is the question of `siblings`.

use crate::lineage::PlantRow;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::presence::{Presence, fate_by, is_over, presence};
use crate::observation::scope::Scope;
use crate::observation::sowing_left::SowingAccount;
use crate::observation::who_it_may_be::{may_be, pot_mixed_up};
use crate::record::{CommunityPot, Day, Fate, Sowing};
use crate::registry::{PotRow, Registry, SowingRow};
use crate::statistics::Confidence;
use crate::statistics::proportion::wilson;
use crate::wording::days;
use serde::Serialize;

/// One count on the way from seed to shelf.
#[derive(Clone, Debug, Serialize)]
pub struct Stage {
    /// What was counted, such as `germinated`.
    pub stage: String,
    /// How many; `null` when not counted.
    pub n: Option<u64>,
    /// Out of how many; `null` when there is nothing to count it out of.
    pub out_of: Option<u64>,
    /// What those are, such as `sown`.
    pub of: Option<String>,
    /// Least and greatest share, 0 to 1, with 95 % confidence (Wilson 1927); `null` where the grower's own decisions are
    /// counted, as with plants sold or marked to keep.
    pub share_between: Option<(f64, f64)>,
    /// What is to be known about the count.
    pub remark: Option<String>,
}

impl Stage {
    fn new(stage: &str, n: Option<u64>, of: Option<(&str, Option<u64>)>) -> Stage {
        let out_of = of.and_then(|(_, count)| count);
        let share = match (n, out_of) {
            (Some(n), Some(all)) if n <= all => wilson(n, all, Confidence::P95).ok(),
            _ => None,
        };
        let too_many = matches!((n, out_of), (Some(n), Some(all)) if n > all);
        Stage {
            stage: stage.to_owned(),
            n,
            out_of,
            of: of
                .filter(|(_, count)| count.is_some())
                .map(|(what, _)| what.to_owned()),
            share_between: share.map(|share| (share.low, share.high)),
            remark: too_many.then(|| "more than they come from: check the counts".to_owned()),
        }
    }

    /// Counted, but no share to generalise: what the grower decided is no sample of anything.
    fn decided(mut self) -> Stage {
        self.share_between = None;
        self
    }

    fn remarked(mut self, remark: Option<String>) -> Stage {
        self.remark = match (self.remark, remark) {
            (Some(a), Some(b)) => Some(format!("{a}; {b}")),
            (a, b) => a.or(b),
        };
        self
    }
}

/// A count of seedlings that have no numbers.
#[derive(Clone, Debug, Serialize)]
pub struct CommunityPotCount {
    /// Its code.
    pub code: String,
    /// Left today, least and most: the last count with what was pricked out into it and taken out of it since; none where it
    /// left as a whole, and `null` when not counted.
    pub left: Option<(u32, u32)>,
    /// Alive when last counted; `null` when not counted.
    pub alive: Option<u32>,
    /// Numbered out of it since.
    pub numbered_since: u32,
    /// When that was.
    pub counted: Option<String>,
    /// What is to be known about it.
    pub remark: Option<String>,
    #[serde(skip)]
    pub(crate) left_words: Option<String>,
}

/// The chain of counts.
#[derive(Clone, Debug, Serialize)]
pub struct Tray {
    /// From seed to shelf.
    pub stages: Vec<Stage>,
    /// Seedlings that are still only a count, beside the numbered ones.
    pub community_pots: Vec<CommunityPotCount>,
}

const PRICKED_OUT: &str = "pricked out";

/// Counts a scope as of today.
pub fn tray(registry: &Registry, scope: Scope, plants: &[PlantRow], today: Day) -> Tray {
    let sowings = scope.sowings(registry);
    let mut stages = seed_stages(registry, &sowings, today);
    let mut rows = sowings.iter().map(|(row, _)| *row);
    let beside = rows.any(|row| SowingAccount::of(registry, row).numbered_beside_pricked_out());
    let complete = |stage: &&Stage| {
        let is_road_of_all = !(beside && stage.stage == PRICKED_OUT);
        stage.n.is_some() && stage.remark.is_none() && is_road_of_all
    };
    let before = stages.iter().rfind(complete);
    let before = before.map(|stage| (stage.stage.clone(), stage.n));
    let mixed_up = mixed_up_since_numbered(registry, scope, plants);
    stages.extend(plant_stages(registry, (plants, mixed_up), before, today));
    let community_pots = scope.community_pots(registry);
    Tray {
        stages,
        community_pots: community_pots
            .into_iter()
            .map(|(row, pot)| community_pot_count(registry, (row, pot), today))
            .collect(),
    }
}

fn seed_stages(registry: &Registry, sowings: &[(SowingRow, &Sowing)], today: Day) -> Vec<Stage> {
    let by_today = |on: &str| registry.when(on).first <= today;
    let sown = total(sowings, |sowing| sowing.seeds);
    let up = total(sowings, |sowing| {
        let counts = sowing.germinated.iter().filter(|tally| by_today(tally.on));
        counts.map(|tally| tally.count).max()
    });
    let moved = total(sowings, |sowing| {
        let prickings = sowing.pricked_out.iter().filter(|p| by_today(p.on));
        prickings
            .map(|pricking| pricking.moved)
            .reduce(u32::saturating_add)
    });
    let seeds = matched(sowings, |sowing| {
        let counted = sowing.germinated.iter().any(|tally| by_today(tally.on));
        sowing.seeds.filter(|_| counted)
    });
    vec![
        Stage::new("sown", sown.0, None).remarked(uncounted(sown, sowings.len())),
        Stage::new(
            "germinated",
            up.0,
            Some(("sown", seeds.filter(|_| sown.1 == sowings.len()))),
        )
        .remarked(uncounted(up, sowings.len())),
        Stage::new(
            PRICKED_OUT,
            moved.0,
            Some(("germinated", up.0.filter(|_| moved.1 == up.1))),
        )
        .remarked(uncounted(moved, sowings.len())),
    ]
}

/// The sum over the sowings that have a count, and how many have one.
fn total(
    sowings: &[(SowingRow, &Sowing)],
    count: impl Fn(&Sowing) -> Option<u32>,
) -> (Option<u64>, usize) {
    let counts: Vec<u64> = sowings
        .iter()
        .filter_map(|(_, sowing)| count(sowing))
        .map(u64::from)
        .collect();
    let sum = (!counts.is_empty()).then(|| counts.iter().sum());
    (sum, counts.len())
}

fn matched(
    sowings: &[(SowingRow, &Sowing)],
    count: impl Fn(&Sowing) -> Option<u32>,
) -> Option<u64> {
    total(sowings, count).0
}

fn uncounted((_, counted): (Option<u64>, usize), sowings: usize) -> Option<String> {
    match (counted, sowings) {
        (_, 0) => Some("no sowing on record".to_owned()),
        (0, _) => Some("not counted".to_owned()),
        (counted, sowings) if counted < sowings => {
            Some(format!("counted in {counted} of {sowings} sowings"))
        }
        _ => None,
    }
}

/// Seedlings that were numbered out of a scope and mixed up with others later: they were raised all the same, though they
/// count in nothing that became of the plants.
fn mixed_up_since_numbered(registry: &Registry, scope: Scope, plants: &[PlantRow]) -> u64 {
    if scope.pod.is_some() {
        return 0;
    }
    let of_page = registry[scope.cross].seedlings.iter();
    let of_scope = of_page.filter(|&&plant| {
        let (sowing, _, pot) = registry.road(plant);
        let in_scope = scope.sowing.is_none() || scope.sowing == sowing;
        // Where neither sowing nor pot is recorded, or the pot was mixed up, it may have been of another pod from the start.
        let pot_is_sure = pot.is_none_or(|pot| registry[pot].one_of.is_empty())
            && pot_mixed_up(registry, plant).is_none();
        let was_sure = (sowing.is_some() || pot.is_some()) && pot_is_sure;
        in_scope && was_sure && !plants.contains(&plant)
    });
    of_scope
        .filter(|&&plant| may_be_from_elsewhere(registry, plant))
        .count() as u64
}

/// Whether a plant was mixed up with one raised elsewhere. Where it was not, a seedling that may be of another pod was of it
/// before it had its number.
fn may_be_from_elsewhere(registry: &Registry, plant: PlantRow) -> bool {
    let raised = |plant: PlantRow| (registry.cross_of(plant), registry.road(plant));
    let others = may_be(registry, plant).map_or(Vec::new(), |of| of.others);
    others.iter().any(|&other| raised(other) != raised(plant))
}

fn plant_stages(
    registry: &Registry,
    (plants, mixed_up): (&[PlantRow], u64),
    before: Option<(String, Option<u64>)>,
    today: Day,
) -> Vec<Stage> {
    let fates = plants.iter().map(|&plant| ended_as(registry, plant, today));
    let mut ended = [0u64; 6];
    for fate in fates.flatten() {
        ended[fate] += 1;
    }
    let here = plants
        .iter()
        .filter(|&&plant| presence(registry, plant, today) == Presence::Here)
        .count() as u64;
    let kept = plants
        .iter()
        .filter(|&&plant| {
            registry.is_kept(plant) && presence(registry, plant, today) == Presence::Here
        })
        .count() as u64;
    let numbered = Some(plants.len() as u64);
    let [died, culled, sold, given, lost, elsewhere] = ended;
    let of_numbered =
        |stage: &str, n: u64| Stage::new(stage, Some(n), Some(("numbered", numbered)));
    let mut stages = vec![
        Stage::new(
            "numbered",
            Some(plants.len() as u64 + mixed_up),
            before.as_ref().map(|(what, n)| (what.as_str(), *n)),
        )
        .remarked((mixed_up > 0).then(|| format!("{mixed_up} of them mixed up since"))),
        of_numbered("died", died),
        of_numbered("culled", culled).decided(),
        of_numbered("sold", sold).decided(),
        of_numbered("given away", given).decided(),
        of_numbered("lost", lost),
    ];
    // Only a cross that another grower told of has such plants.
    if elsewhere > 0 {
        stages.push(of_numbered("never here", elsewhere).decided());
    }
    stages.push(of_numbered("here today", here).decided());
    stages.push(
        Stage::new(
            "marked to keep",
            Some(kept),
            Some(("here today", Some(here))),
        )
        .decided(),
    );
    stages
}

/// The fate of a plant by today: died, culled, sold, given, lost, never here.
fn ended_as(registry: &Registry, plant: PlantRow, today: Day) -> Option<usize> {
    Some(match fate_by(registry, plant, today)? {
        Fate::Died { .. } => 0,
        Fate::Culled { .. } => 1,
        Fate::Sold { .. } => 2,
        Fate::Given { .. } => 3,
        Fate::Lost { .. } => 4,
        Fate::Elsewhere => 5,
    })
}

fn community_pot_count(
    registry: &Registry,
    (row, community_pot): (PotRow, &CommunityPot),
    today: Day,
) -> CommunityPotCount {
    let left = community_pot_left(registry, row, today);
    let gone = community_pot.fate.as_ref();
    let is_gone = gone.is_some_and(|fate| is_over(registry, fate, today));
    let ended = community_pot
        .fate
        .as_ref()
        .map(crate::observation::standing::fate_words);
    let muddled = (!community_pot.one_of.is_empty())
        .then(|| format!("one of {}", community_pot.one_of.join(", ")));
    CommunityPotCount {
        code: community_pot.code.to_owned(),
        alive: left.counted.map(|(count, _)| count),
        counted: left.counted.map(|(_, when)| days(when)),
        remark: {
            let taken = Some(left.taken_words()).filter(|words| !words.is_empty());
            let told: Vec<String> = [taken, muddled, ended].into_iter().flatten().collect();
            (!told.is_empty()).then(|| told.join("; "))
        },
        numbered_since: left.taken,
        left: match is_gone {
            true => Some((0, 0)),
            false => left.left,
        },
        left_words: match is_gone {
            true => Some("0".to_owned()),
            false => left.left_words(),
        },
    }
}
