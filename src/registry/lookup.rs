//! Findings about codes: unknown ones with what was probably meant, and codes given twice.

use super::left_out::LeftOut;
use crate::diagnostic::{Code, Finding};
use crate::text::{FileId, Sources};

/// Where the codes stand.
#[derive(Clone, Copy)]
pub(super) struct Lookup<'t> {
    pub sources: &'t Sources,
    pub file: FileId,
}

/// The code of the finding for an unknown thing.
fn unknown_code(what: &str) -> Code {
    Code(match what {
        "zone" => "unknown-zone",
        "pod" => "unknown-pod",
        "seed lot" => "unknown-seed-lot",
        "sowing" => "unknown-sowing",
        "community pot" => "unknown-community-pot",
        "parent" => "unknown-parent",
        "pollen lot" => "unknown-pollen-lot",
        "trait" => "unknown-trait",
        "piece" => "unknown-ramet",
        "spike" => "unknown-spike",
        "species" => "unknown-species",
        _ => "unknown-plant",
    })
}

impl<'t> Lookup<'t> {
    /// An unknown code, with the nearest known ones; the note on it when its record on this page was left out.
    pub fn unknown<'n>(
        self,
        what: &'static str,
        code: &str,
        known: impl Iterator<Item = &'n str>,
    ) -> Finding {
        if let Some(note) = LeftOut::own_note(self.sources, (self.file, code), what) {
            return note;
        }
        let known: Vec<&str> = known.collect();
        let near = crate::text::nearest(code, known.iter().copied());
        self.unknown_among(what, code, near, &known)
    }

    /// An unknown code, with what was probably meant and, where they are few, all that are known.
    pub fn unknown_among(
        self,
        what: &'static str,
        code: &str,
        near: Vec<&str>,
        known: &[&str],
    ) -> Finding {
        let finding = self.unknown_near(what, code, near);
        if known.is_empty() {
            finding.help(format!(
                "no {what} is recorded yet: add it, or take the reference out"
            ))
        } else if known.len() <= 8 {
            finding.help(format!("recorded: {}", known.join(", ")))
        } else {
            finding
        }
    }

    /// An unknown code, with what was probably meant.
    pub fn unknown_near(self, what: &'static str, code: &str, near: Vec<&str>) -> Finding {
        Finding::fault(unknown_code(what), format!("there is no {what} `{code}`"))
            .at(self.sources.span_of(self.file, code))
            .found(format!("`{code}`"))
            .needed(format!("the code of a {what} on record"))
            .did_you_mean(near)
    }

    /// Checks a reference.
    pub fn known(
        self,
        what: &'static str,
        code: Option<&str>,
        known: impl Iterator<Item = &'t str> + Clone,
        findings: &mut Vec<Finding>,
    ) {
        if let Some(code) = code
            && !known.clone().any(|k| k == code)
        {
            findings.push(self.unknown(what, code, known));
        }
    }

    /// Tells of codes given more than once.
    pub fn repeated(
        self,
        what: &'static str,
        codes: impl Iterator<Item = &'t str>,
        findings: &mut Vec<Finding>,
    ) {
        let mut seen: Vec<&str> = codes.collect();
        // A stable sort keeps the first given in front of those that repeat it.
        seen.sort();
        for pair in seen.windows(2).filter(|pair| pair[0] == pair[1]) {
            findings.push(self.twice(what, pair[0], pair[1], self.file));
        }
    }

    /// A text that cannot be a code.
    pub fn bad_code(self, what: &str, code: &str) -> Finding {
        let example = match what {
            "zone" => "a code such as `A` or `lower`; it goes on the tag of the spike",
            "pod" | "seed lot" | "sowing" | "community pot" => {
                "a code such as `P1`, `L1`, `W1` or `T1`; it is what goes on the tag"
            }
            _ => "a code such as `V1` or `X22-07`; it is what goes on the tag",
        };
        Finding::fault(
            Code("bad-code"),
            format!("this cannot be the code of a {what}"),
        )
        .at(self.sources.span_of(self.file, code))
        .found(format!("`{code}`"))
        .needed("up to 60 letters, digits and hyphens, without blanks, dots, slashes or brackets")
        .help(example)
    }

    /// The finding for a code given here and elsewhere.
    pub fn twice(self, what: &str, first: &str, second: &str, second_file: FileId) -> Finding {
        Finding::fault(
            Code("repeated-code"),
            format!("{what} `{second}` is recorded twice"),
        )
        .at(self.sources.span_of(second_file, second))
        .found("a code already given")
        .needed(format!("each {what} under a code of its own"))
        .help("the second record is left out; give it another code or join the two")
        .related(self.sources.span_of(self.file, first), "first given here")
    }
}
