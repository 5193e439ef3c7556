//! Taking changes back: each page gets the bytes it had. Of a page that other changes have changed since, the lines of the
//! change get back what stood there, where those lines are as the change left them.

use super::draft::PageChange;
use super::journal::{Journal, Undoings, UnreadEntry, before};
use super::slip::{AS_PROBLEMS_SHOW, Slip};
use super::undo_lines::{Overlap, without};
use super::voice::{Words, words};
use crate::record::{JournalEntry, JournalPage};
use crate::text::{FileId, Sources, same_form};

/// What taking a change back makes of its pages.
#[derive(Debug)]
pub struct TakenBack {
    /// The pages.
    pub pages: Vec<PageChange>,
    /// Paths of those that other changes have changed since: what those recorded stays.
    pub moved_on: Vec<String>,
}

/// The pages without one change of a journal, by its place among the entries.
///
/// # Errors
/// If the same lines have been changed since, a page was changed by hand, or one cannot be read.
pub fn taken_back(
    sources: &Sources,
    entries: &[JournalEntry],
    at: usize,
) -> Result<TakenBack, Slip> {
    let entry = &entries[at];
    let (mut changes, mut moved_on) = (Vec::new(), Vec::new());
    let refused = |recorded: String, help: Words| {
        Slip::contradicts(
            format!("change {} is to be undone", entry.change),
            recorded,
            help,
        )
    };
    for page in &entry.pages {
        let mut unread = sources.unread().iter();
        if let Some(unread) = unread.find(|of| same_form(&of.path, &page.path)) {
            return Err(refused(
                format!("{} could not be read: {}", page.path, unread.why),
                words!("mend that page first{}"; Words::or(": podbook check", AS_PROBLEMS_SHOW)),
            ));
        }
        let file = page_of(sources, &page.path);
        let path = file.map_or(&page.path, |file| &sources.get(file).path);
        let now = file.map(|file| sources.text(file));
        if now.is_none() && page.after.is_some() {
            return Err(refused(
                format!("{} is not there", page.path),
                "if it was renamed or moved, give it that name again; or correct the record by hand".into(),
            ));
        }
        let was = match before_by_line_ends(page, now) {
            Some(was) => was,
            None => {
                moved_on.push(path.clone());
                Some(without_lines(entries, at, (page, now))?)
            }
        };
        changes.push(PageChange {
            path: path.clone(),
            was: now.map(str::to_owned),
            now: was,
        });
    }
    Ok(TakenBack {
        pages: changes,
        moved_on,
    })
}

/// The page of a path, also where its name came back in the other spelling of its letters, as some systems store it.
fn page_of(sources: &Sources, path: &str) -> Option<FileId> {
    let in_other_form = || {
        let mut pages = sources.iter();
        let found = pages.find(|(_, source)| same_form(&source.path, path));
        found.map(|(file, _)| file)
    };
    sources.find(path).or_else(in_other_form)
}

/// A page without the lines of one change, where only other changes of the journal have changed it since. What they made of it is
/// taken off step by step, to know what the change had left. A page that the change began, and one that it took out, are given
/// back whole or not at all; so are those of a merge, whose origin the next merge looks for, and those of one of two changes with
/// one number.
fn without_lines(
    entries: &[JournalEntry],
    at: usize,
    (page, now): (&JournalPage, Option<&str>),
) -> Result<String, Slip> {
    let entry = &entries[at];
    let refused = |by: Option<u32>| Slip::MovedOn {
        change: entry.change,
        path: page.path.clone(),
        by,
        has_later: has_later(entries, at, &page.path),
    };
    let is_one_of_two = entries
        .iter()
        .filter(|of| of.change == entry.change)
        .count()
        > 1;
    let now = now.filter(|_| entry.merged.is_none() && !is_one_of_two);
    let now = now.ok_or_else(|| refused(None))?;
    let later: Vec<(u32, &JournalPage)> = entries[at + 1..]
        .iter()
        .flat_map(|of| of.pages.iter().map(|later| (of.change, later)))
        .filter(|(_, later)| same_form(&later.path, &page.path))
        .collect();
    // What each of them left, the latest first, down to what the change itself left.
    let mut texts = vec![now.to_owned()];
    for (_, later) in later.iter().rev() {
        let text = before_by_line_ends(later, texts.last().map(String::as_str));
        texts.push(text.flatten().ok_or_else(|| refused(None))?);
    }
    let left = texts.pop().unwrap_or_default();
    let was = before_by_line_ends(page, Some(&left)).flatten();
    let was = was.ok_or_else(|| refused(None))?;
    without((&was, &left), now).map_err(|Overlap| {
        let overlaps = |text: &&String| without((&was, &left), text).is_err();
        let in_conflict = texts.iter().take_while(overlaps).count();
        refused(Some(later[later.len() - in_conflict].0))
    })
}

