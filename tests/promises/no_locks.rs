//! Disks that know no locks, no permissions or no renaming without replacing, and a lock that goes away: shown with `strace`, which
//! refuses or delays what the system would do.
//!
//! Skipped with a line where `strace` is not there or may not trace.

use crate::base::plain;
use crate::bench::{Bench, Ran, Tree, pages_of};
use crate::traced::may_trace;
use std::fs;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// A change of three pages and the journal.
const TREAT: &[&str] = &["treat", "Ven1", "X22-02-1", "soap", "--on", "2026-05-01"];
const NO_LOCKS: &str = "flock:error=EOPNOTSUPP";
const SLOW: &str = "renameat2:delay_enter=400000";

/// A run in which calls of the system are refused or delayed; `-P` and a path in place of one: only those on it.
fn refusing(bench: &Bench, words: &[&str], injections: &[&str]) -> Command {
    let plain = bench.command(words);
    let mut traced = Command::new("strace");
    traced.args(["-f", "-qq", "-o", "/dev/null"]);
    let mut calls = Vec::new();
    for injection in injections {
        if let Some(path) = injection.strip_prefix("-P") {
            traced.args(["-P", path]);
            continue;
        }
        calls.extend(injection.split(':').next());
        traced.args(["-e", &format!("inject={injection}")]);
    }
    traced.args(["-e", &format!("trace={}", calls.join(","))]);
    traced.arg(plain.get_program()).args(plain.get_args());
    traced.env("RAYON_NUM_THREADS", "1");
    traced.stdin(Stdio::null());
    traced.stdout(Stdio::piped()).stderr(Stdio::piped());
    traced
}

fn ran(mut command: Command) -> Ran {
    Ran::of(command.output().expect("it runs"))
}

/// What the change makes of the pages.
fn before_and_after() -> (Tree, Tree) {
    let bench = Bench::of(&plain());
    let before = bench.tree();
    assert_eq!(bench.run(TREAT).code, 0);
    (before, bench.tree())
}

/// A slow writer whose first page is about to be replaced.
fn writing(bench: &Bench, injections: &[&str]) -> Child {
    let writer = refusing(bench, TREAT, injections).spawn().expect("it runs");
    while !bench.path().join(".podbook-intent").exists() {
        std::thread::sleep(Duration::from_millis(5));
    }
    writer
}

#[test]
fn who_looks_meanwhile_takes_nothing_back_where_there_are_no_locks() {
    if !may_trace() {
        return println!("skipped: no strace here, or it may not trace");
    }
    let (_, after) = before_and_after();
    let bench = Bench::of(&plain());
    let writer = writing(&bench, &[NO_LOCKS, SLOW]);
    let looked = ran(refusing(&bench, &["list"], &[NO_LOCKS]));
    assert_eq!((looked.code, &*looked.err), (0, ""), "{looked:?}");
    let wrote = Ran::of(writer.wait_with_output().expect("it ends"));
    assert_eq!(wrote.code, 0, "{wrote:?}");
    assert_eq!(bench.tree(), after);
}

#[test]
fn who_comes_after_the_lock_went_away_waits_for_the_writer() {
    if !may_trace() {
        return println!("skipped: no strace here, or it may not trace");
    }
    let (_, after) = before_and_after();
    let bench = Bench::of(&plain());
    let writer = writing(&bench, &[SLOW]);
    fs::remove_file(bench.path().join(".podbook-lock")).expect("a lock");
    let looked = bench.run(&["list"]);
    assert_eq!((looked.code, &*looked.err), (0, ""), "{looked:?}");
    let wrote = Ran::of(writer.wait_with_output().expect("it ends"));
    assert_eq!(wrote.code, 0, "{wrote:?}");
    assert_eq!(bench.tree(), after);
}

