//! Every dated record of a plant as an event.

use super::answer::{Event, History, Piece, ReadHere, SpikeStage, What};
use crate::lineage::PlantRow;
use crate::observation::months::months;
use crate::observation::places::places;
use crate::observation::presence::is_over;
use crate::observation::provenance::{Provenance, possible, sown};
use crate::observation::treated::treated;
use crate::record::{Day, Made, Return, When};
use crate::registry::{Column, Registry, SittingRow};
use crate::wording::each_once;

/// The history of a plant until today.
pub fn history<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow, today: Day) -> History<'r, 't> {
    let about = About {
        registry,
        plant,
        today,
    };
    let mut events = about.beginnings();
    events.extend(about.flowers());
    events.extend(about.pieces());
    events.extend(about.bench());
    events.extend(about.readings());
    events.extend(about.returns(registry.came_back(plant), None));
    events.extend(about.end());
    let all = events.len();
    events.retain(|event| event.when.first <= today || event.when == When::UNKNOWN);
    // Stable: events of one day stand in the order above.
    events.sort_by_key(|event| order(event.when));
    History {
        id: registry.code(plant),
        today,
        later: all - events.len(),
        events,
    }
}

/// By the first possible day, by the last where that is open; what has no date comes last.
fn order(when: When) -> (bool, Day, Day) {
    match when.first {
        Day::FIRST => (when == When::UNKNOWN, when.last, when.last),
        first => (false, first, when.last),
    }
}

/// The day of one stage of a provenance.
type DayOf = fn(&Provenance) -> When;

/// An event for each time at which something may have happened.
fn one_of<'r, 't>(times: impl Iterator<Item = When>, what: &What<'r, 't>) -> Vec<Event<'r, 't>> {
    let different: Vec<When> = each_once(times);
    let is_one_of_several = different.len() > 1;
    let event = |when| Event {
        when,
        what: what.clone(),
        is_one_of_several,
    };
    different.into_iter().map(event).collect()
}

struct About<'r, 't> {
    registry: &'r Registry<'t>,
    plant: PlantRow,
    today: Day,
}

impl<'r, 't> About<'r, 't> {
    fn on(&self, text: &str, what: What<'r, 't>) -> Event<'r, 't> {
        Event {
            when: self.registry.when(text),
            what,
            is_one_of_several: false,
        }
    }

    /// From the pollination to the number, or the arrival.
    fn beginnings(&self) -> Vec<Event<'r, 't>> {
        let registry = self.registry;
        if registry.cross_of(self.plant).is_none() {
            let founder = registry.founder(self.plant).into_iter();
            let came =
                founder.map(|founder| self.on(founder.on.unwrap_or("unknown"), What::Received));
            return came.collect();
        }
        let roads = possible(registry, self.plant);
        let numbered = registry.seedling(self.plant).and_then(|own| own.numbered);
        let stages: [(DayOf, What); 4] = [
            (|road| road.pollinated, What::Pollinated),
            (|road| road.harvested, What::Harvested),
            (|road| road.sown, What::Sown),
            (|road| road.germinated, What::CameUp),
        ];
        let stages = stages.into_iter();
        let stages = stages.flat_map(|(when, what)| one_of(roads.iter().map(when), &what));
        let numbered = numbered.map(|on| self.on(on, What::Numbered));
        stages.chain(numbered).collect()
    }

    fn flowers(&self) -> Vec<Event<'r, 't>> {
        let mut events = Vec::new();
        for spike in self.registry.flowerings(self.plant) {
            let stages = [
                (spike.spike, SpikeStage::Seen),
                (spike.opened, SpikeStage::Opened),
                (spike.over, SpikeStage::Over),
            ];
            let dated = stages.iter().any(|(on, _)| on.is_some());
            // A spike without any date is an event too.
            let undated = (!dated).then_some((Some("unknown"), SpikeStage::Seen));
            for (on, stage) in stages.into_iter().chain(undated) {
                events.extend(on.map(|on| self.on(on, What::Spike(stage, spike.sex))));
            }
        }
        events
    }

