//! Parents by codes of two plants, by species, and of several pods.

use crate::tables::{assert_adds_up, brought, chosen, faults, page, sorted, table};
use podbook::analysis::import::{InputTable, Why};
use podbook::record::RowClass;
use podbook::report::import::import_report;

fn tables(plants: &[&str], crosses: &[&str]) -> [InputTable; 2] {
    [table("p.csv", plants), table("c.csv", crosses)]
}

/// A code that two plants bear names neither, whether or not the second comes in; a row that the grower leaves out is none.
#[test]
fn a_code_of_two_plants_names_no_parent() {
    let tables = tables(
        &[
            "code|name",
            "V2|N. spathulata",
            "V3|N. maxima",
            "V3|N. alata",
        ],
        &["cross|mother|father|pollinated", "C23-B|V3|V2|2023-05-01"],
    );
    for choices in ["()", "(choices: [(class: code_taken, choose: take)])"] {
        let import = chosen(&tables, choices);
        assert_adds_up(&import);
        let row = import.rows.last().expect("a row");
        assert_eq!(row.class, RowClass::ParentUnknown, "{choices}");
        let changes = brought(&tables, choices);
        let cross = page(&changes, "crosses/C23-B.ron");
        assert!(
            cross.contains("parents: seed_unknown(pollen: \"V2\")"),
            "{cross}"
        );
        assert_eq!(faults(&changes), Vec::<String>::new());
    }
    let left = "(rows: [(table: \"p.csv\", row: 4, choose: leave_out)])";
    let changes = brought(&tables, left);
    let cross = page(&changes, "crosses/C23-B.ron");
    assert!(cross.contains("parents: known(seed: \"V3\""), "{cross}");
}

