//! Which sexes a cross has shown, how likely it still has both, and which of its parents has no spare.

use crate::lineage::{Lineage, Link, PlantRow};
use crate::observation::parent_of::parent_of;
use crate::observation::pieces::pieces_here;
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Day, Sex};
use crate::registry::{Cross, Registry};

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

/// Counts the sexes of a cross's seedlings.
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
