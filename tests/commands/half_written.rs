//! Half a change that another computer began: every answer names it, and it is taken back on request.

use crate::bench_top::BenchTop;

/// A registry in which a change has reached its first page only.
fn half() -> (BenchTop, String) {
    let top = BenchTop::sound();
    let was = top.text("clones.ron");
    let now = format!("{was}// half\n");
    let intent = format!(
        "podbook intent 2\nby 10\ngreenhouse\npath 10\nclones.ron\nwas {}\n{was}\nnow {}\n{now}\n\
         path 18\njournal/000001.ron\nwas none\nnow 1\nx\nend\n",
        was.len(),
        now.len()
    );
    let top = top
        .file("clones.ron", &now)
        .file(".podbook-intent", &intent);
    (top, was)
}

#[test]
fn every_answer_names_half_a_change_and_nothing_is_recorded() {
    let (top, _) = half();
    for (question, exit) in [
        (&["list"][..], 0),
        (&["check"], 1),
        (&["keep", "X22-02-1", "--dry-run"], 0),
    ] {
        let run = top.run(question);
        assert_eq!(run.exit, Some(exit), "{run}");
        let words = "what is shown may hold half of a change: its new text stands in clones.ron\n";
        assert!(run.stderr.contains(words), "{run}");
        assert!(run.stderr.contains("`greenhouse` began it"), "{run}");
        assert!(run.stderr.contains("podbook undo --cut-short"), "{run}");
        assert!(!run.stderr.contains("left out"), "{run}");
    }
    let check = top.run(&["check"]);
    assert!(check.stdout.contains("change-cut-short"), "{check}");
    for recording in [&["keep", "X22-02-1"][..], &["undo"]] {
        let run = top.run(recording);
        assert_eq!(run.exit, Some(3), "{run}");
        assert!(run.stderr.contains("undo --cut-short"), "{run}");
    }
    assert!(top.text("clones.ron").ends_with("// half\n"));
}

#[test]
fn it_is_taken_back_when_the_grower_says_so() {
    let (top, was) = half();
    let undone = top.run(&["undo", "--cut-short"]);
    assert_eq!(undone.exit, Some(0), "{undone}");
    assert_eq!(
        undone.stdout,
        "took back a change that was cut short; record it again\n"
    );
    assert_eq!(top.text("clones.ron"), was);
    assert_eq!(top.run(&["check"]).exit, Some(0));
    let again = top.run(&["undo", "--cut-short"]);
    assert_eq!(again.exit, Some(2), "{again}");
    assert!(again.stderr.contains("no change was cut short"), "{again}");
}
