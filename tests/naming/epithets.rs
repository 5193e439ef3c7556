//! Cultivar epithets: the accept and reject list, worked by hand.
//!
//! Rules on quotes, capitals, length, codes, Latin, banned words, marks, superlatives, trademarks, Groups and grexes rest on
//! public guides quoting the ICNCP (confirmed); "variety" among the banned words, words of other languages, letters with
//! diacritics, and the genus as the denomination class rest on memory.

use super::vocabulary;
use podbook::naming::{Action, Context, Judgement, Raised, Rule, Verdict, judge};

fn judged(text: &str) -> Judgement {
    judge(text, &Context::new(&vocabulary()))
}

/// The rules that speak against an epithet.
fn against(judgement: &Judgement) -> Vec<Rule> {
    judgement
        .remarks
        .iter()
        .filter(|remark| remark.action == Action::Refuse)
        .map(|remark| remark.rule)
        .collect()
}

fn has(judgement: &Judgement, rule: Rule, action: Action) -> bool {
    judgement
        .remarks
        .iter()
        .any(|remark| remark.rule == rule && remark.action == action)
}

#[test]
fn accepted() {
    for text in [
        "'Ada Fernley'",
        "'A.B. Fern'",
        "'100th Battalion'",
        "'Borneo Robusta'",
        "'Formosa Night'",
        "'Wow! Wow!'",
        "'Day/Night'",
        "'Château d'Or'",
        "'King's Lantern'",
        "‘Ada Fernley’",
        "N. 'Ada Fernley'",
        "Nepenthes maxima 'Ada Fernley'",
        "Ada Fernley",
    ] {
        let judgement = judged(text);
        assert_eq!(
            judgement.verdict,
            Verdict::Accept,
            "{text}: {:?}",
            judgement.remarks
        );
        assert!(
            judgement.written.is_some() && has(&judgement, Rule::Establishment, Action::Note),
            "{text}"
        );
    }
    assert!(has(&judged("'Ada Fernley'"), Rule::Person, Action::Note));
    assert!(has(&judged("'Borneo Robusta'"), Rule::Latin, Action::Warn));
    assert_eq!(
        judged("'Ada Fernley'").written.as_deref(),
        Some("N. 'Ada Fernley'")
    );
    assert_eq!(
        judged("Nepenthes maxima 'Ada Fernley'").written.as_deref(),
        Some("N. maxima 'Ada Fernley'")
    );
}

#[test]
fn refused_by_their_letters() {
    for (text, rule) in [
        ("'5'", Rule::TooLittle),
        ("'2024'", Rule::TooLittle),
        ("'Q'", Rule::TooLittle),
        ("''", Rule::TooLittle),
        ("'...'", Rule::TooLittle),
        ("'ABCDEFGHIJK'", Rule::Code),
        ("'Red & Black'", Rule::Marks),
        ("'$Million'", Rule::Marks),
        ("'King (Giant)'", Rule::Marks),
        ("'Wow!! Dear'", Rule::Marks),
        ("'Oh! My! Dear!'", Rule::Marks),
        ("'Half ½ Moon'", Rule::Marks),
        ("'Moon 🌙 Child'", Rule::Marks),
        ("'Abcdefghij Klmnopqrst Uvwxyzabcde'", Rule::Length),
    ] {
        assert_eq!(
            against(&judged(text)).first(),
            Some(&rule),
            "{text}: {:?}",
            judged(text).remarks
        );
    }
    assert!(
        !against(&judged("'Abcdefghij Klmnopqrst Uvwxyzabcd'")).contains(&Rule::Length),
        "thirty characters besides spaces"
    );
    assert!(
        has(&judged("'ABCDEFGHIJ'"), Rule::Code, Action::Warn),
        "ten characters are a code that may stand"
    );
}

