//! Small answers that said more than is on record, or nothing at all.

use crate::bench_top::BenchTop;

#[test]
fn a_name_of_blanks_is_no_name() {
    let top = BenchTop::sound();
    let page = top
        .text("registry.ron")
        .replacen("(", "(registry: \"  \", ", 1);
    let run = top.file("registry.ron", &page).run(&["check"]);
    assert!(run.stdout.contains("bad-setting"), "{run}");
    assert!(run.stdout.contains("`registry` cannot be this"), "{run}");
}

#[test]
fn two_plants_without_a_common_ancestor_have_a_row() {
    let top = BenchTop::sound().file(
        "clones.ron",
        "(clones: [(code: \"A1\", received: \"N. ventricosa\"), (code: \"B1\", received: \"N. spathulata\")])",
    );
    let run = top.run(&["kinship", "A1", "B1", "--format", "csv"]);
    assert!(run.stdout.contains("A1,0.5000,0.0000"), "{run}");
}

#[test]
fn letters_that_pictures_lack_are_named_at_a_handover() {
    let top = BenchTop::sound().file(
        "clones.ron",
        "(clones: [(code: \"A1\", received: \"N. ventricosa\", nickname: \"ネペ\")])",
    );
    let run = top.run(&["handover", "A1", "-o", "handed"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(
        run.stderr.contains("the typeface of pictures lacks"),
        "{run}"
    );
}

#[test]
fn an_epithet_was_looked_for_in_the_registry_alone() {
    let run = BenchTop::sound().run(&["epithet", "Quarter-Moon"]);
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains("no names but those in your registry were looked through"),
        "{run}"
    );
}
