//! Several files changed together: exactly as they were, or exactly as they are to be, whatever fails and whenever the
//! program ends.

use podbook::text::commit::{
    FileChange, Hold, PutRight, Uncommitted, commit, put_right, unsettled,
};
use podbook::text::{NoFailures, Sources, Steps, WhyUnwritten};
use std::cell::Cell;
use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

/// Fails some of the steps, by their number.
struct Failing<F: Fn(usize) -> bool> {
    step: Cell<usize>,
    fails: F,
}

impl<F: Fn(usize) -> bool> Steps for Failing<F> {
    fn before(&self, _: &'static str, _: &str) -> io::Result<()> {
        let step = self.step.get();
        self.step.set(step + 1);
        match (self.fails)(step) {
            true => Err(io::Error::other("no space left on device")),
            false => Ok(()),
        }
    }
}

fn failing<F: Fn(usize) -> bool>(fails: F) -> Failing<F> {
    Failing {
        step: Cell::new(0),
        fails,
    }
}

/// Ends the program at one of the steps.
struct Ending(Cell<usize>);

impl Steps for Ending {
    fn before(&self, _: &'static str, _: &str) -> io::Result<()> {
        let left = self.0.get();
        assert!(left > 0, "ended here");
        self.0.set(left - 1);
        Ok(())
    }
}

/// Every file of a folder but the lock, by path.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.file_name().unwrap() != ".podbook-lock" {
                let name = path.strip_prefix(folder).unwrap().to_str().unwrap();
                found.insert(name.replace('\\', "/"), fs::read(&path).unwrap());
            }
        }
    }
    found
}

fn change(path: &str, was: Option<&str>, now: Option<&str>) -> FileChange {
    let bytes = |text: &str| text.as_bytes().to_vec();
    FileChange {
        path: path.to_owned(),
        was: was.map(bytes),
        now: now.map(bytes),
    }
}

/// A registry of three pages, and a change that replaces two, begins one, takes one away and writes its own entry.
fn example() -> (tempfile::TempDir, Vec<FileChange>) {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("crosses")).unwrap();
    for (path, text) in [
        ("clones.ron", "[1]"),
        ("crosses/A.ron", "[2]"),
        ("crosses/B.ron", "[3]"),
    ] {
        fs::write(folder.path().join(path), text).unwrap();
    }
    let changes = vec![
        change("clones.ron", Some("[1]"), Some("[10]")),
        change("crosses/A.ron", Some("[2]"), Some("[20]")),
        change("crosses/B.ron", Some("[3]"), None),
        change("crosses/C.ron", None, Some("[40]")),
        change("journal/000001.ron", None, Some("(change: 1)")),
    ];
    (folder, changes)
}

fn hold(folder: &Path) -> Hold {
    Hold::to_write(folder).unwrap()
}

/// How many steps the example takes.
fn steps_of_the_example() -> usize {
    let (folder, changes) = example();
    let counting = failing(|_| false);
    commit(&hold(folder.path()), &changes, &counting).unwrap();
    counting.step.get()
}

fn made(changes: &[FileChange], before: &BTreeMap<String, Vec<u8>>) -> BTreeMap<String, Vec<u8>> {
    let mut after = before.clone();
    for change in changes {
        match &change.now {
            Some(now) => drop(after.insert(change.path.clone(), now.clone())),
            None => drop(after.remove(&change.path)),
        }
    }
    after
}

#[test]
fn all_files_are_written_and_nothing_else_is_left() {
    let (folder, changes) = example();
    let before = files(folder.path());
    commit(&hold(folder.path()), &changes, &NoFailures).unwrap();
    assert_eq!(files(folder.path()), made(&changes, &before));
    assert!(!unsettled(folder.path()));
}

