//! Codes for everything that comes in: the grower's own where they can stand, else the next free ones.

use crate::analysis::import::{Import, ImportRow, Kind, Who};
use crate::record::When;
use crate::recording::codes::code_stem;
use crate::registry::Registry;
use crate::registry::ids::natural_order;
use std::collections::{BTreeMap, BTreeSet};

/// A cross that is begun.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) enum Begun {
    /// By a row of its own.
    Row(usize),
    /// By the code that its seedlings name.
    Named(String),
    /// By the parents that its seedlings name.
    Family(String),
}

/// The codes of what comes in.
pub(super) struct Codes {
    /// Codes by row: of its plant or cross; several where one cell holds several plants.
    pub rows: BTreeMap<usize, Vec<String>>,
    /// Crosses that are begun, by their code, with what begins them.
    pub crosses: BTreeMap<String, Begun>,
    /// The cross and number of each seedling, by row.
    pub seedlings: BTreeMap<usize, (String, String)>,
}

struct Giver<'r, 't> {
    registry: &'r Registry<'t>,
    taken: BTreeSet<String>,
    /// The last number given behind some letters.
    last: BTreeMap<String, u32>,
}

impl Codes {
    /// Gives every row that comes its code.
    pub fn given(registry: &Registry, import: &Import) -> Codes {
        let mut codes = Codes {
            rows: BTreeMap::new(),
            crosses: BTreeMap::new(),
            seedlings: BTreeMap::new(),
        };
        let mut giver = Giver {
            registry,
            taken: BTreeSet::new(),
            last: BTreeMap::new(),
        };
        // Every code a grower gave is taken before the first free one is looked for.
        for (_, row) in import.coming() {
            let facts = &row.facts;
            let given = facts.code.iter().chain(&facts.codes).chain(&facts.cross);
            giver.taken.extend(given.cloned());
        }
        for (at, row) in import.coming() {
            codes.cross(&mut giver, at, row);
        }
        for (at, row) in import.coming() {
            codes.of_seed(registry, at, row);
        }
        for (at, row) in import.coming().filter(|(_, row)| row.kind == Kind::Founder) {
            codes.rows.insert(at, giver.founder(row));
        }
        codes.number(registry, import);
        codes.further(import);
        codes
    }

    /// The codes of the plants or cross of a row; none of a row that does not come.
    pub fn of(&self, row: usize) -> &[String] {
        self.rows.get(&row).map_or(&[], Vec::as_slice)
    }

    fn cross(&mut self, giver: &mut Giver, at: usize, row: &ImportRow) {
        match &row.kind {
            Kind::Cross | Kind::Seed => {
                let code = row.facts.code.clone().unwrap_or_else(|| giver.cross(row));
                self.crosses.insert(code.clone(), Begun::Row(at));
                self.rows.insert(at, vec![code]);
            }
            Kind::Seedling { cross, .. } if giver.registry.cross(cross).is_none() => {
                let begun = Begun::Named(cross.clone());
                self.crosses.entry(cross.clone()).or_insert(begun);
            }
            Kind::SeedlingOf(family) => {
                let begun = Begun::Family(family.clone());
                if !self.crosses.values().any(|of| *of == begun) {
                    self.crosses.insert(giver.cross(row), begun);
                }
            }
            _ => {}
        }
    }

    /// A row about the seed of a cross begins it where no row of its own does.
    fn of_seed(&mut self, registry: &Registry, at: usize, row: &ImportRow) {
        let Kind::SeedOf(cross) = &row.kind else {
            return;
        };
        if registry.cross(cross).is_none() {
            let begun = self.crosses.entry(cross.clone());
            let begun = begun.or_insert(Begun::Row(at));
            if matches!(begun, Begun::Named(_)) {
                *begun = Begun::Row(at);
            }
        }
        self.rows.insert(at, vec![cross.clone()]);
    }

    /// A row that says more about a plant names that plant.
    fn further(&mut self, import: &Import) {
        for (at, row) in import.rows.iter().enumerate() {
            let of = match &row.kind {
                Kind::More(Who::Row(first)) if row.comes => self.rows.get(first).cloned(),
                // Whoever is on record can be a parent, also where the row itself has nothing new.
                Kind::More(Who::OnRecord(code)) => Some(vec![code.clone()]),
                _ => None,
            };
            self.rows.extend(of.map(|codes| (at, codes)));
        }
    }

