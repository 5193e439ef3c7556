//! `podbook registration`: what is asked for, what is on record of it, and what is left to write by hand.

use crate::bench_top::BenchTop;
use crate::demo::demo;
use insta::assert_snapshot;

#[test]
fn the_draft_says_what_is_on_record_and_what_is_not() {
    assert_snapshot!(
        "registration",
        demo("registration X22-02-5 --epithet 'Dusk'")
    );
    assert_snapshot!(
        "registration-form-of-a-clone",
        demo("registration X18-01-4 --format markdown").stdout
    );
    // The epithet on record is judged too.
    let recorded = demo("registration X18-01-7").stdout;
    assert!(recorded.contains("Wet Tuesday"), "{recorded}");
}

/// The rules are those of `podbook epithet`; a refused one is bad news, and never the title of the form.
#[test]
fn an_epithet_that_cannot_be_used_is_said_to_be_so() {
    let top = BenchTop::sound();
    let run = top.run(&["registration", "X22-02-1", "--epithet", "'Best Ever'"]);
    assert_eq!(run.exit, Some(1), "{run}");
    assert!(run.stdout.contains("cannot be used"), "{run}");
    let asked = [
        "registration",
        "X22-02-1",
        "--epithet",
        "'Best Ever'",
        "--format",
        "markdown",
    ];
    let form = top.run(&asked).stdout;
    let title = form.lines().next().unwrap_or("");
    assert!(!title.contains("Best"), "{title}");
    let refused = top.run(&["registration", "X22-02"]);
    assert_eq!(refused.exit, Some(2), "{refused}");
    assert!(refused.stderr.contains("one clone"), "{refused}");
}

/// Whom plants came from and went to stays at home; text of the records is no mark of the form.
#[test]
fn nothing_private_and_no_foreign_marks_are_on_the_form() {
    let top = BenchTop::with([
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, grower: "a *grower* <b>", note: "secret")"#,
        ),
        (
            "clones.ron",
            r#"(clones: [(code: "V1", received: "N. ventricosa", from: "secret", supplier_code: "secret", papers: "secret",
            locality: "a [valley](x)", note: "secret", kept: (why: "secret"), photos: [(file: "secret.jpg", on: "2020")],
            ramets: [(code: "a", made: original, place: "secret"), (code: "b", from: "a", made: division, fate: sold(on: "2020", to: "secret"))])])"#,
        ),
    ]);
    let form = top
        .run(&["registration", "V1", "--format", "markdown"])
        .stdout;
    assert!(!form.contains("secret"), "{form}");
    assert!(form.contains(r"a \[valley\](x)"), "{form}");
    let top = top.file(
        "crosses/X1.ron",
        r#"(code: "X1", parents: known(seed: "V1", pollen: "?"), seedlings: [(number: "1")])"#,
    );
    let form = top
        .run(&["registration", "X1-1", "--format", "markdown"])
        .stdout;
    assert!(form.contains(r"a \*grower\* &lt;b&gt;"), "{form}");
}
