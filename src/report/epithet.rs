//! Whether a cultivar epithet can stand.

use super::caution::Weight;
use super::sheet::{Report, Sheet};
use crate::naming::{Action, Judgement, Verdict};
use serde::Serialize;

/// The verdict on an epithet.
#[derive(Serialize)]
pub struct EpithetReport {
    /// As typed.
    pub typed: String,
    /// `accept`, `mend` or `refuse`.
    pub verdict: &'static str,
    /// The epithet without quotes, mended where it could be.
    pub epithet: String,
    /// The full name as it should be written.
    pub written: Option<String>,
    /// A trade designation beside it.
    pub trade_designation: Option<String>,
    /// Every rule that applies.
    pub remarks: Vec<RuleRow>,
}

/// One rule applied.
#[derive(Serialize)]
pub struct RuleRow {
    /// Lasting code of the rule.
    pub rule: &'static str,
    /// `note`, `warn`, `mend` or `refuse`.
    pub action: &'static str,
    /// What was found and what to do.
    pub text: String,
}

/// Turns a judgement into a report.
pub fn epithet(judgement: Judgement) -> EpithetReport {
    EpithetReport {
        typed: judgement.typed,
        verdict: match judgement.verdict {
            Verdict::Accept => "accept",
            Verdict::Mend => "mend",
            Verdict::Refuse => "refuse",
        },
        epithet: judgement.epithet,
        written: judgement.written,
        trade_designation: judgement.trade_designation,
        remarks: judgement
            .remarks
            .into_iter()
            .map(|remark| RuleRow {
                rule: remark.rule.code(),
                action: match remark.action {
                    Action::Note => "note",
                    Action::Warn => "warn",
                    Action::Mend => "mend",
                    Action::Refuse => "refuse",
                },
                text: remark.text,
            })
            .collect(),
    }
}

impl Report for EpithetReport {
    fn sheet(&self) -> Sheet {
        let written = self.written.clone().unwrap_or_else(|| self.typed.clone());
        let mut sheet = Sheet::new(match self.verdict {
            "accept" => format!("{written} can be used, as far as these rules go"),
            "mend" => format!("{} can be used if written {written}", self.typed),
            _ => format!("{} cannot be used as a cultivar epithet", self.typed),
        });
        let rows = self
            .remarks
            .iter()
            .map(|row| format!("{} {}: {}", row.rule, row.action, row.text));
        sheet.lines(Some("Rules that apply"), rows);
        if !self.is_bad_news() {
            sheet.caution(
                Weight::General,
                "no names but those in your registry were looked through: only the registration authority can say whether the epithet is \
                 free and published",
            );
        }
        sheet
    }

    fn is_bad_news(&self) -> bool {
        self.verdict == "refuse"
    }
}
