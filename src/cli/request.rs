//! What a verb is given and gives back: finds and reads the registry, puts the answer in its form and place.

use super::common::{Colour, Common};
pub(super) use super::outcome::shown;
pub use super::outcome::{INTERRUPTED, Outcome, Refusal};
use crate::check::faults;
use crate::diagnostic::{Paint, Severity};
use crate::record::{Day, Hemisphere};
use crate::recording::book;
use crate::recording::dates::asked;
use crate::recording::voice::Voice;
use crate::registry::{Registry, build};
use crate::render::Written;
use crate::report::Report;
use crate::report::unrecorded::{half_written, settled};
use crate::text::{
    Kept, NoOutlet, NoRegistry, Outlet, Sources, Terminal, Unwritten, WhyUnread, find_registry,
    is_registry, visible,
};
use crate::wording::{counted, typed_word};
use std::collections::BTreeSet;
use std::ffi::OsString;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// What a verb is given besides its own arguments.
#[derive(Clone, Debug)]
pub struct Request {
    common: Common,
    command: fn() -> clap::Command,
    line: Vec<OsString>,
}

impl Request {
    /// A request with the options every verb takes, the way to the command line as clap knows it, and the words of the
    /// line, the program's name first.
    pub fn new(common: Common, command: fn() -> clap::Command, line: &[OsString]) -> Request {
        let line = line.to_vec();
        Request {
            common,
            command,
            line,
        }
    }

    /// The command line as clap knows it, for completions and the man page.
    pub fn command(&self) -> clap::Command {
        (self.command)()
    }

    /// Whether the answer is wanted as JSON.
    pub fn json(&self) -> bool {
        self.common.json
    }

    /// Columns to write within.
    pub fn width(&self) -> usize {
        let terminal = || terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
        let piped = !std::io::stdout().is_terminal();
        let width = self
            .common
            .width
            .or_else(|| if piped { None } else { terminal() });
        width.unwrap_or(80).clamp(40, 400)
    }

    /// How severities are painted.
    pub fn paint(&self) -> Paint {
        let on_terminal = std::io::stdout().is_terminal();
        let forbidden = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
        match self.common.colour {
            Colour::Always => Paint::Ansi,
            Colour::Auto if on_terminal && !forbidden && knows_colours() => Paint::Ansi,
            _ => Paint::Plain,
        }
    }

    /// The day that counts as today.
    ///
    /// # Errors
    /// If `--today` is not one exact day.
    pub fn today(&self) -> Result<Day, Refusal> {
        Ok(self.fixed_day()?.unwrap_or_else(local_day))
    }

    /// The day given with `--today`.
    ///
    /// # Errors
    /// If it is not one exact day.
    pub fn fixed_day(&self) -> Result<Option<Day>, Refusal> {
        let Some(text) = &self.common.today else {
            return Ok(None);
        };
        match asked(text, Hemisphere::North, local_day()) {
            Some(when) if when.is_exact() => Ok(Some(when.first)),
            _ => Err(Refusal::arguments(format!(
                "--today needs one day such as 2024-05-14; found `{text}`"
            ))),
        }
    }

    /// The folder of the registry as the line names it.
    pub fn named_registry(&self) -> Option<&Path> {
        self.common.registry.as_deref()
    }

    /// The registry's folder, if there is one.
    pub fn folder(&self) -> Option<PathBuf> {
        match &self.common.registry {
            Some(folder) => Some(folder.clone()),
            None => find_registry(&std::env::current_dir().ok()?),
        }
    }

    /// The folder of the registry that is asked about.
    ///
    /// # Errors
    /// If there is no registry.
    pub fn registry_folder(&self) -> Result<PathBuf, Refusal> {
        let Some(folder) = self.folder() else {
            return Err(Refusal::files(
                "no registry here: no folder from here upward holds registry.ron\n\
                 name one with --registry DIR, or begin one with `podbook new DIR`",
            ));
        };
        match is_registry(&folder) {
            Ok(()) => Ok(folder),
            Err(why) => Err(no_registry(&folder, &why)),
        }
    }

    /// Reads the registry's files while nothing writes them.
    ///
    /// # Errors
    /// If there is no registry.
    pub fn sources(&self) -> Result<Sources, Refusal> {
        let folder = self.registry_folder()?;
        let (sources, found) = book::read(&folder);
        tell(&match found {
            Ok(found) => settled(&found),
            Err(half) => format!(
                "{}\n",
                half_written(&shown(&folder), &half, Voice::Keyboard)
            ),
        });
        Ok(sources)
    }

    /// The command as typed, for the journal: without where the registry is, which is private, without the day, which the
    /// journal has, and without how the screen was to look.
    pub fn asked(&self) -> String {
        const LEFT_OUT: [&str; 4] = ["--registry", "--today", "--width", "--colour"];
        let with_value = |word: &str| {
            let of = |option: &&str| {
                word.strip_prefix(*option)
                    .is_some_and(|rest| rest.starts_with('='))
            };
            LEFT_OUT.iter().any(of)
        };
        let mut words = Vec::new();
        let mut typed = self.line.iter().skip(1);
        while let Some(word) = typed.next() {
            let word = word.to_string_lossy().into_owned();
            if LEFT_OUT.contains(&word.as_str()) {
                typed.next();
            } else if !with_value(&word) {
                words.push(typed_word(&word));
            }
        }
        words.join(" ")
    }

