//! Why a recording is refused: what was asked for, what is on record, and what to do.

use super::page::PageFault;
use crate::diagnostic::Finding;
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
    /// A code that names something else than is needed here.
    WrongKind {
        /// The code as typed.
        code: String,
        /// What it names.
        is: &'static str,
        /// What is needed.
        needed: &'static str,
    },
    /// A code that cannot be one.
    BadCode {
        /// What it was to be the code of.
        what: &'static str,
        /// The code as typed.
        code: String,
    },
    /// A code that is given already.
    Taken {
        /// What has it.
        what: &'static str,
        /// The code.
        code: String,
    },
    /// A list or range of plants that cannot be read.
    BadRange {
        /// As typed.
        typed: String,
        /// What is wrong with it.
        why: BadRange,
    },
    /// A date that cannot be read.
    BadDate {
        /// The option it was given with.
        option: &'static str,
        /// As typed.
        typed: String,
    },
    /// A date after today.
    Future {
        /// The option it was given with.
        option: &'static str,
        /// As typed.
        typed: String,
        /// Today.
        today: String,
    },
    /// Words that are needed and were not given.
    Missing {
        /// What is needed.
        what: &'static str,
        /// The option or argument that gives it, with an example.
        option: &'static str,
    },
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
        asked: String,
        /// What is on record.
        recorded: String,
        /// What to do.
        help: String,
    },
    /// More was asked for than there is.
    TooMany {
        /// What was counted.
        what: String,
        /// How many were asked for.
        asked: u64,
        /// How many there are.
        there: u64,
        /// What to do.
        help: &'static str,
    },
    /// A number that makes no sense here.
    BadNumber {
        /// The option it was given with.
        option: &'static str,
        /// As typed.
        typed: String,
        /// What is needed.
        needed: &'static str,
    },
    /// More than one thing fits.
    Ambiguous {
        /// What was meant.
        what: &'static str,
        /// Those that fit.
        choices: Vec<String>,
        /// How to say which.
        help: &'static str,
    },
    /// Nothing of the kind is on record.
    NothingToChange(String),
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
        match self {
            Slip::Unknown { what, code, near } => {
                write!(f, "there is no {what} `{}`", one_line(code))?;
                match near.as_slice() {
                    [] if matches!(*what, "zone" | "seed lot" | "sowing" | "community pot") => {
                        write!(
                            f,
                            "\nsee `podbook list crosses`, and `podbook show` with the code of one"
                        )
                    }
                    [] if *what == "pollen lot" => write!(f, "\nsee `podbook ready`"),
                    [] => write!(f, "\nsee `podbook list`"),
                    near => write!(f, "\ndid you mean {}?", near.join(" or ")),
                }
            }
            Slip::LeftOut { code, pages, near } => left_out(f, code, pages, near),
            Slip::WrongKind { code, is, needed } => {
                write!(f, "{} is {is}\nname {needed}", one_line(code))
            }
            Slip::BadCode { what, code } => write!(
                f,
                "`{}` cannot be the code of a {what}\n{}, such as {}",
                one_line(code),
                match *what {
                    "piece" => "begin with a letter, then use letters and digits",
                    _ => "use letters, digits and hyphens alone",
                },
                example(what)
            ),
            Slip::Taken { what, code } => write!(
                f,
                "there is a {what} {code} already\ngive another code, or correct the record that has it"
            ),
            Slip::BadRange { typed, why } => {
                let typed = one_line(typed);
                match why {
                    BadRange::Reversed => {
                        write!(
                            f,
                            "`{typed}` runs backwards\nwrite the smaller number first"
                        )
                    }
                    BadRange::TooLong => {
                        write!(
                            f,
                            "`{typed}` names more than 10,000 plants\nname fewer at a time"
                        )
                    }
                    BadRange::NotANumber => write!(
                        f,
                        "`{typed}` is not a list of plants\nwrite X24-01-7, X24-01-3,7 or X24-01-1..40"
                    ),
                    BadRange::NotNumbers => write!(
                        f,
                        "`{typed}` is not a list of numbers\nwrite the numbers alone: 7, 3,7 or 1..40"
                    ),
                    BadRange::Twice => {
                        write!(f, "`{typed}` names a plant twice\nname it once")
                    }
                    BadRange::Empty => {
                        write!(f, "no plant is named\nwrite X24-01-7 or X24-01-1..40")
                    }
                }
            }
            Slip::BadDate { option, typed } => write!(
                f,
                "{option} `{}` is not a date\n{}",
                visible(typed),
                match typed.matches('/').count() {
                    2 => "write the month as a word, or the year first: 30 Mar 2024, 2024-03-30",
                    _ =>
                        "write 2024-03-30, 30 Mar 2024, 2024-03, spring 2024, by 2020 or 2018 to 2020",
                }
            ),
            Slip::Future {
                option,
                typed,
                today,
            } => write!(
                f,
                "{option} {} is in the future: today is {today}\nrecord it when it has happened",
                one_line(typed)
            ),
            Slip::Missing { what, option } => write!(f, "{what} is missing\nadd {option}"),
            Slip::Gone {
                code,
                fate,
                is_lost,
            } => {
                let found = match is_lost {
                    true => format!(
                        "if it was found again, record that first: podbook seen {code}; else "
                    ),
                    false => String::new(),
                };
                write!(
                    f,
                    "{code} is no longer here: {fate}\n{found}name one that is in the collection, or correct its record"
                )
            }
            Slip::Contradicts {
                asked,
                recorded,
                help,
            } => write!(f, "{asked}, but {recorded}\n{help}"),
            Slip::TooMany {
                what,
                asked,
                there,
                help,
            } => {
                let (are, what) = match there {
                    1 => ("is", only_one(what)),
                    _ => ("are", what.clone()),
                };
                write!(
                    f,
                    "{asked} is more than there {are}: {there} {what}\n{help}"
                )
            }
            Slip::BadNumber {
                option,
                typed,
                needed,
            } => write!(f, "{option} needs {needed}; found `{}`", one_line(typed)),
            Slip::Ambiguous {
                what,
                choices,
                help,
            } => write!(
                f,
                "more than one {what} fits: {}\n{help}",
                choices.join(", ")
            ),
            Slip::NothingToChange(what) => write!(f, "{what}"),
            Slip::LineagesDiffer(what) => {
                write!(f, "this lineage contradicts what was taken in before")?;
                for line in what {
                    write!(f, "\n  {}", visible(line))?;
                }
                write!(
                    f,
                    "\nsay which stays with --keep ours or --keep theirs; nothing was written"
                )
            }
            Slip::CopiesDiffer(what) => {
                let count = what.len();
                let fields = if count == 1 { "field" } else { "fields" };
                write!(
                    f,
                    "nothing was merged: both sides changed {count} {fields}, each to something else"
                )?;
                for line in what.iter().flat_map(|conflict| conflict.lines()) {
                    write!(f, "\n  {}", visible(line))?;
                }
                write!(
                    f,
                    "\nsay which stays: --keep ours or --keep theirs for all, --keep theirs=Ven1 for one plant or field"
                )
            }
            Slip::PageUnread(path) => write!(
                f,
                "{path} could not be read\nmend it first: `podbook check` shows how"
            ),
            Slip::PageTaken(path) => write!(
                f,
                "there is a file {path} already, and it is not the page of a cross on record\nmend it or move it away: `podbook check` shows what is wrong with it"
            ),
            Slip::FaultyPage {
                place,
                wrong,
                needed,
                help,
            } => {
                write!(f, "{place}: {wrong}\nneeded: {needed}")?;
                if let Some(help) = help {
                    write!(f, "; {help}")?;
                }
                write!(
                    f,
                    "\nmend that first (`podbook check` shows the place), then record this again"
                )
            }
            Slip::Page(why) => write!(f, "the page was not changed: {why}"),
            Slip::MovedOn { change, path, by } => {
                write!(f, "change {change} cannot be undone: ")?;
                match by {
                    Some(by) => write!(
                        f,
                        "change {by} changed the same lines of {path}\nundo change {by} first, or correct the record by hand"
                    ),
                    None => write!(
                        f,
                        "{path} has been changed since\nundo the later changes first, or correct the record by hand"
                    ),
                }
            }
        }
    }
}

/// A code that was not found, and where it may stand.
fn left_out(
    f: &mut fmt::Formatter<'_>,
    code: &str,
    pages: &[String],
    near: &[String],
) -> fmt::Result {
    write!(
        f,
        "`{}` was not found, and it may be on a page that could not be read:",
        one_line(code)
    )?;
    for page in pages.iter().take(PAGES_NAMED) {
        write!(f, "\n  {page}")?;
    }
    if pages.len() > PAGES_NAMED {
        write!(f, "\n  and {} more", pages.len() - PAGES_NAMED)?;
    }
    write!(
        f,
        "\nmend that first (`podbook check` shows how), then ask again"
    )?;
    match near {
        [] => Ok(()),
        near => write!(f, "\nor did you mean {}?", near.join(" or ")),
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
