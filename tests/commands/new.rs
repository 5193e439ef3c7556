//! `podbook new`.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;

#[test]
fn a_new_registry_is_told_with_what_to_do_next() {
    assert_snapshot!(BenchTop::empty().run(&["new", "my-plants"]));
}

#[test]
fn a_new_registry_has_nothing_to_mend() {
    for folder in [
        "my-plants",
        "two words",
        "Kännchen ♀ 豬籠草",
        "a/b/c",
        "it's mine",
    ] {
        let top = BenchTop::empty();
        assert_eq!(top.run(&["new", folder]).exit, Some(0), "{folder}");
        let check = top.run(&["check", "--registry", folder]);
        assert_eq!(check.exit, Some(0), "{folder}");
        assert!(
            check.stdout.starts_with("No problems in 4 files"),
            "{}",
            check.stdout
        );
    }
}

#[test]
fn an_empty_folder_is_filled_in_place() {
    let top = BenchTop::empty();
    assert_eq!(top.run(&["new", "."]).exit, Some(0));
    assert!(top.text("registry.ron").contains("hemisphere: north"));
    assert_eq!(top.run(&["check"]).exit, Some(0));
}

#[test]
fn a_folder_that_is_not_empty_is_refused() {
    let top = BenchTop::empty().file("plants/notes.txt", "mine");
    assert_snapshot!(top.run(&["new", "plants"]));
    assert_eq!(top.text("plants/notes.txt"), "mine");
    assert!(!top.path().join("plants/registry.ron").exists());
}

#[test]
fn a_second_beginning_changes_nothing() {
    let top = BenchTop::empty();
    top.run(&["new", "plants"]);
    let top = top.file("plants/clones.ron", "(clones: [])");
    assert_eq!(top.run(&["new", "plants"]).exit, Some(2));
    assert_eq!(top.text("plants/clones.ron"), "(clones: [])");
}

#[test]
fn a_file_in_the_way_is_refused() {
    assert_snapshot!(
        BenchTop::empty()
            .file("plants", "a list")
            .run(&["new", "plants"])
    );
}

#[test]
fn a_place_that_cannot_be_written_is_told() {
    let top = BenchTop::empty().file("plants", "a list");
    assert_eq!(top.run(&["new", "plants/inside"]).exit, Some(3));
}

#[test]
fn the_answer_comes_as_json() {
    assert_snapshot!(BenchTop::empty().run(&["new", "my-plants", "--json"]));
}
