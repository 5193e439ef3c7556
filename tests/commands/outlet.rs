//! `-o FILE` never harms a registry: every page of it, by whatever name it is reached, stays byte for byte.

use crate::bench_top::{BenchTop, Run};
use std::collections::BTreeMap;
use std::path::Path;

/// Every verb that writes to a file, with a question it can answer.
const VERBS: [&str; 17] = [
    "list plants",
    "list crosses",
    "list pods",
    "siblings X18-01",
    "growth X18-01",
    "variation X18-01 X22-02",
    "parentage X22-02",
    "plan --any-time",
    "pedigree X22-02-1",
    "grade X18-01.W1",
    "select X18-01 --weigh span=1 --keep 1",
    "select X18-01 --weigh span=1 --keep 1 --apply",
    "merit --trait span",
    "kinship V1 X18-01-1",
    "ready",
    "due",
    "find red",
];

/// A sound registry with a page of goals, a faulty page, one that is no text, and one an editor gave its own ending.
fn registry() -> BenchTop {
    let top = BenchTop::sound()
        .file("goals.ron", "(pots: 20)")
        .file("crosses/faulty.ron", "(code: \"X23-01\", parents: ")
        .file("crosses/X24-01.ron.txt", "(code: \"X24-01\")")
        .file("answers/old.csv", "old");
    std::fs::write(top.path().join("crosses/no-text.RON"), b"\xff\xfe(").expect("it is written");
    top
}

/// All files below a folder with their bytes, links not followed.
fn all(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let (mut found, mut folders) = (BTreeMap::new(), vec![folder.to_path_buf()]);
    while let Some(next) = folders.pop() {
        for entry in std::fs::read_dir(next).expect("a folder").flatten() {
            let (path, kind) = (entry.path(), entry.file_type().expect("a kind"));
            let name = path
                .strip_prefix(folder)
                .expect("below")
                .to_string_lossy()
                .into_owned();
            if kind.is_dir() {
                folders.push(path);
            } else if kind.is_symlink() {
                let leads = std::fs::read_link(&path).expect("a link");
                found.insert(name, leads.to_string_lossy().into_owned().into_bytes());
            } else {
                found.insert(name, std::fs::read(path).expect("a file"));
            }
        }
    }
    found
}

fn ask(top: &BenchTop, question: &str, file: &str) -> Run {
    let mut words: Vec<&str> = question.split(' ').collect();
    words.extend(["-o", file]);
    top.run(&words)
}

/// Refused with exit code 2, the file named, and not a byte changed.
fn assert_refused(top: &BenchTop, question: &str, file: &str, told: &str) {
    let before = all(top.path());
    let run = ask(top, question, file);
    assert_eq!(run.exit, Some(2), "{question} -o {file}\n{run}");
    assert!(run.stdout.is_empty(), "{question} -o {file}\n{run}");
    assert!(run.stderr.contains(told), "{question} -o {file}\n{run}");
    assert!(
        before == all(top.path()),
        "{question} -o {file}: a file changed\n{run}"
    );
}

const PAGES: [&str; 9] = [
    "registry.ron",
    "species.ron",
    "clones.ron",
    "pollen.ron",
    "goals.ron",
    "crosses/X18-01.ron",
    "crosses/faulty.ron",
    "crosses/no-text.RON",
    "crosses/X24-01.ron.txt",
];

#[test]
fn no_verb_writes_over_a_page() {
    let top = registry();
    for verb in VERBS {
        let told = "is the registry's page clones.ron: no answer is written over a page";
        assert_refused(&top, &format!("{verb} --format json"), "clones.ron", told);
    }
    for page in PAGES {
        let told =
            format!("{page} is the registry's page {page}: no answer is written over a page");
        assert_refused(&top, "list plants --format text", page, &told);
        let roundabout = format!("answers/../{page}");
        let told = format!("is the registry's page {page}");
        assert_refused(&top, "list plants --format text", &roundabout, &told);
    }
}

