//! What files are called and in which order they are read changes nothing but the places of findings.

use super::nursery::{Chance, Nursery};
use podbook::check;
use podbook::record::Day;
use podbook::registry::build;
use podbook::text::Sources;
use proptest::prelude::*;

/// Everything that rests on the registry, with places as the cross they stand in.
fn told(sources: &Sources) -> String {
    let (registry, mut findings) = build(sources);
    findings.append(check::all(&registry, Day::new(2030, 1, 1).unwrap()));
    let code_of = |file| {
        let own = registry.crosses.iter().find(|cross| cross.file == file);
        own.map_or("", |cross| cross.page.code)
    };
    let mut told: Vec<String> = findings
        .iter()
        .map(|f| {
            let place = f
                .place
                .map(|place| (code_of(place.file), place.start, place.end));
            let mut related: Vec<_> = f.related.iter().map(|(_, remark)| remark).collect();
            related.sort();
            format!(
                "{place:?} {:?} {} {} {} {:?} {related:?}",
                f.code, f.title, f.found, f.needed, f.help
            )
        })
        .collect();
    told.sort();
    for plant in registry.plants() {
        let cells: Vec<&str> = registry
            .readings
            .of(plant)
            .map(|reading| registry.cell(reading))
            .collect();
        let parents = registry
            .origin_of(plant)
            .map(|origin| registry[origin].parents());
        told.push(format!(
            "{plant:?} {} {parents:?} {cells:?}",
            registry.code(plant)
        ));
    }
    told.join("\n")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn files_may_have_any_name_and_order(seed in any::<u64>()) {
        let mut chance = Chance(seed);
        let nursery = Nursery { seed, seedlings: 60, crosses: 12, founders: 6, sittings: 500 };
        let mut pages = nursery.grow().pages;
        // Some things are wrong, too: a loop, an unknown parent.
        let last = pages.last().unwrap().1.clone();
        let code = nursery.code(11);
        let start = last.find("parents: ").unwrap();
        let end = start + last[start..].find('\n').unwrap();
        let wrong = if seed.is_multiple_of(2) { format!("{code}-1") } else { "V999".to_owned() };
        pages.last_mut().unwrap().1 = format!("{}parents: known(seed: \"{wrong}\", pollen: \"V2\"),{}", &last[..start], &last[end..]);
        let as_named = {
            let mut sources = Sources::new();
            pages.iter().for_each(|(path, text)| { sources.add(path.clone(), text.clone()); });
            told(&sources)
        };
        for at in (1..pages.len()).rev() {
            pages.swap(at, chance.below(at + 1));
        }
        let mut shuffled = Sources::new();
        for (path, text) in pages {
            let path = if path.starts_with("crosses/") { format!("crosses/{:016x}.ron", chance.next()) } else { path };
            shuffled.add(path, text);
        }
        prop_assert_eq!(as_named, told(&shuffled));
    }
}