    fn pieces(&self) -> Vec<Event<'r, 't>> {
        let mut events = Vec::new();
        for ramet in self.registry.ramets(self.plant) {
            let piece = |rooted| Piece {
                code: ramet.code,
                made: ramet.made,
                rooted,
            };
            let is_original = matches!(ramet.made, None | Some(Made::Original));
            let cut = match (ramet.cut, is_original) {
                (None, true) => None,
                (on, _) => Some(on.unwrap_or("unknown")),
            };
            events.extend(cut.map(|on| self.on(on, What::Piece(piece(false)))));
            events.extend(ramet.rooted.map(|on| self.on(on, What::Piece(piece(true)))));
            let fate = ramet.fate.as_ref();
            let fate = fate.filter(|fate| is_over(self.registry, fate, self.today));
            events.extend(fate.map(|fate| self.on(fate.on(), What::Ended(fate, Some(ramet.code)))));
            events.extend(self.returns(&ramet.came_back, Some(ramet.code)));
            let pots = ramet.pots.iter();
            events
                .extend(pots.map(|pot| self.on(pot.on, What::Potted(&pot.pot, Some(ramet.code)))));
        }
        events
    }

    /// Pots, treatments, mix-ups, and the decision to keep.
    fn bench(&self) -> Vec<Event<'r, 't>> {
        let registry = self.registry;
        let pots = registry.pots(self.plant).iter();
        let mut events: Vec<Event> = pots
            .map(|pot| self.on(pot.on, What::Potted(&pot.pot, None)))
            .collect();
        let place = places(registry, self.plant, self.today);
        let place = place.first().copied();
        for of in treated(registry, self.plant, None, place) {
            let what = match of.of_place {
                false => What::Treated,
                true => What::PlaceTreated,
            };
            let of = of.treatment;
            events.push(self.on(of.on, what(&of.product, of.against.as_deref())));
        }
        let muddles = registry.mix_ups(self.plant).iter();
        events.extend(muddles.map(|muddle| self.on(muddle.on, What::MixedUp(&muddle.with))));
        let kept = registry.kept(self.plant);
        events.extend(kept.map(|kept| self.on(kept.on.unwrap_or("unknown"), What::Kept)));
        events
    }

    /// One event for each sitting; notes are left out.
    fn readings(&self) -> Vec<Event<'r, 't>> {
        let registry = self.registry;
        let sown = sown(registry, self.plant);
        let mut sittings: Vec<(SittingRow, Vec<ReadHere>)> = Vec::new();
        for reading in registry.readings.of(self.plant) {
            let sitting = reading.sitting;
            let head = &registry[sitting];
            let Column::Trait { index, unit } = head.columns[usize::from(reading.column)] else {
                continue;
            };
            let of = &registry[index];
            let read = ReadHere {
                of: of.name.to_string(),
                value: registry.cell(reading),
                unit,
            };
            match sittings.iter_mut().find(|(of, _)| *of == sitting) {
                Some((_, reads)) => reads.push(read),
                None => sittings.push((sitting, vec![read])),
            }
        }
        let event = |(sitting, reads): (SittingRow, Vec<ReadHere<'r>>)| {
            let on = registry[sitting].sitting.on;
            self.on(on, What::Read(reads, months(sown, registry.when(on))))
        };
        sittings.into_iter().map(event).collect()
    }

    /// How it left before, and when it came back.
    fn returns(
        &self,
        returns: &'r [Return<'t>],
        piece: Option<&'t str>,
    ) -> impl Iterator<Item = Event<'r, 't>> {
        returns.iter().flat_map(move |back| {
            [
                self.on(back.left.on(), What::Ended(&back.left, piece)),
                self.on(back.on, What::CameBack(piece)),
            ]
        })
    }

    fn end(&self) -> Option<Event<'r, 't>> {
        let fate = self.registry.fate(self.plant)?;
        is_over(self.registry, fate, self.today)
            .then(|| self.on(fate.on(), What::Ended(fate, None)))
    }
}
