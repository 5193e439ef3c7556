//! What becomes of spikes, zones, places and pots when a piece of a plant is gone and another is here.

use crate::bench_top::BenchTop;

const FOUNDERS: &str = "(clones: [
(code: \"V1\", received: \"N. ventricosa\", confidence: tag, ramets: [(code: \"a\", made: original),
    (code: \"b\", from: \"a\", made: cutting, rooted: \"2024-01-01\")]),
(code: \"V2\", received: \"N. ventricosa\", confidence: tag),
(code: \"V3\", received: \"N. ventricosa\", confidence: tag),
(code: \"S1\", received: \"N. spathulata\", confidence: tag, ramets: [(code: \"a\", made: original),
    (code: \"b\", from: \"a\", made: cutting, rooted: \"2024-01-01\")]),
])";

fn top() -> BenchTop {
    BenchTop::with([
        (
            "registry.ron",
            "(genus: \"Nepenthes\", hemisphere: north, format: 2)",
        ),
        (
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])",
        ),
        ("clones.ron", FOUNDERS),
    ])
}

/// What a line answers on a day, on both channels.
fn said(top: &BenchTop, day: &str, line: &str) -> String {
    let words: Vec<&str> = line.split(' ').chain(["--today", day]).collect();
    let run = top.run(&words);
    [run.stdout, run.stderr].concat()
}

/// Lines that are to be recorded, each on its day.
fn record(top: &BenchTop, lines: &[(&str, &str)]) {
    for (day, line) in lines {
        let words: Vec<&str> = line.split(' ').chain(["--today", day]).collect();
        let run = top.run(&words);
        assert_eq!(run.exit, Some(0), "{line}\n{run}");
    }
}

#[track_caller]
fn holds(said: &str, words: &[&str]) {
    let folded = said.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in words {
        match words.strip_prefix("not: ") {
            Some(words) => assert!(!folded.contains(words), "`{words}` in\n{said}"),
            None => assert!(folded.contains(words), "no `{words}` in\n{said}"),
        }
    }
}

/// Both sexes opened on pieces; then one died and one was sold.
fn spikes_gone() -> BenchTop {
    let top = top();
    record(
        &top,
        &[
            ("2024-05-10", "flower V1-a --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V2 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower S1-a --sex male --opened 2024-05-10"),
            ("2024-05-20", "gone V1-a --died --why rot"),
            ("2024-05-20", "gone S1-a --sold"),
        ],
    );
    top
}

#[test]
fn the_spike_of_a_piece_that_is_gone_is_not_open() {
    let top = spikes_gone();
    let on = |line: &str| said(&top, "2024-05-21", line);
    holds(&on("ready"), &["1 female in flower", "not: V1", "not: S1"]);
    holds(&on("plan"), &["not: V1", "not: S1 fresh"]);
    holds(&on("pair V1 S1"), &["not: can be made now"]);
    holds(
        &on("due"),
        &["pollinate V2", "not: pollinate V1", "not: collect pollen"],
    );
}

#[test]
fn pollen_is_not_taken_off_a_spike_that_left_with_its_piece() {
    let top = spikes_gone();
    holds(
        &said(&top, "2024-05-21", "collect S1"),
        &["its open flowers were those of S1-a: sold 2024-05-20"],
    );
    holds(
        &said(
            &top,
            "2024-05-21",
            "pollinate V1 --with S1 --zone A --flowers 5",
        ),
        &["V1-a: died 2024-05-20 (rot)"],
    );
    holds(
        &said(&top, "2024-05-21", "collect S1 --on 2024-05-15"),
        &["S1-2405"],
    );
}

/// Three zones dusted on a piece that died, a plant that was sold and one that died.
#[test]
fn a_zone_whose_plant_is_gone_is_no_job() {
    let top = top();
    record(
        &top,
        &[
            ("2024-05-10", "flower V1-a --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V2 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V3 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower S1 --sex male --opened 2024-05-10"),
            (
                "2024-05-12",
                "pollinate V1-a --with S1 --zone A --flowers 5",
            ),
            ("2024-05-12", "pollinate V2 --with S1 --zone A --flowers 5"),
            ("2024-05-12", "pollinate V3 --with S1 --zone A --flowers 5"),
            ("2024-05-14", "gone V1-a --died --why rot"),
            ("2024-05-14", "gone V2 --sold"),
            ("2024-05-14", "gone V3 --died"),
        ],
    );
    let zones = ["not: X24-01.A", "not: X24-02.A", "not: X24-03.A"];
    holds(&said(&top, "2024-05-14", "due"), &zones);
    holds(&said(&top, "2024-05-30", "due"), &zones);
    holds(&said(&top, "2024-09-14", "due"), &zones);
}

/// Pods that may have been ripe by the day its plant died are asked for; those of a plant that was sold are its buyer's.
#[test]
fn pods_that_were_ripe_before_their_plant_died_are_asked_for() {
    let top = top();
    record(
        &top,
        &[
            ("2024-05-10", "flower V2 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower V3 --sex female --opened 2024-05-10"),
            ("2024-05-10", "flower S1 --sex male --opened 2024-05-10"),
            ("2024-05-12", "pollinate V2 --with S1 --zone A --flowers 5"),
            ("2024-05-12", "pollinate V3 --with S1 --zone A --flowers 5"),
            ("2024-08-14", "gone V2 --sold"),
            ("2024-08-14", "gone V3 --died"),
        ],
    );
    holds(
        &said(&top, "2024-09-14", "due"),
        &[
            "X24-02.A 5 flowers, set not counted; the plant: died 2024-08-14",
            "not: X24-01.A",
        ],
    );
}

/// Four seedlings of one sowing; the first has a place and a cutting without one.
fn seedlings() -> BenchTop {
    let page = "(code: \"X22-01\", parents: known(seed: \"V2\", pollen: \"S1\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"2022-01-01\", seeds: 40)], \
         seedlings: [(number: \"1\", sowing: \"S1\", place: \"shelf 1, front\"), \
         (number: \"2\", sowing: \"S1\", kept: (on: \"2024-01-01\")), (number: \"3\", sowing: \"S1\")])";
    let top = top().file("crosses/X22-01.ron", page);
    record(&top, &[("2024-05-01", "cutting X22-01-1")]);
    top
}

#[test]
fn a_cutting_without_a_place_does_not_stand_where_its_plant_stood() {
    let top = seedlings();
    record(&top, &[("2024-05-02", "gone X22-01-1-a --sold --to Ann")]);
    let on = |line: &str| said(&top, "2024-05-03", line);
    holds(&on("show X22-01-1"), &["not: shelf 1, front"]);
    holds(&on("list plants --format csv"), &["not: shelf 1"]);
    let words = [
        "gone",
        "--place",
        "shelf 1, front",
        "--died",
        "--today",
        "2024-05-03",
    ];
    assert_eq!(top.run(&words).exit, Some(2));
    record(&top, &[("2024-05-03", "move X22-01-1 shelf2")]);
    holds(&on("show X22-01-1-b"), &["shelf2"]);
}

#[test]
fn beside_its_plant_a_cutting_without_a_place_has_none() {
    let top = seedlings();
    let words = [
        "gone",
        "--place",
        "shelf 1, front",
        "--died",
        "--today",
        "2024-05-03",
    ];
    let run = top.run(&words);
    assert_eq!(run.exit, Some(0), "{run}");
    holds(&run.stdout, &["X22-01-1-a: died", "not: X22-01-1-b"]);
}

#[test]
fn where_a_plant_stands_that_came_back_is_not_on_record() {
    let top = top();
    record(
        &top,
        &[
            ("2024-01-01", "move V2 benchD"),
            ("2024-02-01", "gone V2 --sold --to Ann"),
        ],
    );
    holds(
        &said(&top, "2024-05-01", "back V2"),
        &[
            "Where V2 stands now is not on record (before it left: benchD); record it: podbook move V2 PLACE",
        ],
    );
    holds(
        &said(&top, "2024-05-01", "show V2"),
        &["not: place benchD", "V2: N. ventricosa"],
    );
    record(
        &top,
        &[
            ("2024-05-02", "gone V2 --given --to Ann"),
            ("2024-05-03", "back V2 --place benchE"),
        ],
    );
    holds(&said(&top, "2024-05-03", "show V2"), &["place benchE"]);
}

#[test]
fn a_seedling_that_came_back_stands_at_the_place_that_is_said() {
    let top = seedlings();
    record(
        &top,
        &[
            ("2024-05-02", "gone X22-01-1-a --sold --to Ann"),
            ("2024-05-03", "back X22-01-1-a"),
        ],
    );
    holds(
        &said(&top, "2024-05-03", "show X22-01-1"),
        &["not: shelf 1, front"],
    );
    record(&top, &[("2024-05-04", "gone X22-01-1 --sold --all-pieces")]);
    record(&top, &[("2024-05-05", "back X22-01-1 --place benchE")]);
    holds(
        &said(&top, "2024-05-05", "show X22-01-1"),
        &["place benchE"],
    );
}

#[test]
fn a_plant_that_died_is_not_kept() {
    let top = seedlings();
    record(&top, &[("2024-05-01", "gone X22-01-2 --died")]);
    let listed = said(&top, "2024-05-02", "list crosses --format csv");
    let row = listed.lines().find(|line| line.starts_with("X22-01,"));
    assert!(row.is_some_and(|row| row.contains(",3,2,0,")), "{listed}");
}

/// Tags of what surely came since; what perhaps did is named.
#[test]
fn tags_since_a_day_name_what_may_have_come_since() {
    let clones = "(clones: [(code: \"L1\", received: \"N. ventricosa\", on: \"2024\"), \
         (code: \"L2\", received: \"N. ventricosa\", on: \"2024-05-11\")])";
    let top = top().file("clones.ron", clones);
    holds(
        &said(&top, "2024-06-01", "tags --since 2024-05-15"),
        &[
            "no plant surely arrived or was numbered from that day on",
            "no tag of L1: the record does not say whether that was before the day of --since or after",
        ],
    );
    holds(
        &said(&top, "2024-06-01", "tags --since 2024-05-01"),
        &["1 tag", "no tag of L1"],
    );
}

/// The same of trays: of a sowing known by its year it is not on record whether it stands since before that day.
#[test]
fn tags_of_trays_since_a_day_name_what_may_stand_only_since() {
    let page = "(code: \"X24-01\", parents: known(seed: \"V2\", pollen: \"S1\"), confidence: witnessed, sowings: [\
         (code: \"S1\", on: \"2024\", seeds: 9), (code: \"S2\", on: \"2024-05-11\", seeds: 9)])";
    let top = top().file("crosses/X24-01.ron", page);
    holds(
        &said(&top, "2024-06-01", "tags --trays --since 2024-05-15"),
        &[
            "no tray asked for surely stands since that day or a later one",
            "no tag of X24-01.S1: the record does not say whether that was before the day of --since or after",
        ],
    );
    holds(
        &said(&top, "2024-06-01", "tags --trays --since 2024-05-01"),
        &["1 tag", "no tag of X24-01.S1"],
    );
}

/// A pot counted on a day, and once more in a year.
#[test]
fn of_two_counts_of_which_either_may_be_the_last_a_range_is_left() {
    for counts in [
        "(on: \"2022-05-10\", count: 40), (on: \"2022\", count: 51)",
        "(on: \"2022\", count: 51), (on: \"2022-05-10\", count: 40)",
        "(on: \"2022-05-10\", count: 51), (on: \"2022-05-10\", count: 40)",
    ] {
        let page = format!(
            "(code: \"X22-01\", parents: known(seed: \"V2\", pollen: \"S1\"), confidence: witnessed, \
             sowings: [(code: \"S1\", on: \"2022-01-01\", seeds: 100)], \
             community_pots: [(code: \"T1\", sowing: \"S1\", pot: \"tray\", alive: [{counts}])])"
        );
        let top = top().file("crosses/X22-01.ron", &page);
        holds(
            &said(&top, "2024-06-01", "tags X22-01.T1 --trays"),
            &["40–51 left"],
        );
        holds(
            &said(&top, "2024-06-01", "show X22-01.T1"),
            &["40–51 left:", "and which count was the last is not known"],
        );
    }
}

/// A lot, and a sowing of half of it.
fn due_of_lot(lot: &str, sowings: &str) -> String {
    let page = format!(
        "(code: \"X23-01\", parents: known(seed: \"V2\", pollen: \"S1\"), confidence: witnessed, \
         pollinations: [(zone: \"A\", plant: \"V2\", on: [\"2023-06-01\"], flowers: 10, set: 5)], \
         pods: [(code: \"P1\", zone: \"A\", harvested: \"2023-10-01\")], \
         seed_lots: [(code: \"L1\", pod: \"P1\", {lot})], sowings: [{sowings}])"
    );
    let top = top().file("crosses/X23-01.ron", &page);
    said(&top, "2023-12-01", "due")
}

#[test]
fn seed_of_which_some_is_said_to_be_left_is_asked_for_after_a_sowing() {
    let half = "(code: \"S1\", lot: \"L1\", on: \"2023-11-01\", seeds: 50)";
    let left = due_of_lot("seeds: 100, left: \"about 50, fridge\"", half);
    holds(
        &left,
        &["see what seed is left X23-01.L1 left: about 50, fridge"],
    );
    let left = due_of_lot("left: \"a pinch\"", half);
    holds(&left, &["see what seed is left X23-01.L1 left: a pinch"]);
    holds(&due_of_lot("left: \"none\"", half), &["not: X23-01.L1"]);
    // Nothing was said of it: it counts as sown.
    holds(&due_of_lot("", half), &["not: X23-01.L1"]);
}

/// Seed of the only zone is on record, without a pod.
#[test]
fn pods_whose_seed_is_on_record_are_not_to_be_harvested() {
    let page = "(code: \"X19-06\", parents: known(seed: \"V2\", pollen: \"?\"), confidence: claim, \
         pollinations: [(zone: \"A\", plant: \"V2\", on: [\"2019\"])], \
         seed_lots: [(code: \"L1\", seeds: 30, left: \"not known from the table\")])";
    let top = top().file("crosses/X19-06.ron", page);
    holds(
        &said(&top, "2021-06-01", "due"),
        &[
            "not: harvest pods",
            "see what seed is left X19-06.L1",
            "not: X19-06.A",
        ],
    );
}

/// Whoever takes a lineage in does not know what became of its ancestors.
#[test]
fn an_ancestor_of_a_lineage_is_not_said_to_stand_anywhere() {
    let top = seedlings();
    record(
        &top,
        &[
            ("2024-05-03", "gone V2 --died --why rot"),
            ("2024-05-04", "handover X22-01-3 -o H"),
        ],
    );
    let new = BenchTop::empty();
    let lineage = top.path().join("H");
    assert_eq!(new.run(&["new", "."]).exit, Some(0));
    let merge = [
        "merge",
        lineage.to_str().expect("a path"),
        "--told-by",
        "club",
    ];
    let run = new.run(&merge);
    assert_eq!(run.exit, Some(0), "{run}");
    holds(
        &said(&new, "2024-06-01", "show V2"),
        &["status another grower's, never here", "not: stands"],
    );
}

#[test]
fn a_piece_has_a_pot_of_its_own() {
    let top = top();
    let on = |line: &str| said(&top, "2024-05-03", line);
    record(&top, &[("2024-05-01", "pot S1-b 5cm")]);
    holds(
        &on("show S1-b"),
        &["S1-b: cutting of S1-a", "pot 5 cm since 2024-05-01"],
    );
    holds(&on("card S1-b"), &["5 cm"]);
    holds(&on("card S1-a"), &["not: 5 cm"]);
    holds(
        &said(&top, "2024-05-02", "pot S1 12cm"),
        &[
            "S1: potted into 12 cm",
            "The pot is that of S1 itself; of a piece taken off it: podbook pot S1-b WIDTH",
        ],
    );
    holds(
        &on("show S1"),
        &["pot 12 cm since 2024-05-02", "5 cm since 2024-05-01"],
    );
    record(&top, &[("2024-05-03", "gone S1-a --sold")]);
    holds(&on("show S1"), &["pot 5 cm since 2024-05-01"]);
    holds(&on("pot S1 7cm"), &["S1-b: potted into 7 cm"]);
    holds(
        &on("pot S1 7cm"),
        &["S1-b is already on record as potted into 7 cm on 2024-05-03"],
    );
    holds(&on("show S1"), &["pot 7 cm since 2024-05-03"]);
}

#[test]
fn a_cutting_potted_with_a_place_leaves_its_plant_where_it_is() {
    let top = seedlings();
    record(&top, &[("2024-05-02", "pot X22-01-1-b 5cm --place tent")]);
    let shown = said(&top, "2024-05-03", "show X22-01-1");
    holds(
        &shown,
        &[
            "place shelf 1, front",
            "tent 5 cm since 2024-05-02",
            "not: pot 5 cm since",
        ],
    );
}

/// Dates and widths of a piece's pots are looked at as those of a plant.
#[test]
fn pots_of_a_piece_are_checked() {
    let pots = "rooted: \"2024-01-01\", pots: [(on: \"2023-01-01\", pot: \"7 kg\")])";
    let clones = FOUNDERS.replacen("rooted: \"2024-01-01\")", pots, 1);
    let clones = clones.replacen("from: \"a\",", "from: \"a\", cut: \"2023-06-01\",", 1);
    let top = top().file("clones.ron", &clones);
    holds(
        &said(&top, "2024-05-03", "check"),
        &["unknown-unit", "the piece was potted"],
    );
}
