//! What could not be read or written is said: on which page a code may stand, and whether anything was written.
#![cfg(unix)]

use crate::bench_top::{BenchTop, Run};
use crate::demo::{ask, copied};
use std::fs;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::os::unix::net::UnixListener;
use std::path::Path;

const PAGE: &str = "crosses/X22-02.ron";

/// The sound registry with something else in the place of a page.
fn with_instead(put: impl FnOnce(&Path)) -> BenchTop {
    let top = BenchTop::sound();
    let page = top.path().join(PAGE);
    fs::remove_file(&page).expect("the page is there");
    put(&page);
    top
}

fn says_the_page(run: &Run, why: &str) {
    assert_eq!(run.exit, Some(3), "{run}");
    let page = format!("{PAGE} could not be read: {why}");
    assert!(run.stderr.contains(&page), "{page}\n{run}");
    assert!(!run.stderr.contains("nothing on record"), "{run}");
}

#[test]
fn a_code_on_a_page_that_could_not_be_read_is_not_called_unknown() {
    let folder = with_instead(|page| fs::create_dir(page).expect("a folder"));
    let link = with_instead(|page| symlink("nowhere", page).expect("a link"));
    let circle = with_instead(|page| symlink(page, page).expect("a link"));
    let bytes = with_instead(|page| fs::write(page, b"(code: \"X22-02\xff\")").expect("a file"));
    let wide = with_instead(|page| fs::write(page, b"\xff\xfe(\0").expect("a file"));
    let socket = with_instead(|page| drop(UnixListener::bind(page).expect("a socket")));
    for (top, why) in [
        (folder, "it is a folder, not a file"),
        (link, "it is a link to a file that is not there"),
        (circle, "it is a link that leads in a circle"),
        (bytes, "line 1 is not UTF-8"),
        (wide, "it is saved as UTF-16"),
        (socket, "it is a pipe, socket or device, not a file"),
    ] {
        for question in [
            "show X22-02",
            "name X22-02-1",
            "pedigree X22-02.P1",
            "siblings X22-02",
        ] {
            let words: Vec<&str> = question.split(' ').collect();
            says_the_page(&top.run(&words), why);
        }
    }
}

/// A page in the wrong folder is not read; what it holds is not called unknown.
#[test]
fn a_page_in_the_wrong_folder_is_named() {
    for moved in ["X22-02.ron", "crosses/old/X22-02.ron"] {
        let top = with_instead(|_| ());
        let page = BenchTop::sound().text(PAGE);
        let top = top.file(moved, &page);
        for question in ["show X22-02-1", "name X22-02-1", "siblings X22-02"] {
            let words: Vec<&str> = question.split(' ').collect();
            let run = top.run(&words);
            assert_eq!(run.exit, Some(3), "{run}");
            let told = format!("\n  {moved} could not be read: ");
            assert!(run.stderr.contains(&told), "{run}");
        }
    }
}

/// A page of founders with a capital is the cause of all that is unknown: a fault above the others, and no page is begun
/// beside it.
#[test]
fn a_page_with_a_capital_is_the_first_fault() {
    let top = BenchTop::sound();
    let at = |name: &str| top.path().join(name);
    fs::rename(at("clones.ron"), at("Clones.ron")).expect("the page is there");
    let check = top.run(&["check"]);
    let first = check.stdout.lines().find(|line| line.starts_with("fault"));
    let first = first.unwrap_or_default();
    assert_eq!(
        first, "fault name-misspelt: `Clones.ron` was left out",
        "{check}"
    );
    let add = top.run(&["add", "N. truncata", "--on", "2020"]);
    assert_eq!(add.exit, Some(3), "{add}");
    assert!(fs::symlink_metadata(at("clones.ron")).is_err(), "{add}");
}

