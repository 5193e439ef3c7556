//! Every record of a registry with every field, as it stands in the files.

use crate::record::{
    ClonesPage, CrossPage, GoalsFault, GoalsPage, Page, PollenPage, RegistryPage, SpeciesPage,
    read_goals, read_page,
};
use crate::registry::natural_order;
use crate::text::{FileId, Sources};
use rayon::prelude::*;
use serde::Serialize;

/// All pages. A page that is not there, or that could not be read at all, is `null`; a field left out in a file is `null`
/// or an empty list.
#[derive(Serialize, Debug)]
pub struct RegistryRecords<'t> {
    /// What the reader should know first.
    pub about: &'static str,
    /// `registry.ron`.
    pub registry: Option<RegistryPage<'t>>,
    /// `species.ron`.
    pub species: Option<SpeciesPage<'t>>,
    /// `clones.ron`.
    pub clones: Option<ClonesPage<'t>>,
    /// `pollen.ron`.
    pub pollen: Option<PollenPage<'t>>,
    /// `goals.ron`.
    pub goals: Option<GoalsPage<'t>>,
    /// The cross pages, by their codes.
    pub crosses: Vec<CrossPage<'t>>,
}

/// Reads all pages; faulty records are left out, as `check` reports them. Faulty goals are left out and given back.
pub fn registry_records(sources: &Sources) -> (RegistryRecords<'_>, Option<GoalsFault>) {
    let goals = sources.find("goals.ron");
    let goals = goals.map(|file| read_goals(sources.text(file))).transpose();
    let (goals, fault) = match goals {
        Ok(goals) => (goals, None),
        Err(fault) => (None, Some(fault)),
    };
    let records = RegistryRecords {
        about: "every record of a podbook registry, with suppliers, buyers, prices, contacts, places and notes: private",
        registry: page(sources, "registry.ron"),
        species: page(sources, "species.ron"),
        clones: page(sources, "clones.ron"),
        pollen: page(sources, "pollen.ron"),
        goals,
        crosses: crosses(sources),
    };
    (records, fault)
}

fn page<'t, P: Page<'t>>(sources: &'t Sources, path: &str) -> Option<P> {
    read_page(sources, sources.find(path)?).0
}

fn crosses(sources: &Sources) -> Vec<CrossPage<'_>> {
    let files = sources.iter();
    let files = files.filter(|(_, source)| source.path.starts_with("crosses/"));
    let files: Vec<FileId> = files.map(|(file, _)| file).collect();
    let pages = files.par_iter().map(|&file| read_page(sources, file).0);
    let mut pages: Vec<CrossPage> = pages.collect::<Vec<_>>().into_iter().flatten().collect();
    pages.sort_by(|one, other| natural_order(one.code, other.code));
    pages
}
