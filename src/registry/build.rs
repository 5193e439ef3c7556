//! From the pages of a folder to one registry.

use super::cross::{Cross, LocalSitting};
use super::lookup::Lookup;
use super::mating::Matings;
use super::numbering::number;
use super::origin::PlantRow;
use super::pages::{Pages, read_pages};
use super::parents::Codes;
use super::readings::{Column, Reading, ReadingTable, SittingHead};
use super::settings::Settings;
use super::whole::Registry;
use crate::diagnostic::{Code, Finding, Findings};
use crate::record::LengthUnit;
use crate::text::{FileId, Sources, Span};
use indexmap::IndexMap;

/// Builds the registry; what is faulty is left out and told of.
pub fn build(sources: &Sources) -> (Registry<'_>, Findings) {
    let mut findings = Findings::new();
    let mut pages = read_pages(sources, &mut findings);
    if pages.settings.is_none() && sources.find("registry.ron").is_none() {
        findings.push(
            Finding::fault(Code("no-registry"), "there is no registry.ron")
                .found("a folder without it; the defaults are used")
                .needed("registry.ron with the genus, the hemisphere and the traits")
                .help("`podbook begin DIR` writes one into a new folder"),
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
        let all: Vec<_> = (0..pages.parts.len() as u32)
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
        .map_or_else(Settings::default, |(_, page)| page.into());
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
            .enumerate()
            .map(|(at, c)| (c.page.code, at as u32))
            .collect(),
        pollen_codes: pages
            .pollen
            .iter()
            .enumerate()
            .map(|(at, l)| (l.code, at as u32))
            .collect(),
        crosses: pages.parts,
        pollen: pages.pollen,
        readings: ReadingTable::default(),
        clones_file: pages.clones_file,
        pollen_file: pages.pollen_file,
        rows: numbered.rows,
        origins: numbered.origins,
        founders: pages.clones,
        unseen,
    };
    take_readings(&mut registry, clone_sittings, &mut findings);
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

fn take_readings<'t>(
    registry: &mut Registry<'t>,
    clone_sittings: Vec<LocalSitting<'t>>,
    findings: &mut Findings,
) {
    let mut table = ReadingTable::default();
    if let Some(file) = registry.clones_file {
        for sitting in clone_sittings {
            add_sitting(registry, &mut table, (file, None), sitting, findings);
        }
    }
    for cross in 0..registry.crosses.len() {
        let page: &mut Cross = &mut registry.crosses[cross];
        let file = page.file;
        for sitting in std::mem::take(&mut page.sittings) {
            add_sitting(
                registry,
                &mut table,
                (file, Some(cross as u32)),
                sitting,
                findings,
            );
        }
    }
    table.rows.shrink_to_fit();
    table.index();
    registry.readings = table;
}

fn add_sitting<'t>(
    registry: &Registry<'t>,
    table: &mut ReadingTable<'t>,
    (file, cross): (FileId, Option<u32>),
    local: LocalSitting<'t>,
    findings: &mut Findings,
) {
    let lookup = Lookup {
        sources: registry.sources,
        file,
    };
    let headings = local.sitting.columns.iter();
    let columns: Vec<Column> = headings
        .map(|heading| column(registry, lookup, heading, findings))
        .collect();
    let foreign: Vec<Option<PlantRow>> = local
        .foreign
        .iter()
        .map(|code| {
            let found = registry.plant(code);
            if found.is_none() {
                findings.push(unknown_plant(registry, lookup, cross, code));
            }
            found
        })
        .collect();
    let first = table.rows.len() as u32;
    let spelt_before = table.spelt.len() as u32;
    table.spelt.extend(local.spelt);
    let sitting = table.sittings.len() as u32;
    for cell in local.cells {
        if usize::from(cell.column) >= columns.len() {
            findings.push(too_many_cells(
                lookup,
                file,
                cell.start,
                cell.len,
                columns.len(),
            ));
            continue;
        }
        let plant = match (cell.foreign, cross) {
            (true, _) => foreign[cell.plant as usize],
            (false, Some(cross)) => {
                Some(registry.crosses[cross as usize].seedlings[cell.plant as usize])
            }
            (false, None) => Some(PlantRow(cell.plant)),
        };
        let Some(plant) = plant else { continue };
        let start = if cell.len == Reading::SPELT {
            cell.start + spelt_before
        } else {
            cell.start
        };
        table.rows.push(Reading {
            plant,
            sitting,
            start,
            len: cell.len,
            column: cell.column,
        });
    }
    let readings = first..table.rows.len() as u32;
    table.sittings.push(SittingHead {
        file,
        cross,
        sitting: local.sitting,
        columns,
        readings,
    });
}

fn unknown_plant(registry: &Registry, lookup: Lookup, cross: Option<u32>, code: &str) -> Finding {
    let numbers: Vec<&str> = match cross {
        Some(cross) => registry.crosses[cross as usize]
            .seedlings
            .iter()
            .filter_map(|&row| registry.number(row))
            .collect(),
        None => registry
            .founders()
            .iter()
            .map(|founder| founder.code)
            .collect(),
    };
    lookup.unknown("plant", code, numbers.into_iter())
}

fn too_many_cells(lookup: Lookup, file: FileId, start: u32, len: u8, columns: usize) -> Finding {
    let span = (len != Reading::SPELT).then(|| Span::new(file, start..start + u32::from(len)));
    let text = span.map_or(String::new(), |span| lookup.sources.slice(span).to_owned());
    Finding::fault(
        Code("cell-without-column"),
        "a row has more cells than there are columns",
    )
    .at(span)
    .found(format!("`{text}`"))
    .needed(format!("the plant and at most {columns} cells"))
    .help("add the column's heading to `columns`, or take the cell out")
}

/// What a heading such as `span cm` or `banding` means.
fn column(registry: &Registry, lookup: Lookup, heading: &str, findings: &mut Findings) -> Column {
    match heading.trim() {
        "pest" => return Column::Pest,
        "pitcher" => return Column::Pitcher,
        "note" => return Column::Note,
        _ => {}
    }
    let traits = &registry.settings.traits;
    let index = |code: &str| {
        traits
            .iter()
            .position(|t| t.code == code)
            .map(|at| at as u16)
    };
    if let Some(index) = index(heading.trim()) {
        return Column::Trait { index, unit: None };
    }
    if let Some((code, unit)) = heading.trim().rsplit_once(' ')
        && let (Some(index), Some(unit)) = (index(code.trim()), LengthUnit::read(unit))
    {
        return Column::Trait {
            index,
            unit: Some(unit),
        };
    }
    let known = traits
        .iter()
        .map(|t| t.code)
        .chain(["pest", "pitcher", "note"]);
    findings.push(lookup.unknown("trait", heading, known));
    Column::Unknown
}
