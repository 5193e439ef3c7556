//! Every system call of writing refused, or made the last one, by `strace`: what is on disk agrees with what was said.
//!
//! Skipped with a line where `strace` is not there or may not trace.

use crate::base::plain;
use crate::bench::{Bench, Ran, Tree, pages_of};
use std::process::{Command, Stdio};

/// A change of three pages and the journal, and one that begins a page and is taken back.
const CHANGES: [&[&str]; 2] = [
    &["treat", "Ven1", "X22-02-1", "soap", "--on", "2026-05-01"],
    &["add-seed", "maxima x veitchii", "--seeds", "30"],
];

/// Calls that change what is on disk, or make sure of it.
const CALLS: [&str; 5] = [
    "write",
    "fsync",
    "rename,renameat,renameat2",
    "unlink,unlinkat",
    "mkdir,mkdirat",
];

/// A run in which the `when`-th of some calls comes to grief; none if there are fewer.
fn traced(bench: &Bench, words: &[&str], calls: &str, grief: &str, when: usize) -> Option<Ran> {
    let log = bench.outside().join("trace");
    let plain = bench.command(words);
    let mut traced = Command::new("strace");
    traced.args(["-f", "-qq", "-o"]).arg(&log);
    traced.arg("-e").arg(format!("trace={calls}"));
    traced
        .arg("-e")
        .arg(format!("inject={calls}:{grief}:when={when}"));
    traced.arg(plain.get_program()).args(plain.get_args());
    traced
        .env("RAYON_NUM_THREADS", "1")
        .env("RUST_BACKTRACE", "0")
        .stdin(Stdio::null());
    let ran = Ran::of(traced.output().ok()?);
    let log = std::fs::read_to_string(log).unwrap_or_default();
    let struck = log.contains("(INJECTED)") || log.contains("killed by SIGKILL");
    struck.then_some(ran)
}

pub fn may_trace() -> bool {
    let tried = Command::new("strace")
        .args(["-qq", "-o", "/dev/null", "true"])
        .stderr(Stdio::null())
        .status();
    tried.is_ok_and(|status| status.success())
}

/// What must hold of what is on disk, whatever was said.
fn agrees(bench: &Bench, ran: &Ran, (before, after): (&Tree, &Tree), about: &str) {
    let found = pages_of(bench.tree());
    match ran.code {
        0 => assert_eq!(found, *after, "{about}: {ran:?}"),
        2 | 3 => assert_eq!(found, *before, "{about}: {ran:?}"),
        4 => assert!(found != *before, "{about}: {ran:?}"),
        // Killed, or not even begun.
        -1 | 127 | 137 => {}
        _ => panic!("{about}: {ran:?}"),
    }
    assert!(
        ran.code < 3 || !ran.err.is_empty() || ran.code > 100,
        "{about}: nothing was said"
    );
    let next = bench.run(&["list"]);
    assert_eq!(next.code, 0, "{about}: {next:?}");
    let settled = pages_of(bench.tree());
    assert!(
        settled == *before || settled == *after,
        "{about}: neither as before nor as after"
    );
    if matches!(ran.code, 0 | 2 | 3) {
        assert_eq!(settled, found, "{about}: settled otherwise than said");
    }
    assert!(!bench.path().join(".podbook-intent").exists(), "{about}");
}

#[test]
fn whichever_call_fails_the_disk_agrees_with_what_was_said() {
    if !may_trace() {
        println!("skipped: no strace here, or it may not trace");
        return;
    }
    let (mut runs, mut codes) = (0, std::collections::BTreeMap::<i32, usize>::new());
    for words in CHANGES {
        let bench = Bench::of(&plain());
        let before = bench.tree();
        assert_eq!(bench.run(words).code, 0);
        let after = bench.tree();
        for calls in CALLS {
            for grief in ["error=ENOSPC", "error=EIO", "signal=KILL"] {
                for when in 1.. {
                    let bench = Bench::of(&plain());
                    let Some(ran) = traced(&bench, words, calls, grief, when) else {
                        break;
                    };
                    let about = format!("{} with {grief} at {calls} {when}", words[0]);
                    agrees(&bench, &ran, (&before, &after), &about);
                    *codes.entry(ran.code).or_default() += 1;
                    runs += 1;
                }
            }
        }
    }
    println!("{runs} runs, by exit code {codes:?}");
    assert!(
        runs > 100 && codes.contains_key(&3) && codes.contains_key(&4),
        "{codes:?}"
    );
}

#[test]
fn an_album_that_was_cut_short_is_made_by_the_next_run() {
    if !may_trace() {
        println!("skipped: no strace here, or it may not trace");
        return;
    }
    let bench = Bench::of(&plain());
    let album = bench.outside().join("album");
    let words = ["album", "-o", album.to_str().unwrap()];
    let renames = CALLS[2];
    for when in 1.. {
        assert_eq!(bench.run(&words).code, 0, "before the kill at {when}");
        if traced(&bench, &words, renames, "signal=KILL", when).is_none() {
            assert!(when > 3, "only {when} renames");
            return;
        }
    }
}
