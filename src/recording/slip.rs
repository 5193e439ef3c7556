//! Why a recording is refused: what was asked for, what is on record, and what to do.

use super::page::PageFault;
use super::voice::{Voice, Words, by, field, words};
use crate::diagnostic::Finding;
use crate::registry::Registry;
use crate::registry::ids::LONGEST;
use crate::text::{Source, one_line, visible};
use std::fmt;

/// Why nothing was recorded: in words, or as what others ask about.
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
    /// A page that could not be read, or has a fault of shape, stands in the way.
    Unread(Words),
    /// Something that is needed was not given.
    Missing(Words),
    /// A plant that is no longer in the collection.
    Gone {
        /// Its code.
        code: String,
        /// What became of it.
        fate: String,
        /// Whether it may be found again, or was never here.
        absence: Absence,
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
        /// Whether other changes of that page came later and stand.
        has_later: bool,
    },
    /// Anything else: the refusal and what to do, a line each.
    Refused(Words),
}

/// Why a plant is not in the collection.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Absence {
    /// It died or left.
    Ended,
    /// It was lost and may be found again.
    Lost,
    /// It is another grower's plant.
    NeverHere,
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
    /// A code that names nothing, with the codes it may have meant; where it may stand on a page that could not be read, that
    /// page comes first.
    pub fn unknown(registry: &Registry, what: &'static str, code: &str, near: Vec<String>) -> Slip {
        let pages = registry.may_be_on(code);
        if !pages.is_empty() {
            return Slip::left_out(code, &pages, &near);
        }
        let code = code.to_owned();
        Slip::Unknown { what, code, near }
    }

    /// A code that was not found, while it may stand on pages that could not be read, each with why.
    pub fn left_out(code: &str, pages: &[String], near: &[String]) -> Slip {
        let named = pages_named(pages);
        let near = match near {
            [] => String::new(),
            near => format!("\nor did you mean {}?", near.join(" or ")),
        };
        let code = one_line(code);
        Slip::Unread(words!(
            "`{code}` was not found, and it may be on a page that could not be read:{named}\nmend that first{}, then ask again{near}";
            Words::or(" (`podbook check` shows how)", AS_PROBLEMS_SHOW)
        ))
    }

    /// A place that was named whole, while plants or trays of it may be on pages that could not be read, each with why.
    pub fn not_whole(place: &str, pages: &[String]) -> Slip {
        let (place, named) = (one_line(place), pages_named(pages));
        Slip::Unread(words!(
            "what stands at {place} is not known in full, since not all pages could be read:{named}\nmend that first{}, or name the plants and trays one by one";
            Words::or(" (`podbook check` shows how)", AS_PROBLEMS_SHOW)
        ))
    }

    /// What contradicts a record: what was asked for, what is on record, what to do.
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

    /// More than one thing may be meant: what it is, those there are, how to say which.
    pub fn ambiguous(what: &'static str, choices: Vec<String>, help: impl Into<Words>) -> Slip {
        let (choices, help) = (choices.join(", "), help.into());
        Slip::Refused(words!("there is more than one {what}: {choices}\n{}"; help))
    }

    /// A code that names something else than is needed here: as typed, what it names, what is needed.
    pub fn wrong_kind(code: &str, is: &str, needed: impl Into<Words>) -> Slip {
        let (code, needed) = (one_line(code), needed.into());
        Slip::Refused(words!("{code} is {is}\nname {}"; needed))
    }

    /// More was asked for than there is: what was counted, how many were asked for and how many there are, what to do.
    pub fn too_many(
        what: impl Into<String>,
        (asked, there): (impl Into<u64>, impl Into<u64>),
        help: impl Into<Words>,
    ) -> Slip {
        let (asked, there) = (asked.into(), there.into());
        let help = help.into();
        if there == 0 {
            let what = what.into();
            return Slip::Refused(words!("{asked} is too many: no {what}\n{}"; help));
        }
        let (are, what) = match there {
            1 => ("is", only_one(&what.into())),
            _ => ("are", what.into()),
        };
        Slip::Refused(words!("{asked} is more than there {are}: {there} {what}\n{}"; help))
    }

    /// What is on record already, or speaks against the event, in words, and what to do.
    pub fn on_record(what: impl Into<Words>, help: impl Into<Words>) -> Slip {
        let (what, help) = (what.into(), help.into());
        Slip::Refused(words!("{}\n{}"; what, help))
    }

    /// What is needed and was not given, and the option or argument that gives it, with an example.
    pub fn missing(what: &str, option: impl Into<Words>) -> Slip {
        Slip::wanted(&format!("{what} is missing"), option)
    }

    /// What is to be given, as a request, and the option or argument that gives it, with an example.
    pub fn wanted(request: &str, option: impl Into<Words>) -> Slip {
        let option = option.into();
        Slip::Missing(words!("{request}\n{} {}"; Words::or("add", "fill in"), option))
    }

    /// The refusal where nothing of the kind is on record, and any other, in words.
    pub fn nothing(words: impl Into<Words>) -> Slip {
        Slip::Refused(words.into())
    }

    /// What it was to be the code of, and a code that cannot be one.
    pub fn bad_code(what: &str, code: &str) -> Slip {
        let (needed, example) = match what {
            "piece" => ("begin with a letter, then use letters and digits", "b"),
            "cross" => (PLAIN, "X25-01"),
            "pollen lot" => (PLAIN, "Spa1-2504"),
            _ => (PLAIN, "Ven1"),
        };
        let needed = match code.chars().count() > LONGEST {
            true => "use 60 letters and digits at most",
            false => needed,
        };
        let code = one_line(code);
        Slip::nothing(format!(
            "`{code}` cannot be the code of a {what}\n{needed}, such as {example}"
        ))
    }

    /// What has a code already, and the code.
    pub fn taken(what: &str, code: &str) -> Slip {
        let other = if what == "seedling" { "number" } else { "code" };
        Slip::nothing(format!(
            "there is a {what} {code} already\ngive another {other}, or correct the record that has it"
        ))
    }

    /// A code that stands on a page in what was left out of it.
    pub fn taken_unread(code: &str, page: &str) -> Slip {
        Slip::Unread(words!(
            "{code} was to be a new code, but it stands in {page}, in what podbook could not read\nmend that first{}, then record this again";
            Words::or(" (`podbook check` shows the place)", AS_PROBLEMS_SHOW)
        ))
    }

    /// The option of a number that makes no sense, the number as typed, and what is needed.
    pub fn bad_number(option: &str, typed: &str, needed: &str) -> Slip {
        let typed = one_line(typed);
        Slip::Refused(words!("{} needs {needed}; found `{typed}`"; field(option)))
    }

    /// A list or range of plants that cannot be read, as typed.
    pub fn bad_range(typed: &str, why: BadRange) -> Slip {
        let typed = one_line(typed);
        let (wrong, help) = match why {
            BadRange::Reversed => ("runs backwards", "write the smaller number first"),
            BadRange::TooLong => ("names more than 10,000 plants", "name fewer at a time"),
            BadRange::NotANumber => (
                "is not a list of plants",
                "write X24-01-7, X24-01-3,7 or X24-01-1..40",
            ),
            BadRange::NotNumbers => (
                "is not a list of numbers",
                "write the numbers alone: 7, 3,7 or 1-40",
            ),
            BadRange::Twice => ("names a plant twice", "name it once"),
            BadRange::Empty => {
                return Slip::nothing("no plant is named\nwrite X24-01-7 or X24-01-1..40");
            }
        };
        Slip::nothing(format!("`{typed}` {wrong}\n{help}"))
    }

    /// Something that is named twice.
    pub fn twice(code: &str) -> Slip {
        Slip::nothing(format!("{code} is named twice\nname it once"))
    }

    /// Records of another grower that were taken in before and now say something else, each in words.
    pub fn lineages_differ(what: &[String]) -> Slip {
        Slip::nothing(format!(
            "this lineage contradicts what was taken in before{}\nsay which stays with --keep ours or --keep theirs; nothing was written",
            indented(what)
        ))
    }

    /// Fields that two copies of a registry changed, each to something else, in words.
    pub fn copies_differ(what: &[String]) -> Slip {
        let count = what.len();
        let fields = if count == 1 { "field" } else { "fields" };
        Slip::nothing(format!(
            "nothing was merged: both sides changed {count} {fields}, each to something else{}\nsay which stays: --keep ours or --keep theirs for all, --keep theirs=Ven1 for one plant or field",
            indented(what)
        ))
    }

    /// A page that could not be read, so nothing is added to it.
    pub fn page_unread(path: &str) -> Slip {
        Slip::Unread(words!(
            "{path} could not be read\nmend it first{}";
            Words::or(": `podbook check` shows how", AS_PROBLEMS_SHOW)
        ))
    }

    /// A file that bears the name of a page to be begun.
    pub fn page_taken(path: &str) -> Slip {
        Slip::Refused(words!(
            "there is a file {path} already, and it is not the page of a cross on record\nmend it or move it away{}";
            Words::or(": `podbook check` shows what is wrong with it", AS_PROBLEMS_SHOW)
        ))
    }

    /// A page whose shape has this fault, which no recording changes.
    pub fn faulty_page(source: &Source, finding: Finding) -> Slip {
        let (line, _) = source.line_column(finding.place.map_or(0, |place| place.start));
        let found = match finding.found.is_empty() {
            true => String::new(),
            false => format!(" ({})", finding.found),
        };
        let (path, wrong, needed) = (&source.path, finding.title, finding.needed);
        let help = finding.help.first();
        let help = help.map_or(String::new(), |of| format!("; {of}"));
        Slip::Unread(words!(
            "{path}:{line}: {wrong}{found}\nneeded: {needed}{help}\nmend that first{}, then record this again";
            Words::or(" (`podbook check` shows the place)", AS_PROBLEMS_SHOW)
        ))
    }

    /// The refusal and what to do, a line each, as they are read there.
    pub fn said(&self, voice: Voice) -> String {
        match self {
            Slip::Unknown { what, code, near } => {
                let help = match near.as_slice() {
                    [] => look_under(what, code, voice).to_owned(),
                    near => format!("did you mean {}?", near.join(" or ")),
                };
                format!("there is no {what} `{}`\n{help}", one_line(code))
            }
            Slip::Gone {
                code,
                absence: Absence::NeverHere,
                ..
            } => format!(
                "{code} is another grower's plant and never stood here\nname one that is in the collection"
            ),
            Slip::Gone {
                code,
                fate,
                absence,
            } => {
                let seen = by(&format!("seen {code}"));
                let found = match absence {
                    Absence::Lost => format!(
                        "if it was found again, record that first{}; else ",
                        seen.said(voice)
                    ),
                    _ => String::new(),
                };
                format!(
                    "{code} is no longer here: {fate}\n{found}name one that is in the collection, or correct its record"
                )
            }
            Slip::Contradicts {
                asked,
                recorded,
                help,
            } => {
                let [asked, recorded, help] = [asked, recorded, help].map(|of| of.said(voice));
                format!("{asked}, but {recorded}\n{help}")
            }
            Slip::Page(why) => format!("the page was not changed: {why}"),
            Slip::MovedOn {
                change,
                path,
                by,
                has_later,
            } => {
                let by_hand = voice.or("by hand", "at the computer");
                let (moved_on, first) = match by {
                    Some(by) => (
                        voice.or(
                            format!("change {by} changed the same lines of {path}"),
                            format!("change {by} changed the same records"),
                        ),
                        format!("change {by}"),
                    ),
                    None => (
                        voice.or(
                            format!("{path} has been changed since"),
                            "what it recorded has been changed since".to_owned(),
                        ),
                        "the later changes".to_owned(),
                    ),
                };
                let first = match has_later {
                    true => format!("undo {first} first, or "),
                    false => String::new(),
                };
                format!(
                    "change {change} cannot be undone: {moved_on}\n{first}correct the record {by_hand}"
                )
            }
            Slip::Unread(words) | Slip::Missing(words) | Slip::Refused(words) => {
                words.said(voice).to_owned()
            }
        }
    }
}

