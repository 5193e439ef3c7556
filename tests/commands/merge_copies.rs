//! `podbook merge` of another copy of the registry: what is said, what is asked, and what is refused.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;
use std::path::Path;

/// A small registry with a name, and a copy of it beside it.
fn parted() -> BenchTop {
    let top = BenchTop::sound();
    let settings =
        top.text("registry.ron")
            .replacen("genus:", "registry: \"tent\", format: 2, genus:", 1);
    let top = top.file("registry.ron", &settings);
    copy(top.path(), &top.path().join("other"));
    top
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to.join("crosses")).expect("a folder");
    for page in [
        "registry.ron",
        "species.ron",
        "clones.ron",
        "pollen.ron",
        "crosses/X18-01.ron",
        "crosses/X22-02.ron",
    ] {
        std::fs::copy(from.join(page), to.join(page)).expect("a page");
    }
}

fn says(top: &BenchTop, arguments: &[&str]) {
    let run = top.run(arguments);
    assert_eq!(run.exit, Some(0), "{run}");
}

#[test]
fn what_one_side_changed_is_taken() {
    let top = parted();
    says(&top, &["keep", "X18-01-2", "--why", "red rim"]);
    says(
        &top,
        &["add", "Ven9", "N. ventricosa", "--from", "a friend"],
    );
    says(&top, &["pot", "X18-01-1", "7cm", "--registry", "other"]);
    says(
        &top,
        &[
            "add",
            "Ven9",
            "N. ventricosa",
            "--from",
            "the club",
            "--registry",
            "other",
        ],
    );
    let merge = ["merge", "other"];
    let clones = top.text("clones.ron");
    let dry = top.run(&[&merge[..], &["--dry-run"]].concat());
    assert_snapshot!("copies-dry", dry);
    assert_snapshot!("copies", top.run(&merge));
    let check = top.run(&["check"]);
    assert_eq!(check.exit, Some(0), "{check}");
    let again = top.run(&merge);
    assert!(again.stderr.contains("on record already"), "{again}");
    says(&top, &["undo"]);
    assert_eq!(top.text("clones.ron"), clones);
}

/// Two spellings of one day are no conflict, and both sides come to the same.
#[test]
fn a_date_in_other_words_is_no_conflict() {
    let top = parted();
    for (folder, on) in [(".", "2023-10"), ("other", "Oct 2023")] {
        let page = format!("{folder}/clones.ron");
        let code = "(code: \"Ven9\", received: \"N. ventricosa\", from: \"a friend\"";
        let text = top.text(&page).replacen(
            "clones: [",
            &format!("clones: [\n        {code}, on: \"{on}\"),"),
            1,
        );
        std::fs::write(top.path().join(page), text).expect("a page");
    }
    let run = top.run(&["merge", "other", "--same", "Ven9"]);
    assert!(!run.stderr.contains("both sides changed"), "{run}");
    let there = top.run(&[
        "merge",
        &top.path().display().to_string(),
        "--same",
        "Ven9",
        "--registry",
        "other",
    ]);
    assert!(!there.stderr.contains("both sides changed"), "{there}");
    let date = |page: &str| {
        top.text(page)
            .lines()
            .find(|line| line.contains("Ven9"))
            .map(str::to_owned)
    };
    assert_eq!(date("clones.ron"), date("other/clones.ron"), "{run}{there}");
}

