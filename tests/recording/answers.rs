//! What recordings on a copy of the demo registry answer: never surer than what is written, with the next step where
//! something is amiss. Each story is played from the start; after it `podbook check` may name no fault.

use crate::played::{copied, said};
use std::fs;
use std::path::Path;
use std::process::Command;

/// A copy of the demo registry.
pub struct Demo(tempfile::TempDir);

impl Demo {
    pub fn new() -> Self {
        Demo(copied("registry-demo"))
    }

    pub fn folder(&self) -> &Path {
        self.0.path()
    }

    /// What is answered, in one line.
    pub fn said(&self, line: &str) -> String {
        said(self.0.path(), line, "2025-06-01")
    }
}

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
const STORIES: &[&[(&str, &str)]] = &[
    // What is refused comes with what can be done.
    &[
        (
            "correct X22-02-5 color red",
            "the traits declared are span,",
        ),
        (
            "correct X22-02-5 span \"15 cm\" --on 2025-01-01",
            "X22-02-5 has no reading of span on that day give a day on which it was read with --on: 2023-05-12, 2024-05-11, 2025-05-10",
        ),
        (
            "took X22-02.A 30",
            "30 is more than there are: 12 flowers treated",
        ),
        ("took X22-02.A 9", "add --again to replace that count"),
    ],
    // Two tags that differ in a capital are taken for each other; a question mark was on no tag.
    &[
        (
            "add ven1 \"N. ventricosa\"",
            "Ven1 is on record and differs from it only in capitals",
        ),
        (
            "add-seed maxima --code x22-02",
            "X22-02 is on record and differs from it only in capitals",
        ),
        (
            "add Zz1 \"?\" --known-by tag",
            "\"?\" says that there was no label",
        ),
        ("list plants", "not: Zz1"),
    ],
    // What is asked about commands is answered in words.
    &[
        ("help add", "Record a plant that arrived"),
        (
            "export",
            "`podbook export` needs one of these words after it: passport",
        ),
    ],
    // The name of a seedling is written from its parents, whatever is accepted.
    &[
        (
            "opinion X22-02-4 \"N. hamata\" --accept",
            "the name shown is unchanged: it is written from the recorded parents",
        ),
        (
            "show X22-02-4",
            "\"N. hamata\" on 2025-06-01, basis not recorded",
        ),
    ],
    &[(
        "opinion X22-02-4 \"N. hamata\"",
        "the name shown is unchanged: it is written from the recorded parents",
    )],
    // A name that the starter list knows goes into species.ron in the same change, and goes out with it.
    &[
        (
            "opinion Spa1 \"N. singalana\" --accept",
            "Spa1: now shown as N. singalana ! singalana was not in species.ron; added from the list",
        ),
        ("name Spa1", "N. singalana"),
        ("check", "0 faults, 1 warning"),
        ("check", "label-contradicts-record: a label of X15-02-5"),
        ("undo", "Undid change 1"),
        ("read \"N. singalana\"", "does not have"),
    ],
    &[
        (
            "add Max1 \"N. maxima\"",
            "maxima was not in species.ron; added",
        ),
        ("list --founders", "not: not readable"),
        ("check", "No faults or warnings"),
    ],
    &[
        (
            "add-seed \"maxima x veitchii\" --seeds 30",
            "maxima and veitchii were not in species.ron; added",
        ),
        ("name X25-01", "N. maxima"),
    ],
    &[
        (
            "add Mix1 \"N. x mixta\"",
            "maxima, northiana and mixta were not in species.ron; added",
        ),
        ("check", "No faults or warnings"),
    ],
    // A name that no list knows is kept, and every answer about it says so.
    &[
        (
            "add Who1 \"N. whoknowsia\"",
            "a name on the label of Who1 is not known; found `whoknowsia` is in neither list",
        ),
        ("check", "1 warning"),
        ("check", "name-not-listed"),
        ("gone Who1 --died", "died on 2025-06-01"),
        ("check", "No faults or warnings"),
    ],
    &[
        (
            "add-seed \"who knows\"",
            "a name on the label of X25-01 is not known; found `who knows`",
        ),
        ("check", "add the name to species.ron"),
    ],
    &[
        (
            "opinion Spa1 \"N. ventricossa\" --accept",
            "it cannot be read: `ventricossa`",
        ),
        (
            "opinion Spa1 \"N. whoknowsia\" --accept",
            "a name on the label of Spa1 is not known",
        ),
        ("undo", "Undid"),
        (
            "opinion Spa1 \"N. whoknowsia\"",
            "the name shown is unchanged",
        ),
        ("check", "No faults or warnings"),
    ],
    // Flowers that are open today, without a day.
    &[
        ("flower Ven1 --sex female", "open by 2025-06-01, female"),
        ("show Ven1", "opened by 2025-06-01 female open flowers"),
        ("ready", "1 female in flower"),
        (
            "pollinate Ven1 --with Spe1-2105 --zone red --flowers 12",
            "X25-01.red",
        ),
        (
            "flower Ven1 --opened 2025-05-29",
            "Ven1 spike 25a: opened on 2025-05-29",
        ),
        ("check", "No faults or warnings"),
        ("show Ven1", "opened 2025-05-29"),
    ],
    &[
        ("flower Ven1", "spike seen on 2025-06-01"),
        (
            "flower Ven1 --opened 2025-05-29",
            "on record as seen 2025-06-01; it now says by 2025-05-29",
        ),
        ("check", "No faults or warnings"),
    ],
    &[
        ("flower Ven1", "spike seen on 2025-06-01"),
        ("flower Ven1 --sex female --seen-by buds", "female"),
        ("pollinate Ven1 --with Spe1-2105", "without an open flower"),
    ],
    // What a pollination is warned of, and the same line twice.
    &[
        ("flower Ven1 --sex female", "female"),
        (
            "pollinate Ven1 --with Spe1-2105",
            "The pollen of Spe1-2105 is 4.1 years old; growers report that it lasts several months to a year in the fridge",
        ),
        (
            "pollinate Ven1 --with Spe1-2105",
            "X25-01.A is on record as dusted that day already",
        ),
        ("pollinate Ven1 --with Spe1-2105 --zone B", "X25-01.B"),
        (
            "pollinate Ven1 --with Spe1-2105 --zone B",
            "X25-01.B is on record as dusted that day already",
        ),
        (
            "pollinate Ven1 --with Ham1",
            "Ham1 has no open flower on record for that day, and no envelope",
        ),
        ("harvest X25-01.A", "it was pollinated on that day"),
        ("took X25-02.red 3", "did you mean X25-02.A"),
        ("took X25-09.A 3", "did you mean X25-01.A"),
    ],
    &[
        ("flower Ham1 --sex male --opened 2025-05-20", "male"),
        ("flower Ven1 --sex female", "female"),
        ("pollinate Ven1 --with Ham1", "not: no open flower"),
    ],
    &[(
        "pollinate Vta1 --with Spe1-2105",
        "The sex of Vta1 is not on record",
    )],
    // Places: of a plant with pieces the one that stands there.
    &[
        (
            "sheet --place \"shelf 1\"",
            "What to read on the 5 plants on shelf 1",
        ),
        ("sheet --place \"shelf 1\"", "Spa1-b shelf – – –"),
        ("sheet --place windowsill", "not: shelf 1"),
        ("sheet --place \"shelf 1\" --stocktake", "Spa1-b shelf 1"),
        (
            "sheet X22-02 --place \"shelf 1\"",
            "the 1 plant of X22-02 on shelf 1",
        ),
        (
            "sheet X22-02 --place \"shelf 1\"",
            "podbook measure X22-02-5 --traits",
        ),
        (
            "sheet X22-02 --place attic",
            "no plant of X22-02 stands at `attic`",
        ),
        ("list --place \"shelf 1\"", "5 of 78 plants on record"),
        ("list --place windowsill --full", "not: X22-02-5"),
        (
            "seen --place \"shelf 1\" --except X22-02-5",
            "4 plants found",
        ),
        (
            "seen --place \"shelf 1\" --except X22-02-7",
            "it is not on record on shelf 1 (its place is not recorded)",
        ),
    ],
    &[
        (
            "move \"shelf 1\" \"shelf 2\"",
            "podbook move --place \"shelf 1\" \"shelf 2\"",
        ),
        (
            "move --place \"shelf 1\" attic",
            "Spa1-b, Ven1-b, X15-02-3-a, X18-01-4-b, X22-02-5: moved to attic",
        ),
        ("list --place \"shelf 1\"", "0 of 78 plants on record"),
        ("list --place attic", "5 of 78 plants on record"),
    ],
    &[
        (
            "treat --place \"shelf 9\" neem",
            "No plant in the collection stands at shelf 9; did you mean",
        ),
        (
            "treat --place \"shelf 1\" neem",
            "shelf 1 (1 plant): treated with neem on 2025-06-01, written on its record",
        ),
        ("undo", "Undid"),
        (
            "treat --place \"shelf 1\" neem",
            "Only some pieces of Spa1, Ven1, X15-02-3 and X18-01-4 are on record there, so the treatment is recorded for the place",
        ),
    ],
    // Envelopes and readings.
    &[
        (
            "thaw Spe1-2105",
            "it is kept in the fridge, not in the freezer",
        ),
        ("thaw Ram1-2105", "on record as kept at room temperature"),
    ],
    &[
        (
            "correct X22-02-2 banding 9",
            "banding is a step from 1 to 5; found `9`",
        ),
        (
            "correct X22-02-1 span \"24.0 cm\"",
            "was 23.5 cm, now 24.0 cm",
        ),
        // A number alone has the unit of its column, as in the sitting.
        ("correct X22-02-1 span 24.5", "was 24.0 cm, now 24.5 cm"),
    ],
    // Marks.
    &[
        ("keep X22-02-4 --why even", "X22-02-4: marked to keep"),
        ("keep X22-02-4", "takes the mark away with --no-longer"),
        ("keep X22-02-4 --why rim", "X22-02-4: marked to keep"),
        ("show X22-02-4", "rim"),
        ("keep X22-02-4 --undo", "podbook keep PLANT --no-longer"),
        ("gone X22-02-4 --sold", "X22-02-4 was marked to keep (rim)"),
    ],
    &[
        ("keep X22-02-4", "marked to keep"),
        (
            "keep X22-02-4 --no-longer",
            "X22-02-4: no longer marked to keep",
        ),
        (
            "keep X22-02-4 --no-longer",
            "none of these plants is marked to keep",
        ),
        ("gone X22-02-4 --sold", "not: was marked to keep"),
    ],
    // Lines that are not understood say what to write.
    &[
        (
            "pot X22-02-1..20 9cm",
            "the numbers of X22-02 on record go up to 18",
        ),
        (
            "sow X22-02.P1",
            "X22-02.P1 is a pod name its seed lot, X22-02.L1",
        ),
        ("sow X25-05.L1", "not: X25-01"),
        ("count X22-02.S1 12", "`12` is one word too many write --up"),
        (
            "promised X22-02-7",
            "No plant that you sold or gave away has its description on record",
        ),
        (
            "check --undo",
            "`--undo` is not an option of `podbook check`",
        ),
        ("add Ven9 \"N. ventricosa\"", "added to the collection"),
        (
            "flower Ven9 --opened 2025-05-20",
            "without --on `podbook add` writes the day it is typed",
        ),
        ("took X21-05.red 1", "did you mean"),
    ],
];

