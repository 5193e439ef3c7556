//! Labels as growers write them: what is read, what is noted, what is refused. Conventions of the trade are common practice.

use super::{codes_of, reading, refusal_of, shares_of, vocabulary};
use podbook::naming::{Chains, NoteCode, ReadOptions, RefusalCode, read};

#[test]
fn signs_capitals_and_genus_are_put_right() {
    for label in [
        "N. lowii x ventricosa",
        "lowii X ventricosa",
        "Nepenthes Lowii × Ventricosa",
        "n.lowii x n.ventricosa",
        "lowii\u{a0}×\u{a0}ventricosa",
        "lowii\u{2009}✕\u{202f}ventricosa",
        "lowii ✖ ventricosa",
        "lowii ╳ ventricosa",
        "lowii х ventricosa",
        "lowii Х ventricosa",
        "lowii χ ventricosa",
        "lowii * ventricosa",
        "lowii by ventricosa",
        "lowii cross ventricosa",
        "lowii×ventricosa",
        "[lowii] x {ventricosa}",
        "Nep. lowii x Nep ventricosa",
        "Nepenthe lowii x N ventricosa",
        "low x VEN",
    ] {
        let reading = reading(label);
        assert_eq!(
            reading.breeder.as_deref(),
            Some("N. lowii × N. ventricosa (seed parent assumed first)"),
            "{label}"
        );
        assert!(
            codes_of(&reading).contains(&NoteCode::SeedParentAssumedFirst),
            "{label}"
        );
    }
    assert!(codes_of(&reading("Lowii x ventricosa")).contains(&NoteCode::EpithetLowered));
    assert!(codes_of(&reading("low x ventricosa")).contains(&NoteCode::CodeRead));
}

#[test]
fn a_letter_x_inside_a_word_is_no_sign() {
    for epithet in ["maxima", "maximoides", "tenax", "extincta", "fractiflexa"] {
        assert_eq!(
            reading(epithet).breeder.as_deref(),
            Some(format!("N. {epithet}").as_str())
        );
    }
    assert_eq!(
        reading("tenax x maxima").breeder.as_deref(),
        Some("N. tenax × N. maxima (seed parent assumed first)")
    );
}

#[test]
fn brackets_nest_and_the_open_one_is_told_by_its_column() {
    assert_eq!(
        reading("(ventricosa x lowii) x maxima")
            .formula
            .map(|f| f.generations()),
        Some(2)
    );
    assert_eq!(
        refusal_of("lowii x (veitchii x hamata").0,
        RefusalCode::BracketNotClosed
    );
    assert_eq!(refusal_of("lowii x (veitchii x hamata").1, 9);
    assert_eq!(
        refusal_of("lowii x veitchii)").0,
        RefusalCode::BracketNotOpened
    );
    assert_eq!(
        refusal_of("lowii x (veitchii x hamata]").0,
        RefusalCode::BracketsDiffer
    );
    assert_eq!(refusal_of("lowii x ()").0, RefusalCode::BracketsEmpty);
}

#[test]
fn a_flat_chain_is_refused_with_both_nestings() {
    let (code, _, readings) = refusal_of("ventricosa x lowii x maxima");
    assert_eq!(code, RefusalCode::AmbiguousChain);
    assert_eq!(
        readings,
        [
            "(N. ventricosa × N. lowii) × N. maxima",
            "N. ventricosa × (N. lowii × N. maxima)"
        ]
    );
    let asked = read(
        "ventricosa x lowii x maxima",
        &vocabulary(),
        ReadOptions {
            chains: Chains::LeftToRight,
        },
    );
    assert_eq!(
        asked.breeder.as_deref(),
        Some("(N. ventricosa × N. lowii) × N. maxima (seed parent assumed first)")
    );
    assert!(codes_of(&asked).contains(&NoteCode::ReadLeftToRight));
    let (_, _, readings) = refusal_of("rajah x (ventricosa x lowii x maxima x hamata)");
    assert_eq!(
        readings[0],
        "N. rajah × (((N. ventricosa × N. lowii) × N. maxima) × N. hamata)"
    );
    assert_eq!(
        readings[1],
        "N. rajah × (N. ventricosa × (N. lowii × (N. maxima × N. hamata)))"
    );
}