#[test]
fn whichever_step_fails_the_files_are_as_they_were_or_all_new_and_the_answer_says_which() {
    let steps = steps_of_the_example();
    assert!(steps > 20, "{steps}");
    let mut refused = 0;
    for failed in 0..steps {
        let (folder, changes) = example();
        let before = files(folder.path());
        let held = hold(folder.path());
        match commit(&held, &changes, &failing(|step| step == failed)) {
            Ok(()) => assert_eq!(
                files(folder.path()),
                made(&changes, &before),
                "step {failed}"
            ),
            Err(Uncommitted::Nothing(_)) => {
                refused += 1;
                put_right(&held, &NoFailures).unwrap();
                assert_eq!(files(folder.path()), before, "step {failed}");
            }
            Err(Uncommitted::Unsettled(_)) => {
                put_right(&held, &NoFailures).unwrap();
                assert_eq!(
                    files(folder.path()),
                    made(&changes, &before),
                    "step {failed}"
                );
            }
            Err(Uncommitted::HalfWay { .. }) => {
                panic!("one failing step was not taken back: {failed}")
            }
        }
    }
    assert!(refused > 15, "{refused}");
}

#[test]
fn when_everything_fails_from_a_step_on_the_next_one_puts_the_files_back() {
    let mut half_way = 0;
    for failed in 0..steps_of_the_example() {
        let (folder, changes) = example();
        let before = files(folder.path());
        let held = hold(folder.path());
        let outcome = commit(&held, &changes, &failing(|step| step >= failed));
        if let Err(Uncommitted::HalfWay { left, .. }) = &outcome {
            half_way += 1;
            assert!(!left.is_empty());
            assert!(unsettled(folder.path()));
        }
        let is_new = matches!(outcome, Err(Uncommitted::Unsettled(_)));
        put_right(&held, &NoFailures).unwrap();
        let wanted = if is_new {
            made(&changes, &before)
        } else {
            before
        };
        assert_eq!(files(folder.path()), wanted, "step {failed}");
    }
    assert!(half_way > 3, "{half_way}");
}

#[test]
fn ended_at_any_step_the_next_one_finds_all_old_or_all_new() {
    let (mut old, mut new) = (0, 0);
    for end in 0..steps_of_the_example() {
        let (folder, changes) = example();
        let before = files(folder.path());
        let held = hold(folder.path());
        let ending = Ending(Cell::new(end));
        let ended = catch_unwind(AssertUnwindSafe(|| commit(&held, &changes, &ending)));
        assert!(ended.is_err(), "step {end}");
        drop(held);
        put_right(&hold(folder.path()), &NoFailures).unwrap();
        let found = files(folder.path());
        match found == before {
            true => old += 1,
            false => {
                assert_eq!(found, made(&changes, &before), "step {end}");
                new += 1;
            }
        }
    }
    assert!(old > 10 && new > 0, "{old} old, {new} new");
}

#[test]
fn ended_while_putting_right_the_next_one_goes_on() {
    for first in [12, 18, 22] {
        for second in 0..12 {
            let (folder, changes) = example();
            let before = files(folder.path());
            let held = hold(folder.path());
            let ending = Ending(Cell::new(first));
            let _ = catch_unwind(AssertUnwindSafe(|| commit(&held, &changes, &ending)));
            let ending = Ending(Cell::new(second));
            let _ = catch_unwind(AssertUnwindSafe(|| put_right(&held, &ending)));
            put_right(&held, &NoFailures).unwrap();
            let found = files(folder.path());
            assert!(
                found == before || found == made(&changes, &before),
                "{first}, {second}"
            );
        }
    }
}

#[test]
fn a_page_edited_after_the_end_is_left_alone_and_named() {
    // After the second page was replaced.
    let (folder, changes) = example();
    let held = hold(folder.path());
    let mut end = 0;
    loop {
        let _ = catch_unwind(AssertUnwindSafe(|| {
            commit(&held, &changes, &Ending(Cell::new(end)))
        }));
        if fs::read(folder.path().join("crosses/A.ron")).unwrap() == b"[20]" {
            break;
        }
        put_right(&held, &NoFailures).unwrap();
        end += 1;
    }
    fs::write(folder.path().join("crosses/A.ron"), "[20, 21]").unwrap();
    let told = put_right(&held, &NoFailures).unwrap();
    assert_eq!(
        told,
        PutRight::TakenBack {
            left_alone: vec!["crosses/A.ron".to_owned()]
        }
    );
    assert_eq!(
        fs::read(folder.path().join("crosses/A.ron")).unwrap(),
        b"[20, 21]"
    );
    assert_eq!(fs::read(folder.path().join("clones.ron")).unwrap(), b"[1]");
    assert!(!folder.path().join("crosses/C.ron").exists());
}

