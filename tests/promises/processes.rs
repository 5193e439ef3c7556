//! Programs at once, programs killed, and an editor that saves meanwhile: the real binary on real files.

use crate::base::{Pages, plain};
use crate::bench::{Bench, Ran, Tree, pages_of};
use crate::chance::Chance;
use crate::rounds;
use std::fs;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread::sleep;
use std::time::Duration;

/// Programs at once.
const WRITERS: usize = 8;
/// Seedlings on the page that all of them mark.
const SEEDLINGS: usize = 200;

/// A registry with one page of many seedlings.
fn nursery() -> Pages {
    let mut pages = plain();
    let seedlings: String = (1..=SEEDLINGS)
        .map(|number| format!("        (number: \"{number}\"), // {number}\n"))
        .collect();
    let page = format!(
        "(\n    code: \"X25-01\",\n    parents: unknown,\n    seedlings: [\n{seedlings}    ],\n)\n"
    );
    pages.insert("crosses/X25-01.ron".to_owned(), page);
    pages
}

/// Runs a command until the registry was free for it: whoever waits ten seconds in vain is told so and has written nothing.
fn recorded(bench: &Bench, words: &[&str], in_vain: &AtomicUsize) {
    loop {
        let ran = bench.run(words);
        match ran.code {
            0 => return,
            3 if ran.err.contains("another podbook is using this registry") => {
                in_vain.fetch_add(1, Ordering::Relaxed)
            }
            _ => panic!("{words:?}: {ran:?}"),
        };
    }
}

#[test]
fn eight_programs_at_once_lose_no_mark() {
    let in_vain = AtomicUsize::new(0);
    let all = rounds(SEEDLINGS as u64).div_ceil(SEEDLINGS as u64);
    for _ in 0..all {
        let bench = Bench::of(&nursery());
        std::thread::scope(|scope| {
            for writer in 0..WRITERS {
                let (bench, in_vain) = (&bench, &in_vain);
                scope.spawn(move || {
                    for seedling in (1..=SEEDLINGS).filter(|number| number % WRITERS == writer) {
                        recorded(bench, &["keep", &format!("X25-01-{seedling}")], in_vain);
                    }
                });
            }
        });
        let tree = bench.tree();
        let page = String::from_utf8(tree["crosses/X25-01.ron"].clone()).unwrap();
        assert_eq!(page.matches("kept: (").count(), SEEDLINGS);
        let changes = tree.keys().filter_map(|path| path.strip_prefix("journal/"));
        let mut numbers: Vec<usize> = changes.map(|name| name[..6].parse().unwrap()).collect();
        numbers.sort_unstable();
        assert_eq!(numbers, (1..=SEEDLINGS).collect::<Vec<_>>());
        assert_eq!(pages_of(tree.clone()), tree, "nothing is left");
    }
    println!(
        "{} marks, {} waits in vain",
        all as usize * SEEDLINGS,
        in_vain.into_inner()
    );
}

/// A change of three pages and the journal, or of a new page.
const CHANGES: [&[&str]; 3] = [
    &[
        "treat",
        "Ven1",
        "X22-02-1",
        "X22-02-2",
        "soap",
        "--on",
        "2026-05-01",
    ],
    &["pollinate", "Vei4", "--with", "Max2-2403", "--flowers", "3"],
    &["gone", "Ven1,X22-02-3,X22-02-5", "--died"],
];

/// The tree before and after a change, each without what podbook keeps to itself.
fn before_and_after(words: &[&str]) -> (Tree, Tree) {
    let bench = Bench::of(&plain());
    let before = bench.tree();
    let ran = bench.run(words);
    assert_eq!(ran.code, 0, "{ran:?}");
    (before, bench.tree())
}

/// Kills a run: at a random moment, or soon after the intent is on disk.
fn killed(bench: &Bench, words: &[&str], chance: &mut Chance) {
    let mut child = bench.command(words).spawn().unwrap();
    if chance.in_hundred(60) {
        let intent = bench.path().join(".podbook-intent");
        while !intent.exists() && child.try_wait().unwrap().is_none() {
            std::hint::spin_loop();
        }
        sleep(Duration::from_micros(chance.below(6_000) as u64));
    } else {
        sleep(Duration::from_micros(chance.below(40_000) as u64));
    }
    child.kill().unwrap();
    child.wait().unwrap();
}

