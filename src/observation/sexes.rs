//! Which sexes a cross has shown, how likely it still has both, and which of its parents has no spare.

use crate::lineage::{Lineage, Link, PlantRow};
use crate::observation::parent_of::parent_of;
use crate::observation::pieces::pieces_here;
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen, shown_before_a_mix_up};
use crate::observation::who_it_may_be::may_be;
use crate::record::{Day, Sex};
use crate::registry::{Cross, Registry};
use std::collections::BTreeSet;

/// Plants of which one shows the other sex with a chance of 99 %, at one to one: 1 − ½⁷.
const MANY: usize = 7;

/// What was seen of the sexes of a cross's seedlings, those gone included.
#[derive(Clone, Copy, Default, PartialEq, Eq, Debug)]
pub struct Sexes {
    /// Seen female on open flowers.
    pub female: usize,
    /// Seen male.
    pub male: usize,
    /// Here and not sexed, or sexed by a guess only.
    pub unsexed_here: usize,
    /// Gone before they were sexed.
    pub unsexed_gone: usize,
}

/// Seedlings of a cross that were mixed up with each other, or with others, and are not known apart.
pub struct NotKnownApart {
    /// Those of the cross.
    pub plants: Vec<PlantRow>,
    /// Whether plants of other crosses, or plants that are not on record, are among those that they may be.
    pub is_with_others: bool,
    /// How many of them were seen to be female at the least, whichever pots they stand in.
    pub female: usize,
    /// How many male.
    pub male: usize,
}

/// The seedlings of a cross that are not known apart, group by group.
pub fn not_known_apart(registry: &Registry, cross: &Cross) -> Vec<NotKnownApart> {
    let mut groups: Vec<BTreeSet<PlantRow>> = Vec::new();
    for &plant in &cross.seedlings {
        let Some(mix_up) = may_be(registry, plant) else {
            continue;
        };
        let mut group: BTreeSet<PlantRow> = mix_up.others.into_iter().collect();
        group.insert(plant);
        let shared = groups.extract_if(.., |known| !known.is_disjoint(&group));
        let shared: BTreeSet<PlantRow> = shared.flatten().collect();
        group.extend(shared);
        groups.push(group);
    }
    let of = |group: BTreeSet<PlantRow>| {
        let plants = cross.seedlings.iter().copied();
        let plants: Vec<PlantRow> = plants.filter(|plant| group.contains(plant)).collect();
        // What was seen after may be of the plant that was seen before.
        let least = |sex: Sex| {
            let before = plants.iter();
            let before = before.filter(|of| shown_before_a_mix_up(registry, **of) == Some(sex));
            before.count().max(certain(registry, &plants, sex))
        };
        let is_missing_one =
            |of: &PlantRow| may_be(registry, *of).is_some_and(|of| !of.all_on_record);
        NotKnownApart {
            is_with_others: group.len() > plants.len() || plants.iter().any(is_missing_one),
            female: least(Sex::Female),
            male: least(Sex::Male),
            plants,
        }
    };
    groups.into_iter().map(of).collect()
}

/// How many of some plants are certain to be of a sex, each by what counts for its own pot.
fn certain(registry: &Registry, plants: &[PlantRow], sex: Sex) -> usize {
    let seen = plants.iter().map(|&plant| sex_seen(registry, plant));
    seen.filter(|seen| *seen == SexSeen::Certain(sex)).count()
}

/// Counts the sexes of a cross's seedlings. What was seen of one before it was mixed up is of one of them.
pub fn sexes(registry: &Registry, cross: &Cross, today: Day) -> Sexes {
    let mut counted = Sexes::default();
    for &plant in &cross.seedlings {
        match (sex_seen(registry, plant), presence(registry, plant, today)) {
            (SexSeen::Certain(Sex::Female), _) => counted.female += 1,
            (SexSeen::Certain(Sex::Male), _) => counted.male += 1,
            (_, Presence::Here) => counted.unsexed_here += 1,
            _ => counted.unsexed_gone += 1,
        }
    }
    for group in not_known_apart(registry, cross) {
        let female = group.female - certain(registry, &group.plants, Sex::Female);
        let male = group.male - certain(registry, &group.plants, Sex::Male);
        counted.female += female;
        counted.male += male;
        let not_here = (female + male).saturating_sub(counted.unsexed_here);
        counted.unsexed_here = counted.unsexed_here.saturating_sub(female + male);
        counted.unsexed_gone = counted.unsexed_gone.saturating_sub(not_here);
    }
    counted
}

impl Sexes {
    /// The counts in words; `None` while nothing was seen.
    pub fn words(&self) -> Option<String> {
        (self.female + self.male > 0).then(|| {
            format!(
                "{} female, {} male, {} unsexed here, {} gone unsexed",
                self.female, self.male, self.unsexed_here, self.unsexed_gone
            )
        })
    }

    /// How likely a sex not yet seen is among those unsexed, at one to one: 1 − ½ⁿ. Those seen do not change it.
    pub fn chance_of_the_other(&self) -> Option<String> {
        let missing = match (self.female, self.male) {
            (0, seen) if seen > 0 => "female",
            (seen, 0) if seen > 0 => "male",
            _ => return None,
        };
        if self.unsexed_here == 0 {
            return Some(format!(
                "no {missing} was seen and none is left unsexed here"
            ));
        }
        let chance = 1.0 - libm::exp2(-(self.unsexed_here as f64));
        let keep = match self.unsexed_here {
            1 => "keep it".to_owned(),
            n if n > MANY => format!("keep at least {MANY}, which gives 99 %,"),
            n => format!("keep all {n}"),
        };
        Some(format!(
            "if sexes come one to one, the chance of at least one {missing} among the {} unsexed is {}; those already seen do not change it; {keep} until flowers show",
            self.unsexed_here,
            match 100.0 * chance {
                nearly if nearly >= 99.5 => "more than 99 %".to_owned(),
                chance => format!("{chance:.0} %"),
            }
        ))
    }
}

/// One caution for each parent of a cross that has one piece on record here.
pub fn without_spare(
    registry: &Registry,
    lineage: &Lineage,
    cross: &Cross,
    today: Day,
) -> Vec<String> {
    let parents = lineage.pedigree[cross.origin].parents();
    let alone = parents
        .into_iter()
        .filter(|&plant| pieces_here(registry, plant, today) == 1);
    alone
        .filter_map(|plant| caution(registry, lineage, plant))
        .collect()
}

fn caution(registry: &Registry, lineage: &Lineage, plant: PlantRow) -> Option<String> {
    let of = |side: Link, role: &str| parent_of(registry, lineage, plant, Some(side)).words(role);
    let roles = [
        of(Link::Seed, "seed parent"),
        of(Link::Pollen, "pollen parent"),
    ];
    let roles: Vec<String> = roles.into_iter().flatten().collect();
    (!roles.is_empty()).then(|| {
        format!(
            "{} ({}) has one piece on record here: take a cutting",
            registry.code(plant),
            roles.join("; ")
        )
    })
}
