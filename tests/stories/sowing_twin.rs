//! The sowings a plant may be of against a slow, obvious twin: random mix-ups of plants and of pots, every path back in time
//! tried.
//!
//! The twin knows nothing but what was written. It tries every mix-up on every day it may have been of, one after another, and
//! each pot as plants were numbered out of it.

use crate::lot::Lot;
use podbook::diagnostic::Severity;
use podbook::observation::provenance::{sowings_it_may_be_of, sure_sowing};
use podbook::observation::scope::Scope;
use podbook::record::{Day, Hemisphere, When};
use podbook::registry::{Registry, SowingRow, build};
use podbook::text::Sources;
use std::collections::BTreeSet;

/// Days as they may be typed; `None` is not on record.
const DAYS: [&str; 7] = [
    "2022-02-01",
    "2022-04",
    "2022-04-15",
    "2022-05-01",
    "2022",
    "2022-08-01",
    "unknown",
];

/// What can be mixed up.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Thing {
    Plant(usize),
    Pot(usize),
    /// A code that is not on record.
    Lost,
}

struct MixUp {
    on: &'static str,
    of: Vec<Thing>,
    /// Which of them have it on their own records.
    told: Vec<bool>,
}

struct World {
    /// The sowing of each pot; none for one that was filled with some seedlings of others, by its mix-up.
    pots: Vec<Option<usize>>,
    /// The pot or else the sowing each plant names, and the day it was numbered.
    plants: Vec<(Result<usize, usize>, Option<&'static str>)>,
    mix_ups: Vec<MixUp>,
    /// The mix-up that filled a pot from others.
    filling: Option<usize>,
}

const SOWINGS: usize = 4;

fn when(text: &str) -> When {
    When::read(text, Hemisphere::North).expect("a day")
}

impl World {
    fn drawn(lot: &mut Lot) -> World {
        let mut pots: Vec<Option<usize>> = (0..SOWINGS).map(Some).collect();
        let plant = |lot: &mut Lot| {
            let from = match lot.below(2) {
                0 => Ok(lot.below(pots.len())),
                _ => Err(lot.below(SOWINGS)),
            };
            let numbered = (lot.below(4) > 0).then(|| DAYS[lot.below(DAYS.len())]);
            (from, numbered)
        };
        let mut plants: Vec<_> = (0..8).map(|_| plant(lot)).collect();
        let mut mix_ups: Vec<MixUp> = Vec::new();
        let is_filled = lot.below(3) == 0;
        let mut filling = None;
        for _ in 0..lot.below(9) {
            let thing = |lot: &mut Lot, of_plants: bool| match of_plants {
                true if !is_filled && lot.below(12) == 0 => Thing::Lost,
                // The plant out of a pot that was filled is mixed up later than that.
                true => Thing::Plant(lot.below(7) + 1),
                false => Thing::Pot(lot.below(SOWINGS)),
            };
            let of_plants = lot.below(2) == 0;
            let of: BTreeSet<Thing> = (0..2 + lot.below(2))
                .map(|_| thing(lot, of_plants))
                .collect();
            let of: Vec<Thing> = of.into_iter().collect();
            // Two mix-ups of the same two cannot be told apart where each stands on one record only.
            let shared = |known: &MixUp| known.of.iter().filter(|one| of.contains(one)).count() > 1;
            if of.len() < 2 || of[0] == Thing::Lost || mix_ups.iter().any(shared) {
                continue;
            }
            let mut told: Vec<bool> = of.iter().map(|_| lot.below(2) == 0).collect();
            told[0] = true;
            let on = DAYS[lot.below(DAYS.len())];
            mix_ups.push(MixUp { on, of, told });
        }
        if is_filled {
            pots.push(None);
            let of = vec![Thing::Pot(SOWINGS), Thing::Pot(0), Thing::Pot(1)];
            let told = vec![true, false, false];
            filling = Some(mix_ups.len());
            mix_ups.push(MixUp {
                on: "2022-04-15",
                of,
                told,
            });
            // Later mix-ups of that pot are like any other, on whichever record they stand.
            if lot.below(2) == 0 {
                mix_ups.push(MixUp {
                    on: "2022-05-01",
                    of: vec![Thing::Pot(SOWINGS), Thing::Pot(2)],
                    told: vec![true, lot.below(2) == 0],
                });
            }
            plants[0] = (Ok(SOWINGS), None);
            mix_ups.push(MixUp {
                on: "2022-08-01",
                of: vec![Thing::Plant(0), Thing::Plant(1)],
                told: vec![true, lot.below(2) == 0],
            });
        }
        World {
            pots,
            plants,
            mix_ups,
            filling,
        }
    }

