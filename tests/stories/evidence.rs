//! Five kinds of muddle, each as a small registry: what every command says of descent, and the figures by hand.

use crate::story::Story;
use insta::assert_snapshot;
use serde_json::Value;

/// Everything that speaks of descent, for these codes.
fn all_answers(story: &Story, codes: &[&str], pair: &str) -> String {
    let mut told = String::new();
    let mut ask = |words: String| {
        let answer = story.ask(&words);
        told.push_str(&format!("$ podbook {words}\n{answer}\n"));
    };
    for code in codes {
        for verb in ["name", "show", "parentage", "pedigree"] {
            ask(format!("{verb} {code}"));
        }
        ask(format!("name {code} --fit 60"));
        ask(format!("pedigree {code} --format dot"));
    }
    ask("list plants".to_owned());
    ask("list crosses".to_owned());
    ask(format!("kinship {pair}"));
    ask(format!("pair {pair}"));
    told
}

fn evidence(story: &Story, code: &str) -> Value {
    let text = story.ask(&format!("name {code} --json"));
    let found: Value = serde_json::from_str(&text).unwrap_or_else(|_| panic!("JSON: {text}"));
    let report = found.get(0).unwrap_or(&found);
    report["evidence"].clone()
}

fn words(story: &Story, code: &str) -> String {
    evidence(story, code)["words"]
        .as_str()
        .expect("a sentence")
        .to_owned()
}

#[test]
fn two_tags_in_one_pot() {
    let story = Story::named("two_tags");
    let told = words(&story, "X21-03-5");
    assert!(
        told.starts_with(
            "from one of two crosses (pod X21-03.P1 or X21-04.P1), which may differ from plant to plant"
        ),
        "{told}"
    );
    assert!(
        !told.contains("mixed") && !told.contains("parents witnessed"),
        "{told}"
    );
    assert!(
        told.ends_with("founders by their tags; L1 claimed"),
        "{told}"
    );
    assert_eq!(evidence(&story, "X21-03-5")["parents"], "one_of_several");
    assert_eq!(
        words(&story, "X21-03-4"),
        "parents witnessed; founders by their tags"
    );
    let child = words(&story, "X24-01-1");
    assert!(
        child.starts_with("parents witnessed; further back, X21-03-5 is from one of two crosses; "),
        "{child}"
    );
    let name = story.ask("name X21-03-5");
    assert!(!name.contains("mixed pollen"), "{name}");
    assert_snapshot!(all_answers(
        &story,
        &["X21-03-5", "X24-01-1"],
        "X21-03-5 T1"
    ));
}

/// Wilson's limits by hand, z = 1.959964: 2 of 10: 0.0567 to 0.5098; 0 of 5: z²/(5 + z²) = 0.4345; 1 of 4: 0.0456 to 0.6994.
#[test]
fn one_spike_three_zones_and_controls_that_took() {
    let story = Story::named("one_spike");
    for code in ["X22-01-1", "X22-02-1", "X22-01.P1", "X22-01.A", "X22-01"] {
        let told = words(&story, code);
        assert!(
            told.contains("father probable: 2 of 10 control flowers set, so stray pollen in 6 % to 51 % (95 %)"),
            "{code}: {told}"
        );
        assert!(
            told.starts_with("seed parent witnessed; ") && !told.contains("parents witnessed"),
            "{code}: {told}"
        );
        assert_eq!(evidence(&story, code)["parents"], "probable", "{code}");
    }
    let third = words(&story, "X22-03-1");
    assert!(
        third.contains(
            "father one of two (L1 or T1), the same one for the whole pod; father probable"
        ),
        "{third}"
    );
    assert_eq!(
        words(&story, "X23-01-1"),
        "parents witnessed; none of 5 control flowers set, so stray pollen may have set as many as 43 % of flowers (95 % limit); founders by their tags"
    );
    assert_eq!(evidence(&story, "X23-01-1")["parents"], "witnessed");
    let by_days = words(&story, "X24-01-1");
    assert!(by_days.contains("1 of 4 control flowers set, so stray pollen in 5 % to 70 % (95 %) (no spike named: the same plant in the same days)"), "{by_days}");
    assert_eq!(
        words(&story, "X25-01-1"),
        "parents witnessed; further back, the father of X22-01-1 is probable (2 of 10 control flowers set); founders by their tags"
    );
    let open = words(&story, "X25-02-1");
    assert!(open.contains("father unknown (open pollination; L1 and T1 shed pollen near it, but any other may be the father)"), "{open}");
    for form in ["text", "dot", "svg"] {
        let drawn = |code: &str| story.ask(&format!("pedigree {code} --format {form}"));
        assert!(drawn("X22-01-1").contains("♂ probable"), "{form}");
        assert!(drawn("X25-01-1").contains("♂ probable"), "{form}");
        assert!(!drawn("X23-01-1").contains("♂ probable"), "{form}");
    }
    let tag = story.ask("name X22-01-1 --fit 60");
    assert!(
        tag.lines().next().unwrap().ends_with("(father probable)"),
        "{tag}"
    );
    assert_snapshot!(all_answers(
        &story,
        &["X22-01-1", "X25-01-1", "X25-02-1"],
        "V1 X22-01-1"
    ));
}

