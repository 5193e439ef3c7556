//! What to look at after two registries came together: what has another code, whose word stays, and what found no place.

use super::conflict::Side;
use super::likely::Likely;
use super::merged::{Clash, Merged};
use super::of_ours::Stayed;
use super::three_way::TwoNames;
use crate::recording::says::value::Record;
use crate::wording::{counted, listed, quoted};
use std::collections::BTreeSet;

/// What to look at, each in one sentence.
pub fn remarks(is_copy: bool, merged: &Merged) -> Vec<String> {
    let recoded = merged.recoded().into_iter();
    // What is left to do comes first.
    let mut remarks: Vec<String> = photos_to_copy(&photos(merged)).into_iter().collect();
    remarks.extend(recoded.map(|of| apart(merged, of)));
    remarks.extend(merged.follows.iter().map(|(was, now)| {
        format!("{was} is {now} from now on: a merge on the other side gave it that code")
    }));
    remarks.extend(merged.joined.iter().map(|of| {
        let (ours, theirs, now) = (&of.ours, &of.theirs, of.code());
        format!("{ours} here and {theirs} there are one plant, {now} from now on")
    }));
    remarks.extend(merged.likely.iter().map(likely_one));
    remarks.extend(merged.clashes.iter().map(settled));
    remarks.extend(merged.two_names.iter().map(two_names));
    remarks.extend(merged.taken_out.iter().map(|what| {
        format!(
            "{what} was removed there and not changed here, so it is removed here too; `podbook undo` brings it back"
        )
    }));
    remarks.extend(merged.remarks.iter().map(notes_left));
    remarks.extend((!is_copy).then(|| stays_there(merged)));
    remarks.extend(seasons(merged.seasons));
    remarks.extend(stayed(merged));
    remarks
}

/// Both sides had something new under one code, and one of them has another code now.
fn apart(merged: &Merged, (was, now, theirs): (&str, &str, bool)) -> String {
    let whose = if theirs { "theirs" } else { "ours" };
    let (things, if_one) = match merged.apart.pots.contains(was) {
        true => (
            "two pots",
            "If both sides counted one pot, its seedlings count twice now:",
        ),
        false => ("two things", "If they are the same thing,"),
    };
    let same = if was.contains(' ') {
        quoted(was)
    } else {
        was.to_owned()
    };
    format!(
        "Both sides added {was}; podbook keeps them as {things}, and {whose} is {now} from now on. {if_one} undo this and merge with --same {same}"
    )
}

/// What stays of a conflict that the grower decided, and what gives way.
fn settled(clash: &Clash) -> String {
    let [here, there] = &clash.differs;
    let (whose, stays, gives_way) = match clash.kept {
        Some(Side::Theirs) => ("theirs", there, here),
        _ => ("ours", here, there),
    };
    format!(
        "{}: kept {whose}, {stays}; given up {gives_way}",
        clash.about
    )
}

fn two_names(of: &TwoNames) -> String {
    let [here, there] = of.names.each_ref().map(|name| quoted(name));
    format!(
        "{} has two names accepted on {}, {here} here and {there} there. Both are on record, and the one written last is shown: take `accepted: true` off the other, or off both",
        of.plant, of.on
    )
}

/// How many remarks of a page are named that were not taken over.
const REMARKS_NAMED: usize = 3;

/// Remarks of a page that came and of which only the records were taken.
fn notes_left((page, remarks): &(String, Vec<String>)) -> String {
    let (last, were) = match remarks.len().saturating_sub(REMARKS_NAMED) {
        0 => (
            String::new(),
            if remarks.len() == 1 { "was" } else { "were" },
        ),
        more => (format!(" and {more} more"), "were"),
    };
    let count = counted(remarks.len(), "remark", "remarks");
    let named = remarks.iter().take(REMARKS_NAMED).map(String::as_str);
    let named = named.collect::<Vec<_>>().join(" ");
    format!("{count} in the other's {page} {were} not taken over: {named}{last}")
}

/// What of another grower's registry stays there.
fn stays_there(merged: &Merged) -> String {
    format!(
        "Their goals, shelves and other settings stay there{}{}",
        only_came(&merged.own, "opinions, photos and readings"),
        only_came(&merged.own_crosses, "opinions and readings")
    )
}

/// Dates that are written as months, since a season is another time in the other half of the world.
pub fn seasons(dates: usize) -> Option<String> {
    let are = if dates == 1 { "is" } else { "are" };
    let count = counted(dates, "date", "dates");
    (dates > 0).then(|| {
        format!("{count} with seasons of the other half of the world on these pages {are} written in months")
    })
}

/// Pictures that records name, to be copied by hand.
fn photos_to_copy(files: &[String]) -> Option<String> {
    let count = counted(files.len(), "picture", "pictures");
    let copy = || format!("Copy {count} from the other folder: {}", listed(files));
    (!files.is_empty()).then(copy)
}

/// What of our crosses and plants stays with the other grower.
pub fn stayed(merged: &Merged) -> impl Iterator<Item = String> {
    merged.stayed.iter().map(|Stayed { of, what }| {
        let what: Vec<String> = what.iter().map(|of| several_of(*of)).collect();
        format!(
            "{} that they recorded of {of} did not come in, because such records cannot say whose they are",
            listed(&what)
        )
    })
}

/// The question whether founders of either side are one plant: what agrees, that they stay two, and how to make them one.
fn likely_one(of: &Likely) -> String {
    let there: Vec<&str> = of.theirs.iter().map(|of| of.0.as_str()).collect();
    let seed = match of.from_seed {
        true => " Plants raised from seed may be siblings, which are two plants.",
        false => "",
    };
    let (both, one) = match (of.ours.len(), there.len()) {
        (1, 1) => ("both", "they are one"),
        _ => ("all", "two of them are one plant"),
    };
    format!(
        "{} may be one plant with their {}: {both} came as {}, from {}, {}. They stay apart{}.{seed} If {one}, undo this and merge with --same {}={}",
        of.ours.join(" or "),
        there.join(" or "),
        of.received,
        of.from,
        of.on,
        renamed(&of.theirs),
        of.ours[0],
        there[0]
    )
}

/// What alone came of plants or crosses of one's own.
fn only_came(own: &[String], what: &str) -> String {
    let (are, them) = match own {
        [] => return String::new(),
        [_] => ("is", "it"),
        _ => ("are", "them"),
    };
    let own = listed(own);
    format!("; their {own} {are} your own here, so only {what} of {them} came in")
}

/// So many of something, named in the singular.
fn several_of((count, one): (usize, &str)) -> String {
    let many = match one.split_once(' ') {
        Some((first @ ("sitting" | "reading"), rest)) => format!("{first}s {rest}"),
        _ => format!("{one}s"),
    };
    counted(count, one, &many)
}

/// What those there are called here, where that is not what they are called there.
fn renamed(theirs: &[(String, String)]) -> String {
    let other = theirs.iter().filter(|(there, here)| there != here);
    let other: Vec<String> = other
        .map(|(there, here)| format!("{there} is {here} here"))
        .collect();
    match other.is_empty() {
        true => String::new(),
        false => format!("; {}", listed(&other)),
    }
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