/// A lineage that is handed over has the names it needs and no others; digits that are mistyped are called so.
#[test]
fn a_lineage_has_its_own_names_and_mistyped_digits_are_blamed() {
    let demo = Demo::new();
    let folder = demo.0.path().join("handed");
    let line = format!("handover X22-02-5 -o {}", folder.display());
    let said = demo.said(&line);
    assert!(
        said.contains("Kept, as part of the facts: words of tags"),
        "{said}"
    );
    let species = fs::read_to_string(folder.join("species.ron")).unwrap();
    for (name, is_there) in [
        ("ventricosa", true),
        ("spathulata", true),
        ("burbidgeae", true),
        ("truncata", true),
        ("hamata", false),
        ("pyriformis", false),
    ] {
        assert_eq!(species.contains(name), is_there, "{name}: {species}");
    }
    let own = demo.said("name X22-02-5");
    let handed = Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(["name", "X22-02-5", "--today", "2025-06-01", "--registry"])
        .arg(&folder)
        .env("COLUMNS", "400")
        .output()
        .unwrap();
    let handed = String::from_utf8(handed.stdout).unwrap();
    let formula = |text: &str| text.split("botanical").next().unwrap().trim().to_owned();
    let handed = handed.split_whitespace().collect::<Vec<_>>().join(" ");
    assert_eq!(formula(&handed), formula(&own));
    let verify = format!("verify {} --fingerprint 0000000000000000", folder.display());
    let said = demo.said(&verify);
    assert!(
        said.contains(
            "the digits you typed, 0000 0000 0000 0000, are not the fingerprint of this folder"
        ),
        "{said}"
    );
    assert!(!said.contains("do not match the fingerprint"), "{said}");
    let page = folder.join("clones.ron");
    let text = fs::read_to_string(&page)
        .unwrap()
        .replace("ventricosa", "truncata");
    fs::write(&page, text).unwrap();
    let said = demo.said(&verify);
    assert!(said.contains("do not match the fingerprint"), "{said}");
}

