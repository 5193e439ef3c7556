//! Names of files that are safe for any code on any disk.

use crate::naming::recorded::Names;
use crate::registry::{CrossRow, Registry};
use std::collections::{HashMap, HashSet};
use std::fmt::Write;

/// The longest name before its ending, bytes: with folders, endings and numbers it stays under the 255 that disks take.
const LONGEST: usize = 120;

/// Names that some systems keep for devices, whatever ending they bear.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];

/// Where the pages of plants, crosses and species lie.
pub struct Files {
    /// By row of the plant.
    plants: Vec<String>,
    /// By index of the cross.
    crosses: Vec<String>,
    /// By epithet.
    species: HashMap<String, String>,
    /// Of every code.
    by_code: HashMap<String, String>,
}

impl Files {
    /// The files of a registry.
    pub fn of(registry: &Registry, names: &Names) -> Files {
        let mut given = Given::default();
        let plants: Vec<String> = registry
            .plants()
            .map(|plant| given.path("plants", &registry.code(plant)))
            .collect();
        let mut given = Given::default();
        let crosses = registry.crosses.iter();
        let crosses: Vec<String> = crosses
            .map(|cross| given.path("crosses", cross.page.code))
            .collect();
        let mut given = Given::default();
        let species = registry.taxa.species.iter();
        let species: HashMap<String, String> = species
            .map(|row| (row.epithet.to_owned(), given.path("species", row.epithet)))
            .collect();
        let of_plants = registry.plants().zip(&plants);
        let of_plants = of_plants.map(|(plant, path)| (registry.code(plant), path.clone()));
        let of_crosses = registry.crosses.iter().zip(&crosses);
        let of_crosses = of_crosses.map(|(cross, path)| (cross.page.code.to_owned(), path.clone()));
        let genus = names.vocabulary().genus_short();
        let of_species = species.iter();
        let of_species =
            of_species.map(|(epithet, path)| (format!("{genus} {epithet}"), path.clone()));
        Files {
            by_code: of_species.chain(of_crosses).chain(of_plants).collect(),
            plants,
            crosses,
            species,
        }
    }

    /// Of a plant.
    pub fn plant(&self, plant: crate::registry::PlantRow) -> &str {
        &self.plants[plant.index()]
    }

    /// Of the `at`-th photo of a plant, from 1, without its ending.
    pub fn photo(&self, plant: crate::registry::PlantRow, at: usize) -> String {
        let page = self.plant(plant).trim_end_matches(".html");
        format!("{}-{at}", page.replacen("plants/", "photos/", 1))
    }

    /// Of a cross.
    pub fn cross(&self, cross: CrossRow) -> &str {
        &self.crosses[cross.index()]
    }

    /// Of a species, if it is in the registry's list.
    pub fn species(&self, epithet: &str) -> Option<&str> {
        self.species.get(epithet).map(String::as_str)
    }

    /// Of whatever bears a code.
    pub fn of_code(&self, code: &str) -> Option<&str> {
        self.by_code.get(code).map(String::as_str)
    }
}

/// Names given so far in one folder, and how often.
#[derive(Default)]
struct Given(HashSet<String>);

impl Given {
    /// A path that no other code has, also where capitals are not told apart.
    fn path(&mut self, folder: &str, code: &str) -> String {
        let name = plain(code);
        let mut tried = name.clone();
        let mut next = 1;
        while !self.0.insert(tried.clone()) {
            next += 1;
            tried = format!("{name}~{next}");
        }
        format!("{folder}/{tried}.html")
    }
}

/// A code in small letters, digits, `-` and `_`; every other character by its number between two `~`.
fn plain(code: &str) -> String {
    let mut name = String::new();
    for letter in code.chars() {
        let letter = letter.to_ascii_lowercase();
        match letter {
            'a'..='z' | '0'..='9' | '-' | '_' => name.push(letter),
            other => {
                let _ = write!(name, "~{:x}~", u32::from(other));
            }
        }
    }
    name.truncate(LONGEST);
    let numbered = name.len() == 4 && (name.starts_with("com") || name.starts_with("lpt"));
    if DEVICES.contains(&name.as_str()) || numbered || name.is_empty() {
        name.push('~');
    }
    name
}