#[test]
fn trade_names_are_read_and_never_given_out() {
    // ×ventrata is a nomen nudum (confirmed): read as its parents, direction not known.
    for label in [
        "x ventrata",
        "N x ventrata",
        "xVentrata",
        "N. 'ventrata'",
        "×ventrata",
        "N. × ventrata",
        "ventrata",
        "\"Ventrata\"",
    ] {
        let reading = reading(label);
        assert_eq!(
            reading.breeder.as_deref(),
            Some("N. alata × N. ventricosa (direction unknown)"),
            "{label}"
        );
        assert!(
            codes_of(&reading).contains(&NoteCode::NameExpanded),
            "{label}"
        );
        assert!(
            codes_of(&reading).contains(&NoteCode::SpeciesInDoubt),
            "{label}: alata is a name used broadly"
        );
        assert!(
            reading.names.unwrap().iter().all(|name| !name.may_emit),
            "{label}"
        );
    }
    assert!(codes_of(&reading("N. 'ventrata'")).contains(&NoteCode::QuotesNotMeant));
    assert!(codes_of(&reading("ventrata")).contains(&NoteCode::SignMissingBeforeName));
    let kept = reading("maxima x N. ×dominii");
    assert_eq!(
        kept.breeder.as_deref(),
        Some("N. maxima × N. ×dominii (seed parent assumed first)")
    );
    assert_eq!(shares_of(&kept), "maxima 1/2, unknown 1/2");
    assert!(
        codes_of(&kept).contains(&NoteCode::NameKept)
            && codes_of(&kept).contains(&NoteCode::ParentageOfNameUnknown)
    );
}

#[test]
fn an_appendix_one_ancestor_is_told_as_a_fact_on_ancestry() {
    let reading = reading("N. \"ventrata\" x rajah");
    assert_eq!(shares_of(&reading), "alata 1/4, rajah 1/2, ventricosa 1/4");
    let note = reading
        .notes
        .iter()
        .find(|note| note.code == NoteCode::AppendixOneAncestor)
        .unwrap();
    assert_eq!(
        note.text,
        "by the list used, an ancestor stands in CITES Appendix I: rajah, expected share 1/2; ask your CITES management authority and plant-health service before it moves"
    );
    assert!(!codes_of(&super::reading("lowii x maxima")).contains(&NoteCode::AppendixOneAncestor));
}

#[test]
fn labels_places_and_clones_stay_on_their_parent() {
    for (label, breeder) in [
        (
            "spectabilis \"giant\" x ventricosa",
            "N. spectabilis \"giant\" × N. ventricosa",
        ),
        (
            "veitchii (Bario) x robcantleyi",
            "N. veitchii (Bario) × N. robcantleyi",
        ),
        (
            "veitchii HL 'K' x lowii",
            "N. veitchii HL clone K × N. lowii",
        ),
        (
            "veitchii #3 x lowii (a)",
            "N. veitchii #3 × N. lowii clone a",
        ),
        (
            "lowii x ventricosa 2019 seedlings",
            "N. lowii × N. ventricosa \"2019 seedlings\"",
        ),
        (
            "maxima 'Lake Poso' x lowii",
            "N. maxima 'Lake Poso' × N. lowii",
        ),
        (
            "(lowii x maxima) [RB-014] x hamata",
            "(N. lowii × N. maxima) [RB-014] × N. hamata",
        ),
    ] {
        assert_eq!(
            reading(label).breeder.as_deref(),
            Some(format!("{breeder} (seed parent assumed first)").as_str()),
            "{label}"
        );
    }
    assert!(codes_of(&reading("veitchii HL 'K' x lowii")).contains(&NoteCode::QuotedAsClone));
    assert!(
        codes_of(&reading("spectabilis \"giant\" x ventricosa")).contains(&NoteCode::LabelKept)
    );
    assert_eq!(
        reading("veitchii HL/LL").breeder.as_deref(),
        Some("N. veitchii HL/LL")
    );
}

