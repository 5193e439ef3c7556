//! Records left out because of a fault of its own, so that a code that refers to it is not called unknown.

use super::ids::splits;
use super::pages::PAGES;
use crate::diagnostic::{Code, Finding};
use crate::text::{FileId, Source, Sources, Span, Unread, WhyUnread};
use std::collections::BTreeSet;

/// The page of the founders.
const FOUNDERS: &str = "clones.ron";
/// How far into a page that could not be kept its code is sought, bytes.
const HEAD: usize = 4000;

/// Files and records that were left out.
pub(super) struct LeftOut<'a> {
    sources: &'a Sources,
    /// Pages of crosses of which nothing was kept, and files that are no page.
    lost: Vec<FileId>,
}

/// Where the fault is that must be mended first.
struct Cause {
    path: String,
    place: Option<Span>,
}

impl<'a> LeftOut<'a> {
    /// What of the sources was left out, when these pages of crosses were kept.
    pub fn of(sources: &'a Sources, kept: impl Iterator<Item = FileId>) -> Self {
        let kept: BTreeSet<FileId> = kept.collect();
        let pages = sources
            .iter()
            .filter(|(_, source)| !PAGES.contains(&source.path.as_str()));
        let lost = pages
            .map(|(file, _)| file)
            .filter(|file| !kept.contains(file));
        Self {
            sources,
            lost: lost.collect(),
        }
    }

    /// The note on a code that names something left out; `None` when nothing of the kind was. Single records are
    /// sought in the text of their page only when `thorough`.
    pub fn note(
        &self,
        what: &str,
        code: &str,
        place: Option<Span>,
        thorough: bool,
    ) -> Option<Finding> {
        let record = || thorough.then(|| self.any_record(code)).flatten();
        let cause = self.any_page(code).or_else(record)?;
        Some(
            Finding::note(
                Code("rests-on-left-out"),
                format!("the {what} `{code}` was left out because of a fault of its own"),
            )
            .at(place)
            .found(format!("`{code}`"))
            .needed(format!("{} without that fault", cause.path))
            .help(format!(
                "mend {} first; until then what depends on `{code}` counts as unknown",
                cause.path
            ))
            .related(cause.place, "left out until this is fixed"),
        )
    }

    /// The page on which a code was left out.
    pub fn page_of(&self, code: &str) -> Option<String> {
        let cause = self.any_page(code).or_else(|| self.any_record(code))?;
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
        let told = |page: &Unread| format!("{} could not be read: {}", page.path, page.why);
        let mut told: Vec<String> = pages.into_iter().map(told).collect();
        let own = own.filter(|own| self.sources.find(own).is_some());
        let lost = self.lost_whole(founders_lost).into_iter();
        let lost: Vec<String> = lost.filter(|path| own.as_ref() != Some(path)).collect();
        let faulty = own.into_iter().chain(lost);
        let faulty =
            faulty.map(|path| format!("{path} has a fault, and what it touches was left out"));
        told.splice(0..0, faulty);
        told
    }

    /// Pages of which nothing is known that could say which codes they hold.
    fn lost_whole(&self, founders_lost: bool) -> Vec<String> {
        let lost = self.lost.iter().map(|file| self.sources.get(*file));
        let empty =
            lost.filter(|page| page.path.starts_with("crosses/") && page.text.trim().is_empty());
        let empty = empty.map(|page| page.path.clone());
        let founders = founders_lost.then(|| FOUNDERS.to_owned());
        founders.into_iter().chain(empty).collect()
    }

    /// The note on a heading of a sitting, such as `span cm`, whose trait went with a fault of `registry.ron`, or with the
    /// whole of it; `None` where that page lost no such trait.
    pub fn trait_note(sources: &Sources, heading: &str) -> Option<(String, Option<Span>)> {
        const PAGE: &str = "registry.ron";
        let code = heading.split([' ', '(']).next().unwrap_or(heading);
        let lost = LeftOut::of(sources, std::iter::empty());
        if let Some(cause) = lost.record(PAGE, code) {
            let help = format!("mend {PAGE} first: its trait `{code}` has a fault");
            return Some((help, cause.place));
        }
        let read = sources.find(PAGE).map(|file| sources.get(file).kept());
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

    /// The record of a founder, a seedling or a part of a cross.
    fn any_record(&self, code: &str) -> Option<Cause> {
        let own = [FOUNDERS, "pollen.ron"];
        let own = own.into_iter().find_map(|page| self.record(page, code));
        own.or_else(|| {
            let mut parts = splits(code).chain(code.split_once('.'));
            parts.find_map(|(cross, own)| self.record(&page_path(cross), own))
        })
    }

    /// The page of a cross that was left out whole.
    fn page(&self, cross: &str) -> Option<Cause> {
        let name = format!("{cross}.ron");
        // A name such as `X22-01.ron.txt` is that page all the same, and so is a page in another folder.
        let is_it = |path: &str| {
            let rest = path.rsplit('/').next().unwrap_or(path).strip_prefix(&name);
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
        };
        let mut unread = self.sources.unread().iter();
        let unread = unread.find(|page| match &page.why {
            WhyUnread::TooDeep { pages } => pages.iter().any(|page| is_it(page)),
            _ => is_it(&page.path),
        });
        if let Some(unread) = unread {
            let path = unread.path.clone();
            return Some(Cause { path, place: None });
        }
        let quoted = format!("\"{cross}\"");
        let file = self.lost.iter().copied().find(|&file| {
            let source = self.sources.get(file);
            is_it(&source.path) || head(source).contains(&quoted)
        })?;
        Some(Cause {
            path: self.sources.get(file).path.clone(),
            place: Some(Span::at(file, 0)),
        })
    }

    /// The record of a code or number that was blanked out of a page.
    fn record(&self, path: &str, code: &str) -> Option<Cause> {
        let file = self.sources.find(path)?;
        let source = self.sources.get(file);
        let quoted = format!("\"{code}\"");
        // The first field of a record names it, however it is spelt.
        let names_it = |at: usize| {
            let before = source.text[..at].trim_end();
            let before = before.strip_suffix(':').unwrap_or("").trim_end();
            let field = before.trim_end_matches(|c: char| c.is_alphanumeric() || c == '_');
            matches!(&before[field.len()..], "code" | "number" | "zone") || field.ends_with('(')
        };
        let lost = |at: usize| !source.kept()[at..].starts_with(&quoted);
        let places = source.text.match_indices(&quoted).map(|(at, _)| at);
        let at = places.into_iter().find(|&at| names_it(at) && lost(at))? as u32;
        Some(Cause {
            path: source.path.clone(),
            place: Some(Span::new(file, at..at + quoted.len() as u32)),
        })
    }
}

fn page_path(cross: &str) -> String {
    format!("crosses/{cross}.ron")
}

fn head(source: &Source) -> &str {
    let text = &source.text;
    &text[..text.floor_char_boundary(HEAD.min(text.len()))]
}
