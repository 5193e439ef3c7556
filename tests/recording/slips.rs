//! Slips at the bench: each is refused in plain words, and nothing is written.

use crate::bench_words::words;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// What a grower types by mistake, and what the answer must say.
const SLIPS: &[(&str, &str)] = &[
    // Codes that are wrong or misspelt.
    ("flower Ven7 --sex female", "did you mean Ven1?"),
    ("flower ven1 --sex female", "did you mean Ven1?"),
    ("collect Sap1", "did you mean Spa1"),
    ("pollinate Ven1 --with Spa1-2403", "did you mean Spa1-2404"),
    ("gone X24-01-77 --died", "did you mean X24-01-7"),
    ("took X24-01.rde 5 --again", "did you mean X24-01.red"),
    (
        "harvest X24-02.red --capsules 1",
        "there is no zone `X24-02.red`",
    ),
    ("sow X24-01.L9 --seeds 5", "did you mean X24-01.L1"),
    ("count X24-01.S7 --up 65", "did you mean X24-01.S1"),
    ("number X24-01.T9 50-51", "did you mean X24-01.T1"),
    ("thaw Spa1-2405", "did you mean Spa1-2404"),
    (
        "move X24-01-1 --dry-run",
        "the place they were moved to is missing",
    ),
    ("seen --place \"shelf 9\"", "did you mean shelf 1"),
    ("correct X24-01-1 spam \"3 cm\"", "did you mean span?"),
    (
        "flower Ven1 --spike 24z --over 2029-05-01",
        "there is no spike `24z`",
    ),
    // A thing of another kind.
    ("keep X24-01", "X24-01 is a cross"),
    ("pollinate X24-01 --with Spa1", "X24-01 is a cross"),
    ("pollinate Ven1 --with X24-01.P1", "X24-01.P1 is a pod"),
    ("sow X24-01.S1 --seeds 5", "X24-01.S1 is a sowing"),
    ("count X24-01.L1 --up 5", "X24-01.L1 is a seed lot"),
    ("took X24-01.P1 5", "X24-01.P1 is a pod"),
    ("muddle Ven1 Spa1", "Ven1 is a founder"),
    ("thaw Ven1", "Ven1 is a plant"),
    ("keep Ven1-b", "one piece of a plant"),
    // A plant of another cross, or two events that contradict each other.
    ("muddle X24-01-1 X24-01.T1", "a mix-up is of one kind"),
    (
        "prick X24-01.S1 1 --to T2",
        "the sowing it comes from is not on record",
    ),
    (
        "seen --place \"shelf 2\" --except X24-01-10",
        "it is not on record on shelf 2 (its place is shelf 1)",
    ),
    ("took X24-01.red 5", "7 are on record already"),
    (
        "pollinate Ven1 --with Spa1 --zone A --spike 24z --on 2024-04-09",
        "there is no spike `24z`",
    ),
    (
        "pollinate Ven1 --with Spa1 --zone A --flowers 5 --on 2024-04-09",
        "4 are on record",
    ),
    (
        "flower Ven1 --sex male --opened 2029-05-01",
        "its open flowers were female",
    ),
    (
        "muddle X24-01-3 X24-01-4 --settled",
        "no open mix-up on record",
    ),
    ("muddle X24-01-3", "at least two different codes"),
    // The word behind is a code where a place or a product belongs, a range with another sign, an empty word.
    (
        "move X24-01-1 --place \"shelf 1\"",
        "X24-01-1 is a code on record, not a place",
    ),
    ("move X24-01-1 X24-01-2", "name the new place last"),
    ("move X24-01-1 X24-01-2..4", "name the new place last"),
    (
        "treat X24-01-1 --place \"shelf 1\"",
        "the product is missing",
    ),
    ("treat X24-01-1 X24-01-2", "the product is missing"),
    ("gone X24-01-1-4 --died", "write two dots: X24-01-1..4"),
    ("gone X24-01-1–4 --died", "write two dots: X24-01-1..4"),
    (
        "move --place \"shelf 1\" \"\"",
        "the place they were moved to is missing",
    ),
    (
        "move X24-01-1 \" \"",
        "the place they were moved to is missing",
    ),
    ("gone --place \"\" --died", "--place needs PLACE after it"),
    ("gone X24-01-1 --died --why \"\"", "--why needs"),
    (
        "move X24-01-1 \"shelf 2\" --on 2024-05-20",
        "a place has no day",
    ),
    (
        "cutting Ven1-b --code B",
        "differs from it only in capitals",
    ),
    (
        "add X234567890123456789012345678901234567890123456789012345678901 lowii",
        "use 60 letters and digits at most",
    ),
    // Units.
    ("pot X24-01-1 7", "with a unit"),
    ("pot X24-01-1 7kg", "with a unit"),
    ("pot X24-01-1 0cm", "with a unit"),
    ("number X24-01.T1 50-51 --pot wide", "with a unit"),
    (
        "correct X24-01-1 span \"2.3 kg\"",
        "span is a length with its unit",
    ),
    ("correct X24-01-1 span 2.3", "a length with its unit"),
    (
        "correct X24-01-1 span \"2.3.4 cm\"",
        "span is a length with its unit",
    ),
    // Dates.
    (
        "keep X24-01-2 --on 2031-01-01",
        "--on 2031-01-01 is in the future: today is 2029-05-10",
    ),
    ("flower Spa1 --opened 2029-05-11", "in the future"),
    ("keep X24-01-2 --on 5/10/2021", "is not a date"),
    ("keep X24-01-2 --on 2021-02-30", "is not a date"),
    ("keep X24-01-2 --on someday", "is not a date"),
    (
        "pollinate Ven1 --with Spa1 --flowers 2 --on 2019-05-01",
        "it came on 2021-05-02",
    ),
    (
        "collect Spa1 --on 2020-05-01",
        "it came between 2021-06-01 and 2021-06-30",
    ),
    (
        "thaw envelope-3 --on 2029-04-01",
        "its pollen was collected on 2029-04-10",
    ),
    (
        "gone X24-01-1 --died --on 2024-06-01",
        "it was sown on 2024-09-01",
    ),
    (
        "gone X24-01-1 --died --on 2025-08-01",
        "take the mark off first: podbook keep X24-01-1 --no-longer",
    ),
    (
        "pollinate X24-01-1 --with envelope-3 --on 2028-04-10",
        "it was collected on 2029-04-10",
    ),
    // More than there is.
    (
        "took X24-01.red 13 --again",
        "13 is more than there are: 12 flowers treated",
    ),
    (
        "took X24-01.red 7 --controls 6/5 --again",
        "6 is more than there are: 5 flowers left as controls",
    ),
    (
        "harvest X24-01.red --capsules 1",
        "1 capsule of X24-01.red would be 8 in all, but 7 flowers set, and 7 of them are harvested already (X24-01.P1)",
    ),
    ("sow X26-01.L1 --seeds 5", "5 is too many: no seeds left"),
    (
        "count X26-01.S1 --up 200",
        "200 is more than there are: 90 seeds sown",
    ),
    ("prick X24-01.S1 99", "99 is more than there are"),
    ("number X24-01.T1 50-90", "41 is more than there are"),
    (
        "harvest X26-01.A --embryo-percent 101",
        "a percentage from 0 to 100",
    ),
    // Numbers.
    (
        "number X24-01.T1 20-22",
        "there is a seedling X24-01-20 already",
    ),
    ("number X24-01.T1 40-22", "runs backwards"),
    ("number X24-01.T1 50,50", "names a plant twice"),
    ("number X24-01.T1 1-99999", "more than 10,000"),
    ("number X24-01.T1 fifty", "is not a list of numbers"),
    ("keep X24-01-6..2", "runs backwards"),
    ("keep X24-01-2,2", "names a plant twice"),
    ("keep X24-01-2..99", "there is no plant `X24-01-99`"),
    (
        "count X24-01.S1 --up 20",
        "64 had come up at an earlier count",
    ),
    ("count X24-01.S1", "--up 12 for all that came up so far"),
    ("prick X24-01.S1 0", "at least one seedling"),
    (
        "pollinate Ven1 --with Spa1 --flowers 0 --on 2024-04-09",
        "at least one flower",
    ),
    (
        "took X24-01.red 7 --controls 5 --again",
        "pods and flowers, such as 0/5",
    ),
    ("took X24-01.red -1", "PODS"),
    ("took X24-01.red many", "needed a whole number"),
    // Dead, sold, of the wrong sex, finished, not open.
    (
        "gone X24-01-7 --died",
        "X24-01-7 is no longer here: died 2025-07-01",
    ),
    (
        "pot X24-01-6 9cm",
        "X24-01-6 is no longer here: sold 2029-05-01",
    ),
    ("cutting X24-01-7", "no longer here"),
    ("pot X24-01-12..14 9cm", "X24-01-14 is no longer here"),
    (
        "pollinate X24-01-2 --with Spa1",
        "its open flowers were male",
    ),
    (
        "pollinate X24-01-1 --with X24-01-1 --on 2026-04-09",
        "its open flowers were female",
    ),
    ("collect Ven1", "its open flowers were female"),
    (
        "pollinate Ven1 --with Spa1-2404 --on 2024-05-09",
        "finished since 2024-05-03",
    ),
    ("finish Spa1-2404", "finished since 2024-05-03"),
    (
        "pollinate Ven1 --with Spa1 --on 2024-06-20",
        "its flowers were open from 2024-03-30 to 2024-04-20",
    ),
    (
        "pollinate Ven1 --with Spa1 --spike 24a --on 2024-03-01",
        "its flowers were open from",
    ),
    // Kinds and steps.
    (
        "correct X24-01-1 banding 6",
        "banding is a step from 1 to 5; found `6`",
    ),
    (
        "correct X24-01-1 banding 0",
        "banding is a step from 1 to 5; found `0`",
    ),
    (
        "correct X24-01-1 rim purple",
        "rim is one of green, red, striped",
    ),
    (
        "flower Ven1 --sex both",
        "found `both` after --sex, needed female or male",
    ),
    (
        "add Mir1 \"N. mirabilis\" --form pip",
        "found `pip` after --form, needed seed,",
    ),
    // What is missing.
    (
        "gone X24-01-2",
        "--died, --culled, --sold, --given or --lost",
    ),
    (
        "pollinate Ven1 --flowers 3 --on 2024-04-09",
        "the pollen is missing",
    ),
    (
        "pollinate Ven1 --one-of Spa1 --on 2024-04-09",
        "a second plant is missing",
    ),
    ("add Mir1 \"\"", "the name the plant came under is missing"),
    ("add-seed \" \"", "the label is missing"),
    ("opinion Ven1 \"\"", "the name is missing"),
    ("treat X24-01-1 \"\"", "the product is missing"),
    ("treat \"soap\"", "either plants or --place"),
    ("seen", "plants, or --place"),
    ("keep \",\"", "no plant is named"),
    // What does not belong together.
    (
        "gone X24-01-2 --died --to \"a friend\"",
        "--to belongs to --sold and --given",
    ),
    (
        "gone X24-01-2 --sold --why weak",
        "--why belongs to --died, --culled and --lost",
    ),
    (
        "gone X24-01-2 --died --sold",
        "--died and --sold cannot be used together",
    ),
    (
        "treat X24-01-1 \"oil, 5 ml per litre\"",
        "no amounts are kept",
    ),
    ("treat X24-01-1 \"0.5 % soap\"", "no amounts are kept"),
    (
        "muddle X24-01-1 X24-01-2 --rows 3",
        "--rows belongs to community pots",
    ),
    // Codes that are taken or can be none.
    (
        "add Ven1 \"N. ventricosa\"",
        "there is a plant Ven1 already",
    ),
    (
        "add X24-01 \"N. ventricosa\"",
        "there is a cross X24-01 already",
    ),
    (
        "add \"Ven 1\" \"N. ventricosa\"",
        "cannot be the code of a plant",
    ),
    (
        "collect Spa1 --code envelope-3",
        "there is a pollen lot envelope-3 already",
    ),
    (
        "add-seed \"a x b\" --code X24-01",
        "there is a cross X24-01 already",
    ),
    ("cutting Ven1-a --code b", "there is a piece Ven1-b already"),
    ("cutting Ven1-a --code 2", "cannot be the code of a piece"),
    ("cutting Ven1", "more than one piece: Ven1-a, Ven1-b"),
    ("move Ven1 \"shelf 3\"", "more than one piece"),
    (
        "pollinate Ven1 --with Spa1 --zone \"a b\" --on 2024-04-09",
        "cannot be the code of a zone",
    ),
    // Nothing to do.
    ("keep X24-01-1", "marked to keep already"),
    ("correct X24-01-10 note \"not found\"", "already"),
    (
        "correct X24-01-2 span \"3 cm\" --on 2024-01-01",
        "has no reading of span",
    ),
    ("undo 999", "there is no change 999"),
];