    fn code(thing: Thing) -> String {
        match thing {
            Thing::Plant(at) => format!("X1-{at}"),
            Thing::Pot(at) => format!("X1.T{at}"),
            Thing::Lost => "X1-99".to_owned(),
        }
    }

    fn muddled(&self, thing: Thing) -> String {
        let own = self.mix_ups.iter().filter_map(|of| {
            let at = of.of.iter().position(|one| *one == thing)?;
            let others = of.of.iter().filter(|one| **one != thing);
            let others: Vec<String> = others
                .map(|&one| format!("{:?}", World::code(one)))
                .collect();
            of.told[at].then(|| format!("(on: {:?}, with: [{}])", of.on, others.join(", ")))
        });
        let own: Vec<String> = own.collect();
        match own.is_empty() {
            true => String::new(),
            false => format!(", muddled: [{}]", own.join(", ")),
        }
    }

    fn sources(&self) -> Sources {
        let mut sources = Sources::new();
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
        sources.add("species.ron", "(species: [(epithet: \"ventricosa\")])");
        let founder = "(clones: [(code: \"V\", received: \"N. ventricosa\", confidence: tag)])";
        sources.add("clones.ron", founder);
        let sowings = (0..SOWINGS).map(|at| {
            format!(
                "(code: \"S{at}\", pod: \"P1\", on: \"2021-0{}-01\")",
                at + 1
            )
        });
        let pots = self.pots.iter().enumerate().map(|(at, sowing)| {
            let from = match sowing {
                Some(sowing) => format!("sowing: \"S{sowing}\""),
                None => "one_of: [\"P1\"], alive: [(on: \"2022-04-15\", count: 5)]".to_owned(),
            };
            format!("(code: \"T{at}\", {from}{})", self.muddled(Thing::Pot(at)))
        });
        let plants = self
            .plants
            .iter()
            .enumerate()
            .map(|(at, (from, numbered))| {
                let from = match from {
                    Ok(pot) => format!("community_pot: \"T{pot}\""),
                    Err(sowing) => format!("sowing: \"S{sowing}\""),
                };
                let numbered = numbered.map_or(String::new(), |on| format!(", numbered: {on:?}"));
                let muddled = self.muddled(Thing::Plant(at));
                format!("(number: \"{at}\", {from}{numbered}{muddled})")
            });
        let [sowings, pots, plants]: [Vec<String>; 3] =
            [sowings.collect(), pots.collect(), plants.collect()];
        let page = format!(
            "(code: \"X1\", parents: known(seed: \"V\", pollen: \"V\"), pods: [(code: \"P1\")], sowings: [{}], \
             community_pots: [{}], seedlings: [{}])",
            sowings.join(", "),
            pots.join(", "),
            plants.join(", ")
        );
        sources.add("crosses/X1.ron", page);
        sources
    }

    /// The days that decide whether one mix-up can be before another: the ends of all of them.
    fn days(&self) -> BTreeSet<Day> {
        let mix_ups = self.mix_ups.iter().map(|of| of.on);
        let numbered = self.plants.iter().filter_map(|of| of.1);
        let ends = mix_ups.chain(numbered).map(when);
        ends.flat_map(|of| [of.first, of.last]).collect()
    }

