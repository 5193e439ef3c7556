//! `podbook merge`: what is said when a lineage is taken in, and what is refused.

use crate::bench_top::BenchTop;
use crate::demo::copied;
use insta::assert_snapshot;

/// The demo with a lineage handed over, and a registry of the buyer beside it.
fn bought(plant: &str) -> BenchTop {
    let top = copied();
    let handed = top.run(&["handover", plant, "-o", "handed"]);
    assert_eq!(handed.exit, Some(0), "{handed}");
    let begun = top.run(&["new", "mine"]);
    assert_eq!(begun.exit, Some(0), "{begun}");
    top
}

#[test]
fn a_lineage_is_taken_in_and_asked_about() {
    let top = bought("X22-02-5");
    let clones = top.text("mine/clones.ron");
    let merge = ["merge", "handed", "--registry", "mine"];
    assert_snapshot!("merge", top.run(&merge));
    assert_snapshot!(
        "merge-shown",
        top.run(&["show", "X22-02-5", "--registry", "mine"])
    );
    let check = top.run(&["check", "--registry", "mine"]);
    assert_eq!(check.exit, Some(0), "{check}");
    let card = top.run(&["card", "X22-02-5", "--registry", "mine"]).stdout;
    assert!(
        card.contains("seed-grown by the grower of the registry tent"),
        "{card}"
    );
    let again = top.run(&merge);
    assert!(again.stderr.contains("on record already"), "{again}");
    let gone = top.run(&["gone", "Spa1", "--died", "--registry", "mine"]);
    assert_eq!(gone.exit, Some(2), "{gone}");
    // Whether a plant over there lives is not known, so it has no age.
    let listed = top.run(&["list", "--json", "--registry", "mine"]).stdout;
    let listed: serde_json::Value = serde_json::from_str(&listed).expect("JSON");
    for plant in listed["plants"].as_array().expect("plants") {
        let has_age = !plant["months_from_sowing"].is_null();
        assert_eq!(has_age, plant["id"] == "X22-02-5", "{plant}");
    }
    // The seed there is the other grower's: nothing is due on it, and nothing is recorded on it.
    let due = top
        .run(&["due", "--registry", "mine", "--within", "52w"])
        .stdout;
    assert!(!due.contains("X15-02") && !due.contains("X22-02."), "{due}");
    let sown = top.run(&["sow", "X22-02.L1", "--registry", "mine"]);
    assert!(
        sown.stderr.contains("as told by the registry tent"),
        "{sown}"
    );
    let ready = top.run(&["ready", "--registry", "mine", "--full"]).stdout;
    assert!(!ready.contains("controls: 6"), "{ready}");
    let undone = top.run(&["undo", "--registry", "mine"]);
    assert_eq!(undone.exit, Some(0), "{undone}");
    assert_eq!(top.text("mine/clones.ron"), clones);
    assert!(!top.path().join("mine/crosses/X22-02.ron").exists());
}

#[test]
fn a_piece_is_named_where_there_are_several() {
    let top = bought("Ven1");
    let which = top.run(&["merge", "handed", "--registry", "mine"]);
    assert_snapshot!("merge-which-piece", which);
    let wrong = top.run(&["merge", "handed", "--piece", "z", "--registry", "mine"]);
    assert_eq!(wrong.exit, Some(2), "{wrong}");
    let taken = top.run(&["merge", "handed", "--piece", "d", "--registry", "mine"]);
    assert!(taken.stdout.contains("Write on the tag: Ven1-d"), "{taken}");
    let shown = top.run(&["show", "Ven1", "--registry", "mine"]).stdout;
    assert_eq!(
        shown.matches("another grower's, never here").count(),
        3,
        "{shown}"
    );
}

#[test]
fn what_cannot_be_taken_in_is_refused() {
    let top = bought("X22-02-5").change(
        "handed/crosses/X15-02.ron",
        "confidence: witnessed",
        "confidence: claim",
    );
    let changed = top.run(&["merge", "handed", "--registry", "mine"]);
    assert_snapshot!("merge-changed-folder", changed);
    let nothing = top.run(&["merge", "mine", "--registry", "mine"]);
    assert_eq!(nothing.exit, Some(2), "{nothing}");

    let top = bought("X22-02-5").change("handed/registry.ron", "registry: \"tent\",", "");
    let nameless = top.run(&["merge", "handed", "--registry", "mine"]);
    assert_snapshot!("merge-without-a-name", nameless);
    let named = top.run(&["merge", "handed", "--told-by", "shed", "--registry", "mine"]);
    assert!(
        named.stdout.contains("as told by the registry shed"),
        "{named}"
    );
    let bad = top.run(&[
        "merge",
        "handed",
        "--told-by",
        "a shed",
        "--registry",
        "mine",
    ]);
    assert_eq!(bad.exit, Some(2), "{bad}");

    // One's own lineage.
    let own = bought("X22-02-5").run(&["merge", "handed"]);
    assert_snapshot!("merge-own", own);
}