#[test]
fn a_change_cut_short_without_locks_is_named_and_taken_back_on_request_only() {
    if !may_trace() {
        return println!("skipped: no strace here, or it may not trace");
    }
    let (before, _) = before_and_after();
    let bench = Bench::of(&plain());
    ran(refusing(
        &bench,
        TREAT,
        &[NO_LOCKS, "renameat2:signal=KILL:when=3"],
    ));
    let half = bench.tree();
    assert!(half.contains_key(".podbook-intent") && pages_of(half.clone()) != before);
    let looked = ran(refusing(&bench, &["check"], &[NO_LOCKS]));
    assert_eq!(looked.code, 1, "{looked:?}");
    for words in ["half of a change", "clones.ron", "undo --cut-short"] {
        assert!(looked.err.contains(words), "{looked:?}");
    }
    assert!(looked.out.contains("change-cut-short"), "{looked:?}");
    let refused = ran(refusing(&bench, &["keep", "X22-02-1"], &[NO_LOCKS]));
    assert_eq!(refused.code, 3, "{refused:?}");
    assert_eq!(bench.tree(), half);
    let undone = ran(refusing(&bench, &["undo", "--cut-short"], &[NO_LOCKS]));
    assert_eq!(undone.code, 0, "{undone:?}");
    assert!(undone.out.contains("took back"), "{undone:?}");
    assert_eq!(pages_of(bench.tree()), before);
    assert!(!bench.path().join(".podbook-intent").exists());
    let again = bench.run(&["undo", "--cut-short"]);
    assert_eq!(again.code, 2, "{again:?}");
}

#[test]
fn disks_that_know_less_are_written_to_all_the_same() {
    if !may_trace() {
        return println!("skipped: no strace here, or it may not trace");
    }
    let (_, after) = before_and_after();
    let cannot_name = ["renameat2:error=EINVAL", "link,linkat:error=EPERM"];
    for cannot in [
        &["fchmod,fchmodat:error=EPERM"][..],
        &cannot_name,
        &["-P", "fsync:error=EINVAL"],
    ] {
        let bench = Bench::of(&plain());
        let only = format!("-P{}", bench.path().display());
        let of = |call: &&'static str| {
            if *call == "-P" {
                only.clone()
            } else {
                (*call).to_owned()
            }
        };
        let injections: Vec<String> = cannot.iter().map(of).collect();
        let injections: Vec<&str> = injections.iter().map(String::as_str).collect();
        let wrote = ran(refusing(&bench, TREAT, &injections));
        assert_eq!(wrote.code, 0, "{cannot:?}: {wrote:?}");
        assert_eq!(bench.tree(), after, "{cannot:?}");
    }
}

/// The lock of another account may be read only.
#[test]
fn a_lock_that_may_not_be_written_is_held_all_the_same() {
    if !may_trace() {
        return println!("skipped: no strace here, or it may not trace");
    }
    let (_, after) = before_and_after();
    let bench = Bench::of(&plain());
    fs::write(bench.path().join(".podbook-lock"), "").expect("a lock");
    let lock = format!("-P{}", bench.path().join(".podbook-lock").display());
    let denied = "openat:error=EACCES:when=1";
    let wrote = ran(refusing(&bench, TREAT, &[&lock, denied]));
    assert_eq!((wrote.code, &*wrote.err), (0, ""), "{wrote:?}");
    assert_eq!(bench.tree(), after);
}

/// A folder that may only be read: half a change is named, and what would mend it.
#[test]
fn half_a_change_in_a_folder_that_cannot_be_written_to_is_named() {
    if !may_trace() {
        return println!("skipped: no strace here, or it may not trace");
    }
    let bench = Bench::of(&plain());
    ran(refusing(&bench, TREAT, &["renameat2:signal=KILL:when=3"]));
    let half = pages_of(bench.tree());
    let denied = "rename,renameat,renameat2:error=EACCES";
    let looked = ran(refusing(&bench, &["list"], &[denied]));
    assert_eq!(looked.code, 0, "{looked:?}");
    for words in [
        "half of a change: its new text stands in clones.ron\n",
        "permission denied",
        "allow writing in the folder",
        "1 fault in the registry; see",
    ] {
        assert!(looked.err.contains(words), "{looked:?}");
    }
    let checked = ran(refusing(&bench, &["check"], &[denied]));
    assert_eq!(checked.code, 1, "{checked:?}");
    assert_eq!(pages_of(bench.tree()), half);
    let next = bench.run(&["list"]);
    assert!(next.err.contains("took back"), "{next:?}");
}