#[test]
fn marks_of_sex_give_the_direction() {
    for (label, breeder) in [
        (
            "truncata (f) x lowii (m)",
            "N. truncata × N. lowii (seed parent first)",
        ),
        (
            "truncata ♀ x lowii ♂",
            "N. truncata × N. lowii (seed parent first)",
        ),
        (
            "♀ truncata x lowii",
            "N. truncata × N. lowii (seed parent first)",
        ),
        (
            "female truncata x male lowii",
            "N. truncata × N. lowii (seed parent first)",
        ),
        (
            "truncata (m) x lowii (f)",
            "N. lowii × N. truncata (seed parent first)",
        ),
        (
            "truncata x female lowii",
            "N. lowii × N. truncata (seed parent first)",
        ),
        (
            "truncata × lowii (seed parent first)",
            "N. truncata × N. lowii (seed parent first)",
        ),
    ] {
        assert_eq!(reading(label).breeder.as_deref(), Some(breeder), "{label}");
    }
    assert!(codes_of(&reading("truncata (m) x lowii (f)")).contains(&NoteCode::TurnedByMarks));
    assert_eq!(
        refusal_of("truncata (f) x lowii (f)").0,
        RefusalCode::TwoSeedParents
    );
    assert_eq!(
        refusal_of("truncata ♂ x lowii ♂").0,
        RefusalCode::TwoPollenParents
    );
    assert_eq!(
        refusal_of("truncata ♂ (f) x lowii").0,
        RefusalCode::SexTwice
    );
}

#[test]
fn f_with_a_full_stop_is_forma_never_female() {
    assert_eq!(
        reading("maxima f. undulata").breeder.as_deref(),
        Some("N. maxima f. undulata")
    );
    assert_eq!(
        refusal_of("maxima f. x lowii").0,
        RefusalCode::EpithetMissing
    );
    assert_eq!(
        reading("maxima f x lowii m").breeder.as_deref(),
        Some("N. maxima × N. lowii (seed parent first)")
    );
}

#[test]
fn unknown_open_and_mixed_pollen_keep_their_share_unknown() {
    for (label, breeder, code) in [
        (
            "truncata x ?",
            "N. truncata × ? (seed parent assumed first)",
            NoteCode::UnknownParent,
        ),
        (
            "truncata x unknown",
            "N. truncata × ? (seed parent assumed first)",
            NoteCode::UnknownParent,
        ),
        (
            "truncata OP",
            "N. truncata × ? (open pollinated) (seed parent first)",
            NoteCode::OpenPollinated,
        ),
        (
            "truncata x mixed pollen",
            "N. truncata × ? (mixed pollen) (seed parent assumed first)",
            NoteCode::MixedPollen,
        ),
    ] {
        let reading = reading(label);
        assert_eq!(reading.breeder.as_deref(), Some(breeder), "{label}");
        assert_eq!(shares_of(&reading), "truncata 1/2, unknown 1/2", "{label}");
        assert!(codes_of(&reading).contains(&code), "{label}");
        assert!(reading.names.is_err());
    }
    let mixed = reading("truncata x mixed pollen (lowii, veitchii)");
    assert_eq!(
        mixed.breeder.as_deref(),
        Some("N. truncata × mixed pollen (N. lowii, N. veitchii) (seed parent assumed first)")
    );
    assert_eq!(shares_of(&mixed), "truncata 1/2, lowii or veitchii 1/2");
}

#[test]
fn fathers_one_of_several_are_kept_apart() {
    let reading = reading("truncata x lowii or veitchii");
    assert_eq!(
        reading.breeder.as_deref(),
        Some("N. truncata × (N. lowii or N. veitchii) (seed parent assumed first)")
    );
    assert_eq!(shares_of(&reading), "truncata 1/2, lowii or veitchii 1/2");
    assert_eq!(reading.purdy, None);
    assert!(reading.names.is_err());
    // What all fathers share is counted: the half of lowii is sure, the rest is open.
    assert_eq!(
        shares_of(&super::reading("truncata x (lowii or (lowii x veitchii))")),
        "lowii 1/4, truncata 1/2, lowii or veitchii 1/4"
    );
    assert_eq!(
        shares_of(&super::reading(
            "truncata x (lowii clone A or lowii clone B)"
        )),
        "lowii 1/2, truncata 1/2"
    );
}

