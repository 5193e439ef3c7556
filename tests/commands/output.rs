//! `--format`, `--json` and `-o FILE`: one rule for every verb.

use crate::demo::{ask, copied};

/// A question and the forms its answer has.
const QUESTIONS: [(&str, &[&str]); 21] = [
    ("siblings X18-01", &["text", "json", "csv", "svg", "png"]),
    (
        "growth X22-02 --pods",
        &["text", "json", "csv", "svg", "png"],
    ),
    (
        "variation X15-02 X22-02",
        &["text", "json", "csv", "svg", "png"],
    ),
    (
        "parentage X22-02 X18-01",
        &["text", "json", "csv", "svg", "png"],
    ),
    ("plan --any-time", &["text", "json", "csv", "svg", "png"]),
    ("pedigree X22-02-5", &["text", "json", "svg", "png", "dot"]),
    ("grade X22-02.S1", &["text", "json", "csv"]),
    (
        "select X22-02 --weigh span=1 --keep 3",
        &["text", "json", "csv", "svg", "png"],
    ),
    ("merit --trait span", &["text", "json", "csv", "svg", "png"]),
    (
        "kinship Ven1 X18-01-3",
        &["text", "json", "csv", "svg", "png"],
    ),
    (
        "kinship Ven1 X18-01-3 X22-02-1",
        &["text", "json", "csv", "svg", "png"],
    ),
    ("kinship --inbreeding", &["text", "json", "csv"]),
    ("diversity", &["text", "json", "csv"]),
    ("ready --on 2022-04-01", &["text", "json", "csv"]),
    ("list plants --alive", &["text", "json", "csv"]),
    ("list crosses", &["text", "json", "csv"]),
    ("list pods", &["text", "json", "csv"]),
    ("list sold", &["text", "json", "csv"]),
    ("due", &["text", "json", "csv", "svg", "png", "ics"]),
    ("show X22-02-5", &["text", "json", "csv", "svg", "png"]),
    ("find ventricosa", &["text", "json", "csv"]),
];
const FORMS: [&str; 7] = ["text", "json", "csv", "svg", "png", "dot", "ics"];

fn ending(form: &str) -> &str {
    if form == "text" { "txt" } else { form }
}

/// How a file of this form begins.
fn looks_like(form: &str, bytes: &[u8]) -> bool {
    let text = String::from_utf8_lossy(bytes);
    match form {
        "json" => serde_json::from_str::<serde_json::Value>(&text).is_ok(),
        "csv" => text.is_empty() || text.lines().next().is_some_and(|line| !line.contains("  ")),
        "svg" => text.contains("<svg"),
        "png" => bytes.starts_with(b"\x89PNG"),
        "dot" => text.starts_with("digraph"),
        "ics" => text.starts_with("BEGIN:VCALENDAR"),
        _ => !text.is_empty(),
    }
}

#[test]
fn the_ending_and_the_format_say_the_same_for_every_verb() {
    let top = copied();
    for (question, forms) in QUESTIONS {
        for form in FORMS {
            let file = format!("answer.{}", ending(form));
            let by_ending = ask(top.path(), &format!("{question} -o {file}"));
            let by_format = ask(top.path(), &format!("{question} --format {form} -o plain"));
            if !forms.contains(&form) {
                for refused in [by_ending, by_format] {
                    assert_eq!(refused.exit, Some(2), "{question} {form}: {refused}");
                    let words = format!("asks for {form}, which this command cannot write");
                    assert!(
                        refused.stderr.contains(&words),
                        "{question} {form}: {refused}"
                    );
                    assert!(refused.stderr.contains("end FILE with .txt"), "{refused}");
                }
                continue;
            }
            assert_eq!(by_ending.exit, Some(0), "{question} {form}: {by_ending}");
            assert!(by_ending.stdout.is_empty() && by_ending.stderr.contains("wrote answer."));
            assert_eq!(by_format.exit, Some(0), "{question} {form}: {by_format}");
            let read = |file: &str| std::fs::read(top.path().join(file)).expect("it was written");
            assert!(looks_like(form, &read(&file)), "{question} {form}");
            assert_eq!(read(&file), read("plain"), "{question} {form}");
        }
    }
}

#[test]
fn what_disagrees_is_refused_with_one_message() {
    let top = copied();
    for (question, _) in QUESTIONS {
        for (more, words) in [
            (
                "--json --format text",
                "--json and --format text ask for two formats",
            ),
            (
                "--format text -o x.json",
                "--format text and the ending of x.json ask for two formats",
            ),
            (
                "--json -o x.txt",
                "--json and the ending of x.txt ask for two formats",
            ),
            (
                "-o x.bmp",
                "the ending of x.bmp is not a format podbook knows",
            ),
            ("-o x", "the ending of x is not a format podbook knows"),
        ] {
            let run = ask(top.path(), &format!("{question} {more}"));
            assert_eq!(run.exit, Some(2), "{question} {more}: {run}");
            assert!(run.stderr.contains(words), "{question} {more}: {run}");
            assert!(!top.path().join("x.json").exists() && !top.path().join("x").exists());
        }
    }
}

#[test]
fn a_form_that_cannot_be_is_refused_before_anything_is_marked() {
    let top = copied();
    let before = top.text("crosses/X22-02.ron");
    let run = ask(
        top.path(),
        "select X22-02 --weigh span=1 --keep 3 --apply -o x.dot",
    );
    assert_eq!(run.exit, Some(2), "{run}");
    assert_eq!(before, top.text("crosses/X22-02.ron"));
}

#[test]
fn a_layout_for_a_phone_is_of_pictures_only() {
    let top = copied();
    let select = "select X22-02 --weigh span=1 --weigh banding=1 --keep 3";
    for question in [
        "siblings X22-02",
        "growth X22-02",
        select,
        "merit --trait span",
        "kinship X22-02-5 X18-01-4 Spa1",
        "due --within 6m",
        "show X22-02-5",
    ] {
        let run = ask(top.path(), &format!("{question} --for phone"));
        assert_eq!(run.exit, Some(2), "{run}");
        assert!(
            run.stderr.contains("--for phone lays out a picture"),
            "{run}"
        );
        let run = ask(top.path(), &format!("{question} --for phone -o x.svg"));
        assert_eq!(run.exit, Some(0), "{run}");
        assert!(top.text("x.svg").contains("width=\"360"), "{question}");
    }
    let many = "select X22-02 X18-01 --weigh span=1 --weigh banding=1 --scatter -o y.svg";
    let run = ask(top.path(), many);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(run.stderr.contains("one cross, pod or sowing"), "{run}");
}