/// A new registry has a named hybrid whose parents are not known; that is said by an empty list, which stays one.
#[test]
fn the_names_of_a_new_registry_come_into_a_small_one() {
    let top = BenchTop::with([
        ("registry.ron", r#"(genus: "Nepenthes", hemisphere: north)"#),
        ("species.ron", r#"(species: [(epithet: "maxima")])"#),
        (
            "clones.ron",
            r#"(clones: [(code: "V1", received: "N. maxima")])"#,
        ),
    ]);
    let made = top.run(&["new", "shed"]);
    assert_eq!(made.exit, Some(0), "{made}");
    let added = top.run(&["add", "Ven1", "N. ventricosa", "--registry", "shed"]);
    assert_eq!(added.exit, Some(0), "{added}");
    let merged = top.run(&["merge", "shed", "--told-by", "shed"]);
    assert_eq!(merged.exit, Some(0), "{merged}");
    let check = top.run(&["check"]);
    assert_eq!(check.exit, Some(0), "{check}");
}

/// Whose opinion a name is stays said: one's own is never told as the other grower's, here or where it is handed on.
#[test]
fn an_opinion_of_one_s_own_is_not_the_word_of_another() {
    let top = bought("Ven1");
    let taken = top.run(&["merge", "handed", "--piece", "d", "--registry", "mine"]);
    assert_eq!(taken.exit, Some(0), "{taken}");
    let evidence = |registry: &str| {
        let shown = top.run(&["show", "Ven1", "--registry", registry]).stdout;
        let words: Vec<&str> = shown.split_whitespace().collect();
        let words = words.join(" ");
        let at = words.find("evidence").expect("evidence is shown");
        words[at..].chars().take(160).collect::<String>()
    };
    let received = evidence("mine");
    assert!(
        received.contains("as told by the registry tent: name as received"),
        "{received}"
    );
    let opinion = [
        "opinion",
        "Ven1",
        "N. graciliflora",
        "--by",
        "me",
        "--basis",
        "visual",
        "--accept",
    ];
    let said = top.run(&[&opinion[..], &["--registry", "mine"]].concat());
    assert_eq!(said.exit, Some(0), "{said}");
    let own = evidence("mine");
    assert!(
        own.contains("identified here as \"N. graciliflora\", on the basis \"visual\""),
        "{own}"
    );
    assert!(
        !own.contains("as told by the registry tent: identified"),
        "{own}"
    );
    // A lineage bears no names of people, so the next who takes it in reads that it is not known.
    let top = top.change(
        "mine/registry.ron",
        "hemisphere: north,",
        "hemisphere: north, registry: \"birch\",",
    );
    let handed = top.run(&["handover", "Ven1", "-o", "on", "--registry", "mine"]);
    assert_eq!(handed.exit, Some(0), "{handed}");
    let begun = top.run(&["new", "third"]);
    assert_eq!(begun.exit, Some(0), "{begun}");
    let taken = top.run(&["merge", "on", "--piece", "d", "--registry", "third"]);
    assert_eq!(taken.exit, Some(0), "{taken}");
    let shown = top.run(&["show", "Ven1", "--registry", "third"]).stdout;
    let words: Vec<&str> = shown.split_whitespace().collect();
    assert!(
        words.join(" ").contains(
            "identified as \"N. graciliflora\", whose opinion is not recorded, on the basis"
        ),
        "{shown}"
    );
    assert!(!shown.contains("registry tent: identified"), "{shown}");
}

/// A season of the other half of the world comes in as the months it is there, with a lineage too.
#[test]
fn a_lineage_of_the_other_half_of_the_world_keeps_its_days() {
    let top = BenchTop::with([(
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: south, registry: "south")"#,
    )])
    .file("species.ron", r#"(species: [(epithet: "ventricosa")])"#)
    .file(
        "clones.ron",
        r#"(clones: [(code: "Ven1", received: "N. ventricosa", on: "spring 2021", flowerings: [(opened: "autumn 2024", sex: female)])])"#,
    );
    for line in [&["handover", "Ven1", "-o", "handed"][..], &["new", "north"]] {
        let run = top.run(line);
        assert_eq!(run.exit, Some(0), "{run}");
    }
    let merge = ["merge", "handed", "--registry", "north"];
    let taken = top.run(&merge);
    assert_eq!(taken.exit, Some(0), "{taken}");
    assert!(taken.stdout.contains("2 dates with seasons"), "{taken}");
    let page = top.text("north/clones.ron");
    assert!(
        page.contains("\"2021-09 to 2021-11\"") && page.contains("\"2024-03 to 2024-05\""),
        "{page}"
    );
    let again = top.run(&merge);
    assert!(again.stderr.contains("on record already"), "{again}");
}

/// A code on a label that means something else here is not read in the sense it has here.
#[test]
fn a_label_that_means_something_else_here_is_refused() {
    let species = |means: &str| {
        format!(
            "(species: [(epithet: \"ventricosa\"), (epithet: \"veitchii\")], codes: [(code: \"ve\", means: \"{means}\")])"
        )
    };
    let settings = r#"(genus: "Nepenthes", hemisphere: north, registry: "alder", format: 2)"#;
    let top = BenchTop::with([("registry.ron", settings)])
        .file("species.ron", &species("ventricosa"))
        .file(
            "clones.ron",
            r#"(clones: [(code: "Ven1", received: "ve red")])"#,
        )
        .file("mine/registry.ron", &settings.replace("alder", "birch"))
        .file("mine/species.ron", &species("veitchii"));
    let handed = top.run(&["handover", "Ven1", "-o", "handed"]);
    assert_eq!(handed.exit, Some(0), "{handed}");
    for from in ["handed", "."] {
        let run = top.run(&["merge", from, "--registry", "mine"]);
        assert_eq!(run.exit, Some(2), "{run}");
        assert!(
            run.stderr
                .contains("`ve` on labels of the registry alder means ventricosa")
                && run.stderr.contains("in your species.ron it means veitchii"),
            "{run}"
        );
    }
    let top = top.file("mine/species.ron", &species("ventricosa"));
    let run = top.run(&["merge", "handed", "--registry", "mine"]);
    assert_eq!(run.exit, Some(0), "{run}");
}
