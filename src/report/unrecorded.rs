//! Why a change was not recorded, or a registry not opened, and what was put right on the way, in words.

use crate::diagnostic::{Drawing, Finding, Paint, Severity};
use crate::record::RegistryPage;
use crate::recording::book::{HalfWritten, NotOpened};
use crate::recording::checked::Consequences;
use crate::recording::voice::Voice;
use crate::text::commit::{NoHold, PutRight, Uncommitted};
use crate::text::{Unwritten, WhyUnwritten, visible};
use crate::wording::{counted, led_by, listed};

/// Lines that the faults a change would bring may fill.
const FAULT_LINES: usize = 14;

/// Why a registry is not open, as it is read there; `folder` is its name in words.
pub fn not_opened(folder: &str, why: &NotOpened, voice: Voice) -> String {
    let again = voice.or("run the command again", "send this again");
    match why {
        NotOpened::NotHeld(NoHold::Busy) | NotOpened::Unsettled(WhyUnwritten::BeingWritten) => {
            format!(
                "another podbook is using this registry and did not finish within 10 seconds\n{again} when it has"
            )
        }
        NotOpened::NotHeld(NoHold::InTheWay) => {
            format!("`.podbook-lock` in {folder} is not a file\nmove it away, and {again}")
        }
        NotOpened::NotHeld(NoHold::System(words)) => format!(
            "{folder} cannot be written to: {words}\nallow writing in the folder, and {again}"
        ),
        NotOpened::Unsettled(WhyUnwritten::NoLocks) => {
            format!(
                "a change was cut short, or is being written: {}",
                WhyUnwritten::NoLocks
            )
        }
        NotOpened::Unsettled(why) if is_of_the_folder(why) => format!(
            "a change was cut short, and {folder} cannot be written to: {why}\nallow writing in the folder, and {again}"
        ),
        NotOpened::UnknownForm(form) => format!(
            "registry.ron says `format: {}`, and this podbook knows 1 to {}: it may misread these files and does not write to them\nuse the podbook that wrote them, or a newer one",
            visible(form),
            RegistryPage::NEWEST
        ),
        NotOpened::Unsettled(why) => {
            format!("a change was cut short and cannot be put right: {why}")
        }
    }
}

/// Whether the system lets nothing be written there; what may not be written alone says so itself.
fn is_of_the_folder(why: &WhyUnwritten) -> bool {
    match why {
        WhyUnwritten::Denied | WhyUnwritten::System(_) => true,
        WhyUnwritten::StillNew(_, why) => is_of_the_folder(why),
        _ => false,
    }
}

/// That what is shown may hold half of a change, and why it cannot be put right, as it is read there.
pub fn half_written(folder: &str, half: &HalfWritten, voice: Voice) -> String {
    let why = not_opened(folder, &half.why, voice);
    match &half.begun[..] {
        [] => why,
        begun => format!(
            "what is shown may hold half of a change: its new text stands in {}\n{why}",
            listed(begun)
        ),
    }
}

/// What was put right of a change that was cut short; nothing where none was.
pub fn settled(found: &PutRight) -> String {
    match found {
        PutRight::Nothing => String::new(),
        PutRight::Done => "finished a change that was cut short\n".to_owned(),
        PutRight::TakenBack { left_alone } if left_alone.is_empty() => {
            "took back a change that was cut short; record it again\n".to_owned()
        }
        PutRight::TakenBack { left_alone } => format!(
            "took back a change that was cut short; {} had been changed since and was left alone\n",
            left_alone.join(", ")
        ),
    }
}

/// That a change needs the lines that would go; `None` where none does.
fn needed(brought: &Consequences) -> Option<String> {
    let (change, first) = (brought.needed_by?, brought.findings.iter().next()?);
    Some(format!(
        "change {change} wrote what needs the lines that would go: without them {}\nundo change {change} first; nothing was written",
        first.title
    ))
}

/// The worst that a change would bring, and that it was not made.
fn brings(brought: &Consequences) -> (Severity, String) {
    let (severity, one, several) = match brought.are_faulty() {
        true => (Severity::Fault, "fault", "faults"),
        false => (Severity::Warning, "warning", "warnings"),
    };
    let count = counted(brought.findings.count(severity), one, several);
    let words = format!("this would bring {count} into the registry, so nothing was written");
    (severity, words)
}