    /// Gives seedlings their numbers: their own first, then the next free ones of each cross.
    fn number(&mut self, registry: &Registry, import: &Import) {
        let families = self.crosses.iter().filter_map(|(code, begun)| match begun {
            Begun::Family(family) => Some((family.as_str(), code.as_str())),
            _ => None,
        });
        let families: BTreeMap<&str, &str> = families.collect();
        let mut taken: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        let mut given = Vec::new();
        let mut without = Vec::new();
        for (at, row) in import.coming() {
            let (cross, number) = match &row.kind {
                Kind::Seedling { cross, number } => (cross.as_str(), number.as_ref()),
                Kind::SeedlingOf(family) => match families.get(family.as_str()) {
                    Some(cross) => (*cross, None),
                    None => continue,
                },
                _ => continue,
            };
            let numbers = taken.entry(cross.to_owned());
            let numbers = numbers.or_insert_with(|| on_page(registry, cross));
            match number.filter(|number| numbers.insert((*number).clone())) {
                Some(number) => given.push((at, cross.to_owned(), number.clone())),
                None => without.push((at, cross.to_owned())),
            }
        }
        let on_record = registry.founders().iter().map(|of| of.code.to_owned());
        let founders = self.rows.values().flatten().cloned();
        let founders: BTreeSet<String> = founders.chain(on_record).collect();
        let last = taken
            .into_iter()
            .map(|(cross, numbers)| (cross, highest(&numbers)));
        let mut last: BTreeMap<String, u32> = last.collect();
        for (at, cross) in without {
            let next = last.entry(cross.clone()).or_default();
            *next += 1;
            // A founder may have the code that this seedling would get.
            while founders.contains(&format!("{cross}-{next}")) {
                *next += 1;
            }
            given.push((at, cross, next.to_string()));
        }
        for (at, cross, number) in given {
            self.rows.insert(at, vec![format!("{cross}-{number}")]);
            self.seedlings.insert(at, (cross, number));
        }
    }
}

impl Giver<'_, '_> {
    /// The codes of a founder, several where its row names several.
    fn founder(&mut self, row: &ImportRow) -> Vec<String> {
        let facts = &row.facts;
        let mut of_label = |label: &str| self.free(&code_stem(label), 1);
        match &facts.code {
            _ if facts.codes.len() > 1 => facts.codes.clone(),
            Some(code) => vec![code.clone()],
            None if facts.labels.len() > 1 => facts.labels.iter().map(|of| of_label(of)).collect(),
            None => vec![of_label(facts.label.as_deref().unwrap_or(""))],
        }
    }

    /// The next free code of a cross of the year in which it was made or came, `XX-01` where that is not known.
    fn cross(&mut self, row: &ImportRow) -> String {
        let facts = &row.facts;
        let dates = [&facts.pollinated, &facts.sown, &facts.acquired];
        let first = dates.into_iter().flatten().next();
        let hemisphere = self.registry.settings.hemisphere;
        let when = first.and_then(|text| When::read(text, hemisphere).ok());
        let when = when.filter(|when| when.is_bounded());
        let year = when.and_then(|when| when.first.ymd());
        let year = year.map(|(year, ..)| format!("{:02}", year.rem_euclid(100)));
        self.free(&format!("X{}-", year.as_deref().unwrap_or("X")), 2)
    }

    /// The next free code with a number of so many figures behind some letters.
    fn free(&mut self, stem: &str, figures: usize) -> String {
        loop {
            let number = self.last.entry(stem.to_owned()).or_default();
            *number += 1;
            let code = format!("{stem}{number:0figures$}");
            if !self.taken.contains(&code) && self.registry.target(&code).is_none() {
                self.taken.insert(code.clone());
                return code;
            }
        }
    }
}

/// The numbers on the page of a cross.
fn on_page(registry: &Registry, cross: &str) -> BTreeSet<String> {
    let page = registry.cross(cross).map(|at| &registry[at]);
    let seedlings = page.into_iter().flat_map(|page| &page.seedlings);
    let numbers = seedlings.filter_map(|&plant| registry.number(plant));
    numbers.map(str::to_owned).collect()
}

fn highest(numbers: &BTreeSet<String>) -> u32 {
    let last = numbers
        .iter()
        .max_by(|one, other| natural_order(one, other));
    let digits = |number: &String| {
        let end = number
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(number.len());
        number[..end].parse::<u32>().ok()
    };
    last.and_then(digits).unwrap_or(0)
}