/// What a merge says of what it gave up cannot be asked for again, so all of it is on the screen.
#[test]
fn every_caution_of_what_was_written_is_shown() {
    let top = parted();
    for (at, plant) in ["X22-02-1", "X22-02-2", "X22-02-3", "X18-01-1", "X18-01-2"]
        .iter()
        .enumerate()
    {
        says(&top, &["keep", plant, "--why", &format!("ours {at}")]);
        says(
            &top,
            &[
                "keep",
                plant,
                "--why",
                &format!("theirs {at}"),
                "--registry",
                "other",
            ],
        );
    }
    let run = top.run(&["merge", "other", "--keep", "theirs"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(!run.stdout.contains("more caution"), "{run}");
    assert_eq!(run.stdout.matches("given up").count(), 5, "{run}");
}

#[test]
fn what_both_changed_is_asked() {
    let top = parted();
    says(&top, &["keep", "X18-01-2", "--why", "red rim"]);
    says(
        &top,
        &["keep", "X18-01-2", "--why", "vigour", "--registry", "other"],
    );
    let page = top.text("crosses/X18-01.ron");
    assert_snapshot!("copies-conflict", top.run(&["merge", "other"]));
    assert_eq!(top.text("crosses/X18-01.ron"), page);
    let kept = top.run(&["merge", "other", "--keep", "theirs=X18-01-2"]);
    assert_snapshot!("copies-kept", kept);
    assert!(top.text("crosses/X18-01.ron").contains("vigour"));
    let again = top.run(&["merge", "other"]);
    assert!(again.stderr.contains("on record already"), "{again}");
    // Where ours stays no page changes, but it is remembered; the other side takes it in and is not asked again.
    says(&top, &["undo"]);
    // A decision about nothing, and a code that only one side has, are errors of writing.
    let idle = [
        "merge",
        "other",
        "--keep",
        "ours",
        "--keep",
        "theirs=X18-01-77",
    ];
    let idle = top.run(&idle);
    assert_eq!(idle.exit, Some(2), "{idle}");
    let found = idle.stderr.contains("X18-01-77 is about no conflict")
        && idle.stderr.contains("there are: X18-01-2, kept");
    assert!(found, "{idle}");
    let same = top.run(&["merge", "other", "--keep", "ours", "--same", "Q9"]);
    assert_eq!(same.exit, Some(2), "{same}");
    assert!(same.stderr.contains("Q9"), "{same}");
    says(&top, &["merge", "other", "--keep", "ours"]);
    let again = top.run(&["merge", "other"]);
    assert!(again.stderr.contains("on record already"), "{again}");
    says(&top, &["merge", ".", "--registry", "other"]);
    assert!(top.text("other/crosses/X18-01.ron").contains("red rim"));
    let wrong = top.run(&["merge", "other", "--keep", "mine"]);
    assert_eq!(wrong.exit, Some(2), "{wrong}");
}

/// Another grower's registry has its own name; that its plants have the same codes here and there says nothing.
#[test]
fn the_registry_of_another_grower_comes_in() {
    let top = parted().change("other/registry.ron", "tent", "shed");
    let before = top.text("crosses/X18-01.ron");
    let merge = ["merge", "other"];
    assert_snapshot!("others", top.run(&merge));
    assert_eq!(top.text("crosses/X18-01.ron"), before);
    let check = top.run(&["check"]);
    assert_eq!(check.exit, Some(0), "{check}");
    let again = top.run(&merge);
    assert!(again.stderr.contains("on record already"), "{again}");
    assert_snapshot!("others-shown", top.run(&["show", "shed-X18-01-1"]));
    let due = top.run(&["due", "--within", "52w"]).stdout;
    assert!(!due.contains("shed"), "{due}");
    says(&top, &["undo"]);
    assert!(!top.path().join("crosses/shed-X18-01.ron").exists());
}

/// Of a cross of ours their readings come in as theirs; what cannot say whose it is, is named, and nothing of ours comes back.
#[test]
fn what_they_recorded_on_a_cross_of_ours_is_said() {
    let top = parted().change("other/registry.ron", "tent", "shed");
    says(&top, &["merge", ".", "--registry", "other"]);
    let page = "other/crosses/tent-X18-01.ron";
    let spike = "(number: \"2\", flowerings: [(opened: \"2024-05\", sex: male)], ";
    let sitting = "sittings: [(on: \"2024-05-20\", by: \"me\", columns: [\"span cm\"], rows: [[\"2\", \"31\"]]),";
    let top = top
        .change(page, "(number: \"2\", ", spike)
        .change(page, "sittings: [", sitting);
    assert_snapshot!("of-ours", top.run(&["merge", "other"]));
    let own = top.text("crosses/X18-01.ron");
    assert!(
        own.contains("by: \"shed\"") && own.contains("\"31\""),
        "{own}"
    );
    assert!(!own.contains("sex: male"), "{own}");
    assert_snapshot!("of-ours-again", top.run(&["merge", "other"]));
}

/// The same label, supplier and date: podbook asks, and the grower's word makes two founders one.
#[test]
fn what_may_be_one_plant_is_asked() {
    let add = |code: &str, label: &str, to: &str| {
        let from = ["--from", "a friend", "--on", "2024-05-03"];
        [&["add", code, label], &from[..], &["--registry", to]]
            .concat()
            .join("\n")
    };
    let bring = |top: &BenchTop| {
        for line in [
            add("Max1", "N. maxima", "."),
            add("Max5", "N. maxima", "other"),
            add("Ven9", "N. ventricosa", "other"),
        ] {
            says(top, &line.split('\n').collect::<Vec<_>>());
        }
    };
    let top = parted();
    bring(&top);
    assert_snapshot!("likely-copies", top.run(&["merge", "other"]));
    says(&top, &["undo"]);
    assert_snapshot!(
        "likely-copies-one",
        top.run(&["merge", "other", "--same", "Max1=Max5"])
    );
    assert!(!top.text("clones.ron").contains("Max5"));
    let again = top.run(&["merge", "other"]);
    assert!(again.stderr.contains("on record already"), "{again}");
    let top = parted().change("other/registry.ron", "tent", "shed");
    bring(&top);
    assert_snapshot!("likely-others", top.run(&["merge", "other"]));
    let late = top.run(&["merge", "other", "--same", "Max1=Max5"]);
    assert_snapshot!("likely-late", late);
    says(&top, &["undo"]);
    let seedling = ["merge", "other", "--same", "X18-01-1=X18-01-1"];
    assert_snapshot!("likely-seedling", top.run(&seedling));
    assert_snapshot!(
        "likely-code",
        top.run(&["merge", "other", "--same", "Max1"])
    );
    let odd = top.run(&["merge", "other", "--same", "Max1="]);
    assert_eq!(odd.exit, Some(2), "{odd}");
    assert_snapshot!(
        "likely-others-one",
        top.run(&["merge", "other", "--same", "Max1=Max5"])
    );
    assert!(
        top.text("clones.ron")
            .contains("foreign: (registry: \"shed\", code: \"Max5\")")
    );
    let again = top.run(&["merge", "other"]);
    assert!(again.stderr.contains("on record already"), "{again}");
}

/// What another grower saw of a founder of theirs can contradict a page of ours that the merge itself does not change.
#[test]
fn a_fault_on_a_page_that_stays_as_it_is_is_seen() {
    let cross =
        "(code: \"X23-05\", parents: known(seed: \"V1\", pollen: \"Max5\"), confidence: claim)\n";
    let top = parted().change("other/registry.ron", "tent", "shed");
    let there = ["--registry", "other"];
    says(
        &top,
        &[&["add", "Max5", "N. maxima", "--on", "2021"][..], &there].concat(),
    );
    says(&top, &["merge", "other"]);
    let top = top.file("crosses/X23-05.ron", cross);
    let seen = [
        "flower",
        "Max5",
        "--sex",
        "female",
        "--opened",
        "2024-05-01",
    ];
    says(&top, &[&seen[..], &there].concat());
    let clones = top.text("clones.ron");
    let run = top.run(&["merge", "other"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(run.stderr.contains("female-pollen-parent"), "{run}");
    assert_eq!(top.text("clones.ron"), clones);
}

/// Records that contradict each other only together are refused with what to do; no choice of a side would decide them.
#[test]
fn a_death_here_and_a_later_day_there_are_refused_with_what_to_do() {
    let top = parted();
    says(&top, &["gone", "X18-01-2", "--died", "--on", "2024-05-20"]);
    let pot = ["pot", "X18-01-2", "7cm", "--on", "2024-05-25"];
    says(&top, &[&pot[..], &["--registry", "other"]].concat());
    let run = top.run(&["merge", "other"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr.contains(
            "each side is sound by itself, but together these records contradict each other"
        ),
        "{run}"
    );
    says(&top, &["undo"]);
    says(&top, &["merge", "other"]);
}

#[test]
fn what_cannot_be_merged_is_refused() {
    let top = parted();
    let nothing = top.run(&["merge", "nowhere"]);
    assert_snapshot!("copies-nowhere", nothing);
    let own = top.run(&["merge", "other", "--told-by", "tent"]);
    assert_snapshot!("copies-own-name", own);
    let top = top.change("other/registry.ron", "registry: \"tent\",", "");
    assert_snapshot!("copies-nameless", top.run(&["merge", "other"]));
    let top = top.file("other/clones.ron", "(clones: [");
    assert_snapshot!("copies-faulty", top.run(&["merge", "other"]));
}

/// Two growers accept a name each on one day: both stay on record, and no screen says that either is later.
#[test]
fn two_names_accepted_on_one_day_are_said_to_be_two() {
    let top = parted();
    for (name, to) in [("N. truncata", "."), ("N. spathulata", "other")] {
        let opinion = ["opinion", "V1", name, "--by", "a visitor", "--accept"];
        let day = ["--on", "2024-05-01", "--registry", to];
        says(&top, &[&opinion[..], &day[..]].concat());
    }
    let run = top.run(&["merge", "other"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert_snapshot!("copies-two-names", run);
    let shown = top.run(&["show", "V1"]).stdout;
    let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(!shown.contains("a later one is shown"), "{shown}");
    assert!(shown.contains("is not known to be later"), "{shown}");
    // One that surely is later is said to be.
    says(&top, &["opinion", "V1", "N. ventricosa", "--accept"]);
    let shown = top.run(&["show", "V1"]).stdout;
    let shown = shown.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(shown.matches("a later one is shown").count(), 2, "{shown}");
}

/// A tray that both sides counted first is two pots unless the grower says that it is one.
#[test]
fn a_tray_counted_on_both_sides_is_said_to_count_twice() {
    let top = parted();
    for (standing, on, to) in [("19", "2024-05-01", "."), ("18", "2024-05-20", "other")] {
        let count = ["count", "X22-02.W1", "--standing", standing, "--on", on];
        says(&top, &[&count[..], &["--registry", to]].concat());
    }
    assert_snapshot!("copies-tray", top.run(&["merge", "other"]));
    says(&top, &["undo"]);
    says(&top, &["merge", "other", "--same", "X22-02.T1"]);
    let page = top.text("crosses/X22-02.ron");
    assert_eq!(page.matches("code: \"T1\"").count(), 1, "{page}");
    assert!(
        page.contains("count: 19") && page.contains("count: 18"),
        "{page}"
    );
}

/// A mark to keep that came with another grower's record is not the grower's own.
#[test]
fn whose_mark_to_keep_it_is_is_said() {
    let top = parted().change("other/registry.ron", "tent", "shed");
    says(
        &top,
        &[
            "keep",
            "X18-01-2",
            "--why",
            "red rim",
            "--registry",
            "other",
        ],
    );
    says(&top, &["keep", "X18-01-1", "--why", "wide"]);
    says(&top, &["merge", "other"]);
    let list = top.run(&["list", "--kept", "--format", "csv"]).stdout;
    let words = list.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(words.matches("kept (told by shed)").count(), 1, "{list}");
    let own = list.lines().find(|line| line.starts_with("X18-01-1,"));
    assert!(own.is_some_and(|line| !line.contains("told by")), "{list}");
    let json = top.run(&["list", "--kept", "--json"]).stdout;
    let json: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let plants = json["plants"].as_array().expect("plants");
    let told = plants.iter().map(|of| of["kept_told_by"].as_str());
    let told: Vec<Option<&str>> = told.collect();
    assert_eq!(told, [None, Some("shed")]);
}

/// What a new registry begins with is no remark of the other grower.
#[test]
fn remarks_of_a_new_registry_are_not_listed() {
    let top = BenchTop::empty();
    for to in ["mine", "theirs"] {
        says(&top, &["new", to]);
        says(&top, &["add", "Ven1", "N. ventricosa", "--registry", to]);
    }
    let page = top.text("theirs/clones.ron");
    assert!(page.contains("//"), "{page}");
    let top = top.file(
        "theirs/clones.ron",
        &format!("// Bought in spring.\n{page}"),
    );
    let run = top.run(&["merge", "theirs", "--told-by", "shed", "--registry", "mine"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(words.matches("was not taken over").count(), 1, "{run}");
    assert!(
        words.contains(
            "1 remark in the other's clones.ron was not taken over: // Bought in spring."
        ),
        "{run}"
    );
}
