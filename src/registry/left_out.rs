//! Records left out because of a fault of its own, so that a code that refers to it is not called unknown.

use super::ids::splits;
use crate::diagnostic::{Code, Finding};
use crate::text::{FileId, PAGES, Source, Sources, Span, UNREAD_LISTS, UNREAD_PLACE, Unread};
use std::collections::BTreeSet;

/// The page of the founders.
const FOUNDERS: &str = "clones.ron";
/// The page of pollen.
const POLLEN: &str = "pollen.ron";
/// Kinds of records that have a place.
const STANDING: [&str; 4] = ["plant", "piece", "sowing", "community pot"];
/// How far into a page that could not be kept its code is sought, bytes.
const HEAD: usize = 4000;

/// Files and records that were left out.
pub(super) struct LeftOut<'a> {
    sources: &'a Sources,
    /// Pages of crosses of which nothing was kept.
    lost: Vec<FileId>,
}

/// Where the fault is that must be mended first.
struct Cause {
    path: String,
    place: Option<Span>,
    /// Whether the code itself was found there.
    is_sure: bool,
}

impl Cause {
    fn note(self, what: &str, code: &str) -> Finding {
        let left_out = match self.is_sure {
            true => "was left out because of a fault of its own",
            false => "may stand in what could not be read of its page",
        };
        let title = format!("the {what} `{code}` {left_out}");
        Finding::note(Code("rests-on-left-out"), title)
            .found(format!("`{code}`"))
            .needed(format!("{} without that fault", self.path))
            .help(format!(
                "mend {} first; until then what depends on `{code}` counts as unknown",
                self.path
            ))
            .related(self.place, "left out until this is fixed")
    }
}

impl<'a> LeftOut<'a> {
    /// What of the sources was left out, when these pages of crosses were kept.
    pub fn of(sources: &'a Sources, kept: impl Iterator<Item = FileId>) -> Self {
        let kept: BTreeSet<FileId> = kept.collect();
        let pages = sources
            .iter()
            .filter(|(_, source)| source.path.starts_with("crosses/"));
        let lost = pages
            .map(|(file, _)| file)
            .filter(|file| !kept.contains(file));
        Self {
            sources,
            lost: lost.collect(),
        }
    }

    /// The note on a code in a page that names something left out; `None` when nothing of the kind was.
    pub fn note(&self, what: &str, code: &str, file: FileId) -> Option<Finding> {
        let of = if what == "parent" { "plant" } else { what };
        let record = || self.any_record(code, Some(of), Some(file));
        let cause = self.any_page(code).or_else(record)?;
        Some(cause.note(what, code).at(self.sources.span_of(file, code)))
    }

    /// The note on a code that names a record of its own page which was left out.
    pub fn own_note(
        sources: &Sources,
        (file, code): (FileId, &str),
        what: &str,
    ) -> Option<Finding> {
        let cause = record(sources, (file, code), Some(what))?;
        Some(cause.note(what, code).at(sources.span_of(file, code)))
    }

    /// The page on which a code was left out.
    pub fn page_of(&self, code: &str) -> Option<String> {
        let page = self.any_page(code);
        let cause = page.or_else(|| self.any_record(code, None, None))?;
        Some(cause.path)
    }

    /// What could not be read and may hold a code, each with why: what was left out under that very code first, then
    /// every page that could not be read at all; the page of the founders too where `founders_lost`.
    pub fn may_hold(&self, code: &str, founders_lost: bool) -> Vec<String> {
        let own = self.page_of(code);
        let unread = self.sources.unread().iter();
        let mut pages: Vec<&Unread> = unread
            .filter(|page| page.why.is_of_a_page() || own.as_ref() == Some(&page.path))
            .collect();
        pages.sort_by_key(|page| own.as_ref() != Some(&page.path));
        let mut told: Vec<String> = pages.into_iter().map(told_unread).collect();
        let own = own.filter(|own| self.sources.find(own).is_some());
        let lost = self.lost_whole(founders_lost).into_iter();
        let lost: Vec<String> = lost.filter(|path| own.as_ref() != Some(path)).collect();
        let faulty = own.into_iter().chain(lost);
        let is_page = |path: &str| path.contains('/') || PAGES.contains(&path);
        let faulty = faulty.map(|path| match is_page(&path) {
            true => told_faulty(&path),
            false => format!("{path} could not be read: it is not in the folder `crosses`"),
        });
        told.splice(0..0, faulty);
        told
    }

    /// What could not be read and may hold a plant or a tray, each with why.
    pub fn may_hold_any(&self, founders_lost: bool) -> Vec<String> {
        let unread = self.sources.unread().iter();
        let unread = unread
            .filter(|page| page.why.is_of_a_page())
            .map(told_unread);
        let is_lost = |(file, source): &(FileId, &Source)| {
            self.lost.contains(file)
                || (founders_lost && source.path == FOUNDERS)
                || source.has_left_out(&STANDING)
                || (source.open()).any(|(_, what, _)| [UNREAD_LISTS, UNREAD_PLACE].contains(&what))
        };
        let faulty = self.sources.iter().filter(is_lost);
        let faulty = faulty.map(|(_, source)| told_faulty(&source.path));
        unread.chain(faulty).collect()
    }

    /// Pages of which nothing is known that could say which codes they hold.
    fn lost_whole(&self, founders_lost: bool) -> Vec<String> {
        let lost = self.lost.iter().map(|file| self.sources.get(*file));
        let empty = lost.filter(|page| page.text.trim().is_empty());
        let empty = empty.map(|page| page.path.clone());
        let founders = founders_lost.then(|| FOUNDERS.to_owned());
        founders.into_iter().chain(empty).collect()
    }