/// Readings of a filled table that are a little off are listed, those as expected are not; the twin is written out.
#[test]
fn a_table_with_a_leap_and_a_loss_is_looked_at_again() {
    let demo = Demo::new();
    // Last spans, 22 days before: 23.5, 8.4, 14.5 and 12.0 cm.
    let rows = [
        ("X22-02-1", 23.5, 29.3, false),
        ("X22-02-1", 23.5, 29.4, true),
        ("X22-02-2", 8.4, 9.3, false),
        ("X22-02-3", 14.5, 13.1, false),
        ("X22-02-3", 14.5, 13.0, true),
        ("X22-02-4", 12.0, 12.4, false),
    ];
    for (plant, before, now, is_asked) in rows {
        let twin =
            now > before * 1.25 && now - before > 1.0 || now < before * 0.9 && before - now > 0.5;
        assert_eq!(twin, is_asked, "{plant} {now}");
        let table = demo.0.path().join("table.csv");
        fs::write(&table, format!("plant,span cm\n{plant},{now}\n")).unwrap();
        let said = demo.said(&format!("measure --from {} --dry-run", table.display()));
        assert!(said.contains("1 row to record"), "{said}");
        assert_eq!(
            said.contains("1 reading looks like a slip"),
            is_asked,
            "{said}"
        );
    }
}

