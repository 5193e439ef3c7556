//! Draws findings for a person to read.

use super::finding::Finding;
use super::findings::Findings;
use super::paint::Paint;
use crate::text::Sources;

/// How to draw.
#[derive(Clone, Copy, Debug)]
pub struct Drawing {
    /// Columns to keep within; at least 40 are used.
    pub width: usize,
    /// Whether to colour.
    pub paint: Paint,
}

impl Default for Drawing {
    fn default() -> Self {
        Self {
            width: 80,
            paint: Paint::Plain,
        }
    }
}

impl Drawing {
    /// One finding, ending in a line break.
    pub fn finding(&self, finding: &Finding, sources: &Sources) -> String {
        let place = finding.place.map(|span| sources.locate(span));
        let place = place.map_or(String::new(), |place| {
            format!(" {}:{}:{}", place.path, place.line, place.column)
        });
        format!(
            "{} {}:{place} {}\n",
            finding.severity.word(),
            finding.code,
            finding.title
        )
    }

    /// All findings in order, an empty line between two.
    pub fn findings(&self, findings: &Findings, sources: &Sources) -> String {
        let drawn: Vec<_> = findings
            .iter()
            .map(|finding| self.finding(finding, sources))
            .collect();
        drawn.join("\n")
    }
}
