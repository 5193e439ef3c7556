//! Check before write: which faults and warnings a change would bring.
//!
//! Only the pages a change can touch are read anew: those it changes, those they name, and those that name what is
//! recorded. A finding that is there before and after, such as one about a page that is not among them, is not the
//! change's doing.

use super::draft::PageChange;
use super::line_edits::edits;
use crate::check;
use crate::diagnostic::{Finding, Findings, Severity};
use crate::record::{Day, JournalEdit};
use crate::registry::{CrossRow, PlantRow, Registry, Target, build};
use crate::text::Sources;
use std::collections::{BTreeMap, BTreeSet};

/// So many codes are looked for one by one.
const MANY: usize = 16;

/// What a change would bring, with the texts its places are in.
#[derive(Debug)]
pub struct Consequences {
    /// The pages as they would be.
    pub sources: Sources,
    /// Faults, then warnings, that are not there now.
    pub findings: Findings,
    /// Of an undo that is refused, the last change that wrote what needs the lines that would go.
    pub needed_by: Option<u32>,
}

impl Consequences {
    /// Whether there is a fault among them.
    pub fn are_faulty(&self) -> bool {
        self.findings.count(Severity::Fault) > 0
    }
}

/// What changes would bring; `about` are the codes that are recorded on.
pub fn consequences(
    registry: &Registry,
    changes: &[PageChange],
    about: &[String],
    today: Day,
) -> Consequences {
    let paths = touched(registry, changes, about);
    let after = sub_registry(registry, &paths, changes);
    let check = check_after(changes);
    let there = found(&after, today, check).into_vec().into_iter();
    let there: Vec<Finding> = there.filter(|of| of.severity != Severity::Note).collect();
    let mut known: BTreeMap<Kind, usize> = BTreeMap::new();
    // Most changes leave nothing to say, and then it does not matter what was there before.
    if !there.is_empty() {
        let before = sub_registry(registry, &paths, &[]);
        for finding in found(&before, today, check).iter() {
            *known.entry(Kind::of(finding, &before)).or_default() += 1;
        }
    }
    let mut new = Findings::new();
    for finding in there {
        match known.get_mut(&Kind::of(&finding, &after)) {
            Some(left) if *left > 0 => *left -= 1,
            _ => new.push(finding),
        }
    }
    Consequences {
        sources: after,
        findings: new,
        needed_by: None,
    }
}

/// What makes two findings the same although the page has moved on around them.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
struct Kind {
    code: &'static str,
    path: String,
    title: String,
    found: String,
}

impl Kind {
    fn of(finding: &Finding, sources: &Sources) -> Kind {
        let place = finding
            .place
            .map(|span| sources.get(span.file).path.clone());
        Kind {
            code: finding.code.0,
            path: place.unwrap_or_default(),
            title: finding.title.clone(),
            found: finding.found.to_string(),
        }
    }
}

/// What checks a registry on a day.
type Check = fn(&Registry, Day) -> Findings;

/// What has to be looked for after changes: labels of founders only where their page or the names on them changed.
fn check_after(changes: &[PageChange]) -> Check {
    let of_founders = ["registry.ron", "species.ron", "clones.ron"];
    let touched = |change: &PageChange| of_founders.contains(&change.path.as_str());
    match changes.iter().any(touched) {
        true => check::all,
        false => check::all_but_founders_labels,
    }
}

/// Everything found in pages.
fn found(sources: &Sources, today: Day, check: Check) -> Findings {
    let (registry, mut findings) = build(sources);
    findings.append(check(&registry, today));
    findings
}

