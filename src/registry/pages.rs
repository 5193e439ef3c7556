//! All pages of a folder, read at once on all cores and put in an order that does not depend on file names.

use super::cross::{Cross, by_code, take_apart};
use super::ids::{is_code, natural_order};
use super::lookup::Lookup;
use super::sitting::{LocalSitting, take_sitting};
use crate::diagnostic::{Code, Finding, Findings};
use crate::record::{
    ClonesPage, CrossPage, ForOthers, FounderClone, PollenLot, PollenPage, RegistryPage,
    SpeciesPage, read_page,
};
use crate::text::{FileId, Outline, PAGES, Sources, Span, Unread, WhyUnread, on_cores};
use indexmap::IndexMap;

/// Bytes of the pages of crosses from which on they are read on all cores.
const MUCH: usize = 1 << 20;

/// The pages of a registry.
#[derive(Default)]
pub(super) struct Pages<'t> {
    pub settings: Option<(FileId, RegistryPage<'t>)>,
    pub taxa: Option<(FileId, SpeciesPage<'t>)>,
    pub clones: Vec<FounderClone<'t>>,
    pub clones_file: Option<FileId>,
    pub clone_sittings: Vec<LocalSitting<'t>>,
    pub pollen: Vec<PollenLot<'t>>,
    pub pollen_file: Option<FileId>,
    pub parts: Vec<Cross<'t>>,
}

/// Who is to read a registry.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Readers {
    /// Its grower.
    Grower,
    /// Anybody: what is private is left out.
    Anybody,
}

/// Reads every page.
pub(super) fn read_pages<'t>(
    sources: &'t Sources,
    readers: Readers,
    findings: &mut Findings,
) -> Pages<'t> {
    unread(sources, findings);
    let mut pages = Pages {
        settings: page(sources, "registry.ron", findings).map(|read| shown(read, readers)),
        taxa: page(sources, "species.ron", findings).map(|read| shown(read, readers)),
        parts: cross_pages(sources, readers, findings),
        ..Pages::default()
    };
    if let Some((file, taxa)) = &mut pages.taxa {
        let unread: Vec<_> = sources.get(*file).open().collect();
        for row in &mut taxa.species {
            row.doubtful |= unread
                .iter()
                .any(|(code, of, _)| (*code, *of) == (row.epithet, "species"));
        }
    }
    if let Some((file, settings)) = &pages.settings {
        newer_format(sources, *file, settings, findings);
    }
    let clones = page::<ClonesPage>(sources, "clones.ron", findings);
    if let Some((file, page)) = clones.map(|read| shown(read, readers)) {
        pages.clones_file = Some(file);
        pages.clones = sound_codes(sources, file, "clone", page.clones, |c| c.code, findings);
        let rows = pages.clones.iter().enumerate();
        let rows: IndexMap<&str, u32> = rows.map(|(at, c)| (c.code, at as u32)).collect();
        let find = |code: &str| rows.get(code).copied();
        pages.clone_sittings = page
            .sittings
            .into_iter()
            .map(|s| take_sitting(sources, file, s, find))
            .collect();
    }
    let pollen = page::<PollenPage>(sources, "pollen.ron", findings);
    if let Some((file, page)) = pollen.map(|read| shown(read, readers)) {
        pages.pollen_file = Some(file);
        pages.pollen = sound_codes(sources, file, "pollen lot", page.lots, |l| l.code, findings);
    }
    stray_files(sources, findings);
    pages
}

/// What could not be read; a folder of pages in the wrong place is named once.
fn unread(sources: &Sources, findings: &mut Findings) {
    let folder = |unread: &Unread| {
        let path = (unread.why == WhyUnread::TooDeep).then(|| unread.path.rsplit_once('/'));
        path.flatten().map(|(folder, _)| folder.to_owned())
    };
    let mut last = None;
    for unread in sources.unread() {
        let own = folder(unread);
        if own.is_none() || own != last {
            findings.push(unread);
        }
        last = own;
    }
}

/// Files beside the pages that are none.
fn stray_files(sources: &Sources, findings: &mut Findings) {
    for (file, source) in sources.iter() {
        if !source.path.contains('/') && !PAGES.contains(&source.path.as_str()) {
            findings.push(
                Finding::warning(Code("stray-file"), "this file is not part of the registry")
                    .at(Span::at(file, 0))
                    .found(source.path.clone())
                    .needed("registry.ron, species.ron, clones.ron, pollen.ron, goals.ron, or a cross under crosses/")
                    .help("move a cross page into crosses/, or give the file another extension"),
            );
        }
    }
}

