//! The pages of two copies side by side, with what they came from and with the codes that earlier merges gave.

use super::apart::{next_free, things};
use super::conflict::Side;
use super::copy::Copy;
use super::history::{History, Origin, origin};
use super::pages::{About, Pair, Pairs, Renames, Sheet, recoded, sheets};
use super::renaming::{new_codes, renamed};
use crate::recording::page::PageFault;
use crate::recording::says::value::Record;
use std::collections::{BTreeMap, BTreeSet};

/// The pages side by side, with what they came from, and the codes of ours and of theirs that earlier merges changed.
/// Where the registry is at hand as both sides had it, that is what they came from.
///
/// # Errors
/// If a page has faults of shape.
pub fn pairs(
    ours: &Copy,
    theirs: &Copy,
    base: Option<&Copy>,
) -> Result<(Pairs, [Renames; 2]), PageFault> {
    let (here, there) = (History::of(ours), History::of(theirs));
    let renames = [there.renames(&here), here.renames(&there)];
    let sheets = [sheets(ours), sheets(theirs)];
    let renames = set_free(renames, &sheets);
    let known = renames.each_ref().map(|of| new_codes(of));
    let [own, other] = sheets;
    let sheets = [recoded(own, &known[0])?, recoded(other, &known[1])?];
    let given = base.map(self::sheets);
    let abouts: BTreeSet<&About> = sheets.iter().flat_map(|of| of.keys()).collect();
    let mut pairs = Pairs::new();
    for about in abouts {
        let [own, other] = sheets.each_ref().map(|of| of.get(about).cloned());
        let base = match (&own, &other, &given) {
            (Some(own), Some(other), _) if own.text == other.text => None,
            (_, _, Some(given)) => Some(given.get(about).map(|sheet| sheet.text.clone())),
            (own, other, None) => {
                let path = past_path(ours, own, other);
                let their_path = past_path(theirs, other, own);
                match origin((&here, &path), (&there, &their_path))? {
                    Origin::Unknown => None,
                    Origin::NoPage => Some(None),
                    Origin::Text(side, text) => {
                        let text = renamed(&text, &known[usize::from(side == Side::Theirs)])?;
                        Some(Some(text).filter(|text| is_about(about, text)))
                    }
                }
            }
        };
        pairs.insert(
            about.clone(),
            Pair {
                base,
                ours: own,
                theirs: other,
            },
        );
    }
    Ok((pairs, renames))
}

/// A code that an earlier merge gave on one side may be that of something else on the other by now: then both get the next
/// free one for it.
fn set_free(mut renames: [Renames; 2], sheets: &[BTreeMap<About, Sheet>; 2]) -> [Renames; 2] {
    if renames.iter().all(Vec::is_empty) {
        return renames;
    }
    let codes = sheets.each_ref().map(codes);
    let mut taken = &codes[0] | &codes[1];
    let given = renames.iter().flatten().map(|of| of.1.clone());
    taken.extend(given);
    for (side, other) in [(0, 1), (1, 0)] {
        let moves: BTreeSet<String> = renames[side].iter().map(|of| of.0.clone()).collect();
        for at in 0..renames[side].len() {
            let code = renames[side][at].1.clone();
            if codes[side].contains(&code) && !moves.contains(&code) {
                let is_envelope = is_envelope(&sheets[side], &code);
                let free = next_free((&code, is_envelope), &taken);
                taken.insert(free.clone());
                renames[side][at].1.clone_from(&free);
                renames[other].push((code, free));
            }
        }
    }
    renames
}

fn codes(sheets: &BTreeMap<About, Sheet>) -> BTreeSet<String> {
    let pages = sheets.iter();
    pages
        .flat_map(|(about, sheet)| things(about, Some(&sheet.text)))
        .collect()
}

fn is_envelope(sheets: &BTreeMap<About, Sheet>, code: &str) -> bool {
    let about = About::Page("pollen.ron");
    let lots = sheets.get(&about);
    lots.is_some_and(|sheet| things(&about, Some(&sheet.text)).contains(code))
}

/// Whether a page is about that, and not about another cross whose page stood in the same place and has another code now.
fn is_about(about: &About, text: &str) -> bool {
    match about {
        About::Page(_) => true,
        About::Cross(code) => {
            Record::of_page(text).is_none_or(|page| page.text("code") == Some(code))
        }
    }
}

/// Where a page of a copy is, or was: where there is none, a page may have stood where the other copy has it. A page of
/// something else at that place is another page.
fn past_path(copy: &Copy, own: &Option<Sheet>, other: &Option<Sheet>) -> String {
    match (own, other) {
        (Some(own), _) => own.path.clone(),
        (None, Some(other)) if copy.text(&other.path).is_none() => other.path.clone(),
        _ => String::new(),
    }
}
