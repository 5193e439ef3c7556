//! What the records of a lineage say against each other.

use super::closure::Lineage;
use super::records::pages;
use crate::check;
use crate::diagnostic::Severity;
use crate::record::Day;
use crate::registry::{Registry, build};
use crate::text::Sources;

/// The title of each fault that `podbook check` finds in the pages handed over, and in what stays at home of the parents: the
/// envelope that was used, the end of a plant. None where all agree.
pub fn contradictions(registry: &Registry, lineage: &Lineage, today: Day) -> Vec<String> {
    let mut pages = pages(registry, lineage);
    pages.sort_by(|a, b| a.path.cmp(&b.path));
    let mut sources = Sources::new();
    for page in pages {
        sources.add(page.path, page.text);
    }
    let (small, mut findings) = build(&sources);
    findings.append(check::all(&small, today));
    let faults = findings.iter().filter(|of| of.severity == Severity::Fault);
    let known: Vec<String> = faults.map(|fault| fault.title.clone()).collect();
    let mut titles = known.clone();
    for &cross in &lineage.crosses {
        let code = registry[cross].page.code;
        let at_home = check::against_parents(registry, cross, today).into_iter();
        let more = at_home.filter(|fault| !known.contains(&fault.title));
        titles.extend(more.map(|fault| format!("{code}: {}", fault.title)));
    }
    titles
}
