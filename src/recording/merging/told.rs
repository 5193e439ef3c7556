//! What a merge is reported by: what is new, what has another code, and what is still to be decided.

use super::conflict::Side;
use super::merged::{Clash, Merged};
use super::remarks::remarks;
use crate::recording::recorded::{Recorded, Tag, What, new_records};
use crate::recording::says::value::Record;
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::wording::counted;
use std::collections::BTreeSet;

/// The refusal of a merge with conflicts that are not decided; none when all are. In full, each value is as it is written.
pub fn undecided(merged: &Merged, in_full: bool) -> Option<Slip> {
    let open = merged.clashes.iter().filter(|clash| clash.kept.is_none());
    let open: Vec<String> = open.map(|clash| words(clash, in_full)).collect();
    (!open.is_empty()).then(|| Slip::copies_differ(&open))
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

/// What a merge is reported by; `other` is the other registry's name.
pub fn recorded(other: Option<&str>, is_copy: bool, merged: &Merged) -> Recorded {
    let own = merged.recoded().into_iter().filter(|of| !of.2);
    let own = own
        .map(|(_, code, _)| code.to_owned())
        .chain(given_up(merged));
    Recorded {
        what: What::InWords(in_words(other, is_copy, merged)),
        on: String::new(),
        about: about(merged),
        tags: own.map(|code| Tag { code, on: "tag" }).collect(),
        remarks: Words::all(remarks(is_copy, merged)),
    }
}

/// What came of a merge, in one sentence.
fn in_words(other: Option<&str>, is_copy: bool, merged: &Merged) -> String {
    let what = match (is_copy, other.unwrap_or_default()) {
        (true, "") => "The other copy is merged".to_owned(),
        (true, name) => format!("The other copy of {name} is merged"),
        (false, name) => format!("The registry {name} is on record here, as told by its grower"),
    };
    let [was, now] = [false, true].map(|now| counts(merged, now));
    let [founders, seedlings, crosses] = [0, 1, 2].map(|of| now[of].saturating_sub(was[of]));
    let new = new_records(founders, seedlings, crosses);
    let new = new.unwrap_or_else(|| "no new plants".to_owned());
    let pages = counted(merged.changes.len(), "page", "pages");
    format!("{what}: {pages} changed; {new}")
}

/// New codes of founders of ours that bear the other side's code from now on.
fn given_up(merged: &Merged) -> impl Iterator<Item = String> {
    let follows = merged.follows.iter().map(|of| of.1.clone());
    let joined = merged.joined.iter();
    let given_up = joined.filter(|of| of.stays == Side::Theirs);
    follows.chain(given_up.map(|of| of.theirs.clone()))
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
    // A spike is found by its plant.
    let renamed = renamed.filter_map(|code| code.split(' ').next().map(str::to_owned));
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