#[test]
fn a_page_without_permission_is_named_in_words() {
    let top = BenchTop::sound();
    let page = top.path().join(PAGE);
    fs::set_permissions(&page, fs::Permissions::from_mode(0o0)).expect("permissions can be set");
    // Some users may read everything.
    if fs::read(&page).is_err() {
        says_the_page(&top.run(&["show", "X22-02"]), "permission denied");
        let check = top.run(&["check"]);
        assert!(!check.stdout.contains("os error"), "{check}");
    }
    fs::set_permissions(&page, fs::Permissions::from_mode(0o644)).expect("permissions can be set");
}

#[test]
fn a_code_may_also_be_on_a_page_of_another_name() {
    let top = with_instead(|page| fs::create_dir(page).expect("a folder"));
    let run = top.run(&["show", "Q1"]);
    says_the_page(&run, "it is a folder");
    let run = top.run(&["show", "X18-1"]);
    assert!(run.stderr.contains("or did you mean X18-01"), "{run}");
    let sound = BenchTop::sound().run(&["show", "Q1"]);
    assert_eq!(sound.exit, Some(2), "{sound}");
    assert!(
        sound.stderr.contains("no record has the code `Q1`"),
        "{sound}"
    );
}

#[test]
fn a_code_on_a_page_at_fault_names_the_page() {
    let top = with_instead(|page| fs::write(page, "(code: \"X22-02\"").expect("a file"));
    let run = top.run(&["show", "X22-02"]);
    assert!(run.exit == Some(0) || run.stderr.contains(PAGE), "{run}");
    let top = with_instead(|page| fs::write(page, "code: \"X22-02\"").expect("a file"));
    let run = top.run(&["show", "X22-02"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(
        run.stderr.contains("crosses/X22-02.ron has a fault"),
        "{run}"
    );
    let top = with_instead(|page| {
        fs::write(page.with_extension("ron.txt"), "(code: \"X22-02\")").expect("a file");
    });
    let run = top.run(&["show", "X22-02"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("crosses/X22-02.ron.txt"), "{run}");
}

#[test]
fn a_registry_page_that_leads_nowhere_is_no_missing_one() {
    let top = BenchTop::sound();
    let page = top.path().join("registry.ron");
    fs::remove_file(&page).expect("the page is there");
    symlink("nowhere", &page).expect("a link");
    let run = top.run(&["check"]);
    assert_eq!(run.exit, Some(1), "{run}");
    assert!(
        run.stdout.contains("a link to a file that is not there"),
        "{run}"
    );
    assert!(!run.stdout.contains("no-registry"), "{run}");
    let run = BenchTop::sound().run(&["check", "--registry", "registry.ron"]);
    assert!(
        run.stderr.contains("registry.ron is a file, not a folder"),
        "{run}"
    );
}

#[test]
fn goals_that_cannot_be_read_are_not_passed_over() {
    let top = BenchTop::sound();
    symlink("nowhere", top.path().join("goals.ron")).expect("a link");
    let run = top.run(&["plan", "--any-time"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(
        run.stderr
            .contains("it is a link to a file that is not there"),
        "{run}"
    );
    let run = top.run(&["plan", "--any-time", "--goals", "crosses"]);
    assert!(
        run.stderr
            .contains("crosses could not be read: it is a folder, not a file"),
        "{run}"
    );
}

#[test]
fn a_refusal_to_write_says_that_nothing_was_written() {
    let top = BenchTop::sound();
    for arguments in [
        &["list", "plants", "-o", "nowhere/x.csv"][..],
        &["list", "plants", "-o", "crosses/X22-02.ron/x.csv"],
        &["new", "registry.ron/inside/my-plants"],
    ] {
        let run = top.run(arguments);
        assert_eq!(run.exit, Some(3), "{run}");
        assert!(run.stderr.ends_with("nothing was written\n"), "{run}");
        assert!(!run.stderr.contains("os error"), "{run}");
    }
    let run = top.run(&["show", "X22-02", "--registry", "nowhere"]);
    assert!(!run.stderr.contains("written"), "{run}");
}

#[test]
fn folders_made_for_a_registry_that_could_not_be_written_are_taken_away_again() {
    let top = BenchTop::empty();
    // The last name is longer than a file system takes.
    let run = top.run(&["new", &format!("a/b/{}", "c".repeat(300))]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.ends_with("nothing was written\n"), "{run}");
    assert_eq!(fs::read_dir(top.path()).expect("a folder").count(), 0);
}

#[test]
fn what_was_written_before_a_refusal_is_named() {
    let top = BenchTop::sound();
    let marks = [
        "select", "X22-02", "--weigh", "span=1", "--keep", "1", "--apply",
    ];
    let before = top.text(PAGE);
    let run = top.run(&[&marks[..], &["-o", "nowhere/x.csv"]].concat());
    assert_eq!(run.exit, Some(3), "{run}");
    let changed = before != top.text(PAGE);
    let said = if changed {
        "written all the same: crosses/X22-02.ron\n"
    } else {
        "nothing was written\n"
    };
    assert!(run.stderr.ends_with(said), "{run}");
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_cannot_be_shown_does_not_hide_what_was_written() {
    let top = BenchTop::empty();
    let run = top.run_after("true", "> /dev/full", &["new", "my-plants"]);
    assert_eq!(run.exit, Some(4), "{run}");
    assert!(run.stderr.contains("no space left on device"), "{run}");
    assert!(
        run.stderr.ends_with("written all the same: my-plants\n"),
        "{run}"
    );
    assert!(top.path().join("my-plants/registry.ron").exists());
    for asked in ["help", "--version"] {
        let run = top.run_after("true", "> /dev/full", &[asked]);
        assert_eq!(run.exit, Some(3), "{run}");
    }
}

/// The names in a folder that begin as ours do.
#[cfg(target_os = "linux")]
fn ours(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let names = entries.map(|entry| entry.expect("an entry").file_name());
    let names = names.map(|name| name.to_string_lossy().into_owned());
    names.filter(|name| name.starts_with(".podbook-")).collect()
}

#[cfg(target_os = "linux")]
#[test]
fn what_a_killed_run_left_behind_is_found_and_cleared() {
    let top = BenchTop::sound();
    // The system kills a program that writes beyond the limit.
    let write = ["list", "plants", "-o", "plants.csv"];
    let run = top.run_after("ulimit -c 0 && ulimit -f 0", "", &write);
    assert_eq!(run.exit, None, "{run}");
    let left = ours(top.path());
    assert_eq!(left.len(), 1, "{left:?}");
    assert!(!top.path().join("plants.csv").exists());
    let check = top.run(&["check", "--notes"]);
    assert_eq!(check.exit, Some(0), "{check}");
    assert!(
        check.stdout.contains("left-behind") && check.stdout.contains(&left[0]),
        "{check}"
    );
    let unknown = top.run(&["show", "Q1"]);
    assert_eq!(unknown.exit, Some(2), "no page is lost: {unknown}");
    assert_eq!(top.run(&write).exit, Some(0));
    assert_eq!(ours(top.path()), Vec::<String>::new());
    assert!(!top.run(&["check"]).stdout.contains("left-behind"));
}

#[cfg(target_os = "linux")]
#[test]
fn a_killed_beginning_does_not_stand_in_the_way_of_the_next() {
    let top = BenchTop::empty();
    let run = top.run_after("ulimit -c 0 && ulimit -f 0", "", &["new", "."]);
    assert_eq!((run.exit, ours(top.path()).len()), (None, 1), "{run}");
    let left = top.path().join(&ours(top.path())[0]);
    fs::write(left.join("whole/mine.txt"), "of the grower").expect("a file");
    assert_eq!(top.run(&["new", "."]).exit, Some(0));
    assert_eq!(
        fs::read_to_string(left.join("whole/mine.txt")).expect("kept"),
        "of the grower"
    );
    fs::remove_file(left.join("whole/mine.txt")).expect("a file");
    let other = BenchTop::empty();
    other.run_after("ulimit -c 0 && ulimit -f 0", "", &["new", "plants"]);
    assert_eq!(ours(other.path()).len(), 1);
    assert_eq!(other.run(&["new", "plants"]).exit, Some(0));
    assert_eq!(ours(other.path()), Vec::<String>::new());
}

/// What a stopped run left of another lineage is the grower's to remove, and is named.
#[test]
fn a_hidden_folder_beside_a_lineage_is_named() {
    let hidden = ".podbook-AbCdEfGh12345678.new";
    let top = BenchTop::sound()
        .file(&format!("out/{hidden}/hold"), "")
        .file(
            &format!("out/{hidden}/whole/lineage.ron"),
            "of another plant",
        );
    let run = top.run(&["handover", "X22-02-1", "-o", "out/lineage"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let words = format!("out/{hidden} was left by a podbook that was stopped");
    assert!(run.stderr.contains(&words), "{run}");
    assert!(top.path().join("out").join(hidden).exists());
}

/// The sound registry with a page in which one text gives way to another.
fn with_page(path: &str, was: &str, now: &str) -> BenchTop {
    let top = BenchTop::sound();
    let page = fs::read_to_string(top.path().join(path)).expect("the page is there");
    assert!(page.contains(was), "{page}");
    let changed = page.replacen(was, now, 1);
    top.file(path, &changed)
}

#[test]
fn recording_a_code_of_a_page_left_out_names_the_page() {
    let top = with_page(PAGE, "code: \"X22-02\"", "code: \"X22-02");
    for line in [
        "pot X22-02-1 9cm",
        "pot X22-02-1..3 9cm",
        "gone X22-02-3 --died",
        "correct X22-02-1 span 4",
        "count X22-02.W1 --up 20",
    ] {
        let run = top.run(&line.split(' ').collect::<Vec<_>>());
        assert_eq!(run.exit, Some(3), "{run}");
        let page = "crosses/X22-02.ron has a fault, and what it touches was left out";
        assert!(run.stderr.contains(page), "{run}");
        assert!(!run.stderr.contains("there is no"), "{run}");
    }
    let unknown = BenchTop::sound().run(&["pot", "X22-02-9", "9cm"]);
    assert_eq!(unknown.exit, Some(2), "{unknown}");
    assert!(unknown.stderr.contains("there is no plant"), "{unknown}");
}

#[test]
fn a_page_that_is_not_changed_is_named_with_its_line() {
    let top = with_page(PAGE, "confidence: witnessed,", "confidence: witnessed");
    for line in [
        "pot X22-02-1 9cm",
        "treat X22-02-1 watered",
        "move X22-02-1 shelf",
    ] {
        let run = top.run(&line.split(' ').collect::<Vec<_>>());
        assert_eq!(run.exit, Some(3), "{run}");
        for said in [
            "crosses/X22-02.ron:4: a comma is missing",
            "needed: a comma between two values",
            "podbook check",
        ] {
            assert!(run.stderr.contains(said), "{said}\n{run}");
        }
    }
}

#[test]
fn the_cause_comes_before_what_follows_from_it() {
    let top = with_page("registry.ron", "reads: length(cm)", "reads: lenght(cm)");
    let run = top.run(&["check"]);
    let cause = run
        .stdout
        .find("registry.ron:")
        .expect("the cause is shown");
    let follows = run.stdout.find("unknown-trait");
    assert!(follows.is_none_or(|at| cause < at), "{run}");
    let all = top.run(&["check"]);
    let help = "mend registry.ron first: its trait `span` has a fault";
    assert!(all.stdout.contains(help), "{all}");
    let asked = top.run(&["correct", "X22-02-1", "span", "4"]);
    assert!(asked.stderr.contains(help), "{asked}");
    let emptied = BenchTop::sound().file("registry.ron", "").run(&["check"]);
    let first = emptied
        .stdout
        .find("fault ")
        .map(|at| &emptied.stdout[at..]);
    assert!(
        first.is_some_and(|of| of.starts_with("fault empty-file")),
        "{emptied}"
    );
}

/// What is sought may be on a page that could not be read: no answer says that it is not there.
#[test]
fn find_names_the_page_that_could_not_be_read() {
    let top = with_instead(|page| fs::write(page, b"(code: \"X22-02\xff\")").expect("a file"));
    for words in [&["find", "X22-02-1"][..], &["find", "windowsill", "--json"]] {
        let run = top.run(words);
        says_the_page(&run, "line 1 is not UTF-8");
        assert!(run.stdout.is_empty(), "{run}");
    }
    let run = top.run(&["find", "V1"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let run = BenchTop::sound().run(&["find", "windowsill"]);
    assert_eq!(run.exit, Some(0), "{run}");
}

/// An emptied page of founders, or one whose line ends hide all of it, may hold any code.
#[test]
fn an_emptied_page_of_founders_is_no_proof_that_a_founder_is_unknown() {
    let emptied = BenchTop::sound().file("clones.ron", "");
    let founders = BenchTop::sound().text("clones.ron");
    let in_one_line = format!("// founders\r{}", founders.replace('\n', "\r"));
    let of_old = BenchTop::sound().file("clones.ron", &in_one_line);
    for top in [&emptied, &of_old] {
        for question in ["show V1", "collect V1 --on 2024-05-01", "find V1-b"] {
            let words: Vec<&str> = question.split(' ').collect();
            let run = top.run(&words);
            assert_eq!(run.exit, Some(3), "{question}\n{run}");
            assert!(
                run.stderr.contains("clones.ron has a fault"),
                "{question}\n{run}"
            );
        }
    }
    let check = emptied.run(&["check"]);
    let copy = check
        .stdout
        .find("take the file from your copy")
        .expect("the copy is named");
    let deleted = check
        .stdout
        .find("or delete the file")
        .expect("the other way is named");
    assert!(copy < deleted, "{check}");
    let check = of_old.run(&["check"]);
    assert!(
        check.stdout.contains("line ends of old Macs (CR alone)"),
        "{check}"
    );
    assert!(!check.stdout.contains("delete the file"), "{check}");
    let zeros = BenchTop::sound().bytes(PAGE, &[0; 5583]).run(&["check"]);
    assert!(zeros.stdout.contains("found   zero bytes"), "{zeros}");
    assert!(!zeros.stdout.contains("UTF-16"), "{zeros}");
}

/// What stands between the marks of git is in dispute: neither copy is shown, nor the rest of the record around them.
#[test]
fn what_git_could_not_join_is_no_fact() {
    let whole = |rows: &str| {
        format!(
            "(\n    code: \"X22-02\",\n    parents: known(seed: \"V1\", pollen: \"S1\"),\n    seedlings: [\n{rows}    ],\n)\n"
        )
    };
    let between = "<<<<<<< HEAD\n        (number: \"1\", place: \"shelf 2\"),\n=======\n        \
        (number: \"1\", fate: died(on: \"2025-05-30\")),\n>>>>>>> partner\n        (number: \"2\"),\n";
    let within = "        (number: \"1\",\n<<<<<<< HEAD\n            place: \"shelf 2\",\n=======\n            \
        place: \"shelf 3\"),\n        (number: \"3\",\n>>>>>>> partner\n            fate: died(on: \"2025-05-30\")), (number: \"2\"),\n";
    for rows in [between, within] {
        let top = BenchTop::sound().file(PAGE, &whole(rows));
        let check = top.run(&["check"]);
        assert!(
            check
                .stdout
                .contains("fault conflict-marks: git could not join two copies here"),
            "{check}"
        );
        assert_eq!(
            check.stdout.matches("\nfault ").count()
                + usize::from(check.stdout.starts_with("fault ")),
            1,
            "{check}"
        );
        let run = top.run(&["show", "X22-02-1"]);
        assert_eq!(run.exit, Some(3), "{run}");
        assert!(
            run.stderr.contains("crosses/X22-02.ron has a fault"),
            "{run}"
        );
        assert_eq!(top.run(&["show", "X22-02-2"]).exit, Some(0));
        let list = top.run(&["list", "plants", "--cross", "X22-02"]);
        assert!(
            !list.stdout.contains("X22-02-1") && !list.stdout.contains("X22-02-3"),
            "{list}"
        );
        let refused = top.run(&["keep", "X22-02-2", "--why", "red", "--on", "2024-05-30"]);
        assert_eq!(refused.exit, Some(3), "{refused}");
        assert!(
            refused
                .stderr
                .contains("git could not join two copies here"),
            "{refused}"
        );
        assert_eq!(
            refused.stderr.matches("nothing was written").count(),
            1,
            "{refused}"
        );
    }
    let top = BenchTop::sound().file(
        "g.csv",
        "Code,Name\n<<<<<<< HEAD\nA1,N. ventricosa\n=======\nA2,N. ventricosa\n>>>>>>> other\n",
    );
    let run = top.run(&["import", "g.csv"]);
    assert!(run.stderr.contains("git could not join"), "{run}");
    assert_ne!(run.exit, Some(0), "{run}");
}

/// A new code has letters, digits and hyphens, and differs from those on record in more than the form of its letters.
#[test]
fn a_new_code_has_letters_digits_and_hyphens_alone() {
    let top = BenchTop::sound();
    for code in [
        "Spa1+Tru1",
        "=======",
        "a_b",
        "a~",
        "%",
        "#1",
        "@",
        "×",
        "a=1",
    ] {
        let run = top.run(&["add", code, "N. ventricosa"]);
        assert_eq!(run.exit, Some(2), "{code}\n{run}");
        assert!(
            run.stderr.contains("use letters, digits and hyphens alone"),
            "{code}\n{run}"
        );
    }
    for code in ["Müll1", "ネペ1", "कि1"] {
        let run = top.run(&["add", code, "N. ventricosa"]);
        assert_eq!(run.exit, Some(0), "{code}\n{run}");
    }
    let run = top.run(&["show", "Mu\u{308}ll1"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let run = top.run(&["add", "Mu\u{308}ll1", "N. ventricosa"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr.contains("there is a plant Mu\u{308}ll1 already"),
        "{run}"
    );
    let run = top.run(&["add", "mu\u{308}ll1", "N. ventricosa"]);
    assert!(
        run.stderr
            .contains("Müll1 is on record and differs from it only in capitals"),
        "{run}"
    );
    let run = top.run(&["move", "X22-02-1", "Gewächshaus"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let run = top.run(&["list", "plants", "--place", "Gewa\u{308}chshaus"]);
    assert!(run.stdout.contains("X22-02-1"), "{run}");
}

/// What is on record with other signs is read as it stands, and noted.
#[test]
fn a_code_with_signs_on_record_stays() {
    let top = BenchTop::sound().change("clones.ron", "code: \"V1\"", "code: \"V_1\"");
    let top = top.change("crosses/X18-01.ron", "\"V1\"", "\"V_1\"");
    assert_eq!(top.run(&["show", "V_1"]).exit, Some(0));
    let check = top.run(&["check", "--notes"]);
    assert!(
        check
            .stdout
            .contains("note sign-in-code: the code `V_1` holds a sign"),
        "{check}"
    );
    let table = "code,name,place\nV_1,N. ventricosa,shelf 9\nA+1,N. ventricosa,shelf 9\n";
    let top = top.file("g.csv", table);
    let run = top.run(&["import", "g.csv", "--json"]);
    assert!(!run.stdout.contains("V-1"), "{run}");
}

/// What bears the name of the lock and is no file is named; a pipe is not waited for.
#[test]
fn a_pipe_named_as_the_lock_does_not_hang() {
    let top = BenchTop::sound();
    let made = std::process::Command::new("mkfifo")
        .arg(top.path().join(".podbook-lock"))
        .status();
    assert!(made.expect("mkfifo can be run").success());
    assert_eq!(top.run(&["list", "plants"]).exit, Some(0));
    let run = top.run(&["keep", "X22-02-1", "--why", "red", "--on", "2024-05-30"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("`.podbook-lock` in"), "{run}");
    assert!(run.stderr.contains("is not a file"), "{run}");
}

#[test]
fn a_word_that_is_not_utf8_is_answered_in_plain_words() {
    use std::os::unix::ffi::OsStrExt;
    let top = BenchTop::sound();
    let said = std::process::Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(["gone", "X22-02-1", "--died", "--why"])
        .arg(std::ffi::OsStr::from_bytes(b"fr\xffost"))
        .current_dir(top.path())
        .output()
        .expect("it can be run");
    let words = String::from_utf8_lossy(&said.stderr);
    assert_eq!(said.status.code(), Some(2), "{words}");
    assert!(
        words.contains("a word on the command line is not UTF-8"),
        "{words}"
    );
    assert!(!words.contains("Usage"), "{words}");
}

#[test]
fn measure_and_treat_name_the_page_that_could_not_be_read() {
    let top = with_instead(|page| fs::write(page, b"\xff").expect("a file"));
    let run = top.run_with("", &["measure", "X22-02-1", "--traits", "span"]);
    says_the_page(&run, "line 1 is not UTF-8");
    let top = BenchTop::sound().file("registry.ron", "");
    let run = top.run(&["treat", "--place", "shelf 1", "mites", "--on", "2024-05-30"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(
        run.stderr.contains("registry.ron could not be read"),
        "{run}"
    );
}

/// A whole place is a question about every page: a plant on one that could not be read may stand there too.
#[test]
fn a_whole_place_needs_every_page() {
    let page = "crosses/X18-01.ron";
    type Spoil = fn(&[u8]) -> Vec<u8>;
    let spoil: [Spoil; 3] = [
        |bytes| [bytes, b"\xff"].concat(),
        |bytes| {
            [
                b"<<<<<<< HEAD\n",
                bytes,
                b"=======\n",
                bytes,
                b">>>>>>> b\n",
            ]
            .concat()
        },
        |bytes| {
            String::from_utf8_lossy(bytes)
                .replacen("(number: \"1\"", "(number: 1.5, weight", 1)
                .into_bytes()
        },
    ];
    for spoil in spoil {
        let of = ["--place", "shelf 1"];
        for (verb, more) in [
            ("gone", &["--died"][..]),
            ("move", &["shelf 9"]),
            ("treat", &["soap", "--against", "thrips"]),
            ("seen", &[]),
            ("keep", &[]),
        ] {
            let line = [&[verb][..], &of[..], more, &["--today", "2025-06-01"]].concat();
            let top = copied();
            let bytes = fs::read(top.path().join(page)).expect("a page");
            fs::write(top.path().join(page), spoil(&bytes)).expect("a page");
            let run = top.run(&line);
            assert_eq!(run.exit, Some(3), "{run}");
            assert!(
                run.stderr
                    .contains("what stands at shelf 1 is not known in full"),
                "{run}"
            );
            assert!(
                run.stderr.contains(page) && run.stderr.contains("name the plants"),
                "{run}"
            );
            assert!(!top.path().join("journal").exists(), "{run}");
            let named = ask(top.path(), "gone X22-02-5 --died");
            assert_eq!(named.exit, Some(0), "{named}");
        }
    }
}
