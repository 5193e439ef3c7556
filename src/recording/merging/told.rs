//! What a merge is reported by: what is new, what has another code, whose word stays, and what found no place.

use super::conflict::Side;
use super::merged::{Clash, Merged};
use super::value::Record;
use crate::recording::recorded::{Recorded, Remark, Tag, What};
use crate::recording::slip::Slip;
use std::collections::BTreeSet;

/// The refusal of a merge with conflicts that are not decided; none when all are. In full, each value is as it is written.
pub fn undecided(merged: &Merged, in_full: bool) -> Option<Slip> {
    let open = merged.clashes.iter().filter(|clash| clash.kept.is_none());
    let open: Vec<String> = open.map(|clash| words(clash, in_full)).collect();
    (!open.is_empty()).then_some(Slip::CopiesDiffer(open))
}

/// A conflict in words: the field, then what differs with its line.
fn words(clash: &Clash, in_full: bool) -> String {
    let side = |(value, at): &(Option<String>, String), differs: &str| match value {
        Some(value) if in_full => format!("{at}: {value}"),
        Some(_) => format!("{at}: {differs}"),
        None => "taken out".to_owned(),
    };
    let here = side(&clash.here, &clash.differs[0]);
    let there = side(&clash.there, &clash.differs[1]);
    format!("{}\n    here  {here}\n    there {there}", clash.about)
}

/// What stays of a conflict, and what does not.
fn settled(clash: &Clash) -> Remark {
    let [here, there] = clash.differs.clone();
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

/// What a merge is reported by; `other` is the other registry's name.
pub fn recorded(other: Option<&str>, is_copy: bool, merged: &Merged) -> Recorded {
    let [was, now] = [false, true].map(|now| counts(merged, now));
    let new = |kind: usize| now[kind].saturating_sub(was[kind]);
    let own = apart(merged).into_iter().filter(|of| !of.2);
    let own = own.map(|(_, code, _)| code).chain(given_up(merged));
    Recorded {
        what: What::Merged {
            other: other.map(str::to_owned),
            is_copy,
            pages: merged.changes.len(),
            founders: new(0),
            seedlings: new(1),
            crosses: new(2),
        },
        about: about(merged),
        tags: own.map(|code| Tag { code, on: "tag" }).collect(),
        remarks: remarks(is_copy, merged),
    }
}

/// New codes of founders of ours that bear the other side's code from now on.
fn given_up(merged: &Merged) -> impl Iterator<Item = String> {
    let follows = merged.follows.iter().map(|of| of.1.clone());
    let joined = merged.joined.iter();
    let given_up = joined.filter(|of| of.stays == Side::Theirs);
    follows.chain(given_up.map(|of| of.theirs.clone()))
}

/// Old codes and new ones, and whether they are theirs.
fn apart(merged: &Merged) -> Vec<(String, String, bool)> {
    let theirs = merged.apart.side == Some(Side::Theirs);
    let followed = merged.followed.iter().map(|of| (of, false));
    let apart = merged.apart.renamed.iter().map(|of| (of, theirs));
    let all = followed.chain(apart);
    all.map(|((was, now), theirs)| (was.clone(), now.clone(), theirs))
        .collect()
}

/// What to look at.
fn remarks(is_copy: bool, merged: &Merged) -> Vec<Remark> {
    let apart = apart(merged).into_iter();
    let mut remarks: Vec<Remark> = apart
        .map(|(was, now, theirs)| Remark::Apart {
            is_pot: merged.apart.pots.contains(&was),
            was,
            now,
            theirs,
        })
        .collect();
    remarks.extend(as_one(merged));
    remarks.extend(merged.clashes.iter().map(settled));
    remarks.extend(merged.two_names.iter().map(|of| Remark::TwoNames {
        plant: of.plant.clone(),
        on: of.on.clone(),
        names: of.names.clone(),
    }));
    let gone = merged.taken_out.iter().cloned();
    remarks.extend(gone.map(|what| Remark::TakenOut { what }));
    let left = merged.remarks.iter().cloned();
    remarks.extend(left.map(|(page, remarks)| Remark::NotesLeft { page, remarks }));
    if !is_copy {
        remarks.push(Remark::StaysThere {
            own: merged.own.clone(),
            crosses: merged.own_crosses.clone(),
        });
    }
    let dates = merged.seasons;
    remarks.extend((dates > 0).then_some(Remark::Seasons { dates }));
    remarks.extend(stayed(merged));
    let files = photos(merged);
    if !files.is_empty() {
        remarks.push(Remark::PhotosToCopy { files });
    }
    remarks
}

/// What is one plant by the grower's word here or there, and what may be.
fn as_one(merged: &Merged) -> Vec<Remark> {
    let follows = merged.follows.iter().cloned();
    let follows = follows.map(|(was, now)| Remark::Follows { was, now });
    let joined = merged.joined.iter().map(|of| Remark::MadeOne {
        ours: of.ours.clone(),
        theirs: of.theirs.clone(),
        now: of.code().to_owned(),
    });
    let likely = merged.likely.iter().map(|of| Remark::LikelyOne {
        ours: of.ours.clone(),
        theirs: of.theirs.clone(),
        came: [&of.received, &of.from, &of.on].map(String::clone),
        from_seed: of.from_seed,
    });
    follows.chain(joined).chain(likely).collect()
}

/// What of our crosses stays with the other grower.
pub fn stayed(merged: &Merged) -> impl Iterator<Item = Remark> {
    let stayed = merged.stayed.iter().cloned();
    stayed.map(|of| Remark::OfOurs {
        cross: of.cross,
        what: of.what,
    })
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