/// The pages that every registry has, and those that a change can touch.
fn touched(registry: &Registry, changes: &[PageChange], about: &[String]) -> BTreeSet<String> {
    let mut paths: BTreeSet<String> = ["registry.ron", "species.ron", "clones.ron", "pollen.ron"]
        .map(str::to_owned)
        .into();
    let page_of = |cross: CrossRow| {
        let file = registry[cross].file;
        registry.sources.get(file).path.clone()
    };
    for change in changes {
        paths.insert(change.path.clone());
        let (was, now) = change.texts();
        // A page of a cross names few others; of a page that names many only what changes is looked at.
        let texts = match change.path.starts_with("crosses/") {
            true => vec![now.to_owned(), was.to_owned()],
            false => edits(was, now)
                .into_iter()
                .flat_map(|edit| [edit.was, edit.now])
                .collect(),
        };
        for text in texts {
            let named = codes_in(&text).filter_map(|code| registry.cross(code));
            paths.extend(named.map(page_of));
        }
    }
    // A page that names the plant says something of its pieces, too; and of a founder whose record changes by the way.
    let pieces = about
        .iter()
        .filter_map(|code| plant_of_piece(registry, code));
    let founders = changes
        .iter()
        .flat_map(|change| founders_changed(registry, change));
    let plants: Vec<String> = pieces.chain(founders).collect();
    let codes: BTreeSet<&str> = about.iter().chain(&plants).map(String::as_str).collect();
    // To look for many codes one by one would read every page as often as there are codes.
    let naming = |text: &str| match codes.len() {
        0..=MANY => codes.iter().any(|code| text.contains(code)),
        _ => codes_in(text).any(|word| codes.contains(word)),
    };
    let pages = registry.sources.iter();
    let pages = pages.filter(|(_, source)| naming(&source.text));
    paths.extend(pages.map(|(_, source)| source.path.clone()));
    paths
}

/// The founders whose records a change of their page touches, by the lines that differ.
fn founders_changed(registry: &Registry, change: &PageChange) -> Vec<String> {
    let is_theirs = |file| registry.sources.get(file).path == change.path;
    let (was, now) = change.texts();
    if was.is_empty() || !registry.clones_file.is_some_and(is_theirs) {
        return Vec::new();
    }
    let founders = registry.plants().take(registry.founders().len());
    let place = |plant| Some((registry.place(plant)?.start as usize, plant));
    let mut starts: Vec<(usize, PlantRow)> = founders.filter_map(place).collect();
    starts.sort_unstable_by_key(|(start, _)| *start);
    let before = |end: usize| starts.partition_point(|(start, _)| *start < end);
    let of_edit = |edit: JournalEdit| {
        // The code stands behind the beginning of its record, so that the record before counts too.
        let first = before(edit.at).saturating_sub(1);
        first..before(edit.at + edit.was.len()).max(first)
    };
    let rows: BTreeSet<usize> = edits(was, now).into_iter().flat_map(of_edit).collect();
    rows.into_iter()
        .map(|at| registry.code(starts[at].1))
        .collect()
}

fn plant_of_piece(registry: &Registry, code: &str) -> Option<String> {
    match registry.target(code) {
        Some(Target::Ramet(plant, _)) => Some(registry.code(plant)),
        _ => None,
    }
}

/// Everything in a text that may be the code of a cross: words, and their beginnings up to each hyphen.
fn codes_in(text: &str) -> impl Iterator<Item = &str> {
    let words = text.split(|c: char| !c.is_alphanumeric() && c != '-');
    words
        .filter(|word| word.contains('-') || word.len() < 20)
        .flat_map(|word| {
            let hyphens = word.match_indices('-').map(|(at, _)| &word[..at]);
            hyphens.chain(std::iter::once(word))
        })
        .filter(|word| !word.is_empty())
}

fn sub_registry(registry: &Registry, paths: &BTreeSet<String>, changes: &[PageChange]) -> Sources {
    let changes: BTreeMap<&str, &PageChange> = changes
        .iter()
        .map(|change| (change.path.as_str(), change))
        .collect();
    let mut sources = Sources::new();
    for path in paths {
        match (changes.get(path.as_str()), registry.sources.find(path)) {
            (Some(change), _) => {
                if let Some(now) = &change.now {
                    sources.add(path.as_str(), now.as_str());
                }
            }
            (None, Some(file)) => {
                sources.add(path.as_str(), registry.sources.text(file));
            }
            (None, None) => {}
        }
    }
    sources
}
