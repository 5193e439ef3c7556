//! What is wrong with the registry.

use super::sheet::{Report, Sheet};
use crate::diagnostic::{Findings, Severity};
use crate::observation::stock_take::is_remark;
use crate::registry::Registry;
use crate::text::Sources;
use crate::wording::{counted, joined_if_any};
use serde::Serialize;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// All findings of one run.
#[derive(Serialize)]
pub struct CheckReport {
    /// Findings that leave something out.
    pub faults: usize,
    /// Findings that are probably mistakes.
    pub warnings: usize,
    /// Findings worth knowing.
    pub notes: usize,
    /// Files read.
    pub files: usize,
    /// Crosses kept.
    pub crosses: usize,
    /// Numbered seedlings kept.
    pub seedlings: usize,
    /// Founder clones kept.
    pub clones: usize,
    /// Readings kept; remarks are none.
    pub readings: usize,
    /// The findings: faults, then warnings, then notes, each in order of place.
    pub findings: Vec<FindingRow>,
}

/// One finding as data.
#[derive(Serialize)]
pub struct FindingRow {
    /// Lasting code.
    pub code: &'static str,
    /// `fault`, `warning` or `note`.
    pub severity: &'static str,
    /// File, relative to the registry.
    pub file: Option<String>,
    /// Line from 1.
    pub line: Option<u32>,
    /// Column from 1, in characters.
    pub column: Option<u32>,
    /// What is wrong.
    pub title: String,
    /// What was found.
    pub found: String,
    /// What was needed.
    pub needed: String,
    /// What to do.
    pub help: Vec<String>,
}

/// Counts and lists the findings.
pub fn check(registry: &Registry, findings: &Findings) -> CheckReport {
    CheckReport {
        faults: findings.count(Severity::Fault),
        warnings: findings.count(Severity::Warning),
        notes: findings.count(Severity::Note),
        files: registry.sources.len(),
        crosses: registry.crosses.len(),
        seedlings: registry
            .crosses
            .iter()
            .map(|cross| cross.seedlings.len())
            .sum(),
        clones: registry.founders().len(),
        readings: readings(registry),
        findings: findings.iter().map(|f| row(registry.sources, f)).collect(),
    }
}

/// Cells of sittings that read something of a plant: no remarks.
fn readings(registry: &Registry) -> usize {
    let sittings = registry.all_sittings();
    let of_sitting = sittings.map(|(_, head)| {
        let cells = head.rows().flat_map(|(_, cells)| cells);
        cells.filter(|cell| !is_remark(head, cell)).count()
    });
    of_sitting.sum()
}

fn row(sources: &Sources, finding: &crate::diagnostic::Finding) -> FindingRow {
    let place = finding.place.map(|span| sources.locate(span));
    FindingRow {
        code: finding.code.0,
        severity: finding.severity.word(),
        file: place.map(|place| place.path.to_owned()),
        line: place.map(|place| place.line),
        column: place.map(|place| place.column),
        title: finding.title.clone(),
        found: finding.found.to_string(),
        needed: finding.needed.to_string(),
        help: finding.help.clone(),
    }
}

impl CheckReport {
    /// The line that stands for the notes when they are not shown: how many of which kind, the commonest first. `None`
    /// without notes.
    pub fn folded_notes(&self) -> Option<String> {
        let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
        for finding in &self.findings {
            if finding.severity == Severity::Note.word() {
                *kinds.entry(finding.code).or_default() += 1;
            }
        }
        let mut kinds: Vec<(&str, usize)> = kinds.into_iter().collect();
        kinds.sort_by_key(|(code, n)| (Reverse(*n), *code));
        let told = kinds.iter().map(|(code, n)| format!("{n} {code}"));
        let told = joined_if_any(told, ", ")?;
        let notes = counted(self.notes, "note", "notes");
        Some(format!(
            "{notes} not shown ({told}): `podbook check --notes` shows them"
        ))
    }
}

impl Report for CheckReport {
    /// The first line; the findings themselves are drawn with their places by `diagnostic`.
    fn sheet(&self) -> Sheet {
        let notes = counted(self.notes, "note", "notes");
        let verdict = match (self.faults + self.warnings, self.notes) {
            (0, 0) => "No problems".to_owned(),
            (0, _) => format!("No faults or warnings, {notes}"),
            _ => {
                let faults = counted(self.faults, "fault", "faults");
                let warnings = counted(self.warnings, "warning", "warnings");
                [faults, warnings, notes].join(", ")
            }
        };
        Sheet::new(format!(
            "{verdict} in {}: {}, {}, {}, {}",
            counted(self.files, "file", "files"),
            counted(self.clones, "clone", "clones"),
            counted(self.crosses, "cross", "crosses"),
            counted(self.seedlings, "numbered seedling", "numbered seedlings"),
            counted(self.readings, "reading", "readings"),
        ))
    }

    fn is_bad_news(&self) -> bool {
        self.faults > 0
    }
}