#[test]
fn whenever_a_program_is_killed_the_next_one_finds_all_or_nothing() {
    let trees = CHANGES.map(before_and_after);
    let mut chance = Chance(1);
    let (mut old, mut new, mut cut) = (0, 0, 0);
    for kill in 0..rounds(300) {
        let at = chance.below(CHANGES.len());
        let (before, after) = &trees[at];
        let bench = Bench::of(&plain());
        killed(&bench, CHANGES[at], &mut chance);
        cut += usize::from(bench.path().join(".podbook-intent").exists());
        // Reading commands put right as well as writing ones.
        let reads = chance.in_hundred(50);
        if reads {
            let ran = bench.run(&["list"]);
            assert_eq!(ran.code, 0, "kill {kill}: {ran:?}");
            let found = pages_of(bench.tree());
            assert!(
                found == *before || found == *after,
                "kill {kill} of {:?}",
                CHANGES[at]
            );
        }
        let ran = bench.run(&["keep", "X22-02-8"]);
        assert_eq!(ran.code, 0, "kill {kill}: {ran:?}");
        let found = bench.tree();
        assert_eq!(
            pages_of(found.clone()),
            found,
            "kill {kill}: something is left"
        );
        let is_new = is_with(&found, after);
        assert!(
            is_new || is_with(&found, before),
            "kill {kill} of {:?}",
            CHANGES[at]
        );
        if is_new {
            new += 1
        } else {
            old += 1
        }
        let check = bench.run(&["check", "--notes"]);
        assert!(
            check.code == 0 && !check.out.contains("left-behind"),
            "{check:?}"
        );
    }
    println!("{old} kills found as before, {new} as after; {cut} had to be put right");
    assert!(
        old > 0 && new > 0 && cut > 0,
        "{old} old, {new} new, {cut} cut short"
    );
}

/// Whether a tree is another one and the mark on X22-02-8, made on it.
fn is_with(found: &Tree, base: &Tree) -> bool {
    let bench = Bench::of_tree(base);
    bench.run(&["keep", "X22-02-8"]);
    *found == bench.tree()
}

#[test]
fn what_a_kill_leaves_is_found_by_check() {
    let bench = Bench::of(&plain());
    for folder in ["", "crosses"] {
        fs::write(
            bench
                .path()
                .join(folder)
                .join(".podbook-0123456789abcdef.part"),
            "(clo",
        )
        .unwrap();
    }
    let check = bench.run(&["check", "--notes"]);
    assert_eq!(
        check.out.matches("note left-behind").count(),
        2,
        "{check:?}"
    );
}

/// An editor that puts a line under a page by a file of its own, which then takes the page's name.
fn save(page: &Path, line: usize) -> bool {
    let Ok(text) = fs::read_to_string(page) else {
        return false;
    };
    // A page that is just being written has no end.
    if !text.contains("\n)\n") {
        return false;
    }
    let text = format!("{text}// by hand {line}.\n");
    let beside = page.with_extension("ron~");
    fs::write(&beside, text).is_ok() && fs::rename(&beside, page).is_ok()
}

#[test]
fn what_an_editor_saves_meanwhile_is_never_lost() {
    let bench = Bench::of(&nursery());
    let page = bench.path().join("crosses/X25-01.ron");
    let all = AtomicBool::new(false);
    let (mut taken, mut refused) = (0, 0);
    let saved = std::thread::scope(|scope| {
        let editor = scope.spawn(|| {
            let (mut chance, mut saved) = (Chance(3), Vec::new());
            for line in 0.. {
                if all.load(Ordering::Relaxed) {
                    return saved;
                }
                if save(&page, line) {
                    saved.push(line);
                }
                sleep(Duration::from_micros(chance.below(120_000) as u64));
            }
            saved
        });
        for mark in 0..rounds(100) {
            let (seedling, cycle) = (mark as usize % SEEDLINGS + 1, mark as usize / SEEDLINGS);
            let pot = format!("{}cm", cycle + 5);
            let ran = bench.run(&["pot", &format!("X25-01-{seedling}"), &pot]);
            match ran.code {
                0 => taken += 1,
                2 | 3 => refused += 1,
                _ => panic!("{ran:?}"),
            }
        }
        all.store(true, Ordering::Relaxed);
        editor.join().unwrap()
    });
    let text = fs::read_to_string(&page).unwrap();
    println!(
        "{} saves, {taken} changes taken, {refused} refused",
        saved.len()
    );
    let lost: Vec<&usize> = saved
        .iter()
        .filter(|line| !text.contains(&format!("// by hand {line}.\n")))
        .collect();
    assert!(lost.is_empty(), "lost of {}: {lost:?}", saved.len());
    let changes = bench
        .tree()
        .keys()
        .filter(|path| path.starts_with("journal/"))
        .count();
    assert_eq!(changes, taken);
    assert!(
        taken > 0 && saved.len() > 10,
        "{taken} taken, {} saved",
        saved.len()
    );
}

/// A run, with the tree before and after.
fn compared(bench: &Bench, words: &[&str]) -> (Ran, Tree, Tree) {
    let before = bench.tree();
    let ran = bench.run(words);
    (ran, before, bench.tree())
}