    /// The note on a heading of a sitting, such as `span cm`, whose trait went with a fault of `registry.ron`, or with the
    /// whole of it; `None` where that page lost no such trait.
    pub fn trait_note(sources: &Sources, heading: &str) -> Option<(String, Option<Span>)> {
        const PAGE: &str = "registry.ron";
        let code = heading.split([' ', '(']).next().unwrap_or(heading);
        let file = sources.find(PAGE);
        let lost = |file| record(sources, (file, code), Some("trait"));
        if let Some(cause) = file.and_then(lost) {
            let help = format!("mend {PAGE} first: its trait `{code}` has a fault");
            return Some((help, cause.place));
        }
        let read = file.map(|file| sources.get(file).kept());
        read.is_none_or(|text| text.trim().is_empty()).then(|| {
            let help = format!("mend {PAGE} first: no trait could be read from it");
            (help, None)
        })
    }

    /// The page a code, the cross of a seedling or the cross of a part stands on.
    fn any_page(&self, code: &str) -> Option<Cause> {
        let of_part = code.split_once('.').map(|(cross, _)| cross);
        let prefixes = splits(code).map(|(prefix, _)| prefix);
        let mut pages = std::iter::once(code).chain(of_part).chain(prefixes);
        pages.find_map(|page| self.page(page))
    }

    /// The record of a code, or of the plant whose piece it names; that of a page of its own first.
    fn any_record(&self, code: &str, what: Option<&str>, own: Option<FileId>) -> Option<Cause> {
        let own = own.and_then(|file| record(self.sources, (file, code), what));
        let mut codes = std::iter::once(code).chain(splits(code).map(|(plant, _)| plant));
        own.or_else(|| codes.find_map(|code| self.record(code, what)))
    }

    /// The record of a founder, a seedling, pollen or a part of a cross.
    fn record(&self, code: &str, what: Option<&str>) -> Option<Cause> {
        let of_part = splits(code).chain(code.split_once('.'));
        let of_part = of_part.map(|(cross, own)| (page_path(cross), own));
        let pages = [FOUNDERS, POLLEN].map(|page| (page.to_owned(), code));
        let pages = pages.into_iter().chain(of_part);
        let mut pages = pages.filter_map(|(path, code)| Some((self.sources.find(&path)?, code)));
        pages.find_map(|(file, code)| record(self.sources, (file, code), what))
    }

    /// The page of a cross that was left out whole.
    fn page(&self, cross: &str) -> Option<Cause> {
        let path = page_path(cross);
        // In another folder, or as `X22-01.ron.txt`, it is that page all the same.
        let name = format!("{cross}.ron");
        let is_it = |page: &&Unread| {
            let own = page.path.rsplit('/').next().unwrap_or_default();
            let rest = own.strip_prefix(&name);
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
        };
        let mut unread = self.sources.unread().iter();
        let unread = unread.find(is_it).map(|page| page.path.clone());
        let stray = || self.sources.find(&name).map(|_| name.clone());
        let stray = || stray().filter(|name| !PAGES.contains(&name.as_str()));
        if let Some(path) = unread.or_else(stray) {
            return Some(Cause {
                path,
                place: None,
                is_sure: true,
            });
        }
        let quoted = format!("\"{cross}\"");
        let file = self.lost.iter().copied().find(|&file| {
            let source = self.sources.get(file);
            source.path == path || head(source).contains(&quoted)
        })?;
        Some(Cause {
            path: self.sources.get(file).path.clone(),
            place: Some(Span::at(file, 0)),
            is_sure: true,
        })
    }
}

fn told_unread(page: &Unread) -> String {
    format!("{} could not be read: {}", page.path, page.why)
}

fn told_faulty(path: &str) -> String {
    format!("{path} has a fault, and what it touches was left out")
}

/// The record of a code that was not read from a page, of any kind or of one.
fn record(sources: &Sources, (file, code): (FileId, &str), what: Option<&str>) -> Option<Cause> {
    let source = sources.get(file);
    let own = source
        .left_out(code, what)
        .map(|at| (at, code.len() as u32));
    // Of a list that was not read any code may be there.
    let open = source.open().filter(|(_, what, _)| *what == UNREAD_LISTS);
    let mut open = open.filter(|_| may_list(&source.path, code, what));
    let is_sure = own.is_some();
    let (at, length) = own.or_else(|| open.next().map(|(.., at)| (at, 0)))?;
    Some(Cause {
        path: source.path.clone(),
        place: Some(Span::new(file, at..at + length)),
        is_sure,
    })
}

/// Whether a list of a page may hold the record of a code: of any kind, or of one. Plants have numbers on the page of a cross.
fn may_list(path: &str, code: &str, what: Option<&str>) -> bool {
    let is_any_of = |kinds: &[&str]| what.is_none_or(|what| kinds.contains(&what));
    match path {
        FOUNDERS => is_any_of(&["plant", "piece", "spike"]),
        POLLEN => is_any_of(&["pollen lot"]),
        "species.ron" => is_any_of(&["species"]),
        "registry.ron" => is_any_of(&["trait"]),
        _ if what == Some("plant") => code.starts_with(|c: char| c.is_ascii_digit()),
        _ => what.is_none() || !is_any_of(&["pollen lot", "species", "trait"]),
    }
}

fn page_path(cross: &str) -> String {
    format!("crosses/{cross}.ron")
}

fn head(source: &Source) -> &str {
    let text = &source.text;
    &text[..text.floor_char_boundary(HEAD.min(text.len()))]
}
