//! Why a recording is refused: what was asked for, what is on record, and what to do.

use super::page::PageFault;
use super::voice::{Voice, Words, by, field};
use crate::diagnostic::Finding;
use crate::record::Day;
use crate::registry::Registry;
use crate::text::{Source, one_line, visible};
use std::fmt;

/// Why nothing was recorded.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Slip {
    /// A code that is on no record, with the nearest known ones.
    Unknown {
        /// What was looked for: `plant`, `cross`, `pollen lot`.
        what: &'static str,
        /// The code as typed.
        code: String,
        /// Codes it may have meant.
        near: Vec<String>,
    },
    /// A code that names nothing, while a page on which it may stand could not be read.
    LeftOut {
        /// The code as typed.
        code: String,
        /// Those pages, each with why.
        pages: Vec<String>,
        /// Codes it may have meant.
        near: Vec<String>,
    },
    /// A code that names something else than is needed here: as typed, what it names, what is needed.
    WrongKind(String, &'static str, Words),
    /// What it was to be the code of, and a code that cannot be one.
    BadCode(&'static str, String),
    /// What has a code already, and the code.
    Taken(&'static str, String),
    /// A list or range of plants that cannot be read, as typed.
    BadRange(String, BadRange),
    /// The option of a date that cannot be read, and the date as typed.
    BadDate(&'static str, String),
    /// The option of a date after today, the date as typed, and today.
    Future(&'static str, String, Day),
    /// What is needed and was not given, and the option or argument that gives it, with an example.
    Missing(&'static str, Words),
    /// A plant that is no longer in the collection.
    Gone {
        /// Its code.
        code: String,
        /// What became of it.
        fate: String,
        /// Whether it may be found again.
        is_lost: bool,
    },
    /// Something that contradicts what is on record.
    Contradicts {
        /// What was asked for.
        asked: Words,
        /// What is on record.
        recorded: Words,
        /// What to do.
        help: Words,
    },
    /// More was asked for than there is: what was counted, how many were asked for and how many there are, what to do.
    TooMany(String, [u64; 2], Words),
    /// The option of a number that makes no sense, the number as typed, and what is needed.
    BadNumber(&'static str, String, &'static str),
    /// More than one thing fits: what was meant, those that fit, how to say which.
    Ambiguous(&'static str, Vec<String>, Words),
    /// Nothing of the kind is on record.
    NothingToChange(Words),
    /// Records of another grower that were taken in before and now say something else, each in words.
    LineagesDiffer(Vec<String>),
    /// Fields that two copies of a registry changed, each to something else, in words.
    CopiesDiffer(Vec<String>),
    /// A page that could not be read, so nothing is added to it.
    PageUnread(String),
    /// A file that bears the name of a page to be begun.
    PageTaken(String),
    /// A page with a fault of shape, which no recording changes.
    FaultyPage {
        /// Path and line of its first fault.
        place: String,
        /// What is wrong there.
        wrong: String,
        /// What is needed there.
        needed: String,
        /// What to do, if more is known.
        help: Option<String>,
    },
    /// A page that does not let itself be changed.
    Page(PageFault),
    /// A change whose pages have moved on since.
    MovedOn {
        /// The change's number.
        change: u32,
        /// The page.
        path: String,
        /// The change after which the same lines are others; `None` where that was done by hand, or is not known.
        by: Option<u32>,
    },
}

/// What is wrong with a list of plants.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum BadRange {
    /// The first number is above the last.
    Reversed,
    /// More numbers than anybody means.
    TooLong,
    /// An end that is no number.
    NotANumber,
    /// A part that is no number, where numbers alone are asked for.
    NotNumbers,
    /// A number named twice.
    Twice,
    /// Nothing is named.
    Empty,
}

/// How many pages are named that a code may stand on.
const PAGES_NAMED: usize = 3;

impl Slip {
    /// The refusal of a code that names nothing, with the codes it may have meant; where it may stand on a page that could
    /// not be read, that page comes first.
    pub fn unknown(registry: &Registry, what: &'static str, code: &str, near: Vec<String>) -> Slip {
        let (code, pages) = (code.to_owned(), registry.may_be_on(code));
        match pages.is_empty() {
            true => Slip::Unknown { what, code, near },
            false => Slip::LeftOut { code, pages, near },
        }
    }

    /// The refusal of what contradicts a record: what was asked for, what is on record, what to do.
    pub fn contradicts(
        asked: impl Into<Words>,
        recorded: impl Into<Words>,
        help: impl Into<Words>,
    ) -> Slip {
        Slip::Contradicts {
            asked: asked.into(),
            recorded: recorded.into(),
            help: help.into(),
        }
    }

    /// As [`Slip::Ambiguous`].
    pub fn ambiguous(what: &'static str, choices: Vec<String>, help: impl Into<Words>) -> Slip {
        Slip::Ambiguous(what, choices, help.into())
    }

    /// As [`Slip::WrongKind`].
    pub fn wrong_kind(code: impl Into<String>, is: &'static str, needed: impl Into<Words>) -> Slip {
        Slip::WrongKind(code.into(), is, needed.into())
    }

    /// As [`Slip::TooMany`].
    pub fn too_many(
        what: impl Into<String>,
        (asked, there): (impl Into<u64>, impl Into<u64>),
        help: impl Into<Words>,
    ) -> Slip {
        Slip::TooMany(what.into(), [asked.into(), there.into()], help.into())
    }

    /// As [`Slip::Missing`].
    pub fn missing(what: &'static str, option: impl Into<Words>) -> Slip {
        Slip::Missing(what, option.into())
    }

    /// The refusal where nothing of the kind is on record, in words.
    pub fn nothing(words: impl Into<Words>) -> Slip {
        Slip::NothingToChange(words.into())
    }

    /// The refusal to change a page whose shape has this fault.
    pub fn faulty_page(source: &Source, finding: Finding) -> Slip {
        let (line, _) = source.line_column(finding.place.map_or(0, |place| place.start));
        let found = match finding.found.is_empty() {
            true => String::new(),
            false => format!(" ({})", finding.found),
        };
        Slip::FaultyPage {
            place: format!("{}:{line}", source.path),
            wrong: format!("{}{found}", finding.title),
            needed: finding.needed.into_string(),
            help: finding.help.into_iter().next(),
        }
    }
}

impl fmt::Display for Slip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said(Voice::Keyboard))
    }
}

impl Slip {
    /// The refusal and what to do, a line each, as they are read there.
    pub fn said(&self, voice: Voice) -> String {
        match self {
            Slip::Unknown { what, code, near } => {
                let code = one_line(code);
                let help = match near.as_slice() {
                    [] => look_under(what, voice).to_owned(),
                    near => format!("did you mean {}?", near.join(" or ")),
                };
                format!("there is no {what} `{code}`\n{help}")
            }
            Slip::LeftOut { code, pages, near } => left_out(voice, code, pages, near),
            Slip::WrongKind(code, is, needed) => {
                format!("{} is {is}\nname {}", one_line(code), needed.said(voice))
            }
            Slip::BadCode(what, code) => format!(
                "`{}` cannot be the code of a {what}\n{}, such as {}",
                one_line(code),
                match *what {
                    "piece" => "begin with a letter, then use letters and digits",
                    _ => "use letters, digits and hyphens alone",
                },
                example(what)
            ),
            Slip::Taken(what, code) => format!(
                "there is a {what} {code} already\ngive another code, or correct the record that has it"
            ),
            Slip::BadRange(typed, why) => bad_range(&one_line(typed), *why),
            Slip::BadDate(option, typed) => format!(
                "{} `{}` is not a date\n{}",
                field(option).said(voice),
                visible(typed),
                match typed.matches('/').count() {
                    2 => "write the month as a word, or the year first: 30 Mar 2024, 2024-03-30",
                    _ =>
                        "write 2024-03-30, 30 Mar 2024, 2024-03, spring 2024, by 2020 or 2018 to 2020",
                }
            ),
            Slip::Future(option, typed, today) => format!(
                "{} {} is in the future: today is {today}\nrecord it when it has happened",
                field(option).said(voice),
                one_line(typed)
            ),
            Slip::Missing(what, option) => {
                let add = voice.or("add", "fill in");
                format!("{what} is missing\n{add} {}", option.said(voice))
            }
            Slip::Gone {
                code,
                fate,
                is_lost,
            } => {
                let seen = by(&format!("seen {code}"));
                let found = match is_lost {
                    true => format!(
                        "if it was found again, record that first{}; else ",
                        seen.said(voice)
                    ),
                    false => String::new(),
                };
                format!(
                    "{code} is no longer here: {fate}\n{found}name one that is in the collection, or correct its record"
                )
            }
            Slip::Contradicts {
                asked,
                recorded,
                help,
            } => format!(
                "{}, but {}\n{}",
                asked.said(voice),
                recorded.said(voice),
                help.said(voice)
            ),
            Slip::TooMany(what, [asked, there], help) => {
                let (are, what) = match there {
                    1 => ("is", only_one(what)),
                    _ => ("are", what.clone()),
                };
                let help = help.said(voice);
                format!("{asked} is more than there {are}: {there} {what}\n{help}")
            }
            Slip::BadNumber(option, typed, needed) => format!(
                "{} needs {needed}; found `{}`",
                field(option).said(voice),
                one_line(typed)
            ),
            Slip::Ambiguous(what, choices, help) => format!(
                "more than one {what} fits: {}\n{}",
                choices.join(", "),
                help.said(voice)
            ),
            Slip::NothingToChange(words) => words.said(voice).to_owned(),
            Slip::LineagesDiffer(what) => format!(
                "this lineage contradicts what was taken in before{}\nsay which stays with --keep ours or --keep theirs; nothing was written",
                indented(what)
            ),
            Slip::CopiesDiffer(what) => {
                let count = what.len();
                let fields = if count == 1 { "field" } else { "fields" };
                format!(
                    "nothing was merged: both sides changed {count} {fields}, each to something else{}\nsay which stays: --keep ours or --keep theirs for all, --keep theirs=Ven1 for one plant or field",
                    indented(what)
                )
            }
            Slip::PageUnread(path) => format!(
                "{path} could not be read\nmend it first{}",
                voice.or(": `podbook check` shows how", AS_PROBLEMS_SHOW)
            ),
            Slip::PageTaken(path) => format!(
                "there is a file {path} already, and it is not the page of a cross on record\nmend it or move it away{}",
                voice.or(
                    ": `podbook check` shows what is wrong with it",
                    AS_PROBLEMS_SHOW
                )
            ),
            Slip::FaultyPage {
                place,
                wrong,
                needed,
                help,
            } => {
                let help = help.as_ref().map_or(String::new(), |of| format!("; {of}"));
                let shows = voice.or(" (`podbook check` shows the place)", AS_PROBLEMS_SHOW);
                format!(
                    "{place}: {wrong}\nneeded: {needed}{help}\nmend that first{shows}, then record this again"
                )
            }
            Slip::Page(why) => format!("the page was not changed: {why}"),
            Slip::MovedOn { change, path, by } => {
                let by_hand = voice.or("by hand", "at the computer");
                match by {
                    Some(by) => format!(
                        "change {change} cannot be undone: change {by} changed the same lines of {path}\nundo change {by} first, or correct the record {by_hand}"
                    ),
                    None => format!(
                        "change {change} cannot be undone: {path} has been changed since\nundo the later changes first, or correct the record {by_hand}"
                    ),
                }
            }
        }
    }
}

/// Where a page shows what to mend, which is done at the computer.
pub(super) const AS_PROBLEMS_SHOW: &str = " at the computer (“Problems” shows how)";

/// Where to look for a code that no near one helps to find.
fn look_under(what: &str, voice: Voice) -> &'static str {
    match what {
        "zone" | "seed lot" | "sowing" | "community pot" => voice.or(
            "see `podbook list crosses`, and `podbook show` with the code of one",
            "look under Crosses",
        ),
        "pollen lot" => voice.or("see `podbook ready`", "look under Season"),
        _ => voice.or("see `podbook list`", "look under Plants"),
    }
}

/// What is wrong with a list of plants, and how one is written.
fn bad_range(typed: &str, why: BadRange) -> String {
    match why {
        BadRange::Reversed => format!("`{typed}` runs backwards\nwrite the smaller number first"),
        BadRange::TooLong => {
            format!("`{typed}` names more than 10,000 plants\nname fewer at a time")
        }
        BadRange::NotANumber => {
            format!("`{typed}` is not a list of plants\nwrite X24-01-7, X24-01-3,7 or X24-01-1..40")
        }
        BadRange::NotNumbers => {
            format!("`{typed}` is not a list of numbers\nwrite the numbers alone: 7, 3,7 or 1..40")
        }
        BadRange::Twice => format!("`{typed}` names a plant twice\nname it once"),
        BadRange::Empty => "no plant is named\nwrite X24-01-7 or X24-01-1..40".to_owned(),
    }
}

/// Each line of some words below the sentence they belong to.
fn indented(words: &[String]) -> String {
    let lines = words.iter().flat_map(|of| of.lines());
    lines.map(|of| format!("\n  {}", visible(of))).collect()
}

/// A code that was not found, and where it may stand.
fn left_out(voice: Voice, code: &str, pages: &[String], near: &[String]) -> String {
    let code = one_line(code);
    let mut words =
        format!("`{code}` was not found, and it may be on a page that could not be read:");
    for page in pages.iter().take(PAGES_NAMED) {
        words += &format!("\n  {page}");
    }
    if pages.len() > PAGES_NAMED {
        words += &format!("\n  and {} more", pages.len() - PAGES_NAMED);
    }
    let shows = voice.or(" (`podbook check` shows how)", AS_PROBLEMS_SHOW);
    words += &format!("\nmend that first{shows}, then ask again");
    match near {
        [] => words,
        near => words + &format!("\nor did you mean {}?", near.join(" or ")),
    }
}

fn example(what: &str) -> &'static str {
    match what {
        "cross" => "X25-01",
        "piece" => "b",
        "spike" => "25a",
        "pollen lot" => "Spa1-2504",
        _ => "Ven1",
    }
}

impl From<PageFault> for Slip {
    fn from(fault: PageFault) -> Self {
        Slip::Page(fault)
    }
}

/// Words for several, such as `seedlings that were not moved yet`, said of one.
fn only_one(what: &str) -> String {
    let (noun, rest) = what.split_once(' ').unwrap_or((what, ""));
    let noun = noun.strip_suffix('s').unwrap_or(noun);
    let rest = rest.replace(" were ", " was ");
    format!("{noun} {rest}").trim_end().to_owned()
}
