//! What was recorded of plants while they were mixed up: whose it is depends on whether their tags were right.

use crate::observation::photos::photos;
use crate::observation::standing::fate_and_day;
use crate::record::{Day, When};
use crate::registry::{PlantRow, Registry};
use crate::wording::{counted, listed};

/// What was recorded of a plant from one day to another, in words such as `X20-01-1: spike 24a, 1 reading, seed parent of
/// X24-01`; `None` where nothing was.
pub(super) fn recorded_in_between(
    registry: &Registry,
    plant: PlantRow,
    [from, to]: [When; 2],
) -> Option<String> {
    let on = |text: &str| registry.when(text);
    // A day before the first is surely another time; one that is not known says nothing of the time between.
    let between =
        |when: When| when.last != Day::LAST && when.last >= from.first && !to.surely_before(when);
    let mut told: Vec<String> = Vec::new();
    for spike in registry.flowerings(plant) {
        let dates = [spike.spike, spike.opened, spike.over];
        if dates.into_iter().flatten().any(|of| between(on(of))) {
            told.push(
                spike
                    .code
                    .map_or("a spike".to_owned(), |code| format!("spike {code}")),
            );
        }
    }
    let readings = registry.readings.of(plant);
    let readings = readings.filter(|of| between(on(registry[of.sitting].sitting.on)));
    let pots = registry.pots(plant).iter().map(|of| of.on);
    let treated = registry.treatments(plant).iter().map(|of| of.on);
    let photos = photos(registry, plant).into_iter().filter_map(|of| of.on);
    let of_days = |n: usize, one, many| (n > 0).then(|| counted(n, one, many));
    let number = |days: &mut dyn Iterator<Item = &str>| days.filter(|of| between(on(of))).count();
    told.extend(of_days(readings.count(), "reading", "readings"));
    told.extend(of_days(
        number(&mut pots.into_iter()),
        "potting",
        "pottings",
    ));
    told.extend(of_days(
        number(&mut treated.into_iter()),
        "treatment",
        "treatments",
    ));
    told.extend(of_days(number(&mut photos.into_iter()), "photo", "photos"));
    let cut = registry.ramets(plant).iter();
    let cut = cut.filter(|of| of.cut.is_some_and(|cut| between(on(cut))));
    told.extend(cut.map(|of| format!("piece {}", of.code)));
    let lots = registry.pollen.iter().filter(|lot| {
        let codes = lot.from.codes();
        let mut of = codes.iter().filter_map(|code| registry.target(code));
        of.any(|of| of.plant() == Some(plant)) && lot.collected.is_some_and(|day| between(on(day)))
    });
    told.extend(lots.map(|lot| format!("pollen {}", lot.code)));
    told.extend(crosses(registry, plant, &between));
    let fate = registry.fate(plant).filter(|fate| between(on(fate.on())));
    told.extend(fate.map(fate_and_day));
    (!told.is_empty()).then(|| format!("{}: {}", registry.code(plant), listed(&told)))
}

/// The crosses a plant may be a parent of that were pollinated in between, or on no day on record.
fn crosses(registry: &Registry, plant: PlantRow, between: &dyn Fn(When) -> bool) -> Vec<String> {
    let mut told = Vec::new();
    for cross in registry.cross_rows() {
        let page = &registry[cross].page;
        let days = page.pollinations.iter().flat_map(|of| &of.on);
        let mut days = days.map(|on| registry.when(on));
        if !days.any(between) {
            continue;
        }
        let pairs = &registry[registry[cross].origin].pairs;
        if pairs.iter().any(|pair| pair.seed == Some(plant)) {
            told.push(format!("seed parent of {}", page.code));
        } else if pairs.iter().any(|pair| pair.pollen == Some(plant)) {
            told.push(format!("pollen parent of {}", page.code));
        }
    }
    told
}
