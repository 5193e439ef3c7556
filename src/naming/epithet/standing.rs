//! The rules on how a name stands: quotes, sign, Group, grex, trademark, names in use, who may carry it.

use super::context::{Context, Raised};
use super::rule::{Remarks, Rule};
use super::typed::{SetOff, Typed};

/// Remarks under the rules on standing.
pub(super) fn judge_standing(typed: &Typed, context: &Context<'_>, remarks: &mut Remarks) {
    quotes(typed, remarks);
    if typed.sign {
        remarks.mend(Rule::Sign, "the × before the epithet is dropped");
    }
    if typed.before.is_some() && !typed.seedling {
        remarks.note(
            Rule::FullName,
            "genus and epithet are the full name; what stands between may stay but is not needed",
        );
    }
    if typed.grex {
        remarks.refuse(
            Rule::Grex,
            "grex names are for orchids only; a cross is named by its formula",
        );
    }
    trademark(typed, context, remarks);
    clone_only(typed, context, remarks);
    if !typed.seedling {
        in_use(&typed.epithet, context, remarks);
    }
}

fn quotes(typed: &Typed, remarks: &mut Remarks) {
    match typed.set_off {
        SetOff::Single => {}
        SetOff::Bare => remarks.note(Rule::Quotes, "write it in single quotes"),
        SetOff::Double => {
            remarks.refuse(Rule::Quotes, "double quotes do not make a cultivar epithet; single quotes only once it is established");
            remarks.note(
                Rule::Label,
                "a label may be kept in double quotes, as it is",
            );
        }
        SetOff::Abbreviation => {
            remarks.refuse(Rule::Quotes, "`cv.` and `var.` are not written before an epithet; is it an established cultivar? then write it in single quotes");
        }
    }
}

fn trademark(typed: &Typed, context: &Context<'_>, remarks: &mut Remarks) {
    if let Some(trade) = &typed.trade {
        let text = format!(
            "{} is a trade designation, not a name: no quotes, another style, beside the epithet",
            trade.to_uppercase()
        );
        remarks.note(Rule::Trademark, text);
    }
    if context.trademark && typed.trade.is_none() {
        let text = format!(
            "a trademark cannot be an epithet; write it as {} without quotes and give the cultivar an epithet",
            typed.epithet.to_uppercase()
        );
        remarks.refuse(Rule::Trademark, text);
    }
}

fn clone_only(typed: &Typed, context: &Context<'_>, remarks: &mut Remarks) {
    if typed.seedling || context.raised == Raised::FromSeed {
        let text = "this plant was raised from seed and is not the clone that bears the epithet; name it by its formula";
        remarks.refuse(Rule::Clone, text);
    }
}

/// An epithet is compared by its letters and digits alone, so that no two differ by a hyphen or a capital.
fn key(epithet: &str) -> String {
    epithet
        .chars()
        .filter(|letter| letter.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

fn in_use(epithet: &str, context: &Context<'_>, remarks: &mut Remarks) {
    let vocabulary = context.vocabulary;
    let wanted = key(epithet);
    if context.raised == Raised::FromTheClone {
        let text = "this is the plant's own epithet on record, not a clash";
        remarks.note(Rule::Unique, text);
        return;
    }
    if wanted.is_empty() {
        return;
    }
    if let Some(row) = vocabulary
        .cultivars()
        .find(|row| key(&row.epithet) == wanted)
    {
        remarks.refuse(
            Rule::Unique,
            format!(
                "'{}' is in use in {}; an epithet is never used again. For the plant that bears it, say which plant it is",
                row.epithet,
                vocabulary.genus()
            ),
        );
        return;
    }
    if wanted.chars().count() < 5 || wanted.len() > 400 {
        return;
    }
    let near = vocabulary.cultivars().find(|row| {
        row.epithet.len() <= 400 && strsim::osa_distance(&key(&row.epithet), &wanted) == 1
    });
    if let Some(row) = near {
        remarks.warn(
            Rule::Descriptive,
            format!("easily confused with '{}', which is in use", row.epithet),
        );
    }
}