/// Whether a change that stands, and is no undo, came later on a page.
fn has_later(entries: &[JournalEntry], at: usize, path: &str) -> bool {
    let undoings = Undoings::of(entries);
    (at + 1..entries.len()).any(|later| {
        let mut pages = entries[later].pages.iter();
        entries[later].undoes.is_none()
            && undoings.undone_by(later).is_none()
            && pages.any(|of| same_form(&of.path, path))
    })
}

/// A page as it was before a change, with the line ends it has now: other programs give a folder those of their system.
fn before_by_line_ends(page: &JournalPage, now: Option<&str>) -> Option<Option<String>> {
    let unix = |text: &str| text.replace("\r\n", "\n");
    let windows = |text: &str| unix(text).replace('\n', "\r\n");
    before(page, now).or_else(|| {
        let now = now?;
        if windows(now) == now {
            let was = before(page, Some(&unix(now)))?;
            return Some(was.map(|text| windows(&text)));
        }
        let was = before(page, Some(&windows(now))).filter(|_| unix(now) == now)?;
        Some(was.map(|text| unix(&text)))
    })
}

/// Where in the journal the change to take back stands: that of a number, or the last one that stands.
///
/// # Errors
/// If there is none, it was taken back already, two have that number, or it may be one that cannot be read.
pub fn chosen(sources: &Sources, journal: &Journal, number: Option<u32>) -> Result<usize, Slip> {
    let (entries, undoings) = (&journal.entries, Undoings::of(&journal.entries));
    let stands = |at: &usize| undoings.undone_by(*at).is_none();
    let Some(number) = number else {
        return last_standing(
            sources,
            journal,
            (0..entries.len()).filter(stands).collect(),
        );
    };
    let of_number = (0..entries.len()).filter(|at| entries[*at].change == number);
    let of_number: Vec<usize> = of_number.collect();
    let standing: Vec<usize> = of_number.iter().copied().filter(stands).collect();
    match (standing.as_slice(), of_number.last()) {
        ([at], _) => Ok(*at),
        ([], Some(at)) => {
            let by = undoings.undone_by(*at);
            Err(undone_already(
                number,
                by.map_or(number, |by| entries[by].change),
            ))
        }
        ([], None) => {
            let unread = journal.unread.iter().find(|of| of.change == number);
            let unread = unread.ok_or_else(|| no_change(&number.to_string()))?;
            Err(match journal.undone_unread(unread) {
                Some(by) => undone_already(number, by),
                None => unread.refused(None),
            })
        }
        (several, _) => {
            let choices = |podbook: &str| {
                let asked = several.iter().map(|at| &entries[*at].asked);
                let choices = asked.map(|of| format!("{number} ({podbook}{of})"));
                choices.collect::<Vec<_>>().join(", ")
            };
            Err(Slip::nothing(words!(
                "more than one change has that number: {}\ntwo journals lie in one folder; {} without a number takes the last of them";
                Words::or(choices("podbook "), choices("")), Words::or("`podbook undo`", "an undo at the computer")
            )))
        }
    }
}

/// The last change that stands and is no undo, unless one that cannot be read came after it.
fn last_standing(
    sources: &Sources,
    journal: &Journal,
    standing: Vec<usize>,
) -> Result<usize, Slip> {
    let entries = &journal.entries;
    let mut latest_first = standing.into_iter().rev();
    let last = latest_first.find(|at| entries[*at].undoes.is_none());
    let after = last.map_or(0, |at| entries[at].change);
    let mut unread = journal.unread.iter().rev();
    let unread = unread.find(|of| of.change >= after && journal.undone_unread(of).is_none());
    match unread {
        Some(unread) => {
            // What cannot be read may have changed the same page, so the one before it is tried before it is named.
            let is_free = |at: &usize| taken_back(sources, entries, *at).is_ok();
            Err(unread.refused(last.filter(is_free).map(|at| &entries[at])))
        }
        None => last.ok_or_else(|| no_change("to undo")),
    }
}

fn no_change(which: &str) -> Slip {
    Slip::nothing(words!(
        "there is no change {which}\n{}";
        Words::or("`podbook changes` lists what podbook has changed", "“Recorded last” under Record shows the last ones")
    ))
}

fn undone_already(number: u32, by: u32) -> Slip {
    Slip::nothing(format!(
        "change {number} is undone already, by change {by}\nto make it again, undo change {by}"
    ))
}

impl UnreadEntry {
    /// That it cannot be taken back, and the one before it that can be.
    fn refused(&self, before: Option<&JournalEntry>) -> Slip {
        let help = match before {
            Some(JournalEntry { change, .. }) => Words::or(
                format!(
                    "mend that file, or take back change {change} instead: podbook undo {change}"
                ),
                format!("mend that file at the computer, or undo change {change} instead"),
            ),
            None => Words::from("mend that file, or correct the record by hand"),
        };
        Slip::contradicts(
            match self.change {
                u32::MAX => "the last change is to be undone".to_owned(),
                change => format!("change {change} is to be undone"),
            },
            self.words(),
            help,
        )
    }
}
