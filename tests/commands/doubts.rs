//! A doubt on a species is repeated wherever its name is printed, whatever was asked.

use crate::bench_top::BenchTop;
use std::collections::BTreeSet;

const DOUBT: &str = "given to many lowland plants";

/// Every verb on plants behind which the species stands; as text, and as JSON where there is such a form.
const ASKED: &str = "read N. ventricosa
name X18-01
name X22-02-1 --fit 20
show V1
show V1-b
show X18-01
show X22-02.P1
show X22-02.W1
show X22-02-1
show ventricosa
show X18-2404
list plants
list plants --founders --sex female
list crosses
find V1
card X22-02-1
registration X22-02-1
find X22-02
find ventricosa
pedigree X22-02-1
pedigree X22-02-1 --generations 1
pedigree X22-02
pedigree V1 --down
parentage X22-02-1
siblings X22-02
growth X22-02
growth ventricosa
variation X22-02 X18-01 --trait span
kinship X22-02-1 X22-02-2
kinship X22-02-1 X22-02-2 V1
kinship --inbreeding
pair V1 T1
plan --any-time
check";

/// Verbs that print codes and no names, and those that ask nothing of a registry.
const WITHOUT_NAMES: &str = "tags due new completions diversity epithet select man merit ready grade list add add-seed add-pollen flower \
    collect thaw finish pollinate took harvest sow count prick number pot move cutting rooted keep gone back muddle treat note opinion seen \
    correct undo changes sheet measure handover album verify merge promised export import photos serve";

/// Questions on plants behind which it does not stand.
const OF_OTHERS: &str = "show T1
name S1
list plants --founders --sex male
kinship S1 T1
pair T1 S1
pedigree T1";

fn doubted() -> BenchTop {
    let lot = "(lots: [(code: \"X18-2404\", from: plant(\"X18-01-2\"), collected: \"2024-04-21\", stored: fridge),";
    let top = BenchTop::sound().change("pollen.ron", "(lots: [", lot);
    top.change(
        "species.ron",
        "(epithet: \"ventricosa\"",
        &format!("(epithet: \"ventricosa\", doubt: \"{DOUBT}\""),
    )
}

/// A question in each of its forms.
fn forms(question: &str) -> Vec<Vec<&str>> {
    let words: Vec<&str> = question.split_whitespace().collect();
    let words = match &words[..] {
        ["read", ..] => vec!["read", "N. ventricosa"],
        all => all.to_vec(),
    };
    let with = |more: &[&'static str]| [&words[..], more].concat();
    let mut forms = vec![with(&[]), with(&["--json"])];
    if words[0] == "pedigree" {
        forms.push(with(&["--format", "dot"]));
        forms.push(with(&["--format", "svg"]));
    }
    forms
}

/// One line of words, without folds and without the tags of a picture.
fn flat(text: &str) -> String {
    let mut words = String::new();
    let mut rest = text;
    let has_tags = text.contains("<svg") || text.starts_with("digraph");
    while let Some((before, tag)) = rest.split_once('<').filter(|_| has_tags) {
        words += before;
        words.push(' ');
        rest = tag.split_once('>').map_or("", |(_, behind)| behind);
    }
    words += rest;
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_doubt_on_a_species_is_repeated_wherever_its_name_is_printed() {
    let top = doubted();
    for question in ASKED.lines().flat_map(forms) {
        let told = top.run(&question);
        let flat = flat(&told.stdout);
        let times = flat.matches(DOUBT).count();
        assert!(times > 0, "{question:?}\n{told}");
        assert!(times == 1 || question[0] == "check", "{question:?}\n{told}");
    }
    for question in OF_OTHERS.lines().flat_map(forms) {
        let told = top.run(&question);
        let answered = !told.stdout.is_empty() && !told.stdout.contains(DOUBT);
        assert!(answered, "{question:?}\n{told}");
    }
}

#[test]
fn every_verb_repeats_it_or_prints_no_names() {
    let top = doubted();
    let command = podbook::cli::command();
    let verbs: BTreeSet<&str> = command
        .get_subcommands()
        .map(|verb| verb.get_name())
        .collect();
    let asked = ASKED.lines().filter_map(|line| line.split(' ').next());
    let tried: BTreeSet<&str> = asked.chain(WITHOUT_NAMES.split_whitespace()).collect();
    assert_eq!(verbs, tried);
    for question in [
        &["list", "pods"][..],
        &["diversity"],
        &["ready"],
        &["due"],
        &["merit", "--trait", "span"],
        &["grade", "X22-02"],
        &["select", "X22-02", "--weigh", "span=1", "--keep", "1"],
    ] {
        for told in [
            top.run(question),
            top.run(&[question, &["--json"]].concat()),
        ] {
            let named = told.stdout.contains("ventricosa");
            assert!(!named, "{question:?}\n{told}");
        }
    }
}

/// Each row may be all that somebody ever sees.
#[test]
fn passport_data_repeats_it_with_every_plant_that_has_the_name_behind_it() {
    let told = doubted().run(&["export", "passport"]);
    let mut reader = csv::Reader::from_reader(told.stdout.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    let with = |word: &str| {
        rows.iter()
            .filter(|row| row.iter().any(|cell| cell.contains(word)))
            .count()
    };
    let named = rows
        .iter()
        .filter(|row| &row[9] == "ventricosa" || row[30].contains("ventricosa"));
    let named = named.count();
    assert!(named > 1 && named < rows.len(), "{told}");
    assert_eq!(with(DOUBT), named, "{told}");
}

#[test]
fn a_registry_without_a_doubt_prints_nothing_of_one() {
    let top = BenchTop::sound();
    for question in ASKED.lines().flat_map(forms) {
        let told = top.run(&question);
        let line = flat(&told.stdout).contains("! ventricosa: ");
        assert!(
            !line && !told.stdout.contains(DOUBT),
            "{question:?}\n{told}"
        );
    }
}