#[test]
fn refused_by_their_words() {
    for (text, rule) in [
        ("'Rubra'", Rule::Latin),
        ("'Best of All'", Rule::Superlative),
        ("'Largest Ever'", Rule::Superlative),
        ("'Improved Dragon'", Rule::BannedWord),
        ("'Red Selection'", Rule::BannedWord),
        ("'Red Varieties'", Rule::BannedWord),
        ("'New Hybrids'", Rule::BannedWord),
        ("'Nepenthes Queen'", Rule::Genus),
    ] {
        assert!(
            against(&judged(text)).contains(&rule),
            "{text}: {:?}",
            judged(text).remarks
        );
    }
    for word in [
        "cultivar",
        "form",
        "grex",
        "group",
        "hybrid",
        "maintenance",
        "mixture",
        "selection",
        "series",
        "sport",
        "strain",
        "improved",
        "transformed",
        "variety",
    ] {
        assert!(
            against(&judged(&format!("'Dark {word} Moon'"))).contains(&Rule::BannedWord),
            "{word}"
        );
    }
    assert!(
        !against(&judged("'Formosa Night'")).contains(&Rule::BannedWord),
        "only part of a word"
    );
    assert!(has(
        &judged("'Dark Seedling Moon'"),
        Rule::OlderBannedWord,
        Action::Warn
    ));
    for text in [
        "'Giant Red'",
        "'Pitcher Plant'",
        "'Red Pitcher Plant'",
        "'Monkey Cups'",
        "'Rose'",
    ] {
        assert!(
            has(&judged(text), Rule::Descriptive, Action::Warn),
            "{text}: {:?}",
            judged(text).remarks
        );
    }
    assert!(!has(
        &judged("'Lantern of the Pitcher Plant'"),
        Rule::Descriptive,
        Action::Warn
    ));
}

#[test]
fn the_genus_in_short_is_the_genus() {
    for text in ["'N. Rajah'", "'Nep. Rajah'", "'Nep Lowii'"] {
        assert!(
            against(&judged(text)).contains(&Rule::Genus),
            "{text}: {:?}",
            judged(text).remarks
        );
    }
    assert!(
        has(&judged("'N. Fernley'"), Rule::Genus, Action::Warn),
        "an initial, or the genus"
    );
    assert!(
        !judged("'A. N. Fernley'")
            .remarks
            .iter()
            .any(|remark| remark.rule == Rule::Genus)
    );
}

#[test]
fn older_epithets_are_judged_by_the_rules_of_their_year() {
    let words = vocabulary();
    let of = |year| Context {
        year: Some(year),
        ..Context::new(&words)
    };
    assert_eq!(judge("'Rubra'", &of(1958)).verdict, Verdict::Accept);
    assert_eq!(judge("'Rubra'", &of(1959)).verdict, Verdict::Refuse);
    let long = "'Abcdefghij Klmnopqrst Uvwxyzabcde'";
    assert_eq!(judge(long, &of(1995)).verdict, Verdict::Accept);
    assert_eq!(judge(long, &of(1996)).verdict, Verdict::Refuse);
}

#[test]
fn refused_by_their_standing() {
    let label = judged("\"Lake Poso\"");
    assert_eq!(against(&label), [Rule::Quotes]);
    assert!(has(&label, Rule::Label, Action::Note));
    assert_eq!(against(&judged("cv. Marrow Lamp")), [Rule::Quotes]);
    let latin = judged("'alisaputrana'");
    assert_eq!(against(&latin), [Rule::Latin, Rule::Label]);
    assert!(
        latin
            .remarks
            .iter()
            .any(|remark| remark.text.ends_with("write N. ×alisaputrana"))
    );
    assert_eq!(against(&judged("Sunny gx")), [Rule::Grex]);
    for reused in ["'Harbour Mist'", "'harbour-mist'", "N. ‘HARBOUR MIST’"] {
        assert!(against(&judged(reused)).contains(&Rule::Unique), "{reused}");
    }
    assert!(
        has(&judged("'Harbour Mists'"), Rule::Descriptive, Action::Warn),
        "easily confused"
    );
}

#[test]
fn mended() {
    let sign = judged("× 'Abc Moon'");
    assert_eq!(
        (sign.verdict, sign.written.as_deref()),
        (Verdict::Mend, Some("N. 'Abc Moon'"))
    );
    assert!(has(&sign, Rule::Sign, Action::Mend));
    let capitals = judged("'lantern of the night-heron'");
    assert_eq!(
        (capitals.verdict, capitals.epithet.as_str()),
        (Verdict::Mend, "Lantern of the Night-heron")
    );
}

