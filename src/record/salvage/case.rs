//! One record under trial: the findings about it so far, and what is left out.

use super::compact::Addition;
use super::kinds::Kind;
use super::parents_repair::mother as mother_of;
use crate::diagnostic::Finding;
use crate::text::Outline;
use crate::text::outline::PartId;
use ron::Error;

/// What came of a record.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Verdict {
    /// All of it is kept, or all but the fields marked as left out.
    Kept,
    /// It cannot be read without what is at fault.
    Lost,
}

/// One record under trial.
pub(super) struct Case {
    pub kind: &'static Kind,
    pub record: PartId,
    pub additions: Vec<Addition>,
    /// Fields that have a finding, each with its record, so that their absence is not reported again.
    pub explained: Vec<(PartId, String)>,
    /// Parts to leave out for good.
    pub faulty: Vec<PartId>,
    /// The findings, each with the part it is about.
    pub findings: Vec<(PartId, Finding)>,
}

impl Case {
    /// Says what became of the record: once if it is lost, and of a field that something stands in for where that
    /// field has a finding.
    pub fn tell_outcome(&mut self, outline: &Outline, kept: Verdict) {
        if kept == Verdict::Lost
            && let Some((_, finding)) = self.findings.first_mut()
        {
            finding.help.push(left_out(self.kind));
        }
        for addition in &self.additions {
            let concerns = |part: &PartId| {
                let mut around =
                    std::iter::successors(Some(*part), |at| outline.part(*at).parent());
                around.any(|at| outline.name(at) == Some(&addition.field))
            };
            let at = self.findings.iter().position(|(part, _)| concerns(part));
            if let Some((_, finding)) = self.findings.get_mut(at.unwrap_or(0)) {
                let mother = || mother_of(outline, self.record);
                let stand_in = match (addition.field == "parents").then(mother).flatten() {
                    Some(seed) => format!("pollen_unknown(seed: \"{seed}\")"),
                    None => addition.value.to_owned(),
                };
                let field = &addition.field;
                let told = format!("until this is fixed, `{field}: {stand_in}` is assumed");
                finding.help.push(told);
            }
        }
    }

    /// Puts what stands in for a lost field in its place; false when nothing does.
    pub fn stand_in(&mut self, error: &Error) -> bool {
        let Error::MissingStructField { field, .. } = error else {
            return false;
        };
        let stand_in = self.kind.stand_ins.iter().find(|(name, _)| name == field);
        let used = self.additions.iter().any(|a| a.field == *field);
        let Some((field, value)) = stand_in.filter(|_| !used) else {
            return false;
        };
        self.additions.push(Addition {
            to: self.record,
            field: (*field).to_owned(),
            value,
        });
        true
    }

    /// Notes which absence the fault just told explains: that of the field itself, and those of the fields its
    /// misspelt name may have meant.
    pub fn explain(&mut self, outline: &Outline, cut: PartId, error: &Error) {
        let (Some(around), Some(name)) = (outline.part(cut).parent(), outline.name(cut)) else {
            return;
        };
        self.explained.push((around, name.to_owned()));
        if let Error::NoSuchStructField { expected, .. } = error {
            let meant = crate::text::nearest(name, expected.iter().copied());
            let meant = meant.into_iter().map(|name| (around, name.to_owned()));
            self.explained.extend(meant);
        }
    }

    /// The record a part stands in, in words with an article: `a seedling`, or the name of a group inside it.
    pub fn subject(&self, outline: &Outline, part: PartId) -> String {
        let around = outline.part(part).parent().unwrap_or(part);
        match outline.tag(around) {
            Some(tag) if around != self.record => format!("`{tag}`"),
            _ => with_article(self.kind.word),
        }
    }

    /// The record that lacks something, in words: `this seedling`, or the name of a group inside it.
    pub fn word(&self, outline: &Outline, record: PartId) -> String {
        let name = outline.tag(record).or_else(|| outline.name(record));
        match name {
            Some(name) if record != self.record => format!("`{name}`"),
            _ => format!("this {}", self.kind.word),
        }
    }
}

/// The line of help for a lost record.
pub(super) fn left_out(kind: &Kind) -> String {
    format!("until this is fixed, this {} is left out", kind.word)
}

fn with_article(word: &str) -> String {
    let article = if word.starts_with(['a', 'e', 'i', 'o', 'u']) {
        "an"
    } else {
        "a"
    };
    format!("{article} {word}")
}
