//! Puts into words why a file could not be read or written.

use super::finding::{Code, Finding};
use crate::text::{Unread, Unwritten, WhyUnread, WhyUnwritten};

impl From<&Unread> for Finding {
    fn from(unread: &Unread) -> Self {
        use WhyUnread::*;
        let finding = |code, found: &str, needed: &str| {
            let title = format!("`{}` was left out", unread.path);
            Finding::fault(Code(code), title)
                .found(found)
                .needed(needed)
        };
        let readable = "a file or folder that can be read";
        match &unread.why {
            NotUtf8 { utf16: true, .. } => {
                finding("not-utf8", "a text in UTF-16", "a text in UTF-8")
                    .help("save the file again with the encoding UTF-8")
            }
            NotUtf8 { offset, line, .. } => {
                let found = format!(
                    "a byte that is not UTF-8 in line {line} (byte {offset}, counted from 0)"
                );
                finding("not-utf8", &found, "a text in UTF-8")
                    .help("save the file again with the encoding UTF-8")
            }
            Spreadsheet => finding(
                "spreadsheet-file",
                "a workbook of a spreadsheet program",
                "a plain text in UTF-8",
            )
            .help("write the page as plain text; keep the workbook outside the registry"),
            TooLarge { bytes, most } => finding(
                "too-large",
                &format!("{bytes} bytes"),
                &format!("a file of {} MiB at most", most >> 20),
            )
            .help("divide the file; every file whose name ends in .ron is read"),
            Folder => finding(
                "not-a-file",
                "a folder with the name of a file",
                "a text file",
            )
            .help("rename the folder or move it out of the registry"),
            NotAFile => finding("not-a-file", "a pipe, socket or device", "a text file"),
            LinkCircle => finding(
                "broken-link",
                "a link that leads in a circle",
                "a link to a text file",
            ),
            LinkBroken => finding(
                "broken-link",
                "a link to a file that is not there",
                "a link to a text file",
            ),
            NameNotUtf8 => finding(
                "name-not-utf8",
                "a file name that is not UTF-8",
                "a file name in UTF-8",
            )
            .help("rename the file"),
            Gone => finding(
                "unreadable-file",
                "no such file, though it was there when the folder was listed",
                "a file that stays while it is read",
            )
            .help("run the command again"),
            LeftBehind => left_behind(unread),
            HalfWritten => half_written(),
            OtherCapitals => {
                let meant = unread.path.to_lowercase();
                finding(
                    "name-misspelt",
                    "a name with capitals",
                    &format!("`{meant}`"),
                )
                .help(format!("rename it to `{meant}`"))
            }
            TooDeep => not_looked_for(unread),
            OtherEnding => other_ending(unread),
            Forbidden => finding("unreadable-file", "no permission to read it", readable)
                .help("give yourself permission to read it"),
            System(words) => finding("unreadable-file", words, readable),
        }
    }
}

/// What a run that was ended from outside was writing.
fn left_behind(unread: &Unread) -> Finding {
    let title = format!(
        "`{}` was left behind by a run that was stopped",
        unread.path
    );
    let finding = Finding::note(Code("left-behind"), title)
        .found("an unfinished copy; the file it was meant for is as it was before")
        .needed("no such file");
    if unread.path.ends_with(".part") {
        finding
            .help("delete it, or leave it: the next file podbook writes beside it clears it away")
    } else {
        finding.help("delete it")
    }
}

/// A change that is on disk in part, or may be.
fn half_written() -> Finding {
    let title = "a change was cut short, or is being written: pages may hold half of it";
    Finding::fault(Code("change-cut-short"), title)
        .found("`.podbook-intent`, in which a change stands until all of it is written")
        .needed("no such file")
        .help(
            "run any command: it finishes the change or takes it back, or says what is in its way",
        )
        .help("when no podbook is writing any more: podbook undo --cut-short")
}

/// A folder too deep for its files to be read is no fault, but should not go unnoticed.
fn not_looked_for(unread: &Unread) -> Finding {
    let (folder, _) = unread.path.rsplit_once('/').unwrap_or_default();
    let title = format!("the files in `{folder}` are not read");
    Finding::warning(Code("too-deep"), title)
        .found("a folder with .ron files inside `crosses`")
        .needed("the files of crosses directly in `crosses`")
        .help("move the files up one folder")
}

/// A file whose name shows that it was meant to be read.
fn other_ending(unread: &Unread) -> Finding {
    let meant = unread.path.rsplit_once('.').map_or("", |(meant, _)| meant);
    Finding::warning(
        Code("other-ending"),
        format!("`{}` is not read", unread.path),
    )
    .found("a name that does not end in .ron")
    .needed(format!("`{meant}`"))
    .help("rename it; some editors add an ending of their own, and some folders do not show it")
}

impl From<&Unwritten> for Finding {
    fn from(unwritten: &Unwritten) -> Self {
        use WhyUnwritten::*;
        let finding = |found: &str, needed: &str| {
            let title = format!(
                "`{}` was not written; the file that was there is unchanged",
                unwritten.path
            );
            Finding::fault(Code("not-written"), title)
                .found(found)
                .needed(needed)
        };
        match &unwritten.why {
            Changed => finding(
                "a file that is not as it was when it was read",
                "the file as it was read",
            )
            .help("run the command again; save the file first if it is open elsewhere"),
            Protected => finding("a file protected against writing", "permission to write it"),
            Exists => finding("a file of that name", "a name not yet taken"),
            Outside => finding(
                "a path that leads out of the registry",
                "a path inside the registry",
            ),
            NoIntent => finding("a file that podbook did not write", "that file moved away"),
            OtherComputer(by) => finding(
                &format!("a change that the computer `{by}` began"),
                "that change ended there",
            ),
            BeingWritten => finding(
                "a change that another podbook is writing",
                "that change ended",
            ),
            NoLocks => finding(
                "a change that another podbook may be writing",
                "that change ended",
            ),
            LockLost => finding("another file in place of `.podbook-lock`", "the same file")
                .help("run the command again"),
            GivenBack => finding(
                "a file that another program gave its old text back",
                "the new text",
            )
            .help("run the command again"),
            Denied => finding("no permission to write it", "a file that can be written"),
            StillNew(path, _) => finding(
                &format!("`{path}` with a text that is not its old one"),
                "a file that can be written",
            ),
            TooLarge { bytes, most } => finding(
                &format!("{bytes} bytes to be written"),
                &format!("a file of {} MiB at most", most >> 20),
            ),
            NotReadBack => finding(
                "other bytes than were written, when they were read back",
                "a sound disk",
            )
            .help("copy the registry to another disk before you go on"),
            System(words) => finding(words, "a file that can be written"),
        }
    }
}