/// A sex without any day of open flowers is not called seen on them.
#[test]
fn a_spike_without_an_open_flower_does_not_show_how_its_sex_is_known() {
    let demo = Demo::new();
    demo.said("flower Ven1 --sex female");
    let page = demo.0.path().join("clones.ron");
    let text = fs::read_to_string(&page).unwrap();
    let was = "opened: \"by 2025-06-01\"";
    assert!(text.contains(was));
    fs::write(&page, text.replace(was, "spike: \"2025-06-01\"")).unwrap();
    let said = demo.said("show Ven1");
    assert!(
        said.contains("spike seen 2025-06-01 female not recorded"),
        "{said}"
    );
}

#[test]
fn time_that_has_passed_is_never_rounded_up() {
    let words = podbook::wording::time_passed;
    for (days, wanted) in [
        (1, "1 day"),
        (60, "60 days"),
        (61, "2 months"),
        (729, "23 months"),
        (731, "2.0 years"),
        (1481, "4.0 years"),
        (1498, "4.1 years"),
    ] {
        assert_eq!(words(days), wanted);
    }
}

#[test]
fn answers_say_what_is_on_record() {
    play(STORIES);
}

/// Plays stories, each on a fresh copy.
pub fn play(stories: &[&[(&str, &str)]]) {
    let mut wrong = Vec::new();
    for story in stories {
        let demo = Demo::new();
        for (line, wanted) in *story {
            let said = demo.said(line);
            let right = match wanted.strip_prefix("not: ") {
                Some(unwanted) => !said.contains(unwanted),
                None => said.contains(wanted),
            };
            if !right {
                wrong.push(format!("{line}\n  wanted {wanted}\n  {said}"));
            }
        }
        let checked = demo.said("check");
        if checked.contains("fault ") {
            wrong.push(format!("{story:?}\n  {checked}"));
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}
