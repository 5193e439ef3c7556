//! A lineage means here what it meant where it was handed over: its seasons and the words of its labels.

use crate::bench_top::{BenchTop, Run};

fn run(top: &BenchTop, line: &str, today: &str) -> Run {
    let words: Vec<&str> = line.split('|').collect();
    top.run(&[&words[..], &["--today", today]].concat())
}

fn done(top: &BenchTop, lines: &[&str]) {
    for line in lines {
        let run = run(top, line, "2024-06-01");
        assert_eq!(run.exit, Some(0), "{line}\n{run}");
    }
}

/// Two registries, `there` and `here`, with a hemisphere and rows of a list of names each.
fn two(there: (&str, &str), here: (&str, &str)) -> BenchTop {
    let settings = |name: &str, hemisphere: &str| {
        format!("(genus: \"Nepenthes\", hemisphere: {hemisphere}, registry: \"{name}\", format: 2)")
    };
    let names = |rows: &str| {
        format!(
            "(species: [(epithet: \"ventricosa\"), (epithet: \"veitchii\"), (epithet: \"spathulata\")], {rows})"
        )
    };
    BenchTop::empty()
        .file("there/registry.ron", &settings("alder", there.0))
        .file("there/species.ron", &names(there.1))
        .file("there/clones.ron", "(clones: [])")
        .file("here/registry.ron", &settings("birch", here.0))
        .file("here/species.ron", &names(here.1))
        .file("here/clones.ron", "(clones: [])")
}

#[test]
fn seasons_of_the_other_half_of_the_world_come_in_as_months() {
    for (hemisphere, seasons) in [("south", true), ("north", false)] {
        let top = two((hemisphere, ""), ("north", ""));
        done(
            &top,
            &[
                "add|Ven1|N. ventricosa|--on|spring 2021|--registry|there",
                "add|Spa1|N. spathulata|--on|2021|--registry|there",
                "pollinate|Ven1|--with|Spa1|--zone|A|--on|spring 2022|--registry|there",
                "took|X22-01.A|1|--on|2023-01-05|--registry|there",
                "harvest|X22-01.A|--capsules|1|--seeds|20|--on|2023-01-20|--registry|there",
                "sow|X22-01|--on|autumn 2023|--registry|there",
                "number|X22-01.S1|1|--on|2024-05-20|--registry|there",
                "handover|X22-01-1|-o|handed|--registry|there",
                "merge|handed|--registry|here",
            ],
        );
        let there = run(&top, "show|X22-01-1|--json|--registry|there", "2024-06-01");
        let here = run(&top, "show|X22-01-1|--json|--registry|here", "2024-06-01");
        let history = |run: &Run| {
            let shown: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
            shown["history"].clone()
        };
        assert_eq!(history(&there), history(&here), "{hemisphere}\n{here}");
        let words = "with seasons of the other half of the world";
        let told = run(&top, "changes|--json|--registry|here", "2024-06-01");
        assert_eq!(told.exit, Some(0), "{told}");
        let page = top.text("here/crosses/X22-01.ron");
        assert_eq!(page.contains("spring 2022"), !seasons, "{page}");
        let dry = two((hemisphere, ""), ("north", ""));
        done(
            &dry,
            &[
                "add|Ven1|N. ventricosa|--on|spring 2021|--registry|there",
                "handover|Ven1|-o|handed|--registry|there",
            ],
        );
        let merged = run(&dry, "merge|handed|--registry|here", "2024-06-01");
        assert_eq!(merged.stdout.contains(words), seasons, "{merged}");
    }
}

#[test]
fn a_word_of_a_label_that_means_another_name_here_is_refused() {
    for (there, here, word) in [
        (
            "codes: [(code: \"ve\", means: \"ventricosa\")]",
            "codes: [(code: \"ve\", means: \"veitchii\")]",
            "ve",
        ),
        (
            "synonyms: [(name: \"gentle\", now: \"ventricosa\")]",
            "synonyms: [(name: \"gentle\", now: \"veitchii\")]",
            "gentle",
        ),
        (
            "named_hybrids: [(epithet: \"zetana\", parents: [\"ventricosa\", \"spathulata\"], status: \"published\", expand: true, may_be_used: true)]",
            "named_hybrids: [(epithet: \"zetana\", parents: [\"spathulata\", \"veitchii\"], status: \"published\", expand: true, may_be_used: true)]",
            "zetana",
        ),
    ] {
        for (own, is_refused) in [(here, true), (there, false), ("", false)] {
            let top = two(("north", there), ("north", own));
            let label = format!("add|Ven1|{word} red|--registry|there");
            done(&top, &[&label, "handover|Ven1|-o|handed|--registry|there"]);
            let merged = run(&top, "merge|handed|--registry|here", "2024-06-01");
            assert_eq!(
                merged.exit,
                Some(if is_refused { 2 } else { 0 }),
                "{own}\n{merged}"
            );
            let said = format!("`{word}` on labels of the registry alder means");
            assert_eq!(merged.stderr.contains(&said), is_refused, "{merged}");
            assert_eq!(top.text("here/clones.ron").contains("Ven1"), !is_refused);
        }
    }
}