#[test]
fn groups_and_trade_designations_stand_beside_the_epithet() {
    let group = judged("Sunrise Group");
    assert_eq!(
        (group.verdict, group.written.as_deref()),
        (Verdict::Accept, Some("N. Sunrise Group"))
    );
    assert!(has(&group, Rule::Group, Action::Warn));
    let trade = judged("SUNSET™ ('Abc12')");
    assert_eq!(
        (trade.verdict, trade.epithet.as_str()),
        (Verdict::Accept, "Abc12")
    );
    assert_eq!(trade.trade_designation.as_deref(), Some("SUNSET"));
    assert_eq!(trade.written.as_deref(), Some("N. SUNSET™ ('Abc12')"));
    let words = vocabulary();
    let flagged = Context {
        trademark: true,
        ..Context::new(&words)
    };
    assert_eq!(against(&judge("'SUNSET'", &flagged)), [Rule::Trademark]);
    assert_eq!(against(&judged("SUNSET™")), [Rule::Trademark]);
}

#[test]
fn seedlings_do_not_inherit_the_epithet() {
    for text in [
        "'Old Lantern' × self",
        "'Old Lantern' selfed",
        "seedling of 'Old Lantern'",
        "sibling of 'Old Lantern'",
        "'Old Lantern' x 'Harbour Mist'",
    ] {
        assert!(
            against(&judged(text)).contains(&Rule::Clone),
            "{text}: {:?}",
            judged(text)
        );
        assert!(!against(&judged(text)).contains(&Rule::Unique), "{text}");
    }
    let words = vocabulary();
    let from_seed = Context {
        raised: Raised::FromSeed,
        ..Context::new(&words)
    };
    assert_eq!(against(&judge("'Ada Fernley'", &from_seed)), [Rule::Clone]);
    let from_clone = Context {
        raised: Raised::FromTheClone,
        ..Context::new(&words)
    };
    assert_eq!(judge("'Ada Fernley'", &from_clone).verdict, Verdict::Accept);
}

#[test]
fn every_rule_has_its_own_number() {
    let mut ids: Vec<&str> = Rule::ALL.iter().map(|rule| rule.code()).collect();
    assert!(
        ids.iter().all(|id| id.starts_with("N-"))
            && Rule::ALL.iter().all(|rule| !rule.meaning().is_empty())
    );
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), Rule::ALL.len());
}

#[test]
fn an_epithet_stands_before_the_bracketed_formula() {
    for text in [
        "lowii x ventricosa 'Night Parrot'",
        "N. 'Night Parrot' (lowii x ventricosa)",
        "(N. lowii × N. ventricosa) 'Night Parrot'",
    ] {
        assert_eq!(
            judged(text).written.as_deref(),
            Some("N. 'Night Parrot' (N. lowii × N. ventricosa)"),
            "{text}"
        );
    }
}

#[test]
fn a_place_name_is_no_fault_of_itself() {
    let judgement = judged("'Lake Poso'");
    assert_eq!(judgement.verdict, Verdict::Accept);
    let note = judgement
        .remarks
        .iter()
        .find(|remark| remark.text.contains("place name"))
        .unwrap();
    assert_eq!(note.action, Action::Note);
    assert!(note.text.contains("does not say where the plant is from"));
}

#[test]
fn help_does_not_contradict_the_refusal() {
    for text in ["alisaputrana", "N. Rubra", "lowii Rubra"] {
        let judgement = judged(text);
        assert_eq!(judgement.verdict, Verdict::Refuse, "{text}");
        assert!(
            !judgement
                .remarks
                .iter()
                .any(|remark| remark.text.contains("write it in single quotes")),
            "{text}: {:?}",
            judgement.remarks
        );
    }
}

/// Brackets do not nest round what is open of a cross in them.
#[test]
fn a_formula_of_no_known_direction_stands_in_one_pair_of_brackets() {
    let written = |typed: &str| judged(typed).written;
    assert_eq!(
        written("N. x ventrata 'Red Night'").as_deref(),
        Some("N. 'Red Night' (N. alata × N. ventricosa, direction unknown)")
    );
    assert_eq!(
        written("N. lowii × N. rajah 'Red Night'").as_deref(),
        Some("N. 'Red Night' (N. lowii × N. rajah)")
    );
}
