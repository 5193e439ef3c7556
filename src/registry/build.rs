//! From the pages of a folder to one registry.

use super::lookup::Lookup;
use super::mating::Matings;
use super::mix_ups::mix_ups;
use super::numbering::number;
use super::pages::{Pages, Readers, read_pages};
use super::parents::Codes;
use super::readings::ReadingTable;
use super::row_types::{CrossRow, PollenRow};
use super::settling::take_readings;
use super::whole::Registry;
use crate::diagnostic::{Code, Finding, Findings};
use crate::record::{Day, RegistryPage};
use crate::text::Sources;
use indexmap::IndexMap;
use std::collections::BTreeMap;

/// Builds the registry; what is faulty is left out, with a finding.
pub fn build(sources: &Sources) -> (Registry<'_>, Findings) {
    build_for(sources, Readers::Grower)
}

/// Builds the registry as its readers may see it.
pub fn build_for(sources: &Sources, readers: Readers) -> (Registry<'_>, Findings) {
    let mut findings = Findings::new();
    let mut pages = read_pages(sources, readers, &mut findings);
    let mut unread = sources.unread().iter();
    let is_there = unread.any(|page| page.path == "registry.ron" || page.path == ".")
        || sources.find("registry.ron").is_some();
    if pages.settings.is_none() && !is_there {
        findings.push(
            Finding::fault(Code("no-registry"), "there is no registry.ron")
                .found("a folder without it; the defaults are used")
                .needed("registry.ron with the genus, the hemisphere and the traits")
                .help("`podbook new DIR` writes one into a new folder"),
        );
    }
    same_code_twice(sources, &pages, &mut findings);
    let taxa = pages.taxa.as_ref().map(|(_, taxa)| taxa);
    let codes = Codes::new(sources, &pages.clones, &pages.parts, taxa);
    let (matings, mut unseen) = {
        let mut matings = Matings {
            codes: &codes,
            parts: &pages.parts,
            unseen: Vec::new(),
            findings: &mut findings,
        };
        let all: Vec<_> = CrossRow::all(pages.parts.len())
            .map(|cross| matings.of(cross))
            .collect();
        (all, matings.unseen)
    };
    let founders = pages.clones.len();
    let numbered = number(
        &codes,
        &mut pages.parts,
        &mut unseen,
        matings,
        founders,
        &mut findings,
    );
    drop(codes);
    let settings = pages
        .settings
        .take()
        .map_or_else(RegistryPage::missing, |(_, page)| page);
    let clone_sittings = std::mem::take(&mut pages.clone_sittings);
    let mut registry = Registry {
        sources,
        settings,
        taxa: pages.taxa.take().map(|(_, taxa)| taxa).unwrap_or_default(),
        founder_codes: pages
            .clones
            .iter()
            .enumerate()
            .map(|(at, c)| (c.code, at as u32))
            .collect(),
        cross_codes: pages
            .parts
            .iter()
            .zip(CrossRow::all(pages.parts.len()))
            .map(|(cross, row)| (cross.page.code, row))
            .collect(),
        pollen_codes: pages
            .pollen
            .iter()
            .zip(PollenRow::all(pages.pollen.len()))
            .map(|(lot, row)| (lot.code, row))
            .collect(),
        crosses: pages.parts,
        pollen: pages.pollen,
        readings: ReadingTable::default(),
        clones_file: pages.clones_file,
        pollen_file: pages.pollen_file,
        rows: numbered.rows,
        origins: numbered.origins,
        pot_origins: numbered.pot_origins,
        muddled_origins: numbered.muddled_origins,
        mix_ups: BTreeMap::new(),
        last_day: Day::LAST,
        founders: pages.clones,
        unseen,
    };
    take_readings(&mut registry, clone_sittings, &mut findings);
    registry.mix_ups = mix_ups(&registry);
    (registry, findings)
}

/// A clone and a cross under one code.
fn same_code_twice(sources: &Sources, pages: &Pages, findings: &mut Findings) {
    let Some(file) = pages.clones_file else {
        return;
    };
    let clones: IndexMap<&str, &str> = pages.clones.iter().map(|c| (c.code, c.code)).collect();
    for page in &pages.parts {
        if let Some(clone) = clones.get(page.page.code) {
            let lookup = Lookup { sources, file };
            findings.push(lookup.twice("code", clone, page.page.code, page.file));
        }
    }
}
