//! Do the rows of `species.ron` name each other rightly?

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::text::FileId;
use std::collections::BTreeMap;

/// Every name in `species.ron` that should be another row's.
pub(super) fn all(context: &CheckContext) -> Vec<Finding> {
    let Some(file) = context.registry.sources.find("species.ron") else {
        return Vec::new();
    };
    let taxa = &context.registry.taxa;
    let mut found = repeated(context, file);
    found.extend(bad_epithets(context, file));
    let species: Vec<&str> = taxa.species.iter().map(|row| row.epithet).collect();
    let hybrids: Vec<&str> = taxa.named_hybrids.iter().map(|row| row.epithet).collect();
    let known: BTreeMap<&str, ()> = species.iter().chain(&hybrids).map(|e| (*e, ())).collect();
    let mut look_up = |epithet: &str| {
        if !known.contains_key(epithet) {
            let known = known.keys().copied();
            found.push(context.registry.unknown("species", (file, epithet), known));
        }
    };
    for row in &taxa.named_hybrids {
        row.parents.iter().for_each(|p| look_up(p));
    }
    taxa.synonyms.iter().for_each(|row| look_up(row.now));
    taxa.codes.iter().for_each(|row| look_up(row.means));
    for row in &taxa.named_hybrids {
        // A name whose parents nobody knows is a row too, as long as nothing is made of it.
        let rests_on_parents = row.expand || row.may_be_used;
        if row.parents.len() < 2 && rests_on_parents {
            found.push(
                Finding::fault(
                    Code("too-few-parents"),
                    format!("the named hybrid {} needs two parents", row.epithet),
                )
                .at(context.span(file, row.epithet))
                .found(format!("{} of them", row.parents.len()))
                .needed("the epithets of at least two species"),
            );
        }
    }
    for row in &taxa.synonyms {
        if row.name == row.now || species.contains(&row.name) {
            found.push(shadowed(context, file, row.name, "another spelling"));
        }
    }
    for row in &taxa.codes {
        if row.code != row.means && known.contains_key(row.code) {
            found.push(shadowed(context, file, row.code, "a code"));
        }
    }
    found
}

/// Epithets that are not written as epithets are.
fn bad_epithets(context: &CheckContext, file: FileId) -> Vec<Finding> {
    let taxa = &context.registry.taxa;
    let hybrids = taxa.named_hybrids.iter().map(|row| row.epithet);
    let all = taxa.species.iter().map(|row| row.epithet).chain(hybrids);
    let bad = all.filter(|epithet| !is_epithet(epithet));
    bad.map(|epithet| {
        let genus = context.registry.settings.genus;
        let bare = epithet.trim().trim_start_matches("N. ");
        let bare = bare.strip_prefix(genus).unwrap_or(bare).trim();
        let finding = Finding::warning(
            Code("bad-epithet"),
            format!("`{epithet}` is not written as an epithet"),
        )
        .at(context.span(file, epithet))
        .found(format!("`{epithet}`"))
        .needed("lower case, without genus or sign; or `sp. Name` for a plant without a name");
        match bare.to_lowercase() {
            plain if is_epithet(&plain) => finding.write(plain),
            _ => finding,
        }
    })
    .collect()
}

/// Words in lower case, or one of the marks of an open name and what follows it.
fn is_epithet(text: &str) -> bool {
    const OPEN: [&str; 4] = ["sp.", "sp. nov.", "aff.", "cf."];
    let open = OPEN.iter().any(|mark| {
        text.strip_prefix(mark)
            .is_some_and(|name| name.starts_with(' '))
    });
    let in_word = |c: char| c.is_lowercase() || c == '-' || c == '.' || c == ' ';
    let plain = text.starts_with(char::is_lowercase) && text.chars().all(in_word);
    open || plain && !text.starts_with("n. ")
}

/// A word that would be read both as a species and as something else.
fn shadowed(context: &CheckContext, file: FileId, word: &str, what: &str) -> Finding {
    Finding::fault(
        Code("name-has-two-meanings"),
        format!("`{word}` is a species and {what}"),
    )
    .at(context.span(file, word))
    .found(format!("`{word}`"))
    .needed("one meaning for a word on a label")
    .help("a label is always read as the species; take one of the two rows out")
}

/// Epithets, other spellings and codes given twice.
fn repeated(context: &CheckContext, file: FileId) -> Vec<Finding> {
    let taxa = &context.registry.taxa;
    let columns: [(&str, Vec<&str>); 4] = [
        (
            "species",
            taxa.species.iter().map(|row| row.epithet).collect(),
        ),
        (
            "named hybrid",
            taxa.named_hybrids.iter().map(|row| row.epithet).collect(),
        ),
        (
            "other spelling",
            taxa.synonyms.iter().map(|row| row.name).collect(),
        ),
        ("code", taxa.codes.iter().map(|row| row.code).collect()),
    ];
    let mut found = Vec::new();
    for (what, words) in columns {
        let mut first: BTreeMap<&str, &str> = BTreeMap::new();
        for word in words {
            let Some(before) = first.insert(word, word) else {
                continue;
            };
            let title = format!("{what} `{word}` is here twice");
            let finding = Finding::fault(Code("repeated-code"), title)
                .at(context.span(file, word))
                .found("a word already given")
                .needed("one row for each")
                .help("join the two rows");
            found.push(finding.related(context.span(file, before), "first given here"));
        }
    }
    found
}