/// A registry in a form that this program does not know may say what it does not understand.
fn newer_format(sources: &Sources, file: FileId, page: &RegistryPage, findings: &mut Findings) {
    let format = page.form();
    if (1..=RegistryPage::NEWEST).contains(&format) {
        return;
    }
    let place = form_on_page(sources, file);
    findings.push(
        Finding::fault(Code("newer-format"), "this podbook does not know the form of these files")
            .at(place)
            .found(format!("format: {format}"))
            .needed(format!("1 or {}", RegistryPage::NEWEST))
            .help("use the podbook that wrote them, or a newer one; this one may misread them and does not write to them"),
    );
}

/// Where the form of the files stands.
fn form_on_page(sources: &Sources, file: FileId) -> Option<Span> {
    let outline = Outline::of(sources.text(file));
    let field = outline.field(outline.root()?, "format")?;
    Some(Span::new(file, outline.part(field).range()))
}

/// The form of the files as `registry.ron` has it, where this program does not know it and so must not write to them.
pub fn unknown_form(sources: &Sources) -> Option<&str> {
    let file = sources.find("registry.ron")?;
    let form = &sources.text(file)[form_on_page(sources, file)?.range()];
    let number = form.trim_start_matches("Some(").trim_end_matches(')');
    let is_known = |number| (1..=RegistryPage::NEWEST).contains(&number);
    (!number.trim().parse().is_ok_and(is_known)).then_some(form)
}

fn page<'t, P: crate::record::Page<'t>>(
    sources: &'t Sources,
    path: &str,
    findings: &mut Findings,
) -> Option<(FileId, P)> {
    let file = sources.find(path)?;
    let (page, found) = read_page(sources, file);
    found.into_iter().for_each(|finding| findings.push(finding));
    page.map(|page| (file, page))
}

/// A page as its readers may see it.
fn shown<P: ForOthers>((file, mut page): (FileId, P), readers: Readers) -> (FileId, P) {
    if readers == Readers::Anybody {
        page.hide();
    }
    (file, page)
}

fn cross_pages<'t>(
    sources: &'t Sources,
    readers: Readers,
    findings: &mut Findings,
) -> Vec<Cross<'t>> {
    let files: Vec<FileId> = sources
        .iter()
        .filter(|(_, source)| source.path.starts_with("crosses/"))
        .map(|(file, _)| file)
        .collect();
    let length = |file: &FileId| sources.text(*file).len();
    let much = files.iter().map(length).sum::<usize>() >= MUCH;
    let read: Vec<(Option<Cross>, Vec<Finding>)> = on_cores(&files, much, |&file| {
        let (page, mut found) = read_page::<CrossPage>(sources, file);
        let parts = page
            .map(|page| shown((file, page), readers).1)
            .map(|page| take_apart(sources, file, page))
            .map(|mut parts| {
                found.append(&mut parts.findings);
                parts
            });
        (parts, found)
    });
    let mut parts = Vec::with_capacity(read.len());
    for (page, found) in read {
        found.into_iter().for_each(|finding| findings.push(finding));
        parts.extend(page);
    }
    by_code(sources, &mut parts);
    keep_first(sources, parts, findings)
}

/// Leaves out pages whose code is no code or was given before.
fn keep_first<'t>(
    sources: &'t Sources,
    parts: Vec<Cross<'t>>,
    findings: &mut Findings,
) -> Vec<Cross<'t>> {
    let mut kept: Vec<Cross> = Vec::with_capacity(parts.len());
    for page in parts {
        if !is_code(page.page.code) {
            findings.push(
                Lookup {
                    sources,
                    file: page.file,
                }
                .bad_code("cross", page.page.code),
            );
        } else if let Some(first) = kept.last().filter(|last| last.page.code == page.page.code) {
            let lookup = Lookup {
                sources,
                file: first.file,
            };
            findings.push(lookup.twice("cross", first.page.code, page.page.code, page.file));
        } else {
            kept.push(page);
        }
    }
    kept
}

/// Sorts records by code and leaves out those whose code is no code or was given before.
fn sound_codes<'t, R>(
    sources: &'t Sources,
    file: FileId,
    what: &'static str,
    mut records: Vec<R>,
    code: impl Fn(&R) -> &'t str,
    findings: &mut Findings,
) -> Vec<R> {
    // Stable: of two records with one code the one written first is kept.
    records.sort_by(|a, b| natural_order(code(a), code(b)));
    let mut kept: Vec<R> = Vec::with_capacity(records.len());
    for record in records {
        if !is_code(code(&record)) {
            findings.push(Lookup { sources, file }.bad_code(what, code(&record)));
        } else if let Some(first) = kept.last().filter(|last| code(last) == code(&record)) {
            findings.push(Lookup { sources, file }.twice(what, code(first), code(&record), file));
        } else {
            kept.push(record);
        }
    }
    kept
}
