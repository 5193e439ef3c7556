//! What a refused label offers: a reading a grower may have meant, or the label mended, and nothing that cannot be read.

use super::{breeder_of, codes_of, reading, refusal_of, vocabulary};
use podbook::naming::{NoteCode, ReadOptions, RefusalCode, read};

#[test]
fn open_pollination_before_a_plant_is_of_that_seed_parent() {
    for label in [
        "OP ventricosa",
        "open pollinated ventricosa",
        "OP x ventricosa",
        "ventricosa OP",
    ] {
        assert_eq!(
            breeder_of(label),
            "N. ventricosa × ? (open pollinated) (seed parent first)",
            "{label}"
        );
        assert!(codes_of(&reading(label)).contains(&NoteCode::OpenPollinated));
    }
    assert_eq!(
        breeder_of("OP (ventricosa x lowii)"),
        "♀ (N. ventricosa × N. lowii) × ♂ ? (open pollinated) (unmarked cross: seed parent assumed first)"
    );
    assert_eq!(
        refusal_of("OP ventricosa x lowii").0,
        RefusalCode::NotUnderstood,
        "of which of the two?"
    );
    assert_eq!(
        breeder_of("ventricosa x OP"),
        "N. ventricosa × ? (open pollinated) (seed parent assumed first)"
    );
}

#[test]
fn two_plants_and_no_sign_are_a_cross_or_a_mixture() {
    for label in [
        "ventricosa + spathulata",
        "ventricosa&spathulata",
        "ventricosa and spathulata",
    ] {
        let (code, column, readings) = refusal_of(label);
        assert_eq!(code, RefusalCode::SignMissing, "{label}");
        assert!(column > 10, "{label}: at the mark that joins them");
        assert_eq!(
            readings,
            [
                "N. ventricosa × N. spathulata",
                "? × mixed pollen (N. ventricosa, N. spathulata)"
            ],
            "{label}"
        );
    }
}

#[test]
fn mixed_pollen_said_of_a_mixture_says_no_more() {
    let mixture = breeder_of("ventricosa x mixed pollen (spathulata, truncata)");
    for label in [
        "ventricosa x (spathulata + truncata mixed pollen)",
        "ventricosa x spathulata + truncata mixed pollen",
        "ventricosa x (spathulata + truncata) mixed pollen",
        "ventricosa x (spathulata + truncata) (mixed pollen)",
    ] {
        assert_eq!(breeder_of(label), mixture, "{label}");
    }
    let refused = reading("ventricosa x spathulata mixed pollen")
        .refused
        .unwrap();
    assert!(
        refused.text.contains("mixed pollen of which plants"),
        "{}",
        refused.text
    );
}

#[test]
fn brackets_and_quotes_are_mended_where_that_can_be_read() {
    for (label, offered) in [
        (
            "lowii x (veitchii x hamata",
            &["N. lowii × (N. veitchii × N. hamata)"][..],
        ),
        (
            "((lowii x veitchii) x hamata",
            &["(N. lowii × N. veitchii) × N. hamata"],
        ),
        (
            "lowii x (veitchii x [hamata x maxima",
            &["N. lowii × (N. veitchii × (N. hamata × N. maxima))"],
        ),
        (
            "lowii x (veitchii x hamata]",
            &["N. lowii × (N. veitchii × N. hamata)"],
        ),
        ("lowii x veitchii)", &["N. lowii × N. veitchii"]),
        (
            "lowii x veitchii) x hamata",
            &[
                "(N. lowii × N. veitchii) × N. hamata",
                "N. lowii × (N. veitchii × N. hamata)",
            ],
        ),
        ("lowii x 'Marrow Lamp", &["N. lowii × N. 'Marrow Lamp'"]),
        ("lowii x (", &[]),
    ] {
        assert_eq!(refusal_of(label).2, offered, "{label}");
    }
}

#[test]
fn a_sign_grown_into_two_epithets_is_offered_apart() {
    assert_eq!(
        refusal_of("ventricosaxspathulata").2,
        ["N. ventricosa × N. spathulata"]
    );
    assert_eq!(
        refusal_of("lowii x maximaxtenax").2,
        ["N. lowii × (N. maxima × N. tenax)"]
    );
}

#[test]
fn a_name_in_no_list_is_kept_and_a_slip_is_offered() {
    for label in [
        "N. x briggsiana",
        "xbriggsiana",
        "N. × briggsiana",
        "briggsiana",
    ] {
        let read = reading(label);
        assert!(
            codes_of(&read).contains(&NoteCode::NameNotListed),
            "{label}"
        );
        assert_eq!(super::shares_of(&read), "unknown 1", "{label}");
    }
    assert_eq!(
        refusal_of("N. x ventrta").2,
        ["N. alata × N. ventricosa (direction unknown)"]
    );
    // A likeness of a few letters is no slip, and a species is never offered for a hybrid's name.
    assert_eq!(refusal_of("N. tidewatr").2, ["N. \"tidewatr\""]);
}

#[test]
fn every_reading_offered_can_be_read() {
    let words = vocabulary();
    for label in [
        "ventricosa + spathulata",
        "lowii x (veitchii x hamata",
        "lowii x veitchii}",
        "truncata x lowii female",
        "lowii x maxima hybrid",
        "maxima (veitchii)",
        "ventricosaxspathulata",
        "lowii x \"Marrow Lamp",
        "a + b",
        "(((((((((((lowii",
        "lowii ventricosa",
        "+ lowii",
        "lowii +",
        "X1 lowii ventricosa",
    ] {
        for offered in reading(label).refused.unwrap().readings {
            assert!(
                read(&offered, &words, ReadOptions::default())
                    .formula
                    .is_some(),
                "{label}: {offered}"
            );
        }
    }
}