    /// Builds the registry as answers see it, without what is dated after today; when something is at fault, a line for
    /// standard error says so, because the answer may rest on what is left.
    pub fn registry<'t>(&self, sources: &'t Sources) -> (Registry<'t>, String) {
        let (mut registry, findings) = build(sources);
        let not_yet = self
            .today()
            .map_or(0, |today| registry.leave_out_after(today));
        let half = half_of_a_change(sources);
        let left_out = findings.count(Severity::Fault) - half + not_yet;
        let notice = notice(left_out, self.contradictions(&registry) + half);
        (registry, notice)
    }

    /// The same with every record, for the search for words: what is dated wrongly must be found too.
    pub fn records<'t>(&self, sources: &'t Sources) -> (Registry<'t>, String) {
        let (registry, findings) = build(sources);
        let half = half_of_a_change(sources);
        let left_out = findings.count(Severity::Fault) - half;
        let notice = notice(left_out, self.contradictions(&registry) + half);
        (registry, notice)
    }

    fn contradictions(&self, registry: &Registry) -> usize {
        self.today().map_or(0, |today| faults(registry, today))
    }

    /// A report in the form asked for.
    ///
    /// # Errors
    /// If it cannot be written as JSON.
    pub fn answer(&self, report: &impl Report, remarks: String) -> Result<Outcome, Refusal> {
        self.answers(std::slice::from_ref(report), remarks)
    }

    /// As [`Request::answer`], once files are written: a refusal says so too.
    ///
    /// # Errors
    /// As [`Request::answer`].
    pub fn answer_after(
        &self,
        report: &impl Report,
        remarks: String,
        written: Vec<String>,
    ) -> Result<Outcome, Refusal> {
        match self.answer(report, remarks) {
            Ok(outcome) => Ok(Outcome { written, ..outcome }),
            Err(refusal) => Err(refusal.after(&written)),
        }
    }

    /// Reports as text: one screen of each, or all with `--full`.
    pub fn text<R: Report>(&self, reports: &[R]) -> Written {
        match self.common.full {
            true => Written::sheets(reports, self.width()),
            false => Written::screens(reports, self.width()),
        }
    }

    /// Whether all of the answer is wanted, not only one screen.
    pub fn full(&self) -> bool {
        self.common.full
    }

    /// Several reports of one kind: one after the other, or a JSON list. A single one stands alone.
    ///
    /// # Errors
    /// As [`Request::answer`].
    pub fn answers<R: Report>(&self, reports: &[R], remarks: String) -> Result<Outcome, Refusal> {
        let answer = match self.json() {
            true => Written::json(reports).map_err(Refusal::files)?,
            false => self.text(reports),
        };
        Ok(Outcome {
            answer,
            remarks,
            bad_news: reports.iter().any(Report::is_bad_news),
            ..Outcome::default()
        })
    }

    /// Where a file for an answer may lie: never over a page of the registry.
    ///
    /// # Errors
    /// If it may not lie there.
    pub fn outlet(&self, file: &Path) -> Result<Outlet, Refusal> {
        Outlet::of(file, self.folder().as_deref()).map_err(|why| no_outlet(file, &why))
    }

    /// An answer for a file, or for standard output when none is named; binary bytes are not thrown at a terminal.
    ///
    /// # Errors
    /// If the file may not or cannot be written, or binary bytes would go to a terminal.
    pub fn deliver(
        &self,
        answer: Written,
        file: Option<&Path>,
        mut remarks: String,
    ) -> Result<Outcome, Refusal> {
        remarks.push_str(&boxes_words(answer.not_drawn()));
        let Some(file) = file else {
            if answer.bytes().contains(&0) && std::io::stdout().is_terminal() {
                return Err(Refusal::arguments(
                    "this picture is not text: name a file with -o FILE, or pipe it",
                ));
            }
            return Ok(Outcome {
                answer,
                remarks,
                ..Outcome::default()
            });
        };
        let unwritten = |fault: Unwritten| {
            Refusal::files(format!(
                "{} could not be written: {}",
                shown(file),
                fault.why
            ))
        };
        self.outlet(file)?.save(answer.bytes()).map_err(unwritten)?;
        let remarks = format!("{remarks}wrote {}\n", shown(file));
        Ok(Outcome {
            remarks,
            written: vec![shown(file)],
            ..Outcome::default()
        })
    }
}

/// The day by this computer's clock.
pub fn local_day() -> Day {
    use chrono::Datelike;

    Day(chrono::Local::now().date_naive().num_days_from_ce())
}

