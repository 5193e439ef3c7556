//! Are the settings and the declared traits such that something can be read by them?

use super::calendar::calendar;
use super::context::{Anchor, CheckContext};
use super::setting::out_of_range;
use crate::diagnostic::{Code, Finding};
use crate::record::{Reads, Trait};
use crate::text::FileId;
use std::collections::BTreeMap;

/// Headings with a meaning of their own.
const TAKEN: [&str; 3] = ["pest", "pitcher", "note"];

/// Every declaration in `registry.ron`.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let Some(file) = context.registry.sources.find("registry.ron") else {
        return Vec::new();
    };
    let mut found = settings(context, file);
    let mut first: BTreeMap<&str, &str> = BTreeMap::new();
    for declared in &context.registry.settings.traits {
        found.extend(code(context, file, declared));
        if let Some(before) = first.insert(declared.code, declared.code) {
            found.push(twice(context, file, before, declared.code));
        }
        found.extend(steps(context, file, declared));
        found.extend(bounds(context, file, declared));
    }
    found
}

fn settings(context: &CheckContext, file: FileId) -> Vec<Finding> {
    let settings = &context.registry.settings;
    let anchor = Anchor {
        file,
        text: settings.genus,
    };
    let mut found = Vec::new();
    let mut letters = settings.genus.chars();
    let capital = letters.next().is_some_and(char::is_uppercase);
    if !capital || !letters.all(|c| c.is_alphabetic() || c == '-') {
        found.push(
            Finding::fault(Code("bad-genus"), "this is not a genus")
                .at(context.span(file, settings.genus))
                .found(format!("`{}`", settings.genus))
                .needed("one word with a capital, such as `Nepenthes`"),
        );
    }
    if settings.pairs() == 0 {
        found.push(out_of_range(
            context,
            anchor,
            "chromosome_pairs",
            "0",
            "1 or more",
        ));
    }
    let length = settings.morgans();
    if !(length.is_finite() && length > 0.0) {
        found.push(out_of_range(
            context,
            anchor,
            "map_length_morgans",
            &length.to_string(),
            "a number above 0",
        ));
    }
    found.extend(calendar(context, anchor));
    found
}

fn code(context: &CheckContext, file: FileId, declared: &Trait) -> Option<Finding> {
    let code = declared.code;
    let taken = TAKEN.contains(&code);
    let sound = !code.is_empty() && !code.contains(char::is_whitespace);
    if sound && !taken {
        return None;
    }
    Some(
        Finding::fault(Code("bad-code"), "this cannot be the code of a trait")
            .at(context.span(file, code))
            .found(format!("`{code}`"))
            .needed("one word without blanks that is not `pest`, `pitcher` or `note`")
            .help("the code heads the column of a sitting, with a unit after a blank"),
    )
}

fn twice(context: &CheckContext, file: FileId, first: &str, second: &str) -> Finding {
    Finding::fault(
        Code("repeated-code"),
        format!("trait `{second}` is declared twice"),
    )
    .at(context.span(file, second))
    .found("a code already given")
    .needed("each trait under a code of its own")
    .help("readings under this code are taken by the first declaration")
    .related(context.span(file, first), "first declared here")
}

/// A scale needs steps and a set needs kinds, each told from the others.
fn steps<'t>(context: &CheckContext<'_, 't>, file: FileId, declared: &Trait<'t>) -> Vec<Finding> {
    let anchor = Anchor {
        file,
        text: declared.code,
    };
    let (words, what): (Vec<&str>, &str) = match &declared.reads {
        Reads::Scale(anchors) => (anchors.iter().map(|anchor| &**anchor).collect(), "anchors"),
        Reads::Kinds(kinds) => (kinds.clone(), "kinds"),
        _ => return Vec::new(),
    };
    let mut found = Vec::new();
    if words.len() < 2 {
        found.push(
            Finding::fault(
                Code("too-few-steps"),
                format!(
                    "trait `{}` has too few {what} to choose from",
                    declared.code
                ),
            )
            .at(context.field(anchor, "reads"))
            .found(format!("{} of them", words.len()))
            .needed(format!("at least two {what}, each in words")),
        );
    }
    let mut seen: BTreeMap<&str, ()> = BTreeMap::new();
    for word in words {
        let empty = word.trim().is_empty();
        if empty || seen.insert(word, ()).is_some() {
            let own = context.span(file, word);
            found.push(
                Finding::fault(
                    Code("repeated-step"),
                    format!("the {what} of trait `{}` are not distinct", declared.code),
                )
                .at(own.or_else(|| context.span(file, declared.code)))
                .found(if empty {
                    "an empty text".into()
                } else {
                    format!("`{word}` twice")
                })
                .needed(format!("{what} that differ")),
            );
        }
    }
    found
}

fn bounds<'t>(context: &CheckContext<'_, 't>, file: FileId, declared: &Trait<'t>) -> Vec<Finding> {
    let anchor = Anchor {
        file,
        text: declared.code,
    };
    let mut wrong: Vec<(&str, String, &str)> = Vec::new();
    if let Some((least, most)) = declared.between
        && !(least.is_finite() && most.is_finite() && least < most)
    {
        wrong.push((
            "between",
            format!("{least} to {most}"),
            "the least value first, then the greatest",
        ));
    }
    let from_zero = [
        ("from_months", declared.from_months),
        ("from_span_cm", declared.from_span_cm),
        ("doubtful_under_span_cm", declared.doubtful_under_span_cm),
        ("tied_within", declared.tied_within),
    ];
    for (field, value) in from_zero {
        if let Some(value) = value
            && !(value.is_finite() && value >= 0.0)
        {
            wrong.push((field, value.to_string(), "0 or more"));
        }
    }
    let told = wrong.into_iter().map(|(field, found, needed)| {
        let title = format!(
            "`{field}` of trait `{}` cannot have this value",
            declared.code
        );
        Finding::fault(Code("bad-setting"), title)
            .at(context.field(anchor, field))
            .found(found)
            .needed(needed)
    });
    told.collect()
}