#[test]
fn generation_words_are_taken_only_where_they_can_be_true() {
    let selfed = reading("maxima selfed");
    assert_eq!(selfed.breeder.as_deref(), Some("N. maxima (self reported)"));
    assert!(codes_of(&selfed).contains(&NoteCode::SelfReported));
    for label in [
        "(maxima x veitchii) sib",
        "(maxima x veitchii) sib cross",
        "(maxima x veitchii) F2",
        "maxima x veitchii F2",
    ] {
        assert_eq!(
            shares_of(&reading(label)),
            "maxima 1/2, veitchii 1/2",
            "{label}"
        );
    }
    assert_eq!(
        reading("maxima x veitchii F2").breeder.as_deref(),
        Some("(N. maxima × N. veitchii) F2 (seed parent assumed first)")
    );
    assert!(codes_of(&reading("(maxima x veitchii) F2")).contains(&NoteCode::FilialTakenFromLabel));
    assert_eq!(refusal_of("maxima F2").0, RefusalCode::FilialNeedsACross);
    assert_eq!(refusal_of("maxima F1").0, RefusalCode::FilialNeedsACross);
    assert_eq!(
        refusal_of("(maxima x veitchii) F400").0,
        RefusalCode::GenerationUnlikely
    );
    assert!(
        codes_of(&reading("(maxima x veitchii) x veitchii BC1")).contains(&NoteCode::BackcrossFits)
    );
    assert_eq!(
        refusal_of("(maxima x veitchii) x veitchii BC2").0,
        RefusalCode::BackcrossContradicts
    );
    assert_eq!(
        refusal_of("(maxima x veitchii) x lowii BC1").0,
        RefusalCode::BackcrossContradicts
    );
    // Crossed back twice, and an F2 before that: no number is borne out.
    for number in 1..=2 {
        let label = format!("(((maxima x veitchii) F2) x veitchii) x veitchii BC{number}");
        assert_eq!(refusal_of(&label).0, RefusalCode::BackcrossContradicts);
    }
}

#[test]
fn provisional_species_are_no_species() {
    let viking = reading("sp. Tidewater x ampullaria");
    assert_eq!(
        viking.breeder.as_deref(),
        Some("N. sp. \"Tidewater\" × N. ampullaria (seed parent assumed first)")
    );
    assert_eq!(shares_of(&viking), "ampullaria 1/2, sp. Tidewater 1/2");
    let near = reading("N. aff. maxima × N. cf. lowii");
    assert_eq!(shares_of(&near), "aff. maxima 1/2, cf. lowii 1/2");
    assert!(near.names.is_err() && codes_of(&near).contains(&NoteCode::Provisional));
}

#[test]
fn ranks_below_the_species_are_restored() {
    let reading = reading("N. mirabilis var globosa × ampullaria");
    assert_eq!(
        reading.breeder.as_deref(),
        Some("N. mirabilis var. globosa × N. ampullaria (seed parent assumed first)")
    );
    assert!(codes_of(&reading).contains(&NoteCode::RankRestored));
    assert_eq!(
        super::breeder_of("mirabilis ssp. globosa"),
        "N. mirabilis subsp. globosa"
    );
}

