//! No text of a registry, of the arguments or of a file's name reaches an output raw, and each can still be recognised.
//!
//! Every payload stands in every field of text, and every verb is asked in every form it has. What comes out is read as
//! another program would read it ([`readers`]).

mod list;
mod readers;
mod registry;

use crate::bench_top::{BenchTop, Run};
use list::{PAYLOADS, recorded, seen, tight};
use registry::{code, faulty, nasty};

/// Everything one form of output said, run by run.
#[derive(Default)]
struct FreeText(String);

impl FreeText {
    /// The payloads that cannot be recognised in it.
    fn lost(&self) -> Vec<usize> {
        let all = tight(&self.0);
        (0..PAYLOADS.len())
            .filter(|at| !all.contains(&tight(&seen(*at))))
            .collect()
    }

    fn add(&mut self, question: &[&str], read: Result<String, String>) {
        match read {
            Ok(text) => self.0.push_str(&format!("{text}\n")),
            Err(fault) => panic!("{question:?}: {fault}"),
        }
    }
}

/// Asks in a width at which no payload is folded, and holds standard error to the rule of a terminal.
fn ask(top: &BenchTop, question: &[&str]) -> Run {
    let mut words = question.to_vec();
    words.extend(["--width", "400"]);
    let run = top.run_without_width(&words);
    assert_eq!(
        readers::raw(&run.stderr, &['\n']),
        None,
        "{question:?} on standard error"
    );
    assert!(matches!(run.exit, Some(0..=3)), "{question:?}: {run}");
    run
}

/// All codes of plants and crosses, each named once.
fn codes() -> Vec<String> {
    let each = |form: &dyn Fn(usize) -> String| (0..PAYLOADS.len()).map(form).collect::<Vec<_>>();
    [
        each(&code),
        each(&|at| format!("X20-{at:02}-1")),
        each(&|at| format!("X20-{at:02}")),
        each(&|at| format!("X21-{at:02}-1")),
        each(&|at| format!("X21-{at:02}")),
        vec!["V1".into(), "X23-01-1".into()],
    ]
    .concat()
}

/// A question to all plants and crosses at once.
fn of_all<'c>(verb: &[&'c str], codes: &'c [String]) -> Vec<&'c str> {
    let codes = codes.iter().map(String::as_str);
    verb.iter().copied().chain(codes).collect()
}

/// Questions with a text, a table and data as answers.
fn questions() -> Vec<Vec<&'static str>> {
    [
        "list plants",
        "list plants --gone",
        "list plants --kept",
        "list crosses",
        "list pods",
        "siblings X20-06",
        "siblings X20-13",
        "siblings X20-24 --trait t24",
        "siblings X20-00 X20-05",
        "growth X20-31 X20-34",
        "growth X20-06 --pods",
        "variation X20-06 X20-13",
        "parentage X20-06 X21-00 X23-01",
        "plan --any-time --steps 200",
        "grade X20-06.S1",
        "select X20-06 X20-24 --weigh span=1 --keep 2",
        "select X20-06 --need t06=1 --keep 2",
        "merit --trait span",
        "kinship V1 X20-06-1 X20-13-2",
        "kinship --inbreeding",
        "diversity",
        "ready --on 2024-05-22",
        "due --within 9m",
        "find a",
    ]
    .iter()
    .map(|words| words.split(' ').collect())
    .collect()
}

#[test]
fn nothing_raw_reaches_a_terminal() {
    let (top, codes) = (nasty(), codes());
    let mut said = FreeText::default();
    let mut more = vec![
        vec!["check"],
        of_all(&["show"], &codes),
        of_all(&["name"], &codes),
        of_all(&["name", "--style", "ascii"], &codes),
        of_all(&["name", "--fit", "60"], &codes),
        vec!["pedigree", "X23-01-1"],
        vec!["pedigree", "V1", "--down"],
        vec!["pair", "X20-06-1", "L06"],
        vec!["show", "genusaa"],
    ];
    more.extend(questions());
    let lots: Vec<String> = (0..PAYLOADS.len()).map(|at| format!("L{at:02}")).collect();
    more.push(of_all(&["show"], &lots));
    for question in more {
        let run = ask(&top, &question);
        assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{question:?}");
        said.add(&question, Ok(run.stdout));
    }
    assert_eq!(said.lost(), [0; 0], "payloads that cannot be recognised");
}

