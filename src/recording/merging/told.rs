//! What a merge is reported by: what is new, what has another code, whose word stays, and what found no place.

use super::conflict::Side;
use super::merged::{Clash, Merged};
use super::value::Record;
use crate::recording::recorded::{Recorded, Remark, Tag, What};
use crate::recording::slip::Slip;
use std::collections::BTreeSet;

/// The refusal of a merge with conflicts that are not decided; none when all are.
pub fn undecided(merged: &Merged) -> Option<Slip> {
    let open = merged.clashes.iter().filter(|clash| clash.kept.is_none());
    let open: Vec<String> = open.map(words).collect();
    (!open.is_empty()).then_some(Slip::CopiesDiffer(open))
}

/// A conflict in words: the field, then each value with its line.
fn words(clash: &Clash) -> String {
    let side = |(value, at): &(Option<String>, String)| match value {
        Some(value) => format!("{at}: {value}"),
        None => "taken out".to_owned(),
    };
    let (here, there) = (side(&clash.here), side(&clash.there));
    format!("{}\n    here  {here}\n    there {there}", clash.about)
}

/// What stays of a conflict, and what does not.
fn settled(clash: &Clash) -> Remark {
    let [here, there] = [&clash.here.0, &clash.there.0].map(|value| value.clone());
    let theirs = clash.kept == Some(Side::Theirs);
    let (stays, gives_way) = match theirs {
        true => (there, here),
        false => (here, there),
    };
    Remark::Decided {
        about: clash.about.clone(),
        theirs,
        stays,
        gives_way,
    }
}

/// What a merge is reported by.
pub fn recorded(other: Option<&str>, is_copy: bool, merged: &Merged) -> Recorded {
    let own = merged.apart.side == Some(Side::Ours);
    let apart = merged.apart.renamed.iter().map(|of| (of, !own));
    let apart: Vec<_> = merged
        .followed
        .iter()
        .map(|of| (of, false))
        .chain(apart)
        .collect();
    let tags = apart.iter().filter(|(_, theirs)| !theirs);
    let tags = tags.map(|((_, code), _)| Tag {
        code: code.clone(),
        on: "tag",
    });
    let mut remarks: Vec<Remark> = Vec::new();
    remarks.extend(apart.iter().map(|((was, now), theirs)| Remark::Apart {
        was: was.clone(),
        now: now.clone(),
        theirs: *theirs,
    }));
    remarks.extend(merged.clashes.iter().map(settled));
    remarks.extend(
        merged
            .taken_out
            .iter()
            .map(|code| Remark::TakenOut { what: code.clone() }),
    );
    remarks.extend(merged.remarks.iter().map(|(page, left)| Remark::NotesLeft {
        page: page.clone(),
        remarks: left.clone(),
    }));
    if !is_copy {
        remarks.push(Remark::StaysThere {
            own: merged.own.clone(),
        });
    }
    let photos = photos(merged);
    if !photos.is_empty() {
        remarks.push(Remark::PhotosToCopy { files: photos });
    }
    let [was, now] = [false, true].map(|now| counts(merged, now));
    Recorded {
        what: What::Merged {
            other: other.map(str::to_owned),
            is_copy,
            pages: merged.changes.len(),
            founders: now[0].saturating_sub(was[0]),
            seedlings: now[1].saturating_sub(was[1]),
            crosses: now[2].saturating_sub(was[2]),
        },
        about: about(merged),
        tags: tags.collect(),
        remarks,
    }
}

/// Codes of the crosses whose pages change, and what is new under another code.
fn about(merged: &Merged) -> Vec<String> {
    let texts = merged
        .changes
        .iter()
        .filter_map(|change| change.now.as_deref());
    let crosses = texts.filter_map(|text| {
        let page = Record::of_page(text)?;
        page.get("parents")?;
        page.text("code").map(str::to_owned)
    });
    let renamed = merged.apart.renamed.iter().map(|(_, code)| code.clone());
    let clashes = merged
        .clashes
        .iter()
        .filter_map(|clash| clash.about.split([',', ' ']).next());
    let mut codes: BTreeSet<String> = crosses.chain(renamed).collect();
    codes.extend(clashes.filter(|of| !of.contains(".ron")).map(str::to_owned));
    codes.into_iter().collect()
}

/// Founders, seedlings and crosses on the changed pages.
fn counts(merged: &Merged, now: bool) -> [usize; 3] {
    let texts = merged.changes.iter().filter_map(|change| match now {
        true => change.now.as_deref(),
        false => change.was.as_deref(),
    });
    let mut counts = [0; 3];
    for page in texts.filter_map(Record::of_page) {
        counts[0] += page.records("clones").count();
        counts[1] += page.records("seedlings").count();
        counts[2] += usize::from(page.get("parents").is_some());
    }
    counts
}

/// Pictures that are named on the changed pages and were not before; the files themselves are not pages.
fn photos(merged: &Merged) -> Vec<String> {
    let named = |text: Option<&str>| {
        let mut files = BTreeSet::new();
        if let Some(page) = text
            .filter(|text| text.contains("photos"))
            .and_then(Record::of_page)
        {
            for plant in page.records("clones").chain(page.records("seedlings")) {
                files.extend(
                    plant
                        .records("photos")
                        .filter_map(|of| of.text("file").map(str::to_owned)),
                );
            }
        }
        files
    };
    let [mut was, mut now] = [BTreeSet::new(), BTreeSet::new()];
    for change in &merged.changes {
        was.append(&mut named(change.was.as_deref()));
        now.append(&mut named(change.now.as_deref()));
    }
    now.difference(&was).cloned().collect()
}