#[test]
fn an_offer_carries_every_word_of_its_label() {
    for (label, offered) in [
        (
            "lowii x rajah hybrid #3 'Red Lantern'",
            &[
                "N. 'Red Lantern' (N. lowii × N. rajah) #3",
                "N. 'Red Lantern' (N. lowii × (N. rajah × ?, direction unknown)) #3",
            ][..],
        ),
        (
            "probably truncata F2",
            &[
                "(N. truncata sib cross) (?)",
                "((N. truncata × ?, direction unknown) F2) (?)",
            ],
        ),
        (
            "truncata F2 natural hybrid",
            &["((N. truncata × ?, direction unknown) F2) natural hybrid"],
        ),
        (
            "truncata F2 x lowii",
            &[
                "(N. truncata sib cross) × N. lowii",
                "((N. truncata × ?, direction unknown) F2) × N. lowii",
            ],
        ),
        (
            "maxima (veitchii) hybrid",
            &[
                "N. maxima × N. veitchii (direction unknown)",
                "(N. maxima or N. veitchii) × ? (direction unknown)",
            ],
        ),
        (
            "maxima (veitchii) lookalike",
            &[
                "(N. maxima × N. veitchii, direction unknown) (?)",
                "(N. maxima or N. veitchii) (?)",
            ],
        ),
        (
            "((lowii x ventricosa) BC1) lookalike",
            &[
                "((N. lowii × N. ventricosa) × N. lowii) (?)",
                "((N. lowii × N. ventricosa) × N. ventricosa) (?)",
            ],
        ),
        (
            "rajah x lowii F2 (kinabaluensis) #3",
            &[
                "((N. rajah × N. lowii) F2) #3",
                "((N. rajah × N. villosa, direction unknown) F2) #3",
            ],
        ),
        (
            "lowii x hamata x rajah hybrid F2",
            &[
                "((N. lowii × N. hamata) × N. rajah) F2",
                "((N. lowii × N. hamata) × (N. rajah × ?, direction unknown)) F2",
                "(N. lowii × (N. hamata × N. rajah)) F2",
                "(N. lowii × (N. hamata × (N. rajah × ?, direction unknown))) F2",
            ],
        ),
    ] {
        assert_eq!(refusal_of(label).2, offered, "{label}");
    }
}

#[test]
fn a_refused_label_keeps_what_stands_beside_the_name() {
    let facts = reading("QK-3172 Rare seed grown lowii F2 #3 (f) 10 cm ex Sarawak").facts;
    assert_eq!(facts.stock_code.as_deref(), Some("QK-3172"));
    assert_eq!(facts.clone.as_deref(), Some("#3"));
    assert_eq!(facts.grown_from, Some("seed"));
    assert_eq!(facts.size.as_deref(), Some("10 cm"));
    assert_eq!(facts.place.as_deref(), Some("Sarawak"));
    assert_eq!(facts.sex, Some(podbook::naming::Sex::Female));
    assert_eq!(facts.set_aside, ["Rare"]);
    // Of what is asked nothing is kept; and a label without any offer keeps what stands around its name.
    assert_eq!(reading("lowii x maxima female").facts.sex, None);
    let none = reading("QK-3172 (lowii or maxima) F2 10 cm");
    assert_eq!(none.refused.unwrap().readings, [""; 0]);
    assert_eq!(none.facts.stock_code.as_deref(), Some("QK-3172"));
    assert_eq!(none.facts.size.as_deref(), Some("10 cm"));
}

#[test]
fn a_mixture_offered_keeps_the_stock_code_around_it() {
    let read = reading("QK-3172 lowii + maxima 10 cm");
    assert_eq!(
        read.refused.unwrap().readings,
        [
            "N. lowii × N. maxima",
            "? × mixed pollen (N. lowii, N. maxima)"
        ]
    );
    assert_eq!(read.facts.stock_code.as_deref(), Some("QK-3172"));
}

#[test]
fn the_word_hybrid_beside_a_name_or_alone_stays_to_be_seen() {
    for (label, breeder) in [
        ("Nepenthes hybrid", "N. \"hybrid\""),
        ("Nepenthes unknown hybrid", "N. \"unknown hybrid\""),
        (
            "lowii x hybrid",
            "N. lowii × N. \"hybrid\" (seed parent assumed first)",
        ),
        (
            "lowii (hybrid from Bario)",
            "N. lowii \"hybrid from Bario\" × ? (direction unknown)",
        ),
        (
            "lowii = hybrid",
            "N. lowii \"hybrid\" × ? (direction unknown)",
        ),
        (
            "'Red Lantern' hybrid (lowii x ventricosa)",
            "N. 'Red Lantern' (N. lowii × N. ventricosa) (seed parent assumed first)",
        ),
        (
            "lowii x hybrid of ventrata",
            "N. lowii × ((N. alata × N. ventricosa, direction unknown) × ?, direction unknown) (seed parent assumed first)",
        ),
    ] {
        assert_eq!(breeder_of(label), breeder, "{label}");
    }
    let (code, column, readings) = refusal_of("ventrata hybrid x lowii");
    assert_eq!((code, column), (RefusalCode::HybridOfWhich, 10));
    assert_eq!(
        readings,
        [
            "(N. alata × N. ventricosa, direction unknown) × N. lowii",
            "((N. alata × N. ventricosa, direction unknown) × ?, direction unknown) × N. lowii"
        ]
    );
}
