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
    let rows: Vec<&str> = run.stdout.lines().collect();
    assert_eq!(rows, ["plant,with,\"kinship, at least\"", "A1,B1,0.0000"]);
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

/// Without a command the answer is where to begin, and every command in it can be run.
#[test]
fn podbook_alone_is_one_screen() {
    let alone = std::process::Command::new(env!("CARGO_BIN_EXE_podbook")).output();
    let alone = alone.expect("the binary can be run");
    assert_eq!(alone.status.code(), Some(2));
    let said = String::from_utf8_lossy(&alone.stderr);
    assert!(said.lines().count() <= 24, "{said}");
    for line in said.lines().filter(|line| line.starts_with("  podbook ")) {
        let verb = line.split_whitespace().nth(1).expect("a command");
        let help = BenchTop::empty().run(&[verb, "--help"]);
        assert_eq!(help.exit, Some(0), "{help}");
    }
}

/// A species that a label names with a doubt may be in the founder.
#[test]
fn a_doubtful_label_is_perhaps_a_founder_of_its_species() {
    let top = BenchTop::sound().file(
        "clones.ron",
        "(clones: [(code: \"A1\", received: \"N. ventricosa?\"), (code: \"B1\", received: \"N. spathulata\")])",
    );
    let run = top.run(&["album", "-o", "pages"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let page = top.text("pages/species/ventricosa.html");
    assert!(page.contains("perhaps 1 founder"), "{page}");
    assert!(
        top.text("pages/species/spathulata.html")
            .contains("It is in 1 founder")
    );
}

/// The picture of parents that are one of several pairs says that its shares are a mean, which no seedling expects.
#[test]
fn a_picture_of_one_of_several_pairs_is_of_a_mean() {
    let run = crate::demo::demo("parentage X21-05 --format svg");
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(run.stdout.contains("(mean)"), "{run}");
    assert!(run.stdout.contains("expected of none of them"), "{run}");
    let sure = crate::demo::demo("parentage X15-02 --format svg");
    assert!(!sure.stdout.contains("(mean)"), "{sure}");
}

/// The rows of a sheet begin right under what its head says, however few traits are read.
#[test]
fn a_sheet_of_one_trait_leaves_no_band_under_its_head() {
    let run = crate::demo::demo("sheet X22-02 --traits span --format svg");
    let height_of = |word: &str| -> f64 {
        let texts = run.stdout.split("<text ");
        let mut texts = texts.filter(|text| text.contains(&format!(">{word}")));
        let text = texts.next().expect("the words are there");
        let y = text
            .split(" y=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next());
        y.expect("a height").parse().expect("a number")
    };
    let between = height_of("plant<") - height_of("Small print");
    assert!((0.0..40.0).contains(&between), "{between} points");
}