#[test]
fn a_name_beside_a_formula_is_held_against_it() {
    for label in [
        "rajah x villosa (kinabaluensis)",
        "rajah x villosa (N. ×kinabaluensis)",
        "rajah x villosa = N. × kinabaluensis",
        "N. ×kinabaluensis (rajah x villosa)",
    ] {
        let reading = reading(label);
        assert_eq!(
            reading.breeder.as_deref(),
            Some("N. rajah × N. villosa (direction unknown)"),
            "{label}"
        );
        let codes = codes_of(&reading);
        assert!(codes.contains(&NoteCode::NameFits), "{label}");
        assert!(codes.contains(&NoteCode::NaturalHybrid), "{label}");
        assert!(!codes.contains(&NoteCode::SeedParentAssumedFirst));
    }
    // What the label itself says of direction stands, and a name of a breeder's cross says nothing of it.
    for (label, breeder) in [
        (
            "rajah (f) x villosa (m) = kinabaluensis",
            "N. rajah × N. villosa (seed parent first)",
        ),
        (
            "villosa x rajah = kinabaluensis (seed parent first)",
            "N. villosa × N. rajah (seed parent first)",
        ),
        (
            "villosa x rajah F2 = kinabaluensis",
            "(N. villosa × N. rajah, direction unknown) F2",
        ),
        (
            "northiana x maxima = mixta",
            "N. northiana × N. maxima (seed parent assumed first)",
        ),
    ] {
        assert_eq!(super::breeder_of(label), breeder, "{label}");
    }
    let (code, column, readings) = refusal_of("rajah x lowii (kinabaluensis)");
    assert_eq!((code, column), (RefusalCode::NameContradictsFormula, 15));
    assert_eq!(
        readings,
        [
            "N. rajah × N. lowii",
            "N. rajah × N. villosa (direction unknown)"
        ]
    );
}

#[test]
fn a_quoted_name_is_kept_and_not_vouched_for() {
    let reading = reading("N. ‘Marrow Lamp’");
    assert_eq!(reading.breeder.as_deref(), Some("N. 'Marrow Lamp'"));
    assert_eq!(shares_of(&reading), "unknown 1");
    assert!(codes_of(&reading).contains(&NoteCode::QuotedNotVerified));
    assert!(!codes_of(&super::reading("N. 'Harbour Mist'")).contains(&NoteCode::QuotedNotVerified));
}

#[test]
fn a_shortened_epithet_is_refused_with_what_it_may_begin() {
    for (label, offered) in [
        (
            "alb x lowii",
            vec!["N. alba × N. lowii", "N. albomarginata × N. lowii"],
        ),
        ("spectab x lowii", vec!["N. spectabilis × N. lowii"]),
        ("lowii x mirab.", vec!["N. lowii × N. mirabilis"]),
    ] {
        let (code, _, readings) = refusal_of(label);
        assert_eq!(code, RefusalCode::UndeclaredCode, "{label}");
        assert_eq!(readings, offered, "{label}");
    }
}

#[test]
fn near_epithets_are_offered_and_never_put_in() {
    let (code, column, readings) = refusal_of("lowii x ventricossa");
    assert_eq!((code, column), (RefusalCode::UnknownEpithet, 9));
    assert_eq!(readings, ["N. lowii × N. ventricosa"]);
    // Close pairs in the list: each is itself, whatever stands near.
    for (one, other) in [
        ("adnata", "alata"),
        ("alata", "alba"),
        ("alata", "hamata"),
        ("chaniana", "khasiana"),
        ("lamii", "lowii"),
        ("maxima", "minima"),
        ("naga", "nigra"),
        ("pilosa", "villosa"),
        ("mira", "mirabilis"),
    ] {
        assert_eq!(
            super::breeder_of(&format!("{one} x {other}")),
            format!("N. {one} × N. {other} (seed parent assumed first)")
        );
    }
}

#[test]
fn another_genus_is_an_error() {
    for label in [
        "Sarracenia flava x lowii",
        "lowii x S. flava",
        "lowii x Heliamphora",
        "Drosera x lowii",
    ] {
        assert_eq!(refusal_of(label).0, RefusalCode::SecondGenus, "{label}");
    }
}

#[test]
fn a_missing_parent_or_sign_is_told() {
    for label in [
        "lowii x",
        "x lowii",
        "lowii x x maxima",
        "×",
        "x",
        "lowii x (maxima x)",
        "lowii or",
        "N.",
    ] {
        let code = refusal_of(label).0;
        assert!(
            matches!(
                code,
                RefusalCode::ParentMissing | RefusalCode::EpithetMissing
            ),
            "{label}: {code}"
        );
    }
    let (code, column, readings) = refusal_of("lowii ventricosa");
    assert_eq!((code, column), (RefusalCode::SignMissing, 7));
    assert_eq!(readings, ["N. lowii × N. ventricosa"]);
    assert_eq!(refusal_of("lowii x").2, ["N. lowii × ?"]);
    assert_eq!(
        refusal_of("x lowii").2,
        ["N. lowii × ? (direction unknown)"],
        "a hybrid sign before a species: never the species alone"
    );
}

