//! A founder or a seedling: where it stands, what became of it, what came of it.

use super::history::{History, history_of_one};
use super::offspring::{Offspring, offspring};
use super::parents::{Parents, parents};
use super::readings::{ReadingSeen, readings};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::naming::recorded::accepted;
use crate::observation::last_entry::not_found_since;
use crate::observation::parent_of::{ParentOf, parent_of};
use crate::observation::pieces::pieces_here;
use crate::observation::places::place_noted;
use crate::observation::presence::{Presence, end_of, is_over, presence};
use crate::observation::provenance::{possible, provenance};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::last_read;
use crate::observation::treated::{Treated, treated};
use crate::record::{Fate, FounderClone, Identification, When};
use crate::registry::Registry;

/// What is seen of a plant.
pub struct PlantSeen<'r, 't> {
    /// Its parents; `None` for a founder.
    pub parents: Option<Parents>,
    /// Whether it is here.
    pub presence: Presence,
    /// Its end on record, if it has come by today: that of every piece without one of its own.
    pub end: Option<&'r Fate<'t>>,
    /// Its sex.
    pub sex: SexSeen,
    /// Where it stands.
    pub place: Option<&'r str>,
    /// What it was said to be, each with what that changes; none of a seedling changes its name.
    pub opinions: Vec<(&'r Identification<'t>, Option<Standing>)>,
    /// Treatments of the plant, and of the place it stands at now since it has been there.
    pub treated: Vec<Treated<'r, 't>>,
    /// When it was last read; `None` when never.
    pub last_read: Option<When>,
    /// The day of the last stock-take, if it did not find the plant and nothing was written of it since.
    pub not_found: Option<When>,
    /// Its road from flower to pot; `None` for a founder.
    pub history: Option<History>,
    /// Rooted pieces here.
    pub pieces: usize,
    /// What was read on it, oldest first.
    pub readings: Vec<ReadingSeen<'r>>,
    /// Crosses it is a parent of.
    pub offspring: Vec<Offspring>,
    /// Of how many it is one surely, and of how many perhaps; those that set no pod are not counted.
    pub parent_of: ParentOf,
}

/// Whether an opinion changes the name that is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is accepted and gives the name shown.
    Shown,
    /// It is accepted, but a later one is shown.
    Overtaken,
    /// It is accepted, but one is shown that stands after it on the page and is not known to be later.
    Beside,
    /// It is accepted, but the name is shown as received.
    AsReceived,
    /// It is an opinion, not accepted.
    NotAccepted,
}

/// What is seen of a plant by today.
pub fn plant<'r, 't>(context: &Context<'r, 't>, plant: PlantRow) -> PlantSeen<'r, 't> {
    let (registry, today) = (context.registry, context.today);
    let place = place_noted(registry, plant);
    let end = registry.fate(plant);
    let read = last_read(registry, plant);
    let not_found = not_found_since(registry, plant, read, today);
    PlantSeen {
        parents: parents(context, plant),
        presence: presence(registry, plant, today),
        end: end.filter(|fate| is_over(registry, fate, today)),
        sex: sex_seen(registry, plant),
        place,
        opinions: opinions(registry, plant),
        treated: treated(registry, plant, None, place),
        last_read: read,
        not_found,
        history: registry.cross_of(plant).map(|_| road(context, plant)),
        pieces: pieces_here(registry, plant, today),
        readings: readings(registry, plant),
        offspring: offspring(context, plant),
        parent_of: parent_of(registry, context.lineage(), plant, None),
    }
}

fn road(context: &Context, plant: PlantRow) -> History {
    let (registry, today) = (context.registry, context.today);
    let ended = end_of(registry, plant, today);
    let roads = (provenance(registry, plant), &possible(registry, plant)[..]);
    history_of_one(roads, ended, When::on(today))
}

fn opinions<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
) -> Vec<(&'r Identification<'t>, Option<Standing>)> {
    let founder = registry.founder(plant);
    let of = registry.identified(plant).iter();
    of.map(|opinion| {
        let standing = founder.map(|founder| standing(registry, founder, opinion));
        (opinion, standing)
    })
    .collect()
}

fn standing(registry: &Registry, founder: &FounderClone, opinion: &Identification) -> Standing {
    let when = |of: &Identification| of.on.map_or(When::UNKNOWN, |on| registry.when(on));
    match accepted(registry, founder) {
        Some(current) if std::ptr::eq(current, opinion) => Standing::Shown,
        Some(current) if opinion.accepted => match when(opinion).surely_before(when(current)) {
            true => Standing::Overtaken,
            false => Standing::Beside,
        },
        _ if opinion.accepted => Standing::AsReceived,
        _ => Standing::NotAccepted,
    }
}

impl PlantSeen<'_, '_> {
    /// Of how many crosses it is a parent, where it is one and has one piece on record here.
    pub fn parent_without_spare(&self) -> Option<ParentOf> {
        let is_parent = self.parent_of != ParentOf::default();
        (is_parent && self.pieces == 1).then_some(self.parent_of)
    }
}
