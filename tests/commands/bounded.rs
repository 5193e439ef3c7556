//! Memory is bounded by the input: hostile pages, and pedigrees of any size, under a limit the system keeps.
#![cfg(target_os = "linux")]

use crate::bench_top::BenchTop;

const MEGABYTE: usize = 1_000_000;
const REGISTRY: (&str, &str) = ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
const CLONES: (&str, &str) = (
    "clones.ron",
    "(clones: [(code: \"V1\", received: \"N. mira\"), (code: \"V2\", received: \"N. mira\")])",
);
const HEAD: &str = "(code: \"X1\", parents: known(seed: \"V1\", pollen: \"V2\"), ";

/// Room for the program itself, its stacks and what each byte of input may take.
fn limit(bytes: usize) -> String {
    format!("ulimit -v {}", (330 * MEGABYTE + 60 * bytes) / 1024)
}

#[test]
fn a_hostile_page_takes_memory_in_proportion() {
    let many = |what: &str| what.repeat(MEGABYTE / what.len());
    let pages = [
        ("brackets", many("(")),
        ("square brackets", many("[")),
        ("brackets in a record", format!("{HEAD}note: {}", many("{"))),
        ("a bracket a line", many("(\n")),
        ("a bracket a deeper line", many("(\n ")),
        ("comments", many("/*")),
        (
            "comments in each other",
            format!("{}{}", many("/*"), many("*/")),
        ),
        ("quotation marks", many("\"")),
        ("a quotation mark a line", many("\"\n")),
        ("backslashes", many("\\")),
        ("escapes", format!("{HEAD}note: \"{}\")", many("\\\\"))),
        ("commas", format!("[{}]", many(","))),
        ("marks", many("=;")),
        ("raw texts", many("r#")),
        ("curly quotes", many("“")),
        (
            "texts after what never ends",
            format!("/*\n{}", many("\"a\",")),
        ),
        ("repeated fields", format!("({})", many("code:\"X1\","))),
        ("one text", format!("{HEAD}note: \"{}\")", many("a"))),
        (
            "one code",
            format!("(code: \"{}\", parents: unknown)", many("a")),
        ),
        (
            "accents",
            format!("{HEAD}seedlings: [(number: {})])", many("\u{301}")),
        ),
        (
            "records at fault",
            format!("{HEAD}seedlings: [{}])", many("(x:1),")),
        ),
        (
            "numbers that are none",
            format!("{HEAD}seedlings: [{}])", many("(number: \"a\"),\n")),
        ),
        (
            "rows of no plant",
            format!(
                "{HEAD}sittings: [(on: \"2024\", columns: [\"span\"], rows: [{}])])",
                many("[\"9\",\"1\"],")
            ),
        ),
        (
            "a label of brackets",
            format!("(code: \"X1\", parents: label_only(\"{}\"))", many("(")),
        ),
        (
            "a label of crosses",
            format!(
                "(code: \"X1\", parents: label_only(\"mira{}\"))",
                many(" x mira")
            ),
        ),
    ];
    for (what, page) in pages {
        let top = BenchTop::with([REGISTRY, CLONES, ("crosses/X1.ron", &page)]);
        for question in [&["check"][..], &["check", "--json"]] {
            let run = top.run_after(&limit(page.len()), "", question);
            assert!(matches!(run.exit, Some(0..=3)), "{what}: {run}");
            let shown = run.stdout.len() + run.stderr.len();
            assert!(shown < 6 * MEGABYTE, "{what} is answered in {shown} bytes");
        }
    }
}

/// A line of crosses, each of the two seedlings of the one before, on one page each.
fn line(generations: usize) -> BenchTop {
    let top = BenchTop::with([
        REGISTRY,
        (
            "clones.ron",
            "(clones: [(code: \"X0-1\", received: \"N. mira\"), (code: \"X0-2\", received: \"N. mira\")])",
        ),
    ]);
    (1..=generations).fold(top, |top, cross| {
        let before = cross - 1;
        top.file(
            &format!("crosses/X{cross}.ron"),
            &format!("(code: \"X{cross}\", parents: known(seed: \"X{before}-1\", pollen: \"X{before}-2\"), seedlings: [(number: \"1\"), (number: \"2\")])"),
        )
    })
}

#[test]
fn a_long_pedigree_is_written_in_every_form_but_a_picture() {
    const GENERATIONS: usize = 1500;
    let top = line(GENERATIONS);
    let (last, all) = (format!("X{GENERATIONS}-1"), GENERATIONS.to_string());
    let ask = |more: &[&str]| {
        let question = [&["pedigree", &last, "-n", &all], more].concat();
        top.run_after("ulimit -v 500000", "", &question)
    };
    // Two founders, two of each cross but the last, and the plant asked for.
    let plants = 2 * GENERATIONS + 1;
    let dot = ask(&["--format", "dot"]);
    assert_eq!(dot.exit, Some(0), "{}", dot.stderr);
    let nodes = dot
        .stdout
        .lines()
        .filter(|line| line.starts_with("  plant") && !line.contains(" -> "));
    assert_eq!(nodes.count(), plants);
    let json = ask(&["--json"]);
    let read: serde_json::Value = serde_json::from_str(&json.stdout).expect("JSON");
    assert_eq!(read["plants"].as_array().map(Vec::len), Some(plants));
    let text = ask(&[]);
    assert_eq!(text.exit, Some(0), "{}", text.stderr);
    assert!(text.stdout.contains("plants not shown"), "{}", text.stdout);
    for form in ["svg", "png"] {
        let picture = ask(&["--format", form]);
        assert_eq!(picture.exit, Some(2), "{}", picture.stderr);
        let words = format!("the picture would hold {plants} plants, and 2000 are the most");
        assert!(picture.stderr.contains(&words), "{}", picture.stderr);
    }
}

#[test]
fn every_plant_that_came_from_a_founder_is_written() {
    const CROSSES: usize = 2500;
    let top = BenchTop::with([REGISTRY, CLONES]);
    let top = (1..=CROSSES).fold(top, |top, cross| {
        let seed = if cross == 1 { "V1".to_owned() } else { format!("X{}-1", cross / 2) };
        top.file(
            &format!("crosses/X{cross}.ron"),
            &format!("(code: \"X{cross}\", parents: known(seed: \"{seed}\", pollen: \"V2\"), seedlings: [(number: \"1\")])"),
        )
    });
    let ask = |more: &[&str]| {
        let question = [&["pedigree", "V1", "--down", "-n", "99"], more].concat();
        top.run_after("ulimit -v 500000", "", &question)
    };
    let json = ask(&["--json"]);
    let read: serde_json::Value = serde_json::from_str(&json.stdout).expect("JSON");
    assert_eq!(read["crosses"].as_array().map(Vec::len), Some(CROSSES));
    let dot = ask(&["--format", "dot"]);
    let crosses = dot.stdout.lines().filter(|line| {
        let line = line.trim_start();
        line.starts_with("cross") && line.contains("[label=")
    });
    assert_eq!(crosses.count(), CROSSES);
    assert!(
        ask(&[])
            .stdout
            .contains("not shown; ask for fewer generations, or for all with --json")
    );
}