    /// Adds the sowings that what bears a tag on a day may be of, with mix-ups that were not gone through yet.
    fn add(&self, thing: Thing, day: Day, left: &[usize], found: &mut BTreeSet<Option<usize>>) {
        if thing == Thing::Lost {
            found.insert(None);
            return;
        }
        for &at in left
            .iter()
            .filter(|at| self.mix_ups[**at].of.contains(&thing))
        {
            let of = &self.mix_ups[at];
            // Into a pot that was filled from others seedlings came; none came out of it.
            if self.filling == Some(at) && thing != Thing::Pot(SOWINGS) {
                continue;
            }
            let left: Vec<usize> = left.iter().copied().filter(|other| *other != at).collect();
            let on = when(of.on);
            let days = self.days().into_iter();
            for day in days.filter(|one| (on.first..=on.last).contains(one) && *one <= day) {
                for &other in of.of.iter().filter(|other| **other != thing) {
                    self.add(other, day, &left, found);
                }
            }
        }
        match thing {
            Thing::Lost => {}
            Thing::Pot(at) => found.extend(self.pots[at].map(Some)),
            Thing::Plant(at) => match self.plants[at] {
                (Err(sowing), _) => drop(found.insert(Some(sowing))),
                (Ok(pot), numbered) => {
                    let numbered = numbered.map_or(When::UNKNOWN, when);
                    self.add(Thing::Pot(pot), day.min(numbered.last), left, found);
                }
            },
        }
    }

    fn sowings_of(&self, plant: usize) -> BTreeSet<Option<usize>> {
        let mut found = BTreeSet::new();
        let all: Vec<usize> = (0..self.mix_ups.len()).collect();
        self.add(Thing::Plant(plant), Day::LAST, &all, &mut found);
        found
    }

    fn comes_out_of_several(&self, plant: usize) -> bool {
        self.plants[plant].0 == Ok(SOWINGS)
    }
}

fn holds(world: &World, registry: &Registry) -> [usize; 3] {
    let place = |row: SowingRow| row.at;
    let mut met = [0; 3];
    let of_each: Vec<BTreeSet<Option<usize>>> = (0..world.plants.len())
        .map(|at| world.sowings_of(at))
        .collect();
    for (at, wanted) in of_each.iter().enumerate() {
        let plant = registry.plant(&format!("X1-{at}")).expect("it was written");
        let found = sowings_it_may_be_of(registry, plant).into_iter();
        let found: BTreeSet<Option<usize>> = found.map(|of| of.map(place)).collect();
        let page = || format!("X1-{at}: {:?}", world.sources());
        assert_eq!(found, *wanted, "{}", page());
        let only = match wanted.iter().collect::<Vec<_>>()[..] {
            [only] if !world.comes_out_of_several(at) => *only,
            _ => None,
        };
        assert_eq!(sure_sowing(registry, plant).map(place), only, "{}", page());
        met[wanted.len().min(3) - 1] += 1;
    }
    for (row, sowing) in registry.sowings(registry.cross("X1").expect("a cross")) {
        let scope = Scope::named(registry, &format!("X1.{}", sowing.code)).expect("a sowing");
        let (sure, perhaps) = scope.seedlings(registry);
        let is_sure = |at: usize| {
            of_each[at] == BTreeSet::from([Some(row.at)]) && !world.comes_out_of_several(at)
        };
        let may_be = |at: usize| of_each[at].contains(&Some(row.at)) || of_each[at].contains(&None);
        let all = 0..of_each.len();
        assert_eq!(sure.len(), all.clone().filter(|at| is_sure(*at)).count());
        assert_eq!(
            perhaps,
            all.filter(|at| may_be(*at) && !is_sure(*at)).count()
        );
    }
    met
}

#[test]
fn a_plant_may_be_of_every_sowing_that_mix_ups_lead_to_and_of_no_other() {
    let mut lot = Lot(20_261_201);
    let mut met = [0; 3];
    for _ in 0..400 {
        let world = World::drawn(&mut lot);
        let sources = world.sources();
        let (registry, findings) = build(&sources);
        assert_eq!(
            findings.count(Severity::Fault),
            0,
            "the twin writes sound registries"
        );
        let of = holds(&world, &registry);
        (0..3).for_each(|at| met[at] += of[at]);
    }
    assert!(
        met.iter().all(|n| *n > 200),
        "one, two and more sowings: {met:?}"
    );
}