impl fmt::Display for Slip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said(Voice::Keyboard))
    }
}

impl From<PageFault> for Slip {
    fn from(fault: PageFault) -> Self {
        Slip::Page(fault)
    }
}

/// Where a page shows what to mend, which is done at the computer.
pub(super) const AS_PROBLEMS_SHOW: &str = " at the computer (“Problems” shows how)";
/// What a code is made of.
const PLAIN: &str = "use letters, digits and hyphens alone";

/// Pages with their reasons, a line each; of many only the number is given.
fn pages_named(pages: &[String]) -> String {
    let named = pages.iter().take(PAGES_NAMED);
    let mut named: String = named.map(|page| format!("\n  {page}")).collect();
    if pages.len() > PAGES_NAMED {
        named += &format!("\n  and {} more", pages.len() - PAGES_NAMED);
    }
    named
}

/// Where to look for a code that no near one helps to find.
fn look_under(what: &str, code: &str, voice: Voice) -> &'static str {
    // A part of a cross may be named where a plant may, and has a point in its code.
    let is_part = matches!(what, "zone" | "seed lot" | "sowing" | "community pot");
    match what {
        _ if is_part || what == "plant" && code.contains('.') => voice.or(
            "see `podbook list crosses`, and `podbook show` with the code of one",
            "look under Crosses",
        ),
        "pollen lot" => voice.or("see `podbook ready`", "look under Season"),
        _ => voice.or("see `podbook list`", "look under Plants"),
    }
}

/// Each line of some words below the sentence they belong to.
fn indented(words: &[String]) -> String {
    let lines = words.iter().flat_map(|of| of.lines());
    lines.map(|of| format!("\n  {}", visible(of))).collect()
}

/// Words for several, such as `seedlings that were not moved yet`, said of one.
fn only_one(what: &str) -> String {
    let (noun, rest) = what.split_once(' ').unwrap_or((what, ""));
    let noun = noun.strip_suffix('s').unwrap_or(noun);
    let rest = rest.replace(" were ", " was ");
    format!("{noun} {rest}").trim_end().to_owned()
}