/// The day by this computer's clock, with the seconds until it ends: also on a day of 23 or 25 hours.
#[cfg(feature = "serve")]
pub fn local_now() -> (Day, u32) {
    use chrono::{Datelike, Days, Local, NaiveTime};

    let now = Local::now();
    let next = now.date_naive().checked_add_days(Days::new(1));
    let end = next.and_then(|next| {
        next.and_time(NaiveTime::MIN)
            .and_local_timezone(Local)
            .earliest()
    });
    let left = end.map(|end| (end - now).num_seconds());
    let left = left.and_then(|left| u32::try_from(left).ok());
    (
        Day(now.date_naive().num_days_from_ce()),
        left.unwrap_or(24 * 60 * 60),
    )
}

/// Writes words to standard error, with nothing in them that a terminal would obey.
pub(super) fn tell(words: &str) {
    // Who closed standard error does not want the words.
    let _ = std::io::stderr().write_all(Terminal::lines(words).to_string().as_bytes());
}

/// Why no answer goes to a file, and what to do.
pub(super) fn no_outlet(file: &Path, why: &NoOutlet) -> Refusal {
    let file = shown(file);
    let another = "name another file with -o, such as answer.csv; nothing was changed";
    match why {
        NoOutlet::Page(page) => Refusal::arguments(format!(
            "{file} is the registry's page {}: no answer is written over a page\n{another}",
            visible(page)
        )),
        NoOutlet::Kept(why) => Refusal::arguments(format!(
            "{}: no answer is written there\n{another}",
            kept_words(&file, why)
        )),
        NoOutlet::Folder => Refusal::arguments(format!(
            "{file} is a folder\nname a file with -o, such as answer.csv in it"
        )),
        NoOutlet::LinkBroken => {
            Refusal::arguments(format!("{file} is a link to nothing\n{another}"))
        }
        NoOutlet::LinkCircle => Refusal::arguments(format!(
            "{file} is a link that leads in a circle\n{another}"
        )),
        NoOutlet::NoFolder(folder) => Refusal::files(format!(
            "{file} could not be written: there is no folder {}\nmake the folder, or name another file with -o",
            shown(folder)
        )),
        NoOutlet::System(words) => {
            Refusal::files(format!("{file} could not be written: {words}\n{another}"))
        }
    }
}

/// For what a registry keeps a path, given as shown.
pub(super) fn kept_words(path: &str, why: &Kept) -> String {
    let what = |folder: &str| match folder {
        "crosses" => "cross pages",
        "journal" => "journal entries",
        _ => "photos",
    };
    match why {
        Kept::NamedAsPage => {
            format!("{path} bears the name of a page of records (.ron), or leads to one")
        }
        Kept::Folder(folder) => format!("{path} is where the registry's {} lie", what(folder)),
        Kept::InFolder(folder) => format!("{path} lies among the registry's {}", what(folder)),
        Kept::Own => format!("{path} bears a name that podbook keeps for itself"),
        Kept::Named(page) => format!("the registry's page {} names {path}", visible(page)),
    }
}

fn no_registry(folder: &Path, why: &NoRegistry) -> Refusal {
    let folder = shown(folder);
    let begin = "or begin one with `podbook new DIR`";
    Refusal::files(match why {
        NoRegistry::NoFolder => {
            format!("there is no folder {folder}\nname the folder that holds registry.ron, {begin}")
        }
        NoRegistry::AFile => format!(
            "{folder} is a file, not a folder\nname the folder that holds registry.ron, {begin}"
        ),
        NoRegistry::NoPage => {
            format!("{folder} holds no registry.ron\nname the folder that does, {begin}")
        }
        NoRegistry::Unread(why) => format!(
            "{folder} could not be read: {why}\nmake the folder readable, and run the command again"
        ),
    })
}

/// The finding, if there is one, that pages may hold half of a change: nothing is left out because of it.
fn half_of_a_change(sources: &Sources) -> usize {
    let mut unread = sources.unread().iter();
    usize::from(unread.any(|unread| unread.why == WhyUnread::HalfWritten))
}

/// What is at fault in the registry behind an answer. Nothing is left out because of a contradiction, but the answer may use
/// one.
fn notice(left_out: usize, contradictions: usize) -> String {
    let what = match (left_out, contradictions) {
        (0, 0) => return String::new(),
        (0, _) => String::new(),
        (1, 0) => ": what it touches is left out".to_owned(),
        (_, 0) => ": what they touch is left out".to_owned(),
        (n, _) => format!(": what {n} of them {} is left out", touch(n)),
    };
    let all = counted(left_out + contradictions, "fault", "faults");
    format!("{all} in the registry{what}; see `podbook check`\n")
}

fn touch(faults: usize) -> &'static str {
    match faults {
        1 => "touches",
        _ => "touch",
    }
}

/// What is said of letters that pictures have boxes for; nothing where there are none.
pub fn boxes_words(letters: &BTreeSet<char>) -> String {
    if letters.is_empty() {
        return String::new();
    }
    let letters: Vec<String> = letters.iter().map(char::to_string).collect();
    format!(
        "the typeface of pictures lacks {}: a box stands for each letter; the answer as text shows them\n",
        letters.join(" ")
    )
}

/// Whether a terminal shows colours. Some show the marks that ask for them, unless they are told once what these are.
fn knows_colours() -> bool {
    anstyle_query::windows::enable_ansi_colors() != Some(false)
}