/// A label that names no parents there must not gain any here, nor others; a word that is read alike on both sides is no matter.
#[test]
fn a_label_gains_no_parents_on_its_way() {
    let hybrid = |more: &str| {
        format!(
            "named_hybrids: [(epithet: \"zetana\", parents: [\"ventricosa\", \"spathulata\"], status: \"published\", may_be_used: true, {more})]"
        )
    };
    let [read, not_read] = ["expand: true", "expand: false"].map(hybrid);
    let other = hybrid("formula: \"(ventricosa x spathulata) x ventricosa\", expand: true");
    let epithet = "epithets: [(epithet: \"Red Lantern\", source: \"a journal\", formula: \"ventricosa x spathulata\")]";
    let [ve, a] =
        ["ve", "a"].map(|code| format!("codes: [(code: \"{code}\", means: \"ventricosa\")]"));
    for (label, there, here, word) in [
        ("N. x zetana", &*not_read, &*read, Some("zetana")),
        ("N. x zetana", "", &read, Some("zetana")),
        ("N. x zetana", &read, &other, Some("zetana")),
        ("N. x zetana", &read, &read, None),
        ("N. x zetana", &read, &not_read, None),
        // A label that is read neither there nor here says no more here.
        ("N. x zetana x", "", &read, None),
        ("N. ve", "", &ve, Some("ve")),
        ("N. veitchii 'A'", "", &a, None),
        ("N. 'Red Lantern'", "", epithet, Some("Red Lantern")),
        ("N. 'Red Lantern'", epithet, epithet, None),
        ("N. 'Red Lantern'", epithet, "", None),
    ] {
        let clones = format!("(clones: [(code: \"Ven1\", received: \"{label}\")])");
        let top = two(("north", there), ("north", here)).file("there/clones.ron", &clones);
        done(&top, &["handover|Ven1|-o|handed|--registry|there"]);
        for folder in ["handed", "there"] {
            let merge = format!("merge|{folder}|--registry|here|--dry-run");
            let merged = run(&top, &merge, "2024-06-01");
            let exit = Some(if word.is_some() { 2 } else { 0 });
            assert_eq!(merged.exit, exit, "{label} {here}\n{merged}");
            let said = word.map(|word| format!("`{word}` on labels of the registry alder"));
            assert!(
                merged.stderr.contains(&said.unwrap_or_default()),
                "{merged}"
            );
        }
    }
}

/// A species whose name is in doubt there is no surer here without a word: the row here stays as it is, and the answer names the doubt.
#[test]
fn a_doubt_about_a_species_that_is_not_here_is_said() {
    let row = "(epithet: \"ventricosa\")";
    let doubted = "(epithet: \"ventricosa\", doubt: \"labels often mean another\")";
    // On no label; and not listed here, so that the row comes with its doubt.
    let more = "(epithet: \"veitchii\", doubt: \"of two forms\"), (epithet: \"rajah\", doubt: \"seldom true\")";
    for (merged, here, is_said) in [
        ("handed", row, true),
        ("there", row, true),
        ("handed", doubted, false),
        ("there", doubted, false),
    ] {
        let top = two(("north", ""), ("north", ""))
            .change("there/species.ron", row, doubted)
            .change("there/species.ron", "(epithet: \"veitchii\")", more)
            .change("here/species.ron", row, here);
        done(
            &top,
            &[
                "add|Ven1|N. ventricosa|--registry|there",
                "add|Raj1|N. rajah|--registry|there",
                "handover|Ven1|-o|handed|--registry|there",
            ],
        );
        let merged = run(
            &top,
            &format!("merge|{merged}|--registry|here"),
            "2024-06-01",
        );
        assert_eq!(merged.exit, Some(0), "{merged}");
        let words = merged
            .stdout
            .split_whitespace()
            .collect::<Vec<_>>()
            .join(" ");
        let doubt = "The registry alder records a doubt that your species.ron does not have: ventricosa: labels often mean another";
        assert_eq!(words.contains(doubt), is_said, "{merged}");
        for other in ["veitchii: of two forms", "rajah: seldom true"] {
            assert!(!words.contains(other), "{merged}");
        }
    }
}
