//! `podbook name`, `read`, `epithet` and the heterozygosity of `parentage`, asked of the demo registry.

use crate::bench_top::BenchTop;

/// Asks about the demo registry; what comes on standard output.
fn asked(arguments: &[&str]) -> String {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/registry-demo");
    let mut all = arguments.to_vec();
    all.extend(["--registry", demo]);
    let run = BenchTop::empty().run(&all);
    format!("{}{}", run.stdout, run.stderr)
}

#[test]
fn a_claimed_parent_stays_claimed_on_every_tag() {
    for (id, least) in [("X22-02-5", 40), ("X18-01-4", 32), ("X13-01", 23)] {
        for most in (least..100).map(|most| most.to_string()) {
            let told = asked(&["name", id, "--fit", &most]);
            let tag = told.lines().next().unwrap_or_default();
            assert!(!tag.contains("see code"), "{id} {most}: {tag}");
            assert!(
                tag.contains("(claimed)") || tag.contains('?'),
                "{id} {most}: {tag}"
            );
        }
    }
}

#[test]
fn the_smallest_tag_is_the_one_the_refusal_asks_for() {
    assert!(asked(&["name", "X22-02-5", "--fit", "8"]).starts_with("X22-02-5\n"));
    let refused = asked(&["name", "X22-02-5", "--fit", "7"]);
    assert!(refused.contains("needs at least 8"), "{refused}");
}

#[test]
fn a_seedling_of_a_muddled_tray_rests_on_both_pages() {
    let told = asked(&["name", "X20-01-5"]).replace('\n', " ");
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains(
            "from one of two crosses (pod X20-01.P1 or X20-02.P1), which may differ from plant to plant"
        ),
        "{told}"
    );
    assert!(
        told.contains("if of X20-02, how the seed parent is known is not recorded, father unknown"),
        "{told}"
    );
    assert!(!told.contains("parents witnessed"), "{told}");
    let own = asked(&["name", "X20-01-1"]);
    assert!(
        own.contains("seed parent witnessed; pollen of Ham1"),
        "{own}"
    );
}

#[test]
fn plants_of_one_formula_are_offered_once_in_botanical_order() {
    let told = asked(&["name", "X22-02-5", "--codes"]);
    let botanical = told.split("botanical order").nth(1).unwrap_or_default();
    let botanical = botanical.split("evidence").next().unwrap_or_default();
    assert!(!botanical.contains(" or "), "{botanical}");
    assert!(told.contains("[X13-01-2] (claimed) or"), "{told}");
}

#[test]
fn a_species_has_no_share_of_copies_below_zero() {
    let told = asked(&["parentage", "Spa1"]);
    assert!(told.contains("0.0 %") && !told.contains("-0.0"), "{told}");
    assert!(!asked(&["parentage", "Spa1", "--json"]).contains("-0.0"));
}

#[test]
fn a_long_formula_leaves_the_first_line_to_a_short_one() {
    let mut top = BenchTop::sound().change(
        "clones.ron",
        "clones: [",
        "clones: [(code: \"Long\", received: \"LABEL\", confidence: tag),",
    );
    let deep = (0..60).fold("ventricosa".to_owned(), |so_far, _| {
        format!("({so_far} x truncata)")
    });
    top = top.change("clones.ron", "LABEL", &deep);
    let run = top.run(&["name", "Long"]);
    let first = run.stdout.lines().next().unwrap_or_default();
    assert!(
        first.starts_with("Long: ") && run.stdout.contains("in full"),
        "{run}"
    );
    let before_blank = run.stdout.lines().take_while(|line| !line.is_empty());
    assert!(before_blank.count() <= 4, "{run}");
}

#[test]
fn a_refused_epithet_is_not_called_free() {
    assert!(!asked(&["epithet", "'Red Selection'"]).contains("free and published"));
    assert!(asked(&["epithet", "'Formosa Night'"]).contains("free and published"));
}

/// Whichever of two plants of one species was the father, the name is the same; that it was one of two is said beside it.
#[test]
fn fathers_of_one_species_make_one_name() {
    let page = "(code: \"X24-01\", parents: pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"S2\"]),\n\
         confidence: witnessed, seedlings: [(number: \"1\")])\n";
    let named = |label: &str| {
        let top = BenchTop::sound().file("crosses/X24-01.ron", page);
        let run = top.run(&["add", "S2", label]);
        assert_eq!(run.exit, Some(0), "{run}");
        let run = top.run(&["name", "X24-01-1"]);
        assert_eq!(run.exit, Some(0), "{run}");
        run.stdout
    };
    let alike = named("N. spathulata");
    let name = "N. ventricosa × N. spathulata (seed parent first)";
    assert!(alike.contains(name), "{alike}");
    assert!(alike.contains("one of two"), "{alike}");
    // A form of it, or one that is only like it, is another name.
    let like = named("N. aff. spathulata");
    assert!(like.contains(" or N. "), "{like}");
}