/// That a change would bring faults, or where there is none warnings, as a page says it: it shows no file.
pub fn faulty_on_page(brought: &Consequences) -> String {
    needed(brought).unwrap_or_else(|| {
        let (severity, words) = brings(brought);
        let of = brought.findings.iter();
        let of = of.filter(|finding| finding.severity == severity);
        let faults = of.map(|finding| format!("\n{}", on_page(brought, finding)));
        words + &faults.take(FAULT_LINES).collect::<String>()
    })
}

/// What a finding says on a page: of which cross, what was found and what is needed.
fn on_page(brought: &Consequences, finding: &Finding) -> String {
    let cross = finding
        .place
        .and_then(|span| cross_of(brought.sources.locate(span).path));
    let cross = cross.map_or(String::new(), |cross| format!("{cross}: "));
    let found = led_by(
        "; found ",
        Some(&*finding.found).filter(|of| !of.is_empty()),
    );
    let needed = led_by(
        "; needed: ",
        Some(&*finding.needed).filter(|of| !of.is_empty()),
    );
    format!("{cross}{}{found}{needed}", finding.title)
}

/// That a change would bring faults, or where there is none warnings, drawn in the pages as they would be.
pub fn faulty(width: usize, brought: &Consequences) -> String {
    if let Some(words) = needed(brought) {
        return words;
    }
    let drawing = Drawing {
        width,
        paint: Paint::Plain,
    };
    let (severity, words) = brings(brought);
    let (drawn, left) =
        drawing.first_findings((severity, FAULT_LINES), &brought.findings, &brought.sources);
    let more = match left {
        0 => String::new(),
        more => format!("\n\nand {more} more"),
    };
    format!("{words}\n\n{}{more}", drawn.trim_end())
}

/// One line a warning that a change brings. At the keyboard it has its place in the files and the first thing to do there; on
/// a page, where no file is at hand, the cross and where to read on.
pub fn warnings(brought: &Consequences, voice: Voice) -> Vec<String> {
    let line = |finding: &Finding| {
        let place = finding.place.map(|span| brought.sources.locate(span));
        let (place, help) = match voice {
            Voice::Keyboard => (
                place.map(|place| format!("{}:{}", place.path, place.line)),
                finding.help.first().map(String::as_str),
            ),
            Voice::Page => (
                place.and_then(|place| cross_of(place.path)),
                Some("“Problems” says what to do"),
            ),
        };
        let place = place.map_or(String::new(), |place| format!("{place}: "));
        let help = led_by("; ", help);
        format!("{place}{}; found {}{help}", finding.title, finding.found)
    };
    brought.findings.iter().map(line).collect()
}

/// The code of the cross a page is of, `X22-01` for `crosses/X22-01.ron`; `None` for the other pages.
fn cross_of(path: &str) -> Option<String> {
    let page = path.strip_prefix("crosses/")?;
    page.strip_suffix(".ron").map(str::to_owned)
}

/// Why files of a change could not be written, as it is read there.
pub fn uncommitted(why: &Uncommitted, voice: Voice) -> String {
    match why {
        Uncommitted::Nothing(unwritten) => not_written(unwritten, voice),
        Uncommitted::HalfWay { refused, left } if refused.why == WhyUnwritten::GivenBack => {
            format!(
                "{} could not be written: {}; new text still stands in {}",
                refused.path,
                refused.why,
                listed(left)
            )
        }
        Uncommitted::HalfWay { refused, .. } => format!(
            "{} could not be written: {}; the next command puts the others back",
            refused.path, refused.why
        ),
        Uncommitted::Unsettled(unwritten) => format!(
            "the change is written, but {} could not be settled: {}\n{}, and copy the registry to another disk if this comes again",
            unwritten.path,
            unwritten.why,
            voice.or("run `podbook check`", "look at “Problems”")
        ),
    }
}

/// Why nothing of a change was written.
fn not_written(unwritten: &Unwritten, voice: Voice) -> String {
    let again = voice.or("run the command again", "send this again");
    let Unwritten { path, why } = unwritten;
    match why {
        WhyUnwritten::LockLost => format!(
            "{path} was removed or replaced while podbook read the registry, so nothing was written\n{again}"
        ),
        WhyUnwritten::BeingWritten => {
            format!("another podbook is writing in this registry, so nothing was written\n{again}")
        }
        WhyUnwritten::Denied => {
            let folder = path.rsplit_once('/');
            let folder = folder.map_or("the registry's folder".to_owned(), |(of, _)| {
                format!("`{of}`")
            });
            format!("{path} could not be written: {why}\nallow writing in {folder}, and {again}")
        }
        why => format!("{path} could not be written: {why}"),
    }
}