#[test]
fn nothing_raw_reaches_a_terminal_from_a_registry_at_fault() {
    let top = faulty();
    for question in [
        &["check"][..],
        &["check", "--json"],
        &["list", "plants"],
        &["list", "crosses"],
        &["show", "X20-06"],
    ] {
        let run = ask(&top, question);
        assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{question:?}");
    }
    let run = ask(&top, &["check", "--colour", "always"]);
    let colours = ["1;31", "1;33", "1;36", "34", "32", "1", "0"];
    let bare = colours.iter().fold(run.stdout, |text, colour| {
        text.replace(&format!("\u{1b}[{colour}m"), "")
    });
    assert_eq!(readers::raw(&bare, &['\n']), None, "check in colours");
}

#[test]
fn json_is_lossless_and_safe_to_show() {
    let (top, codes) = (nasty(), codes());
    let mut all = String::new();
    let mut more = vec![
        vec!["check", "--json"],
        of_all(&["show", "--json"], &codes),
        of_all(&["name", "--json"], &codes),
        vec!["pedigree", "X23-01-1", "--json"],
        vec!["export", "records"],
    ];
    more.extend(
        questions()
            .into_iter()
            .map(|words| [words, vec!["--json"]].concat()),
    );
    for question in more {
        let run = ask(&top, &question);
        if run.exit == Some(2) {
            continue;
        }
        assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{question:?}");
        let read: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        texts(&read, &mut all);
    }
    for at in 0..PAYLOADS.len() {
        assert!(
            all.contains(&recorded(at)),
            "{} is not in JSON as recorded",
            seen(at)
        );
    }
}

/// Every text of a JSON value.
fn texts(value: &serde_json::Value, out: &mut String) {
    match value {
        serde_json::Value::String(text) => out.push_str(&format!("{text}\n")),
        serde_json::Value::Array(all) => all.iter().for_each(|value| texts(value, out)),
        serde_json::Value::Object(all) => all.values().for_each(|value| texts(value, out)),
        _ => {}
    }
}

#[test]
fn no_cell_of_csv_is_raw_or_computed() {
    let top = nasty();
    let mut said = FreeText::default();
    let siblings: Vec<Vec<String>> = (0..PAYLOADS.len())
        .map(|at| vec!["siblings".into(), format!("X20-{at:02}")])
        .collect();
    let siblings = siblings
        .iter()
        .map(|words| words.iter().map(String::as_str).collect());
    let exported = ["passport", "plants", "pedigree"].map(|what| vec!["export", what]);
    for question in questions().into_iter().chain(siblings).chain(exported) {
        let question = [question, vec!["--format", "csv"]].concat();
        let run = ask(&top, &question);
        assert_eq!(
            readers::raw(&run.stdout, &['\r', '\n']),
            None,
            "{question:?}"
        );
        assert_eq!(
            run.stdout.matches('\r').count(),
            run.stdout.matches('\n').count(),
            "{question:?}"
        );
        said.add(&question, readers::csv(run.stdout.as_bytes()));
    }
    assert_eq!(said.lost(), [0; 0], "payloads that cannot be recognised");
}

