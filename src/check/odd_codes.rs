//! Do codes hold signs that no new code may hold, and are two of them the same to the eye?

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::registry::PlantRow;
use crate::registry::ids::foreign_sign;
use crate::text::{Span, composed, visible_char};
use std::collections::BTreeMap;

/// Codes of founders and crosses that are read with more trouble than others.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let registry = context.registry;
    let founders = registry.founders().iter().enumerate();
    let founders = founders.map(|(at, of)| (of.code, registry.place(PlantRow(at as u32))));
    let crosses = registry.cross_rows().map(|row| {
        let cross = &registry[row];
        (cross.page.code, context.span(cross.file, cross.page.code))
    });
    let (mut found, mut first) = (Vec::new(), BTreeMap::new());
    for (code, place) in founders.chain(crosses) {
        found.extend(foreign_sign(code).map(|sign| with_sign(code, sign, place)));
        if !code.is_ascii()
            && let Some(before) = first.insert(composed(code.to_owned()), place)
        {
            found.push(alike(code, place, before));
        }
    }
    found
}

fn with_sign(code: &str, sign: char, place: Option<Span>) -> Finding {
    Finding::note(
        Code("sign-in-code"),
        format!("the code `{code}` holds a sign"),
    )
    .at(place)
    .found(format!("`{}`", visible_char(sign)))
    .needed("letters, digits and hyphens alone, as in every new code")
    .help("it is read as it stands; on a phone and on a tag a code without signs is safer")
}

fn alike(code: &str, place: Option<Span>, before: Option<Span>) -> Finding {
    Finding::warning(
        Code("codes-look-alike"),
        format!("`{code}` is the code of two records, and looks the same on both tags"),
    )
    .at(place)
    .found("a letter and its mark written as one sign in one code, and as two in the other")
    .needed("codes that can be told apart")
    .help("give one of the two another code")
    .related(before, "the other one")
}
