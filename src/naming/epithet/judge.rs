//! The verdict on an epithet.

use crate::naming::read::{ReadOptions, read};
use crate::naming::vocabulary::Vocabulary;
use crate::naming::write::{Writing, bracketed, formula_only};

use super::context::Context;
use super::letters::judge_letters;
use super::rule::{Action, Remark, Remarks, Rule};
use super::standing::judge_standing;
use super::typed::{Typed, take_apart};
use super::words::judge_words;

/// Whether an epithet can stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// As typed.
    Accept,
    /// In the mended form.
    Mend,
    /// Not.
    Refuse,
}

/// The verdict on an epithet, with every rule that applies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Judgement {
    /// The text as received.
    pub typed: String,
    /// Whether it can stand.
    pub verdict: Verdict,
    /// The epithet without quotes, mended where it could be.
    pub epithet: String,
    /// The full name as it should be written; `None` when refused.
    pub written: Option<String>,
    /// The trade designation beside the epithet, in capitals.
    pub trade_designation: Option<String>,
    /// Every rule that applies, in the order of the rules.
    pub remarks: Vec<Remark>,
}

/// Judges a cultivar epithet typed with or without its genus and quotes.
pub fn judge(text: &str, context: &Context<'_>) -> Judgement {
    let typed = take_apart(text, context.vocabulary);
    let mut remarks = Remarks::default();
    judge_standing(&typed, context, &mut remarks);
    let epithet = if typed.group {
        group(&typed, &mut remarks)
    } else {
        cultivar(&typed, context, &mut remarks)
    };
    let mut remarks = remarks.0;
    let worst = remarks.iter().map(|remark| remark.action).max();
    let verdict = match worst {
        Some(Action::Refuse) => Verdict::Refuse,
        Some(Action::Mend) => Verdict::Mend,
        _ => Verdict::Accept,
    };
    if verdict != Verdict::Refuse && !typed.group {
        let text = "an epithet is established by dated publication with a description; registering it alone does not do that";
        remarks.push(Remark {
            rule: Rule::Establishment,
            action: Action::Note,
            text: text.to_owned(),
        });
    }
    if verdict == Verdict::Refuse {
        // How to write what cannot stand would contradict the refusal.
        remarks.retain(|remark| {
            remark.action != Action::Note || !matches!(remark.rule, Rule::Quotes | Rule::FullName)
        });
    }
    remarks.sort_by_key(|remark| remark.rule);
    let written =
        (verdict != Verdict::Refuse).then(|| written(&typed, &epithet, context.vocabulary));
    let trade_designation = typed.trade.map(|trade| trade.to_uppercase());
    Judgement {
        typed: text.to_owned(),
        verdict,
        epithet,
        written,
        trade_designation,
        remarks,
    }
}

fn cultivar(typed: &Typed, context: &Context<'_>, remarks: &mut Remarks) -> String {
    if typed.epithet.is_empty() && typed.trade.is_some() {
        remarks.refuse(
            Rule::Trademark,
            "a trade designation alone names nothing: give the cultivar epithet too",
        );
        return String::new();
    }
    let mended = judge_letters(&typed.epithet, context.year, remarks);
    judge_words(&typed.epithet, context.vocabulary, context.year, remarks);
    mended
}

fn group(typed: &Typed, remarks: &mut Remarks) -> String {
    remarks.0.retain(|remark| remark.rule != Rule::Quotes);
    let text = "a Group stands only with the characters its members share; write these down and register it with them";
    remarks.warn(Rule::Group, text);
    judge_letters(&typed.epithet, None, remarks)
}

fn written(typed: &Typed, epithet: &str, vocabulary: &Vocabulary) -> String {
    let mut name = vocabulary.genus_short();
    let formulas = [&typed.before, &typed.after];
    let formula = formulas
        .into_iter()
        .flatten()
        .find_map(|text| formula_text(text, vocabulary));
    if let Some(before) = typed.before.as_ref().filter(|_| formula.is_none()) {
        name.push_str(&format!(" {before}"));
    }
    match (&typed.trade, typed.group) {
        (_, true) => name.push_str(&format!(" {epithet} Group")),
        (Some(trade), _) => name.push_str(&format!(" {}™ ('{epithet}')", trade.to_uppercase())),
        (None, _) => name.push_str(&format!(" '{epithet}'")),
    }
    if let Some(formula) = formula {
        name.push_str(&format!(" {formula}"));
    }
    name
}

/// The parentage in a text that is a formula: an epithet hangs on a taxon, so a formula stands in brackets behind it (ICNCP,
/// ninth edition, 2016, Art. 8, from memory).
fn formula_text(text: &str, vocabulary: &Vocabulary) -> Option<String> {
    let formula = read(text, vocabulary, ReadOptions::default()).formula?;
    let crossed = formula.generations() > 0;
    let text = formula_only(&formula, &Writing::plain(vocabulary)).ok()?;
    crossed.then(|| bracketed(&text))
}
