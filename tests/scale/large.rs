//! A registry of a million seedlings holds what its pages say.

use super::nursery::{Chance, Grown, Nursery, line};
use podbook::check;
use podbook::context::Context;
use podbook::diagnostic::Severity;
use podbook::evidence::Unit;
use podbook::record::Day;
use podbook::registry::{PlantKind, Registry, build};

#[test]
fn a_hobby_of_twenty_years() {
    holds_what_its_pages_say(Nursery::hobby(), true);
}

#[test]
fn two_hundred_thousand_seedlings() {
    holds_what_its_pages_say(Nursery::of(200_000), true);
}

#[test]
fn a_million_seedlings() {
    holds_what_its_pages_say(Nursery::of(1_000_000), false);
}

#[test]
fn a_million_readings() {
    let nursery = Nursery::well_read(130_000);
    let grown = nursery.grow();
    assert!(grown.readings > 1_000_000);
    holds_what_its_pages_say(nursery, false);
}

fn holds_what_its_pages_say(nursery: Nursery, checked: bool) {
    let grown = nursery.grow();
    let sources = grown.sources();
    let (registry, mut findings) = build(&sources);
    if checked {
        findings.append(check::all(&registry, Day::new(2030, 1, 1).unwrap()));
    }
    let faults: Vec<_> = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Fault)
        .collect();
    assert_eq!(faults.first(), None, "{} faults", faults.len());
    counts_are_right(&registry, &grown);
    parents_come_first(&registry);
    plants_are_found(&registry, &nursery, &grown);
    every_plant_has_evidence(&registry);
}

/// The weakest cross behind a plant is met on the way that leads to it, each step a parent of the one before.
fn every_plant_has_evidence(registry: &Registry) {
    let context = Context::of(registry, Day::new(2030, 1, 1).expect("a day"));
    let evidence = context.evidence();
    for plant in registry.plants().step_by(997) {
        let unit = Unit::Plant(plant);
        assert!(!evidence.sentence(unit).is_empty());
        let mut child = plant;
        for parent in evidence.path(unit) {
            let origin = registry.origin_of(child).expect("a plant with parents");
            assert!(registry[origin].parents().contains(&parent));
            child = parent;
        }
        assert!(
            evidence
                .further(unit)
                .is_none_or(|further| further.holder == child)
        );
    }
}

fn counts_are_right(registry: &Registry, grown: &Grown) {
    let of_kind = |kind| {
        let plants = registry.plants();
        plants.filter(|&plant| registry.kind(plant) == kind).count()
    };
    assert_eq!(of_kind(PlantKind::Founder), grown.founders);
    assert_eq!(of_kind(PlantKind::Seedling), grown.seedlings);
    assert_eq!(registry.crosses.len(), grown.crosses);
    let read = |plant| registry.readings.of(plant).count();
    assert_eq!(registry.plants().map(read).sum::<usize>(), grown.readings);
    let gone = |&plant: &_| registry.fate(plant).is_some();
    assert_eq!(registry.plants().filter(gone).count(), grown.fates);
    let muddled = registry.plants().filter(|&plant| {
        let cross = registry.cross_of(plant);
        cross.is_some_and(|cross| registry.origin_of(plant) != Some(registry[cross].origin))
    });
    assert_eq!(muddled.count(), grown.muddled);
}

fn parents_come_first(registry: &Registry) {
    for plant in registry.plants() {
        if let Some(origin) = registry.origin_of(plant) {
            let parents = registry[origin].parents();
            assert!(parents.last().is_none_or(|&parent| parent < plant));
        }
    }
}

/// Plants picked by chance are found by their codes, with the readings that a look at the page's lines gives.
fn plants_are_found(registry: &Registry, nursery: &Nursery, grown: &Grown) {
    let mut chance = Chance(11);
    for _ in 0..200 {
        let cross = chance.below(nursery.crosses);
        let number = chance.below(nursery.on_page(cross)) + 1;
        let code = format!("{}-{number}", nursery.code(cross));
        let plant = registry
            .plant(&code)
            .unwrap_or_else(|| panic!("{code} is there"));
        assert_eq!(registry.code(plant), code);
        assert_eq!(registry.number(plant), Some(number.to_string().as_str()));
        let page = grown.pages.iter().find(|(path, _)| {
            path.strip_prefix("crosses/")
                .is_some_and(|path| path == format!("{}.ron", nursery.code(cross)))
        });
        let row = format!("[\"{number}\", ");
        let lines = page.unwrap().1.lines().map(str::trim_start);
        let cells: Vec<&str> = lines
            .filter(|line| line.starts_with(&row))
            .flat_map(|line| line.split('"').skip(3).step_by(2))
            .filter(|cell| !cell.is_empty())
            .collect();
        let read: Vec<&str> = registry
            .readings
            .of(plant)
            .map(|reading| registry.cell(reading))
            .collect();
        assert_eq!(read, cells, "{code}");
    }
}

/// A line of generations, each cross from the one before, on as many pages.
#[test]
fn a_line_of_a_hundred_thousand_generations() {
    const GENERATIONS: usize = 100_000;
    let grown = line(GENERATIONS);
    let sources = grown.sources();
    let (registry, findings) = build(&sources);
    assert!(findings.is_empty());
    assert_eq!(registry.plant_count(), 2 * GENERATIONS + 2);
    parents_come_first(&registry);
    let last = registry.plant("X100000-2").unwrap();
    assert_eq!(last.index(), 2 * GENERATIONS + 1);
}