#[cfg(unix)]
#[test]
fn an_intent_of_others_making_is_not_obeyed() {
    use podbook::text::commit::{begun, put_right_anyway};
    let outside = tempfile::tempdir().unwrap();
    let registry = outside.path().join("registry");
    fs::create_dir(&registry).unwrap();
    fs::write(outside.path().join("x"), "now").unwrap();
    let name = std::process::Command::new("uname")
        .arg("-n")
        .output()
        .unwrap();
    let name = String::from_utf8(name.stdout).unwrap();
    let ours = format!("podbook intent 2\nby {}\n{name}", name.trim_end().len());
    // A page that a link leads to, a file beside the pages, a folder beside them.
    std::os::unix::fs::symlink(outside.path(), registry.join("link")).unwrap();
    for text in [
        "path 8\n../x.ron\nwas 3\nwas\nnow 3\nnow\nend\n",
        "path 10\nlink/x.ron\nwas none\nnow 3\nnow\nend\n",
        "path 1\nx\nwas none\nnow none\nend\n",
        "path 12\ncrosses/../x\nwas none\nnow none\nend\n",
        "path 7\n./x.ron\nwas none\nnow none\nend\n",
        "path 1\nx\nwas 9999999999\n",
        "path none\nwas none\nnow none\nend\n",
        "end",
    ] {
        fs::write(registry.join(".podbook-intent"), format!("{ours}{text}")).unwrap();
        assert_eq!(
            put_right(&hold(&registry), &NoFailures),
            Err(WhyUnwritten::NoIntent),
            "{text}"
        );
        assert_eq!(fs::read(outside.path().join("x")).unwrap(), b"now");
        assert!(!outside.path().join("x.ron").exists());
    }
    for text in ["", "podbook intent 1\nend\n", "podbook intent 2\nend\n"] {
        fs::write(registry.join(".podbook-intent"), text).unwrap();
        let found = put_right(&hold(&registry), &NoFailures);
        assert_eq!(found, Err(WhyUnwritten::NoIntent), "{text}");
    }
    // A folder, or a link to nothing.
    let intent = registry.join(".podbook-intent");
    fs::remove_file(&intent).unwrap();
    fs::create_dir(&intent).unwrap();
    let found = put_right(&hold(&registry), &NoFailures);
    assert_eq!(found, Err(WhyUnwritten::NoIntent));
    fs::remove_dir(&intent).unwrap();
    std::os::unix::fs::symlink("nothing", &intent).unwrap();
    let found = put_right(&hold(&registry), &NoFailures);
    assert_eq!(found, Err(WhyUnwritten::NoIntent));
    fs::remove_file(&intent).unwrap();
    // The same of this computer's making is put right; of another's it waits.
    fs::write(registry.join("A.ron"), "new").unwrap();
    let text = "path 5\nA.ron\nwas 3\nold\nnow 3\nnew\npath 5\nB.ron\nwas none\nnow 1\nb\nend\n";
    let other = format!("podbook intent 2\nby 5\nbench\n{text}");
    fs::write(registry.join(".podbook-intent"), other).unwrap();
    let found = put_right(&hold(&registry), &NoFailures);
    assert_eq!(found, Err(WhyUnwritten::OtherComputer("bench".to_owned())));
    assert_eq!(fs::read(registry.join("A.ron")).unwrap(), b"new");
    assert_eq!(begun(&registry), ["A.ron"]);
    fs::write(registry.join(".podbook-intent"), format!("{ours}{text}")).unwrap();
    let found = put_right(&hold(&registry), &NoFailures);
    let back = PutRight::TakenBack {
        left_alone: Vec::new(),
    };
    assert_eq!(found, Ok(back.clone()));
    assert_eq!(fs::read(registry.join("A.ron")).unwrap(), b"old");
    // And another's when the grower says that no podbook is writing there.
    fs::write(registry.join("A.ron"), "new").unwrap();
    let other = format!("podbook intent 2\nby 5\nbench\n{text}");
    fs::write(registry.join(".podbook-intent"), other).unwrap();
    let found = put_right_anyway(&hold(&registry), &NoFailures);
    assert_eq!(found, Ok(back));
    assert_eq!(fs::read(registry.join("A.ron")).unwrap(), b"old");
    assert!(!unsettled(&registry));
}