/// Every plant of a pedigree told as data has the evidence that `show` and `name` tell of it.
#[test]
fn a_pedigree_as_data_has_the_evidence_of_each_plant() {
    for (story, asked) in [
        ("one_spike", "X25-01-1"),
        ("two_tags", "X21-03"),
        ("floated", "X21-01.T1"),
    ] {
        let story = Story::named(story);
        let drawing: Value =
            serde_json::from_str(&story.ask(&format!("pedigree {asked} --json"))).unwrap();
        let plants = drawing["plants"].as_array().unwrap();
        assert!(plants.len() > 2, "{asked}");
        for plant in plants {
            let code = plant["code"].as_str().unwrap();
            assert_eq!(plant["evidence"], evidence(&story, code), "{asked}: {code}");
        }
        let focus = plants.iter().find(|plant| plant["focus"] == true).unwrap();
        assert_eq!(focus["evidence"]["words"], drawing["caption"]["evidence"]);
    }
}

/// Nothing in a formula shows stray pollen, so the word stands beside it in the same field, and is read as a doubt.
#[test]
fn no_formula_is_written_surer_than_its_father() {
    let story = Story::named("one_spike");
    let further = "(a father further back probable)";
    for (code, word) in [("X22-01-1", "(father probable)"), ("X25-01-1", further)] {
        let named: Value =
            serde_json::from_str(&story.ask(&format!("name {code} --json"))).unwrap();
        for style in ["breeder", "botanical", "purdy"] {
            let text = named[style].as_str().unwrap();
            assert!(text.ends_with(word), "{code} {style}: {text}");
            let again: Value =
                serde_json::from_str(&story.ask_words(&["read", text, "--json"])).unwrap();
            let notes = again["notes"].to_string();
            assert!(notes.contains("doubt-of-the-"), "{text}: {again}");
        }
    }
    let name = story.ask("name X23-01-1");
    assert!(!name.contains("probable)"), "{name}");
    let pair = story
        .ask("pair V1 X22-01-1")
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert_eq!(pair.matches(further).count(), 2, "{pair}");
}

/// 19 counted in the pot, three numbered out of it later: 16 left.
#[test]
fn a_divider_that_floated() {
    let story = Story::named("floated");
    let pot = words(&story, "X21-01.T1");
    assert!(
        pot.starts_with(
            "from one of two crosses (pod X21-01.P1 or X21-02.P1), which may differ from plant to plant"
        ),
        "{pot}"
    );
    assert!(
        pot.contains("X21-01 itself witnessed; X21-02 itself on the tag"),
        "{pot}"
    );
    let numbered = words(&story, "X21-01-1");
    assert!(
        numbered.contains("which may differ from plant to plant"),
        "{numbered}"
    );
    assert_eq!(
        words(&story, "X21-01-3"),
        "parents witnessed; founders by their tags"
    );
    assert_eq!(
        words(&story, "X21-01-4"),
        "parents witnessed; founders by their tags"
    );
    assert!(
        words(&story, "X24-01-1").contains("further back, X21-01-1 is from one of two crosses")
    );
    let pot = story.ask("show X21-01.T1");
    assert!(
        pot.contains("16 left: 19 alive on 2022-03-01, 3 numbered since"),
        "{pot}"
    );
    assert!(
        pot.lines().next().unwrap().contains(" or "),
        "the name of the pot is no certain formula: {pot}"
    );
    let shares = story.ask("parentage X21-01-1");
    assert!(
        shares.contains("V1 × B2") && shares.contains("L1 × T1"),
        "{shares}"
    );
    assert!(
        shares.contains("this plant has one of these pairs as parents"),
        "{shares}"
    );
    assert_snapshot!(all_answers(
        &story,
        &["X21-01.T1", "X21-01-1", "X24-01-1"],
        "X21-01-1 X21-01-2"
    ));
}

#[test]
fn a_moved_name_with_sales() {
    let story = Story::named("moved_name");
    let founder = words(&story, "A1");
    assert!(founder.contains("provisional"), "{founder}");
    let child = words(&story, "X22-01-2");
    assert_eq!(
        child,
        "parents witnessed; founder V1 by its tag; A1 provisional"
    );
    let shares = story.ask("parentage X22-01-2 --json");
    assert!(shares.contains("cf. graciliflora"), "{shares}");
    let alone = story.ask("parentage H1");
    let one_line = alone.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        one_line.contains("generation unknown") && !alone.contains("F1"),
        "{alone}"
    );
    assert!(alone.contains("0.0 % to 100.0 %"), "{alone}");
    let child = story.ask("parentage X23-01-1");
    assert!(!child.contains("BC1"), "{child}");
    assert_snapshot!(all_answers(
        &story,
        &["A1-b", "H1", "X22-01-1", "X23-01-1"],
        "V1 A1"
    ));
}

#[test]
fn a_traded_plant_of_unknown_direction() {
    let story = Story::named("unknown_direction");
    let traded = words(&story, "X19-01-1");
    assert!(
        traded.starts_with(
            "parents by a label only, a claim; which parent bore the seed is not known"
        ),
        "{traded}"
    );
    assert_eq!(evidence(&story, "X19-01-1")["direction"], "lost");
    assert_eq!(evidence(&story, "X20-01-1")["direction"], "lost");
    assert!(
        words(&story, "X23-01-1")
            .contains("further back, the parents of X19-01 are claimed, by a label only")
    );
    for code in ["X19-01-1", "X20-01-1"] {
        let shown = story.ask(&format!("show {code}"));
        assert!(
            !shown.contains('♀'),
            "no sign where the direction is lost: {shown}"
        );
    }
    for code in ["X19-01-1", "X20-01-1", "N1"] {
        let name = story.ask(&format!("name {code}"));
        assert!(
            name.contains("direction unknown") && !name.contains("assumed"),
            "{name}"
        );
    }
    assert_snapshot!(all_answers(
        &story,
        &["X19-01-1", "X20-01-1", "N1", "X23-01-1"],
        "V1 X19-01-1"
    ));
}