fn season() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recording/season")
}

fn ask(registry: &Path, asked: &str) -> Output {
    Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(words(asked))
        .args(["--today", "2029-05-10", "--registry"])
        .arg(registry)
        .output()
        .unwrap()
}

/// Every file below a folder, by path.
fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            match path.is_dir() {
                true => folders.push(path),
                false => drop(found.insert(path.clone(), fs::read(path).unwrap())),
            }
        }
    }
    found.retain(|path, _| !path.ends_with(".podbook-lock"));
    found
}

#[test]
fn each_slip_is_refused_in_words_and_nothing_is_written() {
    let folder = tempfile::tempdir().unwrap();
    for (path, text) in files(&season()) {
        let to = folder.path().join(path.strip_prefix(season()).unwrap());
        fs::create_dir_all(to.parent().unwrap()).unwrap();
        fs::write(to, text).unwrap();
    }
    let before = files(folder.path());
    let mut wrong = Vec::new();
    for (asked, wanted) in SLIPS {
        let output = ask(folder.path(), asked);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        if output.status.code() != Some(2) || !said.contains(wanted) {
            let out = String::from_utf8_lossy(&output.stdout);
            wrong.push(format!(
                "{asked}\n  wanted {wanted}\n  {:?} {said}{out}",
                output.status.code()
            ));
        }
        if said.contains("panicked") || said.lines().count() > 30 {
            wrong.push(format!("{asked} is answered at length:\n{said}"));
        }
        if files(folder.path()) != before {
            wrong.push(format!("{asked} wrote something"));
            ask(folder.path(), "undo");
            fs::remove_dir_all(folder.path().join("journal")).ok();
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of {}:\n{}",
        wrong.len(),
        SLIPS.len(),
        wrong.join("\n")
    );
    assert!(SLIPS.len() > 60);
}
