//! From the pages of a folder to one registry.

use super::lookup::Lookup;
use super::mating::Matings;
use super::mix_ups::mix_ups;
use super::numbering::number;
use super::pages::{Pages, Readers, read_pages};
use super::parents::Codes;
use super::plants::Unseen;
use super::readings::ReadingTable;
use super::row_types::{CrossRow, PollenRow};
use super::rows::Numbered;
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
    findings.extend(no_settings(sources, &pages));
    same_code_twice(sources, &pages, &mut findings);
    let numbered = in_rows(sources, &mut pages, &mut findings);
    let clone_sittings = std::mem::take(&mut pages.clone_sittings);
    let mut registry = before_readings(sources, pages, numbered);
    take_readings(&mut registry, clone_sittings, &mut findings);
    registry.mix_ups = mix_ups(&registry);
    (registry, findings)
}

/// The finding for a folder without `registry.ron`; one that is there and cannot be read has its own.
fn no_settings(sources: &Sources, pages: &Pages) -> Option<Finding> {
    let mut unread = sources.unread().iter();
    let is_there = unread.any(|page| page.path == "registry.ron" || page.path == ".")
        || sources.find("registry.ron").is_some();
    (pages.settings.is_none() && !is_there).then(|| {
        Finding::fault(Code("no-registry"), "there is no registry.ron")
            .found("a folder without it; the defaults are used")
            .needed("registry.ron with the genus, the hemisphere and the traits")
            .help("`podbook new DIR` writes one into a new folder")
    })
}

/// Every plant with its row, and the parents that were never seen.
fn in_rows<'t>(
    sources: &'t Sources,
    pages: &mut Pages<'t>,
    findings: &mut Findings,
) -> (Numbered, Vec<Unseen<'t>>) {
    let taxa = pages.taxa.as_ref().map(|(_, taxa)| taxa);
    let codes = Codes::new(sources, &pages.clones, &pages.parts, taxa);
    let mut matings = Matings {
        codes: &codes,
        parts: &pages.parts,
        unseen: Vec::new(),
        findings,
    };
    let of_crosses = CrossRow::all(pages.parts.len()).map(|cross| matings.of(cross));
    let of_crosses = of_crosses.collect();
    let mut unseen = matings.unseen;
    let founders = pages.clones.len();
    let parts = &mut pages.parts;
    let numbered = number(&codes, parts, &mut unseen, of_crosses, founders, findings);
    (numbered, unseen)
}

/// The registry as far as its pages have it; what was read on plants is still to come.
fn before_readings<'t>(
    sources: &'t Sources,
    pages: Pages<'t>,
    (numbered, unseen): (Numbered, Vec<Unseen<'t>>),
) -> Registry<'t> {
    let settings = pages.settings.map(|(_, page)| page);
    let taxa = pages.taxa.map(|(_, taxa)| taxa);
    let founders = pages.clones.iter().enumerate();
    let crosses = pages.parts.iter().zip(CrossRow::all(pages.parts.len()));
    let pollen = pages.pollen.iter().zip(PollenRow::all(pages.pollen.len()));
    Registry {
        sources,
        settings: settings.unwrap_or_else(RegistryPage::missing),
        taxa: taxa.unwrap_or_default(),
        founder_codes: founders.map(|(at, of)| (of.code, at as u32)).collect(),
        cross_codes: crosses.map(|(of, row)| (of.page.code, row)).collect(),
        pollen_codes: pollen.map(|(lot, row)| (lot.code, row)).collect(),
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
    }
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
