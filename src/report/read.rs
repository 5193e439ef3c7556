//! What a label says.

use super::sheet::{Report, Sheet};
use crate::analysis::hybrid_names::{HybridName, hybrid_names};
use crate::naming::{Reading, Sex};
use crate::wording::{joined, led_by};
use serde::Serialize;
use std::collections::BTreeMap;

/// A label as read.
#[derive(Serialize)]
pub struct LabelReport {
    /// The label as received.
    pub label: String,
    /// Breeder order with its basis.
    pub breeder: Option<String>,
    /// Botanical order.
    pub botanical: Option<String>,
    /// Purdy notation.
    pub purdy: Option<String>,
    /// A supplier's or grower's code on the label.
    pub stock_code: Option<String>,
    /// The number or letter of the plant's own clone.
    pub clone: Option<String>,
    /// How it was raised: seed, tissue culture, cutting or division.
    pub grown_from: Option<&'static str>,
    /// Its size or that of its pot, as written.
    pub size: Option<String>,
    /// Where it is from, as written.
    pub place: Option<String>,
    /// The plant's own sex.
    pub sex: Option<&'static str>,
    /// Words of a title that are no part of the name.
    pub set_aside: Vec<String>,
    /// Expected shares, such as `"1/4"`.
    #[serde(rename = "parentage")]
    pub shares: BTreeMap<String, String>,
    /// Hybrid names with exactly these parents.
    pub names: Vec<HybridName>,
    /// Every assumption made and fact to heed.
    pub notes: Vec<NoteRow>,
    /// Why the label was not read.
    pub refused: Option<RefusedLabel>,
}

/// A note.
#[derive(Serialize)]
pub struct NoteRow {
    /// Lasting code.
    pub code: &'static str,
    /// In full.
    pub text: String,
}

/// A refusal.
#[derive(Serialize)]
pub struct RefusedLabel {
    /// Lasting code.
    pub code: &'static str,
    /// In full.
    pub text: String,
    /// Column, from 1.
    pub column: usize,
    /// Readings to choose from.
    pub readings: Vec<String>,
}

/// Turns a reading into a report.
pub fn label(reading: Reading, genus_short: &str) -> LabelReport {
    LabelReport {
        label: reading.label,
        breeder: reading.breeder,
        botanical: reading.botanical,
        purdy: reading.purdy,
        stock_code: reading.facts.stock_code,
        clone: reading.facts.clone,
        grown_from: reading.facts.grown_from,
        size: reading.facts.size,
        place: reading.facts.place,
        sex: reading.facts.sex.map(Sex::word),
        set_aside: reading.facts.set_aside,
        shares: reading
            .shares
            .iter()
            .map(|(of, share)| (of.to_string(), share.to_string()))
            .collect(),
        names: hybrid_names(reading.names, genus_short),
        notes: reading
            .notes
            .into_iter()
            .map(|note| NoteRow {
                code: note.code.code(),
                text: note.text,
            })
            .collect(),
        refused: reading.refused.map(|refusal| RefusedLabel {
            code: refusal.code.code(),
            text: refusal.text,
            column: refusal.column,
            readings: refusal.readings,
        }),
    }
}

/// One line for a hybrid name.
pub fn hybrid_name_line(name: &HybridName) -> String {
    let use_of = match (name.may_be_used, name.if_claim_is_true) {
        (true, true) => "may be used as a name if the claim is true",
        (true, false) => "may be used as a name",
        (false, _) => "not usable as a name, an alias only",
    };
    let evidence = Some(&name.evidence).filter(|evidence| !evidence.is_empty());
    let rule = format!("Art. {}{}", name.rule, led_by("; ", evidence));
    format!("{}: {}; {use_of} ({rule})", name.name, name.status)
}

impl LabelReport {
    /// What the label says beside the name.
    fn beside(&self) -> Vec<(&'static str, Option<String>)> {
        let aside = Some(self.set_aside.join(", ")).filter(|words| !words.is_empty());
        vec![
            ("stock code", self.stock_code.clone()),
            ("clone", self.clone.clone()),
            ("grown from", self.grown_from.map(str::to_owned)),
            ("size", self.size.clone()),
            ("place", self.place.clone()),
            ("sex", self.sex.map(str::to_owned)),
            ("set aside", aside),
        ]
    }
}

impl Report for LabelReport {
    fn sheet(&self) -> Sheet {
        if let Some(refused) = &self.refused {
            let mut sheet = Sheet::new(format!("Not read: {}", refused.text));
            let title = if refused.readings.len() > 1 {
                "Write one of these:"
            } else {
                "Write:"
            };
            sheet.lines(Some(title), refused.readings.clone());
            sheet.facts(Some("Beside the name"), self.beside());
            return sheet;
        }
        let mut sheet = Sheet::new(match &self.breeder {
            Some(breeder) => breeder.clone(),
            None => "Too long to write out".to_owned(),
        });
        let shares = self.shares.iter();
        let shares = shares.map(|(of, share)| format!("{of} {share}"));
        let mut facts = vec![
            ("botanical order", self.botanical.clone()),
            ("Purdy notation", self.purdy.clone()),
            ("expected parentage", Some(joined(shares, ", "))),
        ];
        facts.extend(self.beside());
        sheet.facts(None, facts);
        sheet.lines(
            Some("Hybrid names with these parents"),
            self.names.iter().map(hybrid_name_line),
        );
        let notes = self.notes.iter().enumerate();
        sheet.lines(
            Some("Notes"),
            notes.map(|(at, note)| format!("{}. {} [{}]", at + 1, note.text, note.code)),
        );
        sheet
    }

    fn is_bad_news(&self) -> bool {
        self.refused.is_some()
    }
}