#[test]
fn a_backcross_without_its_recurrent_parent_is_offered_both_ways() {
    let (code, _, readings) = refusal_of("(lowii x ventricosa) BC1");
    assert_eq!(code, RefusalCode::BackcrossContradicts);
    assert_eq!(
        readings,
        [
            "(N. lowii × N. ventricosa) × N. lowii",
            "(N. lowii × N. ventricosa) × N. ventricosa"
        ]
    );
}

#[test]
fn what_is_said_after_the_last_parent_is_read_of_the_whole_and_noted() {
    for label in [
        "lowii x ventricosa x self",
        "lowii x ventricosa selfed",
        "lowii x ventricosa sib",
        "lowii x ventricosa F2",
    ] {
        let reading = reading(label);
        assert!(
            codes_of(&reading).contains(&NoteCode::SaidOfTheWhole),
            "{label}"
        );
        assert_eq!(shares_of(&reading), "lowii 1/2, ventricosa 1/2", "{label}");
    }
    assert!(!codes_of(&reading("(lowii x ventricosa) sib")).contains(&NoteCode::SaidOfTheWhole));
    assert_eq!(
        super::breeder_of("lowii x ventricosa or x maxima"),
        super::breeder_of("lowii x (ventricosa or maxima)")
    );
    assert_eq!(
        super::breeder_of("lowii x (ventricosa & maxima)"),
        super::breeder_of("lowii x mixed pollen (ventricosa, maxima)")
    );
    assert_eq!(refusal_of("lowii & ventricosa").0, RefusalCode::SignMissing);
    assert_eq!(
        super::breeder_of("lowii x maxima - giant form"),
        "N. lowii × N. maxima \"giant form\" (seed parent assumed first)"
    );
}

#[test]
fn several_shortened_epithets_are_offered_together() {
    assert_eq!(
        refusal_of("amp x raff").2,
        ["N. ampullaria × N. rafflesiana"]
    );
    assert_eq!(
        refusal_of("amp x alb").2,
        [
            "N. ampullaria × N. alba",
            "N. ampullaria × N. albomarginata"
        ],
        "each way of putting both right"
    );
}

#[test]
fn a_year_in_front_is_set_aside() {
    for (label, name) in [
        ("2019 lowii", "N. lowii"),
        (
            "2019 lowii x maxima",
            "N. lowii × N. maxima (seed parent assumed first)",
        ),
        ("2019 N. lowii", "N. lowii"),
    ] {
        let read = reading(label);
        assert_eq!(read.breeder.as_deref(), Some(name), "{label}");
        assert_eq!(read.facts.set_aside, ["2019"], "{label}");
        let noted = |note: &podbook::naming::Note| note.text.contains("`2019`");
        assert!(read.notes.iter().any(noted), "{label}");
    }
}

/// Behind a cross a place may be said of the plant or of its last parent; behind a single plant or an earlier parent not.
#[test]
fn a_place_behind_a_cross_is_told_with_both_readings() {
    for (label, both) in [
        ("veitchii x lowii (Kinabalu)", true),
        ("veitchii (Bario) x lowii", false),
        ("lowii (Kinabalu)", false),
        ("(veitchii x lowii) (Kinabalu)", false),
    ] {
        let read = reading(label);
        let told = |note: &podbook::naming::Note| note.text.contains("of the plant or of its last");
        assert_eq!(
            read.notes.iter().any(told),
            both,
            "{label}: {:?}",
            read.notes
        );
    }
    let whole = reading("(veitchii x lowii) (Kinabalu)").breeder.unwrap();
    assert!(
        whole.starts_with("(N. veitchii × N. lowii) (Kinabalu)"),
        "{whole}"
    );
}

#[test]
fn claimed_behind_or_before_a_name_is_a_doubt() {
    for label in [
        "N. lowii claimed",
        "N. lowii, claimed",
        "claimed N. lowii",
        "lowii x maxima claimed",
        "lowii x maxima, claimed",
    ] {
        let formula = reading(label).formula.expect(label);
        assert!(formula.is_doubtful(), "{label}");
    }
}