/// `ü` as one sign and as `u` with its mark are one code, also in two tables.
#[test]
fn a_code_spelt_in_two_ways_is_one_plant() {
    let tables = tables(
        &["code|name", "Gr\u{fc}n1|N. ventricosa", "S1|N. spathulata"],
        &[
            "cross|mother|father|pollinated",
            "C24|Gru\u{308}n1|S1|2024-05-01",
        ],
    );
    assert_adds_up(&sorted(&tables));
    let changes = brought(&tables, "()");
    let cross = page(&changes, "crosses/C24.ron");
    let parents = "parents: known(seed: \"Gr\u{fc}n1\", pollen: \"S1\")";
    assert!(cross.contains(parents), "{cross}");
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// A species is taken for the one plant of that name, which the report counts and a choice undoes.
#[test]
fn a_parent_named_by_its_species_is_counted() {
    let tables = tables(
        &["code|name", "V1|N. ventricosa", "V2|N. spathulata"],
        &[
            "cross|mother|father|pollinated",
            "C23-A|N. ventricosa|N. spathulata|2023-05-01",
            "C23-B|V1|V2|2023-05-02",
        ],
    );
    let import = sorted(&tables);
    assert_adds_up(&import);
    let cautions = import_report(&import, &[]).cautions;
    let words = "2 parents named only by species are taken for your one plant of that name: V1 and V2. To leave them as species: --choose parent_by_species=species";
    assert_eq!(cautions, [words]);
    assert_eq!(import.rows[3].class, RowClass::Clean);
    let changes = brought(&tables, "()");
    assert!(page(&changes, "crosses/C23-A.ron").contains("known(seed: \"V1\", pollen: \"V2\")"));
    let species = "(choices: [(class: parent_by_species, choose: species)])";
    let changes = brought(&tables, species);
    let cross = page(&changes, "crosses/C23-A.ron");
    assert!(
        cross.contains("known(seed: \"ventricosa\", pollen: \"spathulata\")"),
        "{cross}"
    );
    assert!(page(&changes, "crosses/C23-B.ron").contains("known(seed: \"V1\", pollen: \"V2\")"));
    assert!(
        import_report(&chosen(&tables, species), &[])
            .cautions
            .is_empty()
    );
}

/// No plant is both parents, so a species written for both is not your one plant of that name twice.
#[test]
fn a_species_for_both_parents_stays_a_species() {
    for (mother, father, parents) in [
        (
            "N. ventricosa",
            "N. ventricosa",
            "known(seed: \"ventricosa\", pollen: \"ventricosa\")",
        ),
        (
            "V1",
            "N. ventricosa",
            "known(seed: \"V1\", pollen: \"ventricosa\")",
        ),
    ] {
        let row = format!("C23-A|{mother}|{father}|2023-05-01");
        let tables = tables(
            &["code|name", "V1|N. ventricosa"],
            &["cross|mother|father|pollinated", &row],
        );
        assert_adds_up(&sorted(&tables));
        let changes = brought(&tables, "()");
        let cross = page(&changes, "crosses/C23-A.ron");
        assert!(cross.contains(parents), "{cross}");
        assert_eq!(faults(&changes), Vec::<String>::new());
    }
}

/// The files have one form for one of several fathers, the same for all pods: the report says what the table does not.
#[test]
fn one_of_several_fathers_of_several_pods_is_said() {
    let tables = tables(
        &[
            "code|name",
            "V1|N. ventricosa",
            "V2|N. spathulata",
            "V3|N. alata",
        ],
        &[
            "cross|mother|father|pods",
            "C19-A|V1|V2 or V3|7",
            "C19-B|V1|V2 or V3|1",
        ],
    );
    let doubts = import_report(&sorted(&tables), &[]).doubts;
    let whys: Vec<&str> = doubts.iter().map(|of| of.why.as_str()).collect();
    assert!(
        whys[0].contains("the same one for all 7 pods, which the table does not say"),
        "{whys:?}"
    );
    assert_eq!(whys[1], "one of several");
}

/// A place where nothing is said of seed is that of a plant; in a list of crosses it is not.
#[test]
fn a_place_is_that_of_a_seedling() {
    let plants = ["code|name", "V1|N. ventricosa", "V2|N. spathulata"];
    let seedling = tables(&plants, &["Code|Mother|Father|Where", "Odd1|V1|V2|shelf"]);
    let changes = brought(&seedling, "()");
    let cross = page(&changes, "crosses/XX-01.ron");
    assert!(
        cross.contains("place: \"shelf\", nickname: \"Odd1\""),
        "{cross}"
    );
    let pods = tables(
        &plants,
        &["Code|Mother|Father|Pods|Where", "Odd1|V1|V2|2|shelf"],
    );
    page(&brought(&pods, "()"), "crosses/Odd1.ron");
    let crosses = tables(
        &plants,
        &["Cross no|Mother|Father|Where", "Odd1|V1|V2|shelf"],
    );
    page(&brought(&crosses, "()"), "crosses/Odd1.ron");
}

/// `x`, `X` and `×` are one sign, in the name of a plant as in the cell that names it for a parent.
#[test]
fn the_signs_of_a_cross_are_one() {
    for (name, mother) in [
        ("ventricosa x spathulata", "ventricosa × spathulata"),
        ("ventricosa × spathulata", "N. ventricosa X spathulata"),
        ("ventricosa×spathulata", "ventricosa x spathulata"),
    ] {
        let of_name = format!("H1|{name}");
        let of_cross = format!("19-2|{mother}|T1");
        let tables = tables(
            &["Code|Name", "T1|truncata", &of_name],
            &["Cross|Mother|Father", &of_cross],
        );
        let cross = page(&brought(&tables, "()"), "crosses/19-2.ron").to_owned();
        assert!(
            cross.contains("known(seed: \"H1\", pollen: \"T1\")"),
            "{cross}"
        );
    }
}

/// Both parents in one cell say what the same words say in two: a doubt about one leaves the other.
#[test]
fn a_doubt_about_one_parent_leaves_the_other() {
    for (both, mother, father, expected) in [
        (
            "V1 x (S1 or T1)",
            "V1",
            "S1 or T1",
            "pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"T1\"])",
        ),
        ("V1 x S1?", "V1", "S1?", "pollen_unknown(seed: \"V1\")"),
        ("V1? × (S1)", "V1?", "S1", "seed_unknown(pollen: \"S1\")"),
    ] {
        let plants = [
            "code|name",
            "V1|N. ventricosa",
            "S1|N. spathulata",
            "T1|N. truncata",
        ];
        let one = ["cross|parents|pollinated", &format!("C1|{both}|2023-05-01")];
        let two = [
            "cross|mother|father|pollinated",
            &format!("C1|{mother}|{father}|2023-05-01"),
        ];
        for crosses in [&one, &two] {
            let changes = brought(&tables(&plants, crosses), "()");
            let cross = page(&changes, "crosses/C1.ron");
            assert!(cross.contains(expected), "{crosses:?}: {cross}");
        }
    }
}

/// The mother again as father is selfed seed, which no plant bears here; the rest of the table comes in.
#[test]
fn one_plant_for_both_parents_is_selfed() {
    for head in ["Code|Name|Mother|Father", "Code|Name|Parents|Pollinated"] {
        let both = match head.ends_with("Father") {
            true => "V1|V1",
            false => "V1 x V1|2019",
        };
        let lines = [head, "V1|N. maxima||", &format!("X1||{both}")].map(str::to_owned);
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        let tables = [table("a.csv", &lines)];
        let import = sorted(&tables);
        assert_eq!(import.rows[1].doubts[0].why, Why::Selfed);
        let changes = brought(&tables, "()");
        let cross = page(&changes, "crosses/X1.ron");
        assert!(cross.contains("pollen_unknown(seed: \"V1\")"), "{cross}");
        assert_eq!(faults(&changes), Vec::<String>::new());
    }
}

/// A code in brackets behind the name of its plant is that plant; behind another name it is none.
#[test]
fn a_code_behind_its_name_is_the_plant() {
    let lines = [
        "Code|Name|Parents|Pollinated",
        "V1|N. ventricosa||",
        "V2|N. truncata||",
        "X1||ventricosa (V1) x truncata (V2)|2019",
        "X2||truncata (V1) x V2|2019",
    ];
    let tables = [table("a.csv", &lines)];
    assert_eq!(sorted(&tables).rows[2].class, RowClass::Clean);
    let changes = brought(&tables, "()");
    let cross = page(&changes, "crosses/X1.ron");
    assert!(
        cross.contains("known(seed: \"V1\", pollen: \"V2\")"),
        "{cross}"
    );
    let cross = page(&changes, "crosses/X2.ron");
    assert!(cross.contains("seed_unknown(pollen: \"V2\")"), "{cross}");
}