#[test]
fn a_new_page_is_no_place_for_an_answer() {
    let top = registry();
    let named = "bears the name of a page of records";
    for file in [
        "new.ron",
        "new.RON",
        "crosses/new.Ron",
        "crosses/deep.ron",
        "answers/new.ron",
        "crosses/new.ron.txt",
        "new.ron.",
    ] {
        assert_refused(&top, "list plants --format text", file, named);
    }
    assert_refused(
        &top,
        "list plants --format text",
        "crosses",
        "crosses is a folder",
    );
    assert_refused(&top, "list plants --format text", ".", ". is a folder");
    let bare = BenchTop::with([("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)")]);
    let told = "is where the registry's cross pages lie";
    assert_refused(&bare, "list plants --format text", "crosses", told);
    // Nor is a page of another registry.
    let other = BenchTop::sound();
    let page = other.path().join("clones.ron");
    let page = page.to_str().expect("a path");
    assert_refused(&top, "list plants --format text", page, named);
    assert!(other.text("clones.ron").contains("ventricosa"));
}

/// The registry may be named from elsewhere; then its folder is not the one the grower stands in.
#[test]
fn the_registry_of_the_run_is_the_one_that_is_kept() {
    let (top, elsewhere) = (registry(), BenchTop::empty());
    let folder = top.path().to_str().expect("a path");
    let before = all(top.path());
    for file in [
        "clones.ron",
        "crosses/no-text.RON",
        "crosses/X24-01.ron.txt",
    ] {
        let path = top.path().join(file);
        let path = path.to_str().expect("a path");
        let run = elsewhere.run(&[
            "list",
            "plants",
            "--registry",
            folder,
            "--format",
            "csv",
            "-o",
            path,
        ]);
        assert_eq!(run.exit, Some(2), "{run}");
        assert!(
            run.stderr.contains(&format!("the registry's page {file}")),
            "{run}"
        );
    }
    let run = elsewhere.run(&["list", "plants", "--registry", folder, "-o", "plants.csv"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(elsewhere.text("plants.csv").starts_with("plant,"), "{run}");
    assert!(before == all(top.path()));
}

#[cfg(unix)]
mod links {
    use super::*;
    use std::os::unix::fs::symlink;

    #[test]
    fn a_link_to_a_page_is_that_page() {
        let top = registry();
        let at = |path: &str| top.path().join(path);
        symlink("clones.ron", at("soft.svg")).expect("a link");
        symlink("soft.svg", at("twice.svg")).expect("a link");
        std::fs::hard_link(at("clones.ron"), at("hard.svg")).expect("a link");
        std::fs::hard_link(at("crosses/faulty.ron"), at("faulty.svg")).expect("a link");
        std::fs::hard_link(at("crosses/X24-01.ron.txt"), at("ending.svg")).expect("a link");
        symlink("crosses", at("pictures")).expect("a link");
        symlink(top.path(), at("answers/home")).expect("a link");
        for (file, page) in [
            ("soft.svg", "clones.ron"),
            ("twice.svg", "clones.ron"),
            ("hard.svg", "clones.ron"),
            ("faulty.svg", "crosses/faulty.ron"),
            ("ending.svg", "crosses/X24-01.ron.txt"),
            ("pictures/X18-01.ron", "crosses/X18-01.ron"),
            ("answers/home/hard.svg", "clones.ron"),
        ] {
            let told = format!("{file} is the registry's page {page}");
            let format = if file.ends_with(".svg") {
                "svg"
            } else {
                "json"
            };
            for verb in ["pedigree X22-02-1", "growth X18-01", "parentage X22-02"] {
                assert_refused(&top, &format!("{verb} --format {format}"), file, &told);
            }
        }
        let named = "bears the name of a page of records";
        assert_refused(&top, "list plants --format text", "pictures/new.ron", named);
        assert_refused(
            &top,
            "list plants --format text",
            "answers/home/new.ron",
            named,
        );
    }

    /// A page may itself be a link to a file that lies elsewhere and is named otherwise.
    #[test]
    fn what_a_page_links_to_is_that_page() {
        let (top, store) = (registry(), BenchTop::with([("kept.txt", "(lots: [])")]));
        let kept = store.path().join("kept.txt");
        std::fs::remove_file(top.path().join("pollen.ron")).expect("it is removed");
        symlink(&kept, top.path().join("pollen.ron")).expect("a link");
        let told = "is the registry's page pollen.ron";
        assert_refused(&top, "list plants", kept.to_str().expect("a path"), told);
        assert_eq!(store.text("kept.txt"), "(lots: [])");
    }

    #[test]
    fn a_link_to_nothing_or_to_itself_is_refused() {
        let top = registry();
        symlink("crosses/X99-01.ron", top.path().join("none.csv")).expect("a link");
        symlink("round.csv", top.path().join("round.csv")).expect("a link");
        assert_refused(
            &top,
            "list plants",
            "none.csv",
            "none.csv is a link to nothing",
        );
        assert_refused(
            &top,
            "list plants",
            "round.csv",
            "round.csv is a link that leads in a circle",
        );
    }

    /// A link to a file that is no page is kept; the file it leads to gets the answer.
    #[test]
    fn other_links_are_written_through() {
        let top = registry();
        symlink("answers/old.csv", top.path().join("latest.csv")).expect("a link");
        let run = ask(&top, "list plants", "latest.csv");
        assert_eq!(run.exit, Some(0), "{run}");
        let link = top
            .path()
            .join("latest.csv")
            .symlink_metadata()
            .expect("it is there");
        assert!(link.is_symlink());
        assert!(top.text("answers/old.csv").starts_with("plant,"));
        let left = all(&top.path().join("answers"));
        assert_eq!(
            left.into_keys().collect::<Vec<_>>(),
            ["old.csv"],
            "nothing lies beside it"
        );
    }

    #[test]
    fn a_device_is_written_to_as_it_is() {
        let run = ask(&registry(), "list plants --format csv", "/dev/null");
        assert_eq!(run.exit, Some(0), "{run}");
    }
}

#[test]
fn what_the_system_refuses_is_told_in_bare_words() {
    let top = registry();
    let run = ask(&top, "list plants", "none/plants.csv");
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(
        run.stderr
            .contains("none/plants.csv could not be written: there is no folder none"),
        "{run}"
    );
    let run = ask(&top, "list plants", "answers/old.csv/plants.csv");
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(!run.stderr.contains(".podbook-"), "{run}");
    assert_eq!(top.text("answers/old.csv"), "old");
}

#[test]
fn no_registry_begins_in_another() {
    let top = registry();
    let before = all(top.path());
    for folder in [".", "crosses"] {
        let run = top.run(&["new", folder]);
        assert_eq!(run.exit, Some(2), "{run}");
    }
    assert!(before == all(top.path()));
}

/// The sound registry with photos that its pages name, in the usual folder and elsewhere, and the hidden files of podbook.
fn with_photos() -> BenchTop {
    let top = registry()
        .file("photos/own.csv", "a photo")
        .file("pictures/v.csv", "a photo");
    let named = r#"(code: "X22-03", parents: unknown, note: "pictures/v.csv", broken "#;
    top.file("crosses/X22-03.ron", named)
        .file(".podbook-lock", "")
        .file(".podbook-devices", "# none")
        .file(".podbook-intent", "")
}

/// What pages name, what undo needs and what podbook keeps for itself stays, however sound the pages are.
#[test]
fn what_a_registry_keeps_beside_its_pages_is_no_place_for_an_answer() {
    let top = with_photos();
    let question = "list plants --format csv";
    std::fs::create_dir_all(top.path().join("photos/deep")).expect("a folder");
    for file in ["photos/own.csv", "photos/new.csv", "photos/deep/new.csv"] {
        assert_refused(&top, question, file, "lies among the registry's photos");
    }
    let told = "journal is where the registry's journal entries lie";
    assert_refused(&top, question, "journal", told);
    assert_refused(
        &top,
        question,
        "crosses/plants.csv",
        "lies among the registry's cross pages",
    );
    let told = "the registry's page crosses/X22-03.ron names pictures/v.csv";
    assert_refused(&top, question, "pictures/v.csv", told);
    for file in [
        ".podbook-lock",
        ".podbook-devices",
        ".podbook-intent",
        ".podbook-new",
    ] {
        assert_refused(
            &top,
            question,
            file,
            "bears a name that podbook keeps for itself",
        );
    }
    assert_eq!(ask(&top, question, "pictures/new.csv").exit, Some(0));
    assert_eq!(ask(&top, question, "answers/old.csv").exit, Some(0));
}

/// No folder is made that would break the registry it stands in, whichever registry was asked about.
#[test]
fn no_folder_takes_the_place_of_what_a_registry_keeps() {
    let top = BenchTop::with([("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)")])
        .file(
            "clones.ron",
            "(clones: [(code: \"V1\", received: \"N. ventricosa\")])",
        )
        .file("species.ron", "(species: [(epithet: \"ventricosa\")])");
    let before = all(top.path());
    for (folder, told) in [
        ("q.ron", "q.ron bears the name of a page of records"),
        (
            "deep/q.ron",
            "deep/q.ron bears the name of a page of records",
        ),
        ("crosses", "crosses is where the registry's cross pages lie"),
        (
            "Journal",
            "Journal is where the registry's journal entries lie",
        ),
        ("photos/", "photos/ is where the registry's photos lie"),
        (
            "journal/q",
            "journal/q lies among the registry's journal entries",
        ),
        ("./crosses/../crosses", "cross pages lie"),
    ] {
        for asked in [&["handover", "V1", "-o"][..], &["album", "-o"], &["new"]] {
            let run = top.run(&[asked, &[folder]].concat());
            assert!(matches!(run.exit, Some(2 | 3)), "{asked:?} {folder}\n{run}");
            assert!(
                run.stderr.contains(told) || folder.starts_with('.'),
                "{asked:?} {folder}: {told}\n{run}"
            );
            assert!(
                run.stderr.contains("nothing was written") || folder.starts_with('.'),
                "{run}"
            );
        }
    }
    assert!(before == all(top.path()));
    std::fs::create_dir(top.path().join("photos")).expect("a folder");
    let run = top.run(&["handover", "V1", "-o", "photos"]);
    assert_eq!(run.exit, Some(2), "{run}");
    let elsewhere = BenchTop::empty();
    let inside = top.path().join("journal");
    let run = elsewhere.run(&["new", inside.to_str().expect("a path")]);
    assert_eq!(run.exit, Some(2), "{run}");
}

/// An archive is made where none is, and beside the folder also where a slash ends its path.
#[test]
fn an_archive_takes_the_place_of_nothing() {
    let top = BenchTop::sound().file("z.zip", "precious");
    let before = all(top.path());
    let run = top.run(&["handover", "V1", "-o", "z", "--zip"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(run.stderr.contains("z.zip is there already"), "{run}");
    assert!(before == all(top.path()));
    let run = top.run(&["handover", "V1", "-o", "y/", "--zip"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(top.path().join("y.zip").is_file(), "{run}");
    assert!(!top.path().join("y/.zip").exists(), "{run}");
    std::fs::create_dir(top.path().join("x")).expect("a folder");
    let there = top.path().join("x/.");
    let run = top.run(&[
        "handover",
        "V1",
        "-o",
        there.to_str().expect("a path"),
        "--zip",
    ]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(top.path().join("x.zip").is_file(), "{run}");
}