/// Does something at the first step of a kind on a file.
#[cfg(unix)]
struct At<'d>(&'static str, &'d str, Cell<bool>, &'d dyn Fn());

#[cfg(unix)]
impl Steps for At<'_> {
    fn before(&self, step: &'static str, name: &str) -> io::Result<()> {
        if step == self.0 && name == self.1 && !self.2.replace(true) {
            (self.3)();
        }
        Ok(())
    }
}

#[cfg(unix)]
#[test]
fn a_lock_that_went_away_is_noticed_before_anything_is_written() {
    let (folder, changes) = example();
    let before = files(folder.path());
    let lock = folder.path().join(".podbook-lock");
    for another in [false, true] {
        let held = hold(folder.path());
        fs::remove_file(&lock).unwrap();
        if another {
            fs::write(&lock, "").unwrap();
        }
        let found = commit(&held, &changes, &NoFailures);
        let lost = matches!(&found, Err(Uncommitted::Nothing(of)) if of.path == ".podbook-lock" && of.why == WhyUnwritten::LockLost);
        assert!(lost, "{found:?}");
        assert_eq!(files(folder.path()), before);
    }
    commit(&hold(folder.path()), &changes, &NoFailures).unwrap();
}

#[cfg(unix)]
#[test]
fn a_change_that_another_program_took_back_meanwhile_is_not_answered_as_made() {
    let (folder, changes) = example();
    let before = files(folder.path());
    let takes_back = || {
        fs::write(folder.path().join("clones.ron"), "[1]").unwrap();
        fs::remove_file(folder.path().join(".podbook-intent")).unwrap();
    };
    let meanwhile = At("rename", "000001.ron", Cell::new(false), &takes_back);
    let found = commit(&hold(folder.path()), &changes, &meanwhile);
    let told = matches!(&found, Err(Uncommitted::Nothing(of)) if of.path == "clones.ron" && of.why == WhyUnwritten::GivenBack);
    assert!(told, "{found:?}");
    assert_eq!(files(folder.path()), before);
}

#[cfg(unix)]
#[test]
fn an_intent_that_is_anothers_by_now_stays() {
    let (folder, changes) = example();
    let before = files(folder.path());
    let intent = folder.path().join(".podbook-intent");
    let writes_another = || {
        fs::remove_file(&intent).unwrap();
        fs::write(&intent, "another's").unwrap();
    };
    let meanwhile = At("rename", "000001.ron", Cell::new(false), &writes_another);
    commit(&hold(folder.path()), &changes, &meanwhile).unwrap();
    assert_eq!(fs::read(&intent).unwrap(), b"another's");
    fs::remove_file(&intent).unwrap();
    assert_eq!(files(folder.path()), made(&changes, &before));
    // One that is there already is not written over.
    fs::write(&intent, "another's").unwrap();
    let next = [change("clones.ron", Some("[10]"), Some("[11]"))];
    let found = commit(&hold(folder.path()), &next, &NoFailures);
    let refused =
        matches!(&found, Err(Uncommitted::Nothing(of)) if of.why == WhyUnwritten::BeingWritten);
    assert!(refused, "{found:?}");
    assert_eq!(fs::read(&intent).unwrap(), b"another's");
}