#[test]
fn html_and_markdown_are_escaped_whole() {
    let (top, codes) = (nasty(), codes());
    let (mut html, mut markdown) = (FreeText::default(), FreeText::default());
    for fit in [&[][..], &["--fit", "60"], &["--codes", "--sexes"]] {
        let ask_in = |style| {
            let question = of_all(&[&["name", "--style", style], fit].concat(), &codes);
            let run = ask(&top, &question);
            assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{style}");
            (question, run.stdout)
        };
        let (question, out) = ask_in("html");
        html.add(
            &question,
            readers::xml(&format!("<x>{out}</x>"), &["x", "i"]),
        );
        let (question, out) = ask_in("markdown");
        markdown.add(&question, readers::markdown(&out));
    }
    assert_eq!(
        html.lost(),
        [0; 0],
        "payloads that cannot be recognised in HTML"
    );
    assert_eq!(
        markdown.lost(),
        [0; 0],
        "payloads that cannot be recognised in Markdown"
    );
    // The same texts as data.
    let run = ask(
        &top,
        &of_all(&["name", "--style", "html", "--json"], &codes),
    );
    let mut all = String::new();
    texts(
        &serde_json::from_str(&run.stdout).expect("it is JSON"),
        &mut all,
    );
    html.add(
        &["json"],
        readers::xml(&format!("<x>{all}</x>"), &["x", "i"]),
    );
}

#[test]
fn pictures_hold_nothing_raw() {
    let top = nasty();
    let elements = [
        "svg", "title", "desc", "defs", "path", "rect", "g", "use", "text",
    ];
    let (mut svg, mut dot) = (FreeText::default(), FreeText::default());
    let labelled = (0..PAYLOADS.len()).map(|at| format!("pedigree X21-{at:02}-1"));
    let siblings = (0..PAYLOADS.len()).step_by(8);
    let siblings = siblings.map(|at| format!("siblings X20-{at:02}"));
    let mut drawn: Vec<String> = labelled.chain(siblings).collect();
    for question in [
        "pedigree X23-01-1",
        "pedigree V1 --down",
        "growth X20-06 --pods",
        "variation X20-06 X20-13",
        "parentage X20-06 X23-01",
        "plan --any-time --steps 200",
    ] {
        drawn.push(question.into());
    }
    for question in &drawn {
        let question: Vec<&str> = question.split(' ').collect();
        for format in ["svg", "dot"] {
            let question = [question.clone(), vec!["--format", format]].concat();
            let run = ask(&top, &question);
            if run.exit == Some(2) {
                assert!(
                    format == "dot" || question[0] == "plan",
                    "{question:?}: {run}"
                );
                continue;
            }
            assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{question:?}");
            match format {
                "svg" => svg.add(&question, readers::xml(&run.stdout, &elements)),
                _ => dot.add(&question, readers::dot(&run.stdout)),
            }
        }
    }
    assert_eq!(
        svg.lost(),
        [0; 0],
        "payloads that cannot be recognised in SVG"
    );
    assert_eq!(
        dot.lost(),
        [0; 0],
        "payloads that cannot be recognised in DOT"
    );
}

#[test]
fn arguments_are_told_without_harm() {
    let mut top = BenchTop::sound();
    for (payload, _) in PAYLOADS
        .iter()
        .filter(|(payload, _)| !payload.contains('\0'))
    {
        top = top.file(
            "goals.ron",
            &format!("(pots: 20, keep_lines: [r##\"{payload}\"##])"),
        );
        let option = format!("--{payload}");
        let file = format!("{payload}/none.csv");
        for question in [
            &["show", payload][..],
            &["name", payload],
            &["list", "plants", "--today", payload],
            &["list", "plants", "--registry", payload],
            &["list", "plants", "-o", &file],
            &["list", "plants", "-o", payload],
            &["list", "plants", "--format", payload],
            &["list", "plants", "--species", payload],
            &["list", payload],
            &["siblings", "X18-01", "--trait", payload],
            &["select", "X18-01", "--rules", payload],
            &["plan", "--pots", payload],
            &["plan", "--any-time"],
            &["show", &option],
        ] {
            let run = ask(&top, question);
            assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{question:?}");
        }
        for question in [&["read", payload][..], &["epithet", payload]] {
            let run = ask(&top, question);
            assert_eq!(readers::raw(&run.stdout, &['\n']), None, "{question:?}");
        }
    }
    // A break in a word does not pass for a line of ours.
    let run = ask(&top, &["show", "X18-01\npodbook: all is well"]);
    assert!(
        run.stderr.contains("`X18-01␊podbook: all is well`"),
        "{run}"
    );
}
