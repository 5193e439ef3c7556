//! Are suppliers' codes kept apart from this grower's own?
//!
//! Two suppliers may each have a "clone 3": a supplier's code is never the key.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::record::FounderClone;
use crate::text::FileId;
use std::collections::BTreeMap;

/// Suppliers' codes that are also own codes, or stand on two clones.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let Some(file) = context.registry.clones_file else {
        return Vec::new();
    };
    let mut found = Vec::new();
    let mut first: BTreeMap<(&str, &str), &FounderClone> = BTreeMap::new();
    for clone in context.registry.founders() {
        let Some(code) = clone
            .supplier_code
            .as_deref()
            .filter(|code| !code.is_empty())
        else {
            continue;
        };
        let own = context.plant(code).or_else(|| {
            let cross = context.registry.cross(code)?;
            context.registry[cross].seedlings.first().copied()
        });
        if own.is_some() && code != clone.code {
            found.push(is_own_code(context, file, clone, code));
        }
        let from = clone.from.as_deref().unwrap_or("");
        if let Some(before) = first.insert((from, code), clone) {
            found.push(twice(context, file, before, clone));
        }
    }
    found
}

fn is_own_code(context: &CheckContext, file: FileId, clone: &FounderClone, code: &str) -> Finding {
    Finding::warning(
        Code("supplier-code-is-own-code"),
        format!("the supplier's code of {} is one of your own", clone.code),
    )
    .at(context.span(file, code).or_else(|| context.span(file, clone.code)))
    .found(format!("`{code}`"))
    .needed("codes that cannot be confused")
    .help("write the supplier's code with the supplier's initials, so that no tag is read as your own plant")
}

fn twice(
    context: &CheckContext,
    file: FileId,
    before: &FounderClone,
    clone: &FounderClone,
) -> Finding {
    let code = clone.supplier_code.as_deref().unwrap_or("");
    let finding = Finding::note(
        Code("same-supplier-code"),
        format!("{} and {} came under one supplier's code", before.code, clone.code),
    )
    .at(context.span(file, code).or_else(|| context.span(file, clone.code)))
    .found(format!("`{code}`"))
    .needed("one record for one genotype")
    .help("if both are pieces of one clone, list them under `ramets` of one record; if not, keep both and say so in `note`");
    finding.related(context.span(file, before.code), "and this one")
}