#[test]
fn the_exit_code_says_whether_anything_was_written() {
    let bench = Bench::of(&plain());
    for (words, code) in [
        (&["keep", "X22-02-99"][..], 2),
        (&["keep", "X22-02-4"], 2),
        (&["pot", "Ven1", "7"], 2),
        (&["move", "X22-02-2", "shelf 1"], 2),
        (&["undo"], 2),
        (&["keep", "X22-02-1", "--dry-run"], 0),
        (&["check", "-o", "clones.ron"], 2),
    ] {
        let (ran, before, after) = compared(&bench, words);
        assert_eq!((ran.code, &after), (code, &before), "{words:?}: {ran:?}");
    }
    let (ran, before, after) = compared(&bench, &["keep", "X22-02-1"]);
    assert_eq!((ran.code, after.len()), (0, before.len() + 1), "{ran:?}");
    fs::write(bench.path().join(".podbook-intent"), "not podbook's").unwrap();
    let (ran, before, after) = compared(&bench, &["keep", "X22-02-2"]);
    assert_eq!((ran.code, after), (3, before), "{ran:?}");
    assert!(ran.err.contains("nothing was written"), "{ran:?}");
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_shown_does_not_hide_what_was_written() {
    use std::process::Stdio;
    let full = || Stdio::from(fs::File::options().write(true).open("/dev/full").unwrap());
    let bench = Bench::of(&plain());
    let mut command = bench.command(&["keep", "X22-02-1"]);
    let ran = Ran::of(
        command
            .stdout(full())
            .stderr(Stdio::piped())
            .output()
            .unwrap(),
    );
    assert_eq!(ran.code, 4, "{ran:?}");
    assert!(ran.err.contains("crosses/X22-02.ron"), "{ran:?}");
    assert_eq!(
        bench
            .tree()
            .keys()
            .filter(|path| path.starts_with("journal/"))
            .count(),
        1
    );
    let before = bench.tree();
    let refused = bench
        .command(&["keep", "X22-02-99"])
        .stderr(full())
        .status()
        .unwrap();
    assert_eq!((refused.code(), bench.tree()), (Some(2), before));
}

#[test]
fn a_page_protected_against_writing_stays() {
    let bench = Bench::of(&plain());
    let page = bench.path().join("crosses/X22-02.ron");
    let mut rights = fs::metadata(&page).unwrap().permissions();
    rights.set_readonly(true);
    fs::set_permissions(&page, rights.clone()).unwrap();
    for words in [&["keep", "X22-02-1"][..], CHANGES[0]] {
        let (ran, before, after) = compared(&bench, words);
        assert_eq!((ran.code, after), (3, before), "{ran:?}");
        assert!(ran.err.contains("protected against writing"), "{ran:?}");
    }
}

#[cfg(unix)]
mod links {
    use super::*;
    use std::os::unix::fs::{PermissionsExt, symlink};

    /// The registry with one page moved to another place and linked to.
    fn linked(page: &str, to: &str) -> Bench {
        let bench = Bench::of(&plain());
        let (page, to) = (bench.path().join(page), bench.path().join(to));
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        fs::rename(&page, &to).unwrap();
        symlink(&to, &page).unwrap();
        bench
    }

    #[test]
    fn a_page_that_is_a_link_is_written_through_and_a_link_out_is_said() {
        for (to, leads_out) in [("kept/x22", false), ("../elsewhere/x22", true)] {
            let bench = linked("crosses/X22-02.ron", to);
            let ran = bench.run(&["keep", "X22-02-1"]);
            assert_eq!(ran.code, 0, "{ran:?}");
            let link = bench.path().join("crosses/X22-02.ron");
            assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
            assert!(
                fs::read_to_string(bench.path().join(to))
                    .unwrap()
                    .contains("kept: (")
            );
            let said = ran.err.contains("crosses/X22-02.ron is a link to")
                && ran.err.contains("outside the registry");
            assert_eq!(said, leads_out, "{ran:?}");
            let undone = bench.run(&["undo"]);
            assert_eq!(undone.code, 0, "{undone:?}");
            assert_eq!(
                fs::read_to_string(&link).unwrap(),
                plain()["crosses/X22-02.ron"]
            );
        }
    }

    #[test]
    fn an_answer_goes_over_no_page_by_whatever_name() {
        let bench = linked("crosses/X22-02.ron", "../elsewhere/x22");
        for name in ["elsewhere/x22", "registry/clones.ron", "alias"] {
            let file = bench.outside().join(name);
            if name == "alias" {
                symlink(bench.path().join("crosses/X22-02.ron"), &file).unwrap();
            }
            let file = file.to_str().unwrap().to_owned();
            let (ran, before, after) = compared(&bench, &["list", "-o", &file]);
            assert_eq!((ran.code, after), (2, before), "{ran:?}");
        }
    }

    #[test]
    fn a_folder_protected_against_writing_stays() {
        let bench = Bench::of(&plain());
        let folder = bench.path();
        let rights = |mode| fs::set_permissions(&folder, fs::Permissions::from_mode(mode)).unwrap();
        rights(0o555);
        if fs::write(folder.join("probe"), "").is_ok() {
            rights(0o755);
            println!("skipped: this user may write everywhere");
            return;
        }
        let (ran, before, after) = compared(&bench, &["keep", "X22-02-1"]);
        rights(0o755);
        assert_eq!((ran.code, after), (3, before), "{ran:?}");
    }
}