/// Whoever holds the registry, since its lock went away, still sees the lock of the writer on the intent.
#[test]
fn a_change_that_is_being_written_is_waited_for_and_not_taken_back() {
    let (folder, changes) = example();
    let held = hold(folder.path());
    let ending = Ending(Cell::new(18));
    let _ = catch_unwind(AssertUnwindSafe(|| commit(&held, &changes, &ending)));
    let intent = folder.path().join(".podbook-intent");
    let mut half = files(folder.path());
    half.remove(".podbook-intent").unwrap();
    let writer = fs::File::open(&intent).unwrap();
    writer.lock().unwrap();
    std::thread::scope(|scope| {
        scope.spawn(|| {
            std::thread::sleep(std::time::Duration::from_millis(300));
            fs::remove_file(&intent).unwrap();
            drop(writer);
        });
        assert_eq!(put_right(&held, &NoFailures), Ok(PutRight::Nothing));
    });
    assert_eq!(files(folder.path()), half);
}

#[test]
fn readers_and_a_writer_of_one_process_keep_out_of_each_others_way() {
    let (folder, _) = example();
    // No lock is there yet, so that only the process can know.
    let reader = Hold::to_read(folder.path()).unwrap();
    assert!(!reader.is_locked());
    drop(Hold::to_read(folder.path()).unwrap());
    let place = folder.path();
    let (wrote, written) = std::sync::mpsc::channel();
    std::thread::scope(|scope| {
        scope.spawn(move || wrote.send(hold(place).is_locked()).unwrap());
        std::thread::sleep(std::time::Duration::from_millis(100));
        assert!(written.try_recv().is_err());
        drop(reader);
        assert_eq!(written.recv(), Ok(true));
    });
}

#[test]
fn a_file_changed_or_gone_since_is_not_overwritten() {
    let (folder, changes) = example();
    fs::write(folder.path().join("crosses/A.ron"), "[2, 2]").unwrap();
    let before = files(folder.path());
    let why = |found: Result<(), Uncommitted>| match found {
        Err(Uncommitted::Nothing(unwritten)) => (unwritten.path, unwritten.why),
        other => panic!("{other:?}"),
    };
    let held = hold(folder.path());
    let found = why(commit(&held, &changes, &NoFailures));
    assert_eq!(found, ("crosses/A.ron".to_owned(), WhyUnwritten::Changed));
    assert_eq!(files(folder.path()), before);
    fs::remove_file(folder.path().join("crosses/A.ron")).unwrap();
    assert_eq!(
        why(commit(&held, &changes, &NoFailures)).1,
        WhyUnwritten::Changed
    );
    let taken = [change("clones.ron", None, Some("[]"))];
    assert_eq!(
        why(commit(&held, &taken, &NoFailures)).1,
        WhyUnwritten::Exists
    );
    for path in ["../x.ron", "/x.ron", "", "crosses/../../x.ron"] {
        let outside = [change(path, None, Some("[]"))];
        assert_eq!(
            why(commit(&held, &outside, &NoFailures)).1,
            WhyUnwritten::Outside,
            "{path}"
        );
    }
}

/// An editor that saves a page at the last moment before it is replaced or taken away.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
struct Saving<'p>(&'static str, &'p str, &'p Path);

#[cfg(any(target_os = "linux", target_vendor = "apple"))]
impl Steps for Saving<'_> {
    fn before(&self, step: &'static str, name: &str) -> io::Result<()> {
        if step == self.0 && name == self.1 {
            fs::write(self.2, "[2, 2]")?;
        }
        Ok(())
    }
}

#[cfg(any(target_os = "linux", target_vendor = "apple"))]
#[test]
fn what_is_saved_at_the_last_moment_is_kept() {
    for (step, name) in [("rename", "A.ron"), ("remove", "B.ron")] {
        let (folder, changes) = example();
        let page = folder.path().join("crosses").join(name);
        let mut before = files(folder.path());
        let found = commit(&hold(folder.path()), &changes, &Saving(step, name, &page));
        let is_changed = matches!(&found, Err(Uncommitted::Nothing(unwritten)) if unwritten.why == WhyUnwritten::Changed);
        assert!(is_changed, "{found:?}");
        before.insert(format!("crosses/{name}"), b"[2, 2]".to_vec());
        assert_eq!(files(folder.path()), before, "{step}");
    }
}

