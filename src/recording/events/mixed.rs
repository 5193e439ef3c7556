//! One of those that were mixed up: a seedling or a community pot, with the pods that it may be of.

use super::in_between::{InBetween, recorded_in_between, recorded_of_pot};
use crate::record::When;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::Part;
use crate::recording::plants::kind_words;
use crate::recording::slip::Slip;
use crate::recording::trays::sowing_of;
use crate::recording::voice::{Words, words};
use crate::registry::{
    CrossRow, MixUp, MixedUp, PlantOrRamet, PlantRow, PodRow, PotRow, Registry, Target,
};

/// A pod by its cross and its code, `X21-03.P1`.
pub(super) type PodCode = (CrossRow, String);

/// A seedling, with its cross, or a community pot.
#[derive(Clone, Copy)]
pub(super) enum Mixed {
    Plant(PlantRow, CrossRow),
    Pot(PotRow),
}

impl Mixed {
    pub fn of(registry: &Registry, code: &str) -> Result<Mixed, Slip> {
        match registry.target(code) {
            Some(Target::Plant(plant)) => match registry.cross_of(plant) {
                Some(cross) => Ok(Mixed::Plant(plant, cross)),
                None => Err(Slip::wrong_kind(
                    code,
                    "a founder",
                    words!(
                        "seedlings or community pots; for a founder in doubt record an opinion{}";
                        Words::or(": `podbook opinion`", " at the computer")
                    ),
                )),
            },
            Some(Target::CommunityPot(pot)) => Ok(Mixed::Pot(pot)),
            Some(other) => Err(Slip::wrong_kind(
                code,
                kind_words(other),
                "seedlings such as X22-02-3, or community pots such as X23-02.T1",
            )),
            None => {
                let near = registry.near(code);
                Err(Slip::unknown(
                    registry,
                    "plant or community pot",
                    code,
                    near,
                ))
            }
        }
    }

    pub fn is_plant(self) -> bool {
        matches!(self, Mixed::Plant(..))
    }

    pub fn plant(self) -> Option<PlantOrRamet> {
        match self {
            Mixed::Plant(plant, _) => Some(PlantOrRamet::whole(plant)),
            Mixed::Pot(_) => None,
        }
    }

    pub fn cross(self) -> CrossRow {
        match self {
            Mixed::Plant(_, cross) => cross,
            Mixed::Pot(pot) => pot.cross,
        }
    }

    pub fn mix_ups<'r>(self, registry: &'r Registry) -> Vec<MixUp<'r>> {
        match self {
            Mixed::Plant(plant, _) => registry.mix_ups(plant).to_vec(),
            Mixed::Pot(pot) => registry.mix_ups_of(MixedUp::Pot(pot)).to_vec(),
        }
    }

    /// What was recorded of it from one day to another.
    pub fn recorded(self, registry: &Registry, span: [When; 2]) -> Option<InBetween> {
        match self {
            Mixed::Plant(plant, _) => recorded_in_between(registry, plant, span),
            Mixed::Pot(pot) => recorded_of_pot(registry, pot, span),
        }
    }

    pub fn change(self, draft: &mut Draft, changes: Vec<FieldChange>) -> Result<(), Slip> {
        match self {
            Mixed::Plant(plant, _) => draft.change_plants(vec![(plant, changes)]),
            Mixed::Pot(pot) => draft.change_part(pot, &changes),
        }
    }

    /// The pods that its own record names as those it may come from, as typed there.
    pub fn one_of<'r>(self, registry: &'r Registry) -> &'r [&'r str] {
        match self {
            Mixed::Plant(plant, _) => registry.seedling(plant).map_or(&[][..], |of| &of.one_of),
            Mixed::Pot(pot) => &registry[pot].one_of,
        }
    }

    /// The pods it may be of: those in doubt by its own record or that of its pot, or the one that it is of, and those of what
    /// it was mixed up with by hand, where no record names pods.
    pub fn pods(self, registry: &Registry) -> Result<Vec<PodCode>, Slip> {
        let mut pods = self.own_pods(registry)?;
        let this = match self {
            Mixed::Plant(plant, _) => MixedUp::Plant(plant),
            Mixed::Pot(pot) => MixedUp::Pot(pot),
        };
        let others = registry.may_be_of_another_cross(this).into_iter();
        for (code, _) in others.filter(|(_, named)| named.is_some()) {
            pods.extend(Mixed::of(registry, code)?.own_pods(registry)?);
        }
        Ok(pods)
    }

    fn own_pods(self, registry: &Registry) -> Result<Vec<PodCode>, Slip> {
        let (one_of, cross) = (self.one_of(registry), self.cross());
        if !one_of.is_empty() {
            let pods = one_of.iter().map(|pod| in_full(registry, cross, pod));
            return Ok(pods.collect());
        }
        let of_its_pot = self
            .plant()
            .map(|plant| registry.pods_it_may_be_of(plant.plant));
        let of_its_pot = of_its_pot.unwrap_or_default();
        if !of_its_pot.is_empty() {
            let code = |pod: PodRow| (pod.cross, registry[pod].code.to_owned());
            return Ok(of_its_pot.into_iter().map(code).collect());
        }
        let pod = match self {
            Mixed::Plant(plant, _) => registry.road(plant).1.map(|pod| registry[pod].code),
            Mixed::Pot(pot) => pod_of_pot(registry, pot),
        };
        let pods = &registry[cross].page.pods;
        let only = || (pods.len() == 1).then(|| pods[0].code);
        match pod.or_else(only) {
            Some(pod) => Ok(vec![(cross, pod.to_owned())]),
            None => Err(no_pod(&match self {
                Mixed::Plant(plant, _) => registry.code(plant),
                Mixed::Pot(pot) => pot.code(registry),
            })),
        }
    }
}

/// The pod of a community pot by the record of its sowing, or of the seed that was sown.
fn pod_of_pot<'t>(registry: &Registry<'t>, row: PotRow) -> Option<&'t str> {
    let sowing = sowing_of(registry, row)?;
    let mut lots = registry[row.cross].page.seed_lots.iter();
    let lot = || lots.find(|lot| Some(lot.code) == sowing.lot)?.pod;
    sowing.pod.or_else(lot)
}

fn no_pod(code: &str) -> Slip {
    Slip::nothing(words!(
        "the pod of {code} is not on record, so podbook cannot say which pods it may be of\nrecord the pod first{}";
        Words::or(": `podbook harvest`, or `pods` on its page", ", under “Harvested”")
    ))
}

/// `P1` on the page of its cross, `X21-03.P1` of any.
fn in_full(registry: &Registry, cross: CrossRow, pod: &str) -> PodCode {
    let of_other = pod
        .rsplit_once('.')
        .and_then(|(other, pod)| Some((registry.cross(other)?, pod.to_owned())));
    of_other.unwrap_or_else(|| (cross, pod.to_owned()))
}