/// The kind of cross is no surer than the line: no number where it was crossed back before, no two plants where one was used.
#[test]
fn a_backcross_is_counted_and_its_plants_told_apart_only_by_what_is_on_record() {
    let known = |seed, pollen| format!("known(seed: \"{seed}\", pollen: \"{pollen}\")");
    let page = |top: BenchTop, code: &str, parents: String| {
        let seedlings = "seedlings: [(number: \"1\"), (number: \"2\")]";
        let text =
            format!("(code: \"{code}\", parents: {parents}, confidence: witnessed, {seedlings})\n");
        top.file(&format!("crosses/{code}.ron"), &text)
    };
    let first_clone = "clones: [(code: \"V2\", received: \"N. ventricosa\", confidence: tag),";
    let mut top = BenchTop::sound().change("clones.ron", "clones: [", first_clone);
    for (code, seed, pollen) in [
        ("X30", "S1", "V1"),
        ("X31", "X30-1", "X30-2"),
        ("X32", "X31-1", "V1"),
        ("X33", "X32-1", "V1"),
        ("X34", "X32-1", "V2"),
        ("X35", "X30-1", "V1"),
        ("X36", "X35-1", "X35-2"),
        ("X37", "X36-1", "V1"),
        ("X38", "X32-1", "ventricosa"),
        ("X39", "X38-1", "ventricosa"),
        ("X40", "X34-1", "V2"),
        ("X42", "X41-1", "V1"),
        ("X43", "S1", "V1"),
        ("X44", "X30-1", "X43-1"),
        ("X45", "V1", "S1"),
        ("X46", "X30-1", "X45-1"),
        ("X47", "S1", "V2"),
        ("X48", "X30-1", "X47-1"),
        ("X50", "X30-1", "X49-1"),
    ] {
        top = page(top, code, known(seed, pollen));
    }
    let label = "label_only(\"(ventricosa x spathulata) x ventricosa\")".to_owned();
    top = page(top, "X41", label);
    let several = "pollen_one_of(seed: \"S1\", pollen: [\"V1\", \"V2\"])";
    top = page(top, "X49", several.to_owned());
    for (id, kind) in [
        ("X31-1", "F2 of spathulata and ventricosa"),
        ("X44-1", "F2 of spathulata and ventricosa"),
        ("X46-1", "F2 of spathulata and ventricosa"),
        (
            "X48-1",
            "hybrids of spathulata and ventricosa mated, different parents (generation 2, not rightly F2)",
        ),
        (
            "X50-1",
            "hybrids of spathulata and ventricosa mated (generation 2; F2 only if both have the same parents, which is not recorded)",
        ),
        ("X32-1", "backcross to ventricosa (BC1)"),
        ("X33-1", "backcross to ventricosa (BC2)"),
        (
            "X34-1",
            "backcross to ventricosa (BC2), different plants of it",
        ),
        ("X36-1", "complex hybrid of 2 species"),
        ("X37-1", "backcross of a complex hybrid to ventricosa"),
        ("X38-1", "backcross to ventricosa (BC2)"),
        ("X39-1", "backcross to ventricosa (BC3)"),
        (
            "X40-1",
            "backcross to ventricosa (BC3), different plants of it",
        ),
        ("X42-1", "backcross to ventricosa (BC2)"),
    ] {
        let run = top.run(&["parentage", id, "--json"]);
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        assert_eq!(answer["kind"], kind, "{id}: {run}");
    }
    for (id, words) in [
        ("X31-1", " (F2)"),
        ("X32-1", " (later generation)"),
        ("X33-1", " (later generation)"),
        ("X35-1", " (backcross to N. ventricosa)"),
        ("X36-1", " (later generation)"),
        ("X37-1", " (later generation)"),
        ("X44-1", " (F2)"),
        ("X46-1", " (F2)"),
        ("X48-1", " (later generation)"),
        ("X50-1", " (later generation)"),
    ] {
        let botanical = top.run(&["name", id]).stdout;
        let line = format!("N. spathulata × N. ventricosa{words}");
        assert!(botanical.contains(&line), "{id}: {botanical}");
    }
}