#[test]
fn the_byte_order_mark_of_a_page_is_kept() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("clones.ron"), "\u{feff}[1]\r\n").unwrap();
    let sources = Sources::read(folder.path());
    let page = sources.get(sources.find("clones.ron").unwrap());
    let change = FileChange {
        path: "clones.ron".to_owned(),
        was: Some(page.as_marked(&page.text)),
        now: Some(page.as_marked("[2]\r\n")),
    };
    commit(&hold(folder.path()), &[change], &NoFailures).unwrap();
    assert_eq!(
        fs::read(folder.path().join("clones.ron")).unwrap(),
        "\u{feff}[2]\r\n".as_bytes()
    );
}

/// Tags and colours of a file manager stay on a page that is replaced; a disk that keeps none is no fault.
#[cfg(target_os = "linux")]
#[test]
fn extended_attributes_are_kept() {
    use rustix::fs::{XattrFlags, getxattr, setxattr};
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let page = folder.path().join("clones.ron");
    fs::write(&page, "[1]").unwrap();
    let tags = [("user.xdg.tags", &b"red,to move"[..]), ("user.empty", b"")];
    let can = (tags.iter())
        .all(|(name, value)| setxattr(&page, *name, value, XattrFlags::empty()).is_ok());
    let replaced = change("clones.ron", Some("[1]"), Some("[2]"));
    commit(&hold(folder.path()), &[replaced], &NoFailures).unwrap();
    assert_eq!(fs::read(&page).unwrap(), b"[2]");
    for (name, value) in tags.iter().filter(|_| can) {
        let mut found = [0; 64];
        let length = getxattr(&page, *name, &mut found[..]).unwrap();
        assert_eq!(&found[..length], *value, "{name}");
    }
}

#[cfg(unix)]
#[test]
fn permissions_and_links_are_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let (real, link) = (
        folder.path().join("clones.ron"),
        folder.path().join("species.ron"),
    );
    fs::write(&real, "[1]").unwrap();
    std::os::unix::fs::symlink("clones.ron", &link).unwrap();
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).unwrap();
    let held = hold(folder.path());
    let through = change("species.ron", Some("[1]"), Some("[2]"));
    commit(&held, &[through], &NoFailures).unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::read(&real).unwrap(), b"[2]");
    assert_eq!(
        fs::metadata(&real).unwrap().permissions().mode() & 0o777,
        0o640
    );
    fs::set_permissions(&real, fs::Permissions::from_mode(0o440)).unwrap();
    let refused = commit(
        &held,
        &[change("species.ron", Some("[2]"), Some("[3]"))],
        &NoFailures,
    );
    assert!(
        matches!(&refused, Err(Uncommitted::Nothing(unwritten)) if unwritten.why == WhyUnwritten::Protected),
        "{refused:?}"
    );
    assert_eq!(fs::read(&real).unwrap(), b"[2]");
}

/// Two accounts may share a registry.
#[cfg(unix)]
#[test]
fn a_new_folder_is_open_to_those_who_may_write_around_it() {
    use std::os::unix::fs::PermissionsExt;
    for mode in [0o777, 0o700] {
        let (folder, changes) = example();
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(mode)).unwrap();
        commit(&hold(folder.path()), &changes, &NoFailures).unwrap();
        let journal = fs::metadata(folder.path().join("journal")).unwrap();
        assert_eq!(journal.permissions().mode() & 0o777, mode);
    }
}

#[test]
fn eight_writers_lose_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let page = folder.path().join("clones.ron");
    fs::write(&page, "").unwrap();
    std::thread::scope(|scope| {
        for writer in 0..8 {
            let (folder, page) = (folder.path(), &page);
            scope.spawn(move || {
                for line in 0..25 {
                    let held = Hold::to_write(folder).unwrap();
                    let was = fs::read(page).unwrap();
                    let now = [&was[..], format!("{writer} {line}\n").as_bytes()].concat();
                    let change = FileChange {
                        path: "clones.ron".to_owned(),
                        was: Some(was),
                        now: Some(now),
                    };
                    commit(&held, &[change], &NoFailures).unwrap();
                }
            });
        }
    });
    let text = fs::read_to_string(&page).unwrap();
    let lines: std::collections::BTreeSet<&str> = text.lines().collect();
    assert_eq!((text.lines().count(), lines.len()), (200, 200));
}
